// A document as slices: what is never cut, one below the other, before it is known which page each stands on.
#pragma once

#include "report/figures/drawing.h"
#include "report/pdf/letters.h"

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace docket::pdf {

/// A place that leads to a section.
struct Link {
  Point at;
  double width = 0, height = 0;
  std::size_t section = 0; ///< 1 for the first
};

/// A place where the page of a section is to be printed, once it is known.
struct PageNumber {
  Point at; ///< right end of the number, on the baseline
  TextLook look;
  std::size_t section = 0;
};

/// A heading that the list of bookmarks has.
struct Bookmark {
  int level = 0; ///< as of the heading; 0: none
  std::string title;
  std::size_t section = 0; ///< of a heading of level 2; else 0
};

/// Shapes from the upper left corner of the slice.
struct Slice {
  double gap = 0; ///< above it, but not at the top of a page
  double height = 0;
  std::vector<Shape> shapes;
  bool keep_with_next = false, opens_page = false;
  std::shared_ptr<const Slice> head; ///< stands above it again where it comes first on a page
  Bookmark bookmark;
  std::vector<Link> links;
  std::vector<PageNumber> page_numbers;
};

Shape moved(const Shape& shape, double dx, double dy);

/// Adds what `slice` holds to `onto`, moved. Its height, gap and flags stay behind.
void lay_onto(Slice& onto, const Slice& slice, double dx, double dy);

/// Height with the gaps between, but not that above the first.
double height_of(const std::vector<Slice>& slices);

/// One slice of all, with the gap of the first.
Slice joined(const std::vector<Slice>& slices);

/// The slices in `count` columns of about equal height, in order down each column; `step` from column to column.
Slice in_columns(const std::vector<Slice>& slices, int count, double step);

} // namespace docket::pdf
