#include "ingest/xlsx/strings.h"

#include "ingest/text_encoding.h"

#include <charconv>
#include <utility>

namespace docket {

namespace {

/// The code unit of _xHHHH_ at the start of the text.
std::optional<char32_t> escaped_unit(std::string_view text) {
  if (text.size() < 7 || !text.starts_with("_x") || text[6] != '_') return std::nullopt;
  unsigned unit = 0;
  const auto read = std::from_chars(text.data() + 2, text.data() + 6, unit, 16);
  if (read.ec != std::errc() || read.ptr != text.data() + 6) return std::nullopt;
  return unit;
}

bool is_surrogate(char32_t unit) { return unit >= 0xD800 && unit <= 0xDFFF; }

bool is_control(char32_t unit) { return unit < 0x20 && unit != '\t' && unit != '\n' && unit != '\r'; }

std::string_view without_outer_space(std::string_view text) {
  constexpr std::string_view space = " \t\r\n";
  const std::size_t first = text.find_first_not_of(space);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(space) - first + 1);
}

} // namespace

std::string decode_xstring(std::string_view text) {
  if (text.find("_x") == std::string_view::npos) return std::string(text);
  std::string decoded;
  while (!text.empty()) {
    const auto unit = escaped_unit(text);
    if (unit && !is_surrogate(*unit) && !is_control(*unit)) {
      append_utf8(decoded, *unit);
      text.remove_prefix(7);
      continue;
    }
    if (unit && *unit >= 0xD800 && *unit <= 0xDBFF) {
      const auto low = escaped_unit(text.substr(7));
      if (low && *low >= 0xDC00 && *low <= 0xDFFF) {
        append_utf8(decoded, 0x10000 + ((*unit - 0xD800) << 10) + (*low - 0xDC00));
        text.remove_prefix(14);
        continue;
      }
    }
    decoded += text.front();
    text.remove_prefix(1);
  }
  return decoded;
}

void StringCollector::start(std::string_view name, const XmlAttributes& attributes) {
  if (skipped_depth_ > 0 || name == "rPh") {
    ++skipped_depth_;
  } else if (name == "t") {
    in_text_ = true;
    keep_space_ = attributes.find("xml:space") == "preserve";
    piece_.clear();
  }
}

void StringCollector::end(std::string_view name) {
  if (skipped_depth_ > 0) {
    --skipped_depth_;
  } else if (name == "t") {
    in_text_ = false;
    joined_ += decode_xstring(keep_space_ ? std::string_view(piece_) : without_outer_space(piece_));
  }
}

void StringCollector::text(std::string_view piece) {
  if (in_text_ && skipped_depth_ == 0) piece_ += piece;
}

std::string StringCollector::take() {
  in_text_ = false;
  skipped_depth_ = 0;
  return std::exchange(joined_, {});
}

std::vector<std::string> read_shared_strings(const Package& package, std::string_view part, const ReaderCaps& caps) {
  std::vector<std::string> strings;
  StringCollector collector;
  bool inside = false;
  XmlEvents events;
  events.start = [&](std::string_view name, const XmlAttributes& attributes) {
    if (inside) {
      collector.start(name, attributes);
    } else if (name == "si") {
      inside = true;
    }
  };
  events.end = [&](std::string_view name) {
    if (!inside) return;
    if (name != "si") {
      collector.end(name);
      return;
    }
    inside = false;
    if (static_cast<std::int64_t>(strings.size()) >= caps.cells) {
      refuse_damaged(package.file, "it lists more than " + std::to_string(caps.cells) + " texts");
    }
    strings.push_back(collector.take());
  };
  events.text = [&](std::string_view piece) { collector.text(piece); };
  read_xml_part(package, part, events, caps, caps.unpacked_bytes);
  return strings;
}

} // namespace docket
