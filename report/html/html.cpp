#include "report/html/html.h"

#include "report/figures/svg.h"
#include "report/html/markup.h"
#include "report/html/style.h"
#include "report/line_breaks.h"

#include <algorithm>

namespace docket {
namespace {

// The page number in @page cannot carry the case; a margin box takes a CSS string, so only harmless letters go there.
std::string css_string(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == ' ' ||
                       c == '-' || c == '_' || c == '.' || c == '/';
    out += plain ? c : ' ';
  }
  return out;
}

std::string keep_codes_unbroken(const std::string& escaped) {
  std::string out;
  out.reserve(escaped.size());
  for (std::size_t from = 0; from < escaped.size();) {
    std::size_t end = escaped.find_first_of(word_ends, from);
    if (end == std::string::npos) end = escaped.size();
    const std::string_view word = std::string_view(escaped).substr(from, end - from);
    if (breaks_badly(word)) {
      out += "<span class=\"nb\">" + std::string(word) + "</span>";
    } else {
      out += word;
    }
    if (end < escaped.size()) out += escaped[end];
    from = end + 1;
  }
  return out;
}

class PageWriter {
public:
  explicit PageWriter(const Document& document) : blocks_(document.blocks) {}

  std::string write(const Document& document) {
    const std::string title = escape_markup(document.title);
    out_ =
        "<!DOCTYPE html>\n<html lang=\"" + escape_markup(document.language) + "\">\n<head>\n<meta charset=\"utf-8\">\n";
    out_ += "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
            "img-src data:\">\n";
    out_ += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    out_ += "<meta name=\"generator\" content=\"Station Docket\">\n"; // report/run_folder knows its own page by it
    out_ += "<title>" + title + "</title>\n<style>" + std::string(html_style);
    out_ += "@page{@top-right{content:\"" + css_string(document.case_ref) + "\";font:8pt sans-serif;color:#565d63}}\n";
    out_ += "</style>\n</head>\n<body>\n<main>\n";
    out_ += "<p class=\"case-line\"><span>Case file</span><span>" + escape_markup(document.case_ref) + "</span></p>\n";
    write_blocks(document.blocks);
    close_section();
    out_ += "</main>\n</body>\n</html>\n";
    return std::move(out_);
  }

  void operator()(const Heading& heading) {
    if (heading.level == 2) {
      close_section();
      ++sections_;
      parts_ = 0;
      const std::string id = "s" + std::to_string(sections_);
      out_ += "<section aria-labelledby=\"" + id + "\"" + (new_page_ ? " class=\"new-page\"" : "") + ">\n";
      new_page_ = false;
      section_open_ = true;
      write_heading(heading, "h2", id);
    } else if (heading.level == 1) {
      write_heading(heading, "h1", "title");
    } else {
      ++parts_;
      write_heading(heading, "h3", "s" + std::to_string(sections_) + "-" + std::to_string(parts_));
    }
  }

  void operator()(const Paragraph& paragraph) {
    static constexpr const char* classes[] = {"", " class=\"lead\"", " class=\"finding\"", " class=\"small\"",
                                              " class=\"quote\""};
    out_ += "<p" + std::string(classes[static_cast<std::size_t>(paragraph.role)]) + ">";
    write_runs(paragraph.runs);
    out_ += "</p>\n";
  }

  void operator()(const List& list) {
    if (list.items.empty()) return;
    const std::string tag = list.numbered ? "ol" : "ul";
    out_ += "<" + tag + ">\n";
    for (const Runs& item : list.items) {
      out_ += "<li>";
      write_runs(item);
      out_ += "</li>\n";
    }
    out_ += "</" + tag + ">\n";
  }

  void operator()(const Table& table) {
    out_ += table.dense ? "<table class=\"dense\">\n" : "<table>\n";
    if (!table.caption.empty()) out_ += "<caption>" + escape_running_text(table.caption) + "</caption>\n";
    const bool headed = std::any_of(table.columns.begin(), table.columns.end(),
                                    [](const TableColumn& column) { return !column.header.empty(); });
    if (headed) {
      out_ += "<thead><tr>";
      for (const TableColumn& column : table.columns) {
        out_ += "<th scope=\"col\"" + align(column) + ">" + escape_running_text(column.header) + "</th>";
      }
      out_ += "</tr></thead>\n";
    }
    out_ += "<tbody>\n";
    for (const std::vector<Runs>& row : table.rows) write_row(table, row);
    out_ += "</tbody>\n</table>\n";
  }

  void operator()(const Definitions& definitions) {
    if (definitions.entries.empty()) return;
    out_ += definitions.in_columns ? "<dl class=\"columns\">\n"
            : definitions.dense    ? "<dl class=\"dense\">\n"
                                   : "<dl>\n";
    for (const auto& [term, runs] : definitions.entries) {
      out_ += "<dt>" + escape_running_text(term) + "</dt><dd>";
      write_runs(runs);
      out_ += "</dd>\n";
    }
    out_ += "</dl>\n";
  }

  void operator()(const Figure& figure) {
    ++figures_;
    const std::string id = "f" + std::to_string(figures_);
    out_ += "<figure>\n<div class=\"figure-title\">Figure " + std::to_string(figures_) + ". " +
            escape_running_text(figure.title) + "</div>\n";
    out_ += write_svg(figure.drawing, id, figure.title, figure.description);
    if (!figure.caption.empty()) {
      out_ += "<figcaption>";
      write_runs(figure.caption);
      out_ += "</figcaption>\n";
    }
    out_ += "</figure>\n";
  }

  void operator()(const RuledSpace& space) {
    out_ += "<div class=\"ruled\">";
    for (int i = 0; i < space.lines; ++i) out_ += "<span></span>";
    out_ += "</div>\n";
  }

  void operator()(const Contents&) {
    out_ += "<nav class=\"contents" + std::string(new_page_ ? " new-page" : "") +
            "\" aria-label=\"Contents\">\n<p>Contents</p>\n<ol>\n";
    new_page_ = false;
    int section = 0;
    for (const Block& block : blocks_) {
      const auto* heading = std::get_if<Heading>(&block.content);
      if (heading == nullptr || heading->level != 2) continue;
      ++section;
      out_ += "<li><a href=\"#s" + std::to_string(section) + "\"><span class=\"number\">" +
              escape_markup(heading->number) + "</span> " + escape_running_text(heading->text) + "</a></li>\n";
    }
    out_ += "</ol>\n</nav>\n";
  }

  void operator()(const PageBreak&) { new_page_ = true; }

  void operator()(const Boxes& boxes) {
    out_ += boxes.side_by_side ? "<div class=\"boxes beside\">\n" : "<div class=\"boxes stacked\">\n";
    for (const Box& box : boxes.boxes) write_box("box", box.title, box.blocks);
    out_ += "</div>\n";
  }

  void operator()(const Strip& strip) { write_box("strip", strip.title, strip.blocks); }

  void operator()(const Notice& notice) {
    out_ += "<p class=\"notice\">";
    write_runs(notice.runs);
    out_ += "</p>\n";
  }

  void operator()(const Fold& fold) {
    out_ += "<details open>\n<summary>" + escape_running_text(fold.title) + "</summary>\n";
    write_blocks(fold.blocks);
    out_ += "</details>\n";
  }

private:
  void write_blocks(const std::vector<Block>& blocks) {
    for (const Block& block : blocks) std::visit(*this, block.content);
  }

  void write_heading(const Heading& heading, const char* tag, const std::string& id) {
    out_ += "<" + std::string(tag) + " id=\"" + id + "\">";
    if (!heading.number.empty()) out_ += "<span class=\"number\">" + escape_markup(heading.number) + "</span> ";
    out_ += escape_running_text(heading.text) + "</" + tag + ">\n";
  }

  void write_runs(const Runs& runs) {
    for (const Text& text : runs) {
      const std::string escaped = keep_codes_unbroken(escape_running_text(text.text));
      switch (text.style) {
      case TextStyle::plain:
        out_ += escaped;
        break;
      case TextStyle::strong:
        out_ += "<strong>" + escaped + "</strong>";
        break;
      case TextStyle::reference:
        out_ += "<span class=\"ref\">" + escaped + "</span>";
        break;
      }
    }
  }

  static std::string align(const TableColumn& column) {
    if (column.align == Align::right) return " class=\"right\"";
    return column.unbroken ? " class=\"unbroken\"" : "";
  }

  void write_row(const Table& table, const std::vector<Runs>& row) {
    out_ += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string place = i < table.columns.size() ? align(table.columns[i]) : "";
      const std::string tag = i == 0 ? "th" : "td";
      out_ += "<" + tag + (i == 0 ? " scope=\"row\"" : "") + place + ">";
      write_runs(row[i]);
      out_ += "</" + tag + ">";
    }
    out_ += "</tr>\n";
  }

  void write_box(const std::string& name, const std::string& title, const std::vector<Block>& blocks) {
    out_ += "<div class=\"" + name + "\">\n";
    if (!title.empty()) out_ += "<p class=\"box-title\">" + escape_running_text(title) + "</p>\n";
    write_blocks(blocks);
    out_ += "</div>\n";
  }

  void close_section() {
    if (section_open_) out_ += "</section>\n";
    section_open_ = false;
  }

  const std::vector<Block>& blocks_; ///< of the whole document, for the list of contents
  std::string out_;
  int sections_ = 0, parts_ = 0, figures_ = 0;
  bool section_open_ = false, new_page_ = false;
};

} // namespace

std::string write_html(const Document& document) { return PageWriter(document).write(document); }

} // namespace docket
