// Text, tables and boxes set into slices. Each function sets one kind of block at the left edge and width of its place.
#pragma once

#include "report/document.h"
#include "report/pdf/lines.h"
#include "report/pdf/slices.h"

#include <vector>

namespace docket::pdf {

/// Where something is set: the letters are smaller in a box.
enum class Place : std::uint8_t { page, box, strip };

struct Setting {
  MeasureText measure;
  Place place = Place::page;
  double x = 0, width = 680;
  double page_height = 1000; ///< what one page can hold
  double scale = 1;          ///< of all letters and gaps

  double size_of(double on_page, double in_box, double in_strip) const {
    return scale * (place == Place::page ? on_page : place == Place::box ? in_box : in_strip);
  }
  Setting within(Place inner, double left, double inner_width) const {
    Setting copy = *this;
    copy.place = inner;
    copy.x = left;
    copy.width = inner_width;
    return copy;
  }
};

struct LineStyle {
  TextLook look;
  double gap = 0;        ///< above the first line
  double leading = 1.36; ///< height of a line as part of the size
  Breaking breaking = Breaking::words;
  double indent = 0; ///< of all lines
};

/// One slice a line; the first three and the last three stay together.
std::vector<Slice> set_lines(const Runs& runs, const LineStyle& style, const Setting& setting);

/// The lines from `x` and `top` on, as shapes; returns the height they take.
double draw_lines(Slice& onto, const std::vector<SetLine>& lines, double x, double top, double size, double leading);

std::vector<Slice> set_table(const Table& table, const Setting& setting);
std::vector<Slice> set_definitions(const Definitions& definitions, const Setting& setting);
std::vector<Slice> set_list(const List& list, const Setting& setting);

/// What a frame is drawn around: as one slice where a page can hold it, else in slices with the frame on each.
std::vector<Slice> framed(const std::vector<Slice>& inner, const Setting& setting, double least_height);

/// Room between a frame and what is in it.
inline double frame_padding(const Setting& setting) { return 10 * setting.scale; }

} // namespace docket::pdf
