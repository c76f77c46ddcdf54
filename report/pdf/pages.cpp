#include "report/pdf/pages.h"

#include "report/wording/pdf.h"

namespace docket::pdf {
namespace {

/// How high a slice and all that must stay with it are.
double height_together(const std::vector<Slice>& slices, std::size_t first) {
  double height = slices[first].height;
  for (std::size_t i = first; slices[i].keep_with_next && i + 1 < slices.size() && !slices[i + 1].opens_page; ++i)
    height += slices[i + 1].gap + slices[i + 1].height;
  return height;
}

class PageFiller {
public:
  Pages fill(const std::vector<Slice>& slices) {
    bool kept = false; // the slice goes on with what the one before began
    for (std::size_t i = 0; i < slices.size(); ++i) {
      const Slice& slice = slices[i];
      if (slice.opens_page) next_page();
      if (!kept && used_ > 0) {
        const double together = height_together(slices, i);
        const double head = slice.head ? slice.head->height : 0;
        if (used_ + slice.gap + together > text_height && together + head <= text_height) next_page();
      }
      if (used_ > 0 && used_ + slice.gap + slice.height > text_height) next_page();
      place(slice);
      kept = slice.keep_with_next;
    }
    if (open_.height > 0) close();
    return std::move(pages_);
  }

private:
  void place(const Slice& slice) {
    if (used_ == 0 && slice.head) {
      lay_onto(open_, *slice.head, 0, 0);
      used_ = slice.head->height;
    } else if (used_ > 0) {
      used_ += slice.gap;
    }
    if (slice.bookmark.level > 0) pages_.bookmarks.push_back({slice.bookmark, pages_.pages.size(), page_top + used_});
    lay_onto(open_, slice, 0, used_);
    used_ += slice.height;
    open_.height = used_;
  }

  void next_page() {
    if (used_ > 0) close();
  }

  void close() {
    Slice page;
    lay_onto(page, open_, page_left, page_top);
    pages_.pages.push_back({std::move(page.shapes), std::move(page.links)});
    numbers_.push_back(std::move(page.page_numbers));
    open_ = {};
    used_ = 0;
  }

public:
  /// The page numbers that were asked for, a list a page.
  const std::vector<std::vector<PageNumber>>& numbers() const { return numbers_; }

private:
  Pages pages_;
  std::vector<std::vector<PageNumber>> numbers_;
  Slice open_;
  double used_ = 0;
};

void add_foot(Page& page, std::size_t number, std::size_t count, const std::string& case_ref) {
  constexpr double size = 9.2, baseline = page_height - 7 * units_per_mm;
  const auto say = [&](double x, const std::string& text, Anchor anchor) {
    page.shapes.push_back(TextShape{{x, baseline}, text, anchor, size, false, Ink::mid});
  };
  say(page_left, wording::pdf_foot_case(case_ref), Anchor::start);
  say(page_width - page_left, wording::pdf_foot_page(number, count), Anchor::end);
}

} // namespace

Pages lay_on_pages(const std::vector<Slice>& slices, const std::string& case_ref) {
  PageFiller filler;
  Pages pages = filler.fill(slices);
  for (std::size_t i = 0; i < pages.pages.size(); ++i) {
    for (const PageNumber& number : filler.numbers()[i]) {
      for (const BookmarkPlace& place : pages.bookmarks) {
        if (place.bookmark.section != number.section) continue;
        pages.pages[i].shapes.push_back(TextShape{number.at, std::to_string(place.page + 1), Anchor::end,
                                                  number.look.size, number.look.strong, number.look.ink});
      }
    }
    add_foot(pages.pages[i], i + 1, pages.pages.size(), case_ref);
  }
  return pages;
}

} // namespace docket::pdf
