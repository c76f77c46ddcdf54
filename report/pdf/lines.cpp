#include "report/pdf/lines.h"

#include "report/format.h"
#include "report/line_breaks.h"

#include <algorithm>

namespace docket::pdf {
namespace {

constexpr double reference_size = 0.8;
constexpr std::string_view no_break_space = "\u00a0";

struct Fragment {
  std::string text;
  TextLook look;
  double width = 0;
};

/// What stays on one line.
struct Cluster {
  std::vector<Fragment> fragments;
  double width = 0;
  bool after_space = false, on_new_line = false;
};

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

TextLook look_of(TextStyle style, TextLook look) {
  if (style == TextStyle::strong) look.strong = true;
  if (style == TextStyle::reference) {
    look.size *= reference_size;
    look.ink = Ink::mid;
  }
  return look;
}

class ClusterMaker {
public:
  ClusterMaker(const TextLook& look, Breaking breaking) : look_(look), breaking_(breaking) {}

  std::vector<Cluster> make(const Runs& runs, const MeasureText& measure) {
    for (const Text& run : runs) add(run);
    for (Cluster& cluster : clusters_) {
      for (Fragment& fragment : cluster.fragments) {
        fragment.width = measure(fragment.text, fragment.look);
        cluster.width += fragment.width;
      }
    }
    return std::move(clusters_);
  }

private:
  void add(const Text& run) {
    const TextLook look = look_of(run.style, look_);
    const std::string_view text = run.text;
    std::size_t word_start = 0;
    bool whole_word = false; // the word may not be broken at its hyphens
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (i == word_start) {
        const std::size_t end = std::min(text.find_first_of(word_ends, i), text.size());
        whole_word = breaks_badly(text.substr(i, end - i));
        word_start = end + 1;
      }
      const char c = text[i];
      if (is_blank(c)) {
        if (c == '\n' && breaking_ == Breaking::words_and_line_ends) {
          end_cluster(false);
          new_line_ = true;
        } else if (ties_unit(text, i) || breaking_ == Breaking::none || (run.style == TextStyle::reference && i > 0)) {
          if (!ends_in_blank()) put(no_break_space, look);
        } else {
          end_cluster(true);
        }
        continue;
      }
      const auto code = static_cast<unsigned char>(c);
      if (code < 0x20U || code == 0x7FU) continue;
      put(text.substr(i, 1), look);
      const bool joint = c == '-' && !whole_word && breaking_ != Breaking::none;
      if (joint && i > 0 && is_letter(text[i - 1]) && i + 1 < text.size() && is_letter(text[i + 1])) end_cluster(false);
    }
  }

  void put(std::string_view bytes, const TextLook& look) {
    if (!open_) {
      clusters_.push_back({{}, 0, space_, new_line_});
      open_ = true;
      space_ = new_line_ = false;
    }
    std::vector<Fragment>& fragments = clusters_.back().fragments;
    if (fragments.empty() || !(fragments.back().look == look)) fragments.push_back({"", look, 0});
    fragments.back().text += bytes;
  }

  void end_cluster(bool space) {
    open_ = false;
    space_ = space_ || space;
  }

  bool ends_in_blank() const {
    return open_ && !clusters_.empty() && clusters_.back().fragments.back().text.ends_with(no_break_space);
  }

  TextLook look_;
  Breaking breaking_;
  std::vector<Cluster> clusters_;
  bool open_ = false, space_ = false, new_line_ = false;
};

void append(SetLine& line, const Fragment& fragment, bool after_space, double space) {
  if (after_space) line.width += space;
  if (!line.texts.empty() && line.texts.back().look == fragment.look) {
    line.texts.back().text += (after_space ? " " : "") + fragment.text;
  } else {
    line.texts.push_back({line.width, fragment.text, fragment.look});
  }
  line.width += fragment.width;
}

/// The longest beginning that fits into `width`; at least one character.
std::string fitting_start(const std::string& text, const TextLook& look, double width, const MeasureText& measure) {
  std::size_t fits = 0;
  for (std::size_t end = 1; end <= text.size(); ++end) {
    if (end < text.size() && continues_character(text[end])) continue;
    if (fits > 0 && measure(std::string_view(text).substr(0, end), look) > width) break;
    fits = end;
  }
  return text.substr(0, fits);
}

void append_cut(std::vector<SetLine>& lines, const Cluster& cluster, double width, const MeasureText& measure) {
  for (Fragment rest : cluster.fragments) {
    while (!rest.text.empty()) {
      const double room = width - lines.back().width;
      Fragment piece{fitting_start(rest.text, rest.look, room, measure), rest.look, 0};
      piece.width = measure(piece.text, piece.look);
      if (piece.width > room && !lines.back().texts.empty()) {
        lines.push_back({});
        continue;
      }
      append(lines.back(), piece, false, 0);
      rest.text.erase(0, piece.text.size());
      if (!rest.text.empty()) lines.push_back({});
    }
  }
}

} // namespace

std::vector<SetLine> break_into_lines(const Runs& runs, const TextLook& look, double width, Breaking breaking,
                                      const MeasureText& measure) {
  constexpr double tolerance = 0.05; // what adding rounded widths may bring
  std::vector<SetLine> lines(1);
  for (const Cluster& cluster : ClusterMaker(look, breaking).make(runs, measure)) {
    const bool first = lines.back().texts.empty();
    const bool spaced = cluster.after_space && !first;
    const double space = spaced ? measure(" ", cluster.fragments.front().look) : 0;
    if (cluster.on_new_line || (!first && lines.back().width + space + cluster.width > width + tolerance)) {
      lines.push_back({});
    } else if (spaced) {
      append(lines.back(), cluster.fragments.front(), true, space);
      for (std::size_t i = 1; i < cluster.fragments.size(); ++i) append(lines.back(), cluster.fragments[i], false, 0);
      continue;
    }
    if (cluster.width > width + tolerance) {
      append_cut(lines, cluster, width, measure);
    } else {
      for (const Fragment& fragment : cluster.fragments) append(lines.back(), fragment, false, 0);
    }
  }
  return lines;
}

Extent extent_of(const Runs& runs, const TextLook& look, Breaking breaking, const MeasureText& measure) {
  Extent extent;
  double line = 0;
  for (const Cluster& cluster : ClusterMaker(look, breaking).make(runs, measure)) {
    extent.narrowest = std::max(extent.narrowest, cluster.width);
    if (cluster.on_new_line) line = 0;
    line += cluster.width + (cluster.after_space ? measure(" ", cluster.fragments.front().look) : 0);
    extent.widest = std::max(extent.widest, line);
  }
  return extent;
}

} // namespace docket::pdf
