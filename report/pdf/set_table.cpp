#include "report/pdf/setting.h"

#include <algorithm>
#include <numeric>

namespace docket::pdf {
namespace {

struct Grid {
  double size = 10, padding = 6; ///< room between columns
  std::vector<double> left, width;
};

Breaking breaking_of(const TableColumn& column) {
  return column.align == Align::right || column.unbroken ? Breaking::none : Breaking::words;
}

std::vector<Extent> extents(const Table& table, double size, const MeasureText& measure) {
  std::vector<Extent> columns(table.columns.size());
  const auto widen = [&](std::size_t i, const Extent& extent) {
    columns[i].narrowest = std::max(columns[i].narrowest, extent.narrowest);
    columns[i].widest = std::max(columns[i].widest, extent.widest);
  };
  for (std::size_t i = 0; i < columns.size(); ++i) {
    widen(i, extent_of({{table.columns[i].header, TextStyle::strong}}, {size}, Breaking::words, measure));
    for (const std::vector<Runs>& row : table.rows)
      if (i < row.size()) widen(i, extent_of(row[i], {size}, breaking_of(table.columns[i]), measure));
  }
  return columns;
}

/// A number that ends where a text begins needs more room than two texts.
double room_before(const Table& table, std::size_t column, double padding) {
  if (column == 0) return 0;
  const bool number_then_text =
      table.columns[column - 1].align == Align::right && table.columns[column].align == Align::left;
  return number_then_text ? padding * 2.2 : padding;
}

/// As a browser does it: every column its longest word, and what is left by what each would like to have.
std::vector<double> share_out(const std::vector<Extent>& columns, double room) {
  double narrowest = 0, widest = 0;
  for (const Extent& column : columns) {
    narrowest += column.narrowest;
    widest += column.widest;
  }
  std::vector<double> widths;
  for (const Extent& column : columns) {
    if (widest <= room) {
      widths.push_back(column.widest + (widest > 0 ? (room - widest) * column.widest / widest : 0));
    } else {
      const double wish = widest > narrowest ? (column.widest - column.narrowest) / (widest - narrowest) : 0;
      widths.push_back(column.narrowest + (room - narrowest) * wish);
    }
  }
  return widths;
}

double sum_of_narrowest(const std::vector<Extent>& columns) {
  return std::accumulate(columns.begin(), columns.end(), 0.0,
                         [](double sum, const Extent& column) { return sum + column.narrowest; });
}

/// Words are cut where even the smallest letters leave no room for them: the longest first.
void cut_to(std::vector<Extent>& columns, double room) {
  double longest = room;
  while (sum_of_narrowest(columns) > room && longest > 1) {
    longest *= 0.95;
    for (Extent& column : columns) column.narrowest = std::min(column.narrowest, longest);
  }
  for (Extent& column : columns) column.widest = std::max(column.widest, column.narrowest);
}

Grid make_grid(const Table& table, const Setting& setting) {
  constexpr double smallest = 0.72, step = 0.04;
  const double wanted = table.dense ? setting.size_of(9.2, 9.2, 8.6) : setting.size_of(10, 9.4, 8.6);
  Grid grid;
  std::vector<Extent> columns;
  double room = 0;
  for (double part = 1; part >= smallest; part -= step) {
    grid.size = wanted * part;
    grid.padding = grid.size * 0.75;
    room = setting.width;
    for (std::size_t i = 0; i < table.columns.size(); ++i) room -= room_before(table, i, grid.padding);
    columns = extents(table, grid.size, setting.measure);
    if (sum_of_narrowest(columns) <= room) break;
  }
  cut_to(columns, room);
  grid.width = share_out(columns, room);
  if (setting.place == Place::strip && grid.width.size() >= 3) {
    grid.width.front() = setting.width * 0.15;
    grid.width.back() = setting.width * 0.3;
    const double between = room - grid.width.front() - grid.width.back();
    for (std::size_t i = 1; i + 1 < grid.width.size(); ++i)
      grid.width[i] = between / static_cast<double>(grid.width.size() - 2);
  }
  double x = setting.x;
  for (std::size_t i = 0; i < grid.width.size(); ++i) {
    x += room_before(table, i, grid.padding);
    grid.left.push_back(x);
    x += grid.width[i];
  }
  return grid;
}

class RowSetter {
public:
  RowSetter(const Table& table, const Setting& setting)
      : table_(table), setting_(setting), grid_(make_grid(table, setting)),
        air_(grid_.size * (setting.place != Place::page ? 0.18
                           : table.dense                ? 0.26
                                                        : 0.34)) {}

  Slice head() const {
    std::vector<std::vector<SetLine>> cells;
    std::size_t most = 0;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      cells.push_back(break_into_lines({{table_.columns[i].header, TextStyle::strong}}, {grid_.size}, grid_.width[i],
                                       Breaking::words, setting_.measure));
      most = std::max(most, cells.back().size());
    }
    Slice slice;
    for (std::size_t i = 0; i < cells.size(); ++i) // on the lowest line
      draw_cell(slice, cells[i], i, air_ + static_cast<double>(most - cells[i].size()) * grid_.size * leading);
    slice.height = static_cast<double>(most) * grid_.size * leading + 2 * air_;
    rule(slice, 1.4, Ink::dark);
    return slice;
  }

  /// More than one only where the row is higher than most of a page.
  std::vector<Slice> row(const std::vector<Runs>& runs) const {
    std::vector<std::vector<SetLine>> cells;
    std::size_t most = 1;
    for (std::size_t i = 0; i < std::min(runs.size(), table_.columns.size()); ++i) {
      cells.push_back(
          break_into_lines(runs[i], {grid_.size}, grid_.width[i], breaking_of(table_.columns[i]), setting_.measure));
      most = std::max(most, cells.back().size());
    }
    const auto at_once = static_cast<std::size_t>(setting_.page_height * 0.7 / (grid_.size * leading));
    std::vector<Slice> slices;
    for (std::size_t from = 0; from < most; from += at_once) {
      Slice slice;
      const std::size_t to = std::min(most, from + at_once);
      for (std::size_t i = 0; i < cells.size(); ++i) {
        if (cells[i].size() <= from) continue;
        const auto begin = cells[i].begin() + static_cast<std::ptrdiff_t>(from);
        const auto end = cells[i].begin() + static_cast<std::ptrdiff_t>(std::min(to, cells[i].size()));
        draw_cell(slice, {begin, end}, i, air_);
      }
      slice.height = static_cast<double>(to - from) * grid_.size * leading + 2 * air_;
      if (to == most) rule(slice, 0.8, Ink::light);
      slices.push_back(std::move(slice));
    }
    return slices;
  }

private:
  static constexpr double leading = 1.3;

  void draw_cell(Slice& onto, const std::vector<SetLine>& lines, std::size_t column, double top) const {
    for (const SetLine& line : lines) {
      const bool right = table_.columns[column].align == Align::right;
      const double x = grid_.left[column] + (right ? grid_.width[column] - line.width : 0);
      top += draw_lines(onto, {line}, x, top, grid_.size, leading);
    }
  }

  void rule(Slice& slice, double width, Ink ink) const {
    slice.shapes.push_back(LineShape{
        {setting_.x, slice.height}, {setting_.x + setting_.width, slice.height}, width * setting_.scale, ink, false});
  }

  const Table& table_;
  const Setting& setting_;
  Grid grid_;
  double air_;
};

} // namespace

std::vector<Slice> set_table(const Table& table, const Setting& setting) {
  if (table.columns.empty()) return {};
  const RowSetter setter(table, setting);
  std::vector<Slice> slices;
  if (!table.caption.empty()) {
    const double size = setting.size_of(10, 9.6, 9);
    slices = set_lines({{table.caption, TextStyle::strong}}, {{size}, size, 1.36}, setting);
    for (Slice& line : slices) line.keep_with_next = true;
  }
  const bool headed = std::any_of(table.columns.begin(), table.columns.end(),
                                  [](const TableColumn& column) { return !column.header.empty(); });
  std::shared_ptr<const Slice> head;
  if (headed) {
    head = std::make_shared<const Slice>(setter.head());
    slices.push_back(*head);
    slices.back().keep_with_next = true;
  }
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    for (Slice& slice : setter.row(table.rows[i])) {
      slice.head = head;
      // No row alone at the end of a page under its head, nor at the start of one.
      slice.keep_with_next =
          i + 1 < table.rows.size() && (i == 0 || i + 2 == table.rows.size()) && slice.height < setting.page_height / 4;
      slices.push_back(std::move(slice));
    }
  }
  if (!slices.empty() && slices.front().gap == 0) slices.front().gap = setting.scale * 5;
  return slices;
}

} // namespace docket::pdf
