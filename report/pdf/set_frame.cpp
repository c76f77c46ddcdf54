#include "report/pdf/setting.h"

#include <algorithm>

namespace docket::pdf {
namespace {

struct Edges {
  bool top = false, bottom = false;
};

void draw_frame(Slice& slice, const Setting& setting, Edges edges) {
  const double left = setting.x, right = setting.x + setting.width;
  const auto line = [&](Point from, Point to, double width, Ink ink) {
    slice.shapes.push_back(LineShape{from, to, width, ink, false});
  };
  line({left, 0}, {left, slice.height}, 0.9, Ink::light);
  line({right, 0}, {right, slice.height}, 0.9, Ink::light);
  if (edges.bottom) line({left, slice.height}, {right, slice.height}, 0.9, Ink::light);
  if (edges.top) line({left, 0}, {right, 0}, 4, Ink::dark);
}

} // namespace

std::vector<Slice> framed(const std::vector<Slice>& inner, const Setting& setting, double least_height) {
  const double padding = frame_padding(setting), gap = 9 * setting.scale;
  const double height = std::max(least_height, height_of(inner) + 2 * padding);
  if (height <= setting.page_height) {
    Slice whole;
    whole.gap = gap;
    whole.height = height;
    lay_onto(whole, joined(inner), 0, padding);
    draw_frame(whole, setting, {true, true});
    return {whole};
  }
  std::vector<Slice> slices;
  for (std::size_t i = 0; i < inner.size(); ++i) {
    const bool first = i == 0, last = i + 1 == inner.size();
    Slice slice = inner[i];
    const double above = first ? padding : inner[i].gap, below = last ? padding : 0;
    Slice piece;
    piece.gap = first ? gap : 0;
    piece.height = above + slice.height + below;
    piece.keep_with_next = slice.keep_with_next;
    lay_onto(piece, slice, 0, above);
    draw_frame(piece, setting, {first, last});
    slices.push_back(std::move(piece));
  }
  return slices;
}

} // namespace docket::pdf
