#include "ingest/ods/paragraphs.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace docket {

namespace {

/// More blanks than any cell holds; a number made to exhaust the computer stops here.
constexpr std::size_t most_blanks = 32'767;

bool is_passed_over(std::string_view name) {
  constexpr std::array<std::string_view, 10> names{"annotation", "note", "ruby-text", "frame", "custom-shape",
                                                   "text-box",   "rect", "line",      "g",     "annotation-end"};
  return std::find(names.begin(), names.end(), name) != names.end();
}

std::size_t blanks(const XmlAttributes& attributes) {
  const auto count = attributes.find("c");
  if (!count) return 1;
  std::size_t number = 1;
  const auto read = std::from_chars(count->data(), count->data() + count->size(), number);
  return read.ec == std::errc() ? std::min(number, most_blanks) : most_blanks;
}

} // namespace

void ParagraphCollector::begin_paragraph() {
  if (paragraphs_++ > 0) joined_ += '\n';
  after_space_ = true;
}

void ParagraphCollector::start(std::string_view name, const XmlAttributes& attributes) {
  if (skipped_depth_ > 0 || is_passed_over(name)) {
    ++skipped_depth_;
  } else if (name == "s") {
    joined_.append(blanks(attributes), ' ');
    after_space_ = false;
  } else if (name == "tab" || name == "line-break") {
    joined_ += name == "tab" ? '\t' : '\n';
    after_space_ = false;
  }
}

void ParagraphCollector::end() {
  if (skipped_depth_ > 0) --skipped_depth_;
}

void ParagraphCollector::text(std::string_view piece) {
  if (skipped_depth_ > 0) return;
  for (const char c : piece) {
    const bool space = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (!space)
      joined_ += c;
    else if (!after_space_)
      joined_ += ' ';
    after_space_ = space;
  }
}

void ParagraphCollector::clear() {
  joined_.clear();
  paragraphs_ = 0;
  skipped_depth_ = 0;
}

} // namespace docket
