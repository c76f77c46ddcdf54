// The words of the blank workbook's first sheet.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace docket {

struct Paragraph {
  enum class Style : std::uint8_t { title, heading, prose };
  Style style = Style::prose;
  std::string_view text{};
};

std::span<const Paragraph> first_sheet_paragraphs();

/// Stands above the list of matters that are referred at once.
std::string_view triggers_heading();

} // namespace docket
