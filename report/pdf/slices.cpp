#include "report/pdf/slices.h"

#include <algorithm>

namespace docket::pdf {
namespace {

struct Move {
  double dx, dy;

  Point operator()(Point point) const { return {point.x + dx, point.y + dy}; }
  Shape operator()(LineShape line) const {
    line.from = (*this)(line.from);
    line.to = (*this)(line.to);
    return line;
  }
  Shape operator()(RectangleShape rectangle) const {
    rectangle.at = (*this)(rectangle.at);
    return rectangle;
  }
  Shape operator()(CircleShape circle) const {
    circle.centre = (*this)(circle.centre);
    return circle;
  }
  Shape operator()(PolylineShape polyline) const {
    for (Point& point : polyline.points) point = (*this)(point);
    return polyline;
  }
  Shape operator()(TextShape text) const {
    text.at = (*this)(text.at);
    return text;
  }
};

/// How many columns of that height it takes.
int columns_taken(const std::vector<Slice>& slices, double height) {
  int columns = 1;
  double used = 0;
  for (const Slice& slice : slices) {
    const double gap = used > 0 ? slice.gap : 0;
    if (used > 0 && used + gap + slice.height > height) {
      ++columns;
      used = slice.height;
    } else {
      used += gap + slice.height;
    }
  }
  return columns;
}

} // namespace

Shape moved(const Shape& shape, double dx, double dy) {
  return std::visit([&](const auto& one) { return Move{dx, dy}(one); }, shape);
}

void lay_onto(Slice& onto, const Slice& slice, double dx, double dy) {
  for (const Shape& shape : slice.shapes) onto.shapes.push_back(moved(shape, dx, dy));
  for (Link link : slice.links) {
    link.at = {link.at.x + dx, link.at.y + dy};
    onto.links.push_back(link);
  }
  for (PageNumber number : slice.page_numbers) {
    number.at = {number.at.x + dx, number.at.y + dy};
    onto.page_numbers.push_back(number);
  }
}

double height_of(const std::vector<Slice>& slices) {
  double height = 0;
  for (const Slice& slice : slices) height += slice.height + (&slice == &slices.front() ? 0 : slice.gap);
  return height;
}

Slice joined(const std::vector<Slice>& slices) {
  Slice all;
  if (slices.empty()) return all;
  all.gap = slices.front().gap;
  for (const Slice& slice : slices) {
    if (&slice != &slices.front()) all.height += slice.gap;
    lay_onto(all, slice, 0, all.height);
    all.height += slice.height;
  }
  return all;
}

Slice in_columns(const std::vector<Slice>& slices, int count, double step) {
  Slice all;
  double height = 0;
  for (const Slice& slice : slices) height = std::max(height, slice.height);
  while (columns_taken(slices, height) > count) height += 1;
  double x = 0, y = 0;
  for (const Slice& slice : slices) {
    if (y > 0 && y + slice.gap + slice.height > height) {
      x += step;
      y = 0;
    }
    if (y > 0) y += slice.gap;
    lay_onto(all, slice, x, y);
    y += slice.height;
    all.height = std::max(all.height, y);
  }
  if (!slices.empty()) all.gap = slices.front().gap;
  return all;
}

} // namespace docket::pdf
