#include "report/pdf/setting.h"

#include <algorithm>

namespace docket::pdf {

double draw_lines(Slice& onto, const std::vector<SetLine>& lines, double x, double top, double size, double leading) {
  const double height = size * leading;
  double baseline = top + (height - size * (ascent + descent)) / 2 + size * ascent;
  for (const SetLine& line : lines) {
    for (const SetText& text : line.texts)
      onto.shapes.push_back(
          TextShape{{x + text.x, baseline}, text.text, Anchor::start, text.look.size, text.look.strong, text.look.ink});
    baseline += height;
  }
  return height * static_cast<double>(lines.size());
}

std::vector<Slice> set_lines(const Runs& runs, const LineStyle& style, const Setting& setting) {
  constexpr std::size_t together = 3;
  const std::vector<SetLine> lines =
      break_into_lines(runs, style.look, setting.width - style.indent, style.breaking, setting.measure);
  std::vector<Slice> slices;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Slice slice;
    slice.gap = i == 0 ? style.gap : 0;
    slice.height = draw_lines(slice, {lines[i]}, setting.x + style.indent, 0, style.look.size, style.leading);
    const bool last = i + 1 == lines.size();
    slice.keep_with_next = !last && (i + 1 < together || i + together >= lines.size());
    slices.push_back(std::move(slice));
  }
  return slices;
}

std::vector<Slice> set_list(const List& list, const Setting& setting) {
  const double size = setting.size_of(10.8, 10, 8.8);
  const TextLook look{size, false, Ink::dark};
  const double indent = size * (list.numbered ? 1.9 : 1.2);
  std::vector<Slice> items;
  const int columns = list.numbered && setting.place == Place::strip ? 3 : 1;
  const double between = 14 * setting.scale;
  Setting column = setting;
  column.width = (setting.width - between * (columns - 1)) / columns;
  std::int64_t number = 0;
  for (const Runs& item : list.items) {
    ++number;
    LineStyle style{look, items.empty() ? 0 : size * 0.2, setting.place == Place::page ? 1.36 : 1.28, Breaking::words,
                    indent};
    std::vector<Slice> lines = set_lines(item, style, column);
    const std::string mark = list.numbered ? std::to_string(number) + "." : "\u2022";
    const double baseline = (style.leading - ascent - descent) / 2 * size + ascent * size;
    lines.front().shapes.insert(lines.front().shapes.begin(), TextShape{{setting.x + indent - size * 0.45, baseline},
                                                                        mark,
                                                                        Anchor::end,
                                                                        size,
                                                                        false,
                                                                        list.numbered ? Ink::dark : Ink::mid});
    Slice whole = joined(lines);
    if (whole.height <= setting.page_height / 2) {
      items.push_back(std::move(whole));
    } else {
      items.insert(items.end(), lines.begin(), lines.end());
    }
  }
  if (columns > 1) items = {in_columns(items, columns, column.width + between)};
  if (!items.empty()) items.front().gap = size * 0.45;
  return items;
}

std::vector<Slice> set_definitions(const Definitions& definitions, const Setting& setting) {
  std::vector<Slice> slices;
  const double size = setting.scale * (definitions.dense ? 9.2 : 10.8);
  if (!definitions.in_columns) {
    for (const auto& [term, runs] : definitions.entries) {
      std::vector<Slice> lines = set_lines({{term, TextStyle::strong}}, {{size}, size * 0.6, 1.36}, setting);
      for (Slice& line : lines) line.keep_with_next = true;
      slices.insert(slices.end(), lines.begin(), lines.end());
      lines = set_lines(runs, {{size}, 0, 1.36}, setting);
      slices.insert(slices.end(), lines.begin(), lines.end());
    }
    return slices;
  }
  const double small = size * 0.92, term_width = size * 7.4, between = size * 1.4;
  const double half = (setting.width - between) / 2;
  for (std::size_t i = 0; i < definitions.entries.size(); i += 2) {
    Slice row;
    row.gap = slices.empty() ? size * 0.4 : size * 0.12;
    for (std::size_t k = 0; k < 2 && i + k < definitions.entries.size(); ++k) {
      const auto& [term, runs] = definitions.entries[i + k];
      const double x = setting.x + static_cast<double>(k) * (half + between);
      const auto lines = break_into_lines(runs, {size}, half - term_width, Breaking::words, setting.measure);
      const double height = draw_lines(row, lines, x + term_width, 0, size, 1.3);
      const auto terms = break_into_lines({{term, TextStyle::plain}}, {small, false, Ink::mid}, term_width,
                                          Breaking::words, setting.measure);
      // On the baseline of what it names.
      row.height = std::max({row.height, height, draw_lines(row, terms, x, (size - small) * 0.7, small, 1.3)});
    }
    slices.push_back(std::move(row));
  }
  return slices;
}

} // namespace docket::pdf
