#include "report/case_document/pages.h"

#include "core/rules.h"
#include "report/format.h"

#include <algorithm>
#include <cmath>

namespace docket {

void CasePages::section(std::string title) {
  ++section_;
  part_ = 0;
  add(Heading{2, std::to_string(section_), std::move(title)});
}

void CasePages::part(std::string title) {
  ++part_;
  add(Heading{3, std::to_string(section_) + "." + std::to_string(part_), std::move(title)});
}

void CasePages::paragraph(Runs text, ParagraphRole role) { add(Paragraph{std::move(text), role}); }

void CasePages::paragraph(std::string_view text, ParagraphRole role) { add(Paragraph{runs(text), role}); }

Text plain(std::string_view text) { return {std::string(text), TextStyle::plain}; }

Text strong(std::string_view text) { return {std::string(text), TextStyle::strong}; }

Runs runs(std::string_view text) { return {plain(text)}; }

Block block(Paragraph paragraph) { return Block{std::move(paragraph)}; }

Text reference_to(const Case& input, const SourceRow& origin) {
  if (origin.source < 0) return {"", TextStyle::reference};
  std::string where(name_of(origin.table));
  const auto index = static_cast<std::size_t>(origin.source);
  if (input.sources.size() > 1 && index < input.sources.size()) {
    const std::string& file = input.sources[index].file;
    // A CSV file that is named after its table says both.
    where = file.substr(0, file.find_last_of('.')) == where ? file : file + ", " + where;
  }
  return {" (" + where + " row " + std::to_string(origin.row) + ")", TextStyle::reference};
}

Text reference_to_key(const Case& input, std::string_view key) {
  for (const auto& [name, origin] : input.facts.origins) {
    if (name == key) return reference_to(input, origin);
  }
  return {"", TextStyle::reference};
}

std::string rows_in_words(std::int64_t first, std::int64_t last) {
  if (first == last) return std::to_string(first);
  return std::to_string(first) + "-" + std::to_string(last) + " (" + format_count(last - first + 1) + ")";
}

std::string variant_name(const Case& input, std::int32_t variant) {
  const auto index = static_cast<std::size_t>(variant);
  return variant >= 0 && index < input.variants.size() ? input.variants[index].variant : "not known";
}

std::string operator_code(const Case& input, std::int32_t op) {
  const auto index = static_cast<std::size_t>(op);
  return op >= 0 && index < input.operators.size() ? input.operators[index].code : "not known";
}

std::string condition_name(const Case& input, std::int32_t condition) {
  const auto index = static_cast<std::size_t>(condition);
  return condition >= 0 && index < input.conditions.size() ? input.conditions[index].check : "not known";
}

void add_factor_note(CasePages& pages, const CaseView& view) {
  const double factor = view.findings.time.measured_factor;
  if (factor == 1) return;
  pages.paragraph("Measured times here are not the bare readings: each is multiplied by " +
                  format_plain_number(factor, 4) + ", because the standard already holds the allowance.");
}

std::string counted(std::int64_t count, std::string_view one, std::string_view many) {
  return format_count(count) + " " + std::string(count == 1 ? one : many);
}

std::string or_not_given(std::string_view text) { return text.empty() ? "not given" : std::string(text); }

} // namespace docket
