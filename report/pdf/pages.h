// Slices laid on pages of A4, each with its foot.
//
// Method    a slice goes to the next page where it does not fit; what must stay together goes with it, unless a whole
//           page could not hold it
// Checked   tests/report/pdf_layout_test.cpp
#pragma once

#include "report/pdf/slices.h"

#include <string>
#include <vector>

namespace docket::pdf {

/// A4 in units, with margins of 17 mm beside and 12 mm above; the foot lies below the text.
inline constexpr double units_per_mm = 680.0 / 176.0;
inline constexpr double page_width = 210 * units_per_mm, page_height = 297 * units_per_mm;
inline constexpr double page_left = 17 * units_per_mm, page_top = 12 * units_per_mm;
inline constexpr double text_height = page_height - page_top - 14 * units_per_mm;

struct Page {
  std::vector<Shape> shapes;
  std::vector<Link> links;
};

/// Where a heading stands.
struct BookmarkPlace {
  Bookmark bookmark;
  std::size_t page = 0; ///< 0 for the first
  double y = 0;         ///< from the top of the page
};

struct Pages {
  std::vector<Page> pages;
  std::vector<BookmarkPlace> bookmarks;
};

Pages lay_on_pages(const std::vector<Slice>& slices, const std::string& case_ref);

} // namespace docket::pdf
