#include "report/pdf/set_document.h"

#include "report/wording/pdf.h"

#include <algorithm>

namespace docket::pdf {
namespace {

/// As often on a page of its own as the document says.
class BlockSetter {
public:
  BlockSetter(const std::vector<Block>& document, Setting setting)
      : document_(document), setting_(std::move(setting)) {}

  void set(const std::vector<Block>& blocks) {
    for (const Block& block : blocks) {
      keep_near(block);
      std::visit(*this, block.content);
      former_ = &block;
    }
  }

  std::vector<Slice> take() { return std::move(slices_); }
  void use(const Setting& setting) { setting_ = setting; }

  void operator()(const Heading& heading) {
    const double size = heading.level == 1   ? setting_.scale * 18
                        : heading.level == 2 ? setting_.scale * 14.5
                                             : setting_.size_of(11.6, 10.2, 10.2);
    const double number_width = heading.number.empty() ? 0 : size * (heading.level == 2 ? 1.9 : 3.0);
    const double gap = size * (heading.level == 2 ? 1.8 : heading.level == 1 ? 0.5 : 0.9);
    std::vector<Slice> lines =
        set_lines({{heading.text, TextStyle::strong}}, {{size}, gap, 1.25, Breaking::words, number_width}, setting_);
    const double baseline = (1.25 - ascent - descent) / 2 * size + ascent * size;
    if (!heading.number.empty())
      lines.front().shapes.insert(
          lines.front().shapes.begin(),
          TextShape{{setting_.x, baseline}, heading.number, Anchor::start, size, false, Ink::mid});
    Slice all = joined(lines);
    if (heading.level == 2) {
      Slice ruled;
      ruled.gap = all.gap;
      ruled.height = all.height + size * 0.6;
      ruled.shapes.push_back(LineShape{{setting_.x, 1.5}, {setting_.x + setting_.width, 1.5}, 3, Ink::dark, false});
      lay_onto(ruled, all, 0, size * 0.6);
      all = std::move(ruled);
      ++section_;
    }
    if (!heading.number.empty())
      all.bookmark = {heading.level, heading.number + " " + heading.text, heading.level == 2 ? section_ : 0};
    all.keep_with_next = true;
    put({std::move(all)});
  }

  void operator()(const Paragraph& paragraph) {
    const double size = setting_.size_of(10.8, 10, 9.2);
    LineStyle style{{size}, size * 0.55, setting_.place == Place::page ? 1.36 : 1.28};
    switch (paragraph.role) {
    case ParagraphRole::plain:
      break;
    case ParagraphRole::lead:
      style.look.strong = true;
      break;
    case ParagraphRole::finding:
      style.look = {setting_.scale * 18, true, Ink::dark};
      style.leading = 1.2;
      break;
    case ParagraphRole::small:
      style.look = {size * 0.9, false, Ink::mid};
      break;
    case ParagraphRole::quote:
      style.breaking = Breaking::words_and_line_ends;
      break;
    }
    put(set_lines(paragraph.runs, style, setting_));
  }

  void operator()(const List& list) { put(set_list(list, setting_)); }
  void operator()(const Table& table) { put(set_table(table, setting_)); }
  void operator()(const Definitions& definitions) { put(set_definitions(definitions, setting_)); }

  void operator()(const Figure& figure) {
    ++figures_;
    const double size = setting_.scale * 10.4;
    std::vector<Slice> parts =
        set_lines({{"Figure " + std::to_string(figures_) + ". " + figure.title, TextStyle::strong}},
                  {{size}, size * 1.2, 1.36}, setting_);
    Slice picture;
    picture.gap = size * 0.5;
    picture.height = figure.drawing.height;
    for (const Shape& shape : figure.drawing.shapes) picture.shapes.push_back(moved(shape, setting_.x, 0));
    parts.push_back(std::move(picture));
    if (!figure.caption.empty()) {
      const std::vector<Slice> caption =
          set_lines(figure.caption, {{size * 0.9, false, Ink::mid}, size * 0.6, 1.36}, setting_);
      parts.insert(parts.end(), caption.begin(), caption.end());
    }
    put({joined(parts)});
  }

  void operator()(const RuledSpace& space) {
    for (int i = 0; i < space.lines; ++i) {
      Slice line;
      line.height = 21;
      line.shapes.push_back(
          LineShape{{setting_.x, line.height}, {setting_.x + setting_.width, line.height}, 0.8, Ink::light, false});
      line.keep_with_next = i + 1 < space.lines;
      put({std::move(line)});
    }
  }

  void operator()(const Contents&) {
    const double size = setting_.scale * 10.4, between = 24, line_height = size * 1.5;
    const double width = (setting_.width - between) / 2;
    put(set_lines({{std::string(wording::contents), TextStyle::strong}}, {{size}, size, 1.5}, setting_));
    slices_.back().keep_with_next = true;
    std::vector<Slice> entries;
    std::size_t section = 0;
    for (const Block& block : document_) {
      const auto* heading = std::get_if<Heading>(&block.content);
      if (heading == nullptr || heading->level != 2) continue;
      ++section;
      const auto lines = break_into_lines({{heading->text, TextStyle::plain}}, {size}, width - size * 4.2,
                                          Breaking::words, setting_.measure);
      Slice entry;
      entry.height = draw_lines(entry, lines, setting_.x + size * 2, 0, size, 1.5);
      const double baseline = (line_height - size * (ascent + descent)) / 2 + size * ascent;
      entry.shapes.insert(entry.shapes.begin(),
                          TextShape{{setting_.x, baseline}, heading->number, Anchor::start, size, false, Ink::mid});
      entry.links.push_back({{setting_.x, 0}, width, entry.height, section});
      entry.page_numbers.push_back({{setting_.x + width, baseline}, {size, false, Ink::mid}, section});
      entries.push_back(std::move(entry));
    }
    put({in_columns(entries, 2, width + between)});
  }

  void operator()(const PageBreak&) { new_page_ = true; }

  void operator()(const Boxes& boxes) {
    for (std::size_t i = 0; i < boxes.boxes.size();) {
      if (boxes.side_by_side && i + 1 < boxes.boxes.size() && set_beside(boxes.boxes[i], boxes.boxes[i + 1])) {
        i += 2;
        if (i < boxes.boxes.size()) slices_.back().keep_with_next = true; // nobody's box on a page of its own
        continue;
      }
      const Box& box = boxes.boxes[i++];
      put(framed(set_box(box.title, box.blocks, Place::box, setting_.x, setting_.width), setting_,
                 boxes.side_by_side ? 0 : 190));
    }
  }

  void operator()(const Strip& strip) {
    put(framed(set_box(strip.title, strip.blocks, Place::strip, setting_.x, setting_.width), setting_, 0));
  }

  void operator()(const Notice& notice) {
    const double size = setting_.size_of(11.6, 10.6, 10.6), padding = size * 0.6;
    Runs strong = notice.runs;
    for (Text& text : strong) text.style = TextStyle::strong;
    const Setting inner = setting_.within(setting_.place, setting_.x + padding, setting_.width - 2 * padding);
    Slice whole;
    const Slice text = joined(set_lines(strong, {{size}, 0, 1.3}, inner));
    whole.gap = size * 0.7;
    whole.height = text.height + 2 * padding;
    lay_onto(whole, text, 0, padding);
    const double left = setting_.x + 1, right = setting_.x + setting_.width - 1, low = whole.height - 1;
    whole.shapes.push_back(PolylineShape{
        {{left, 1}, {right, 1}, {right, low}, {left, low}, {left, 1}}, 2.2, Ink::dark, Fill::none, false});
    put({std::move(whole)});
  }

  void operator()(const Fold& fold) {
    const double size = setting_.size_of(10.8, 10, 9.2);
    put(set_lines({{fold.title, TextStyle::strong}}, {{size}, size, 1.36}, setting_));
    slices_.back().keep_with_next = true;
    set(fold.blocks);
  }

private:
  /// A note in small print goes with the table it belongs to, boxes with the sentence before them.
  void keep_near(const Block& block) {
    if (former_ == nullptr || slices_.empty()) return;
    const auto* paragraph = std::get_if<Paragraph>(&block.content);
    const bool note = paragraph != nullptr && paragraph->role == ParagraphRole::small &&
                      std::holds_alternative<Table>(former_->content);
    const bool introduced =
        std::holds_alternative<Boxes>(block.content) && std::holds_alternative<Paragraph>(former_->content);
    if (note || introduced) slices_.back().keep_with_next = true;
  }

  void put(std::vector<Slice> slices) {
    if (slices.empty()) return;
    if (new_page_) slices.front().opens_page = true;
    new_page_ = false;
    for (Slice& slice : slices) slices_.push_back(std::move(slice));
  }

  std::vector<Slice> set_box(const std::string& title, const std::vector<Block>& blocks, Place place, double x,
                             double width) const {
    const double padding = frame_padding(setting_);
    const Setting inner = setting_.within(place, x + padding, width - 2 * padding);
    BlockSetter setter(document_, inner);
    const double size = inner.size_of(9.6, 9.6, 9.2);
    if (!title.empty()) {
      setter.put(set_lines({{title, TextStyle::plain}}, {{size, false, Ink::mid}, 0, 1.28}, inner));
      setter.slices_.back().keep_with_next = true;
    }
    setter.set(blocks);
    return setter.take();
  }

  /// False where a page can't hold them.
  bool set_beside(const Box& left, const Box& right) {
    const double between = 12 * setting_.scale, width = (setting_.width - between) / 2;
    const double right_x = setting_.x + width + between;
    std::vector<Slice> in_left = set_box(left.title, left.blocks, Place::box, setting_.x, width);
    std::vector<Slice> in_right = set_box(right.title, right.blocks, Place::box, right_x, width);
    // What stands under the titles begins at one height.
    if (!left.title.empty() && !right.title.empty()) {
      const std::size_t left_lines = title_lines(in_left), right_lines = title_lines(in_right);
      const double line = in_left.front().height;
      std::vector<Slice>& shorter = left_lines < right_lines ? in_left : in_right;
      const std::size_t last = std::min(left_lines, right_lines) - 1, most = std::max(left_lines, right_lines);
      shorter[last].height += line * static_cast<double>(most - last - 1);
    }
    const double height = std::max(height_of(in_left), height_of(in_right)) + 2 * frame_padding(setting_);
    if (height > setting_.page_height) return false;
    Slice row = framed(in_left, setting_.within(Place::box, setting_.x, width), height).front();
    lay_onto(row, framed(in_right, setting_.within(Place::box, right_x, width), height).front(), 0, 0);
    put({std::move(row)});
    return true;
  }

  /// The title of a box is what is kept with the next from its first line on.
  static std::size_t title_lines(const std::vector<Slice>& box) {
    std::size_t lines = 1;
    while (lines < box.size() && box[lines].gap == 0 && box[lines - 1].keep_with_next) ++lines;
    return lines;
  }

  const std::vector<Block>& document_; ///< all of it, for the list of contents
  Setting setting_;
  std::vector<Slice> slices_;
  const Block* former_ = nullptr;
  std::size_t section_ = 0;
  int figures_ = 0;
  bool new_page_ = false;
};

/// The size at which one page holds the first page; a readable one where none does.
double first_page_scale(const std::vector<Block>& document, const std::vector<Block>& first, const Setting& setting) {
  constexpr double smallest = 0.76, step = 0.02, readable = 0.86;
  for (double scale = 1; scale >= smallest; scale -= step) {
    Setting scaled = setting;
    scaled.scale = scale;
    BlockSetter setter(document, scaled);
    setter.set(first);
    if (height_of(setter.take()) <= setting.page_height) return scale;
  }
  return readable;
}

} // namespace

std::vector<Slice> set_document(const Document& document, const Setting& setting) {
  const auto page_break = std::find_if(document.blocks.begin(), document.blocks.end(), [](const Block& block) {
    return std::holds_alternative<PageBreak>(block.content);
  });
  const std::vector<Block> first(document.blocks.begin(), page_break), rest(page_break, document.blocks.end());
  Setting scaled = setting;
  if (!rest.empty()) scaled.scale = first_page_scale(document.blocks, first, setting);
  BlockSetter setter(document.blocks, scaled);
  setter.set(first);
  setter.use(setting);
  setter.set(rest);
  return setter.take();
}

} // namespace docket::pdf
