#include "report/pdf/finish.h"

#include "core/error.h"
#include "report/format.h"
#include "report/pdf/paper.h"

#include <QCryptographicHash>
#include <QString>
#include <algorithm>
#include <charconv>
#include <cstdio>
#include <string_view>

namespace docket::pdf {
namespace {

[[noreturn]] void not_as_assumed(const std::string& what) {
  throw Error(ErrorKind::could_not_be_done, "casefile.pdf",
              "The library writes PDF in another way than the one this program knows: " + what + ".",
              "Give --only html,json to do without it. Nothing was written.");
}

std::size_t number_at(std::string_view text, std::size_t at) {
  while (at < text.size() && (text[at] == ' ' || text[at] == '\n' || text[at] == '\r' || text[at] == '[')) ++at;
  std::size_t value = 0;
  const auto [end, error] = std::from_chars(text.data() + at, text.data() + text.size(), value);
  if (error != std::errc()) not_as_assumed("a number is missing");
  return value;
}

std::size_t number_after(std::string_view text, std::string_view key) {
  const std::size_t at = text.find(key);
  if (at == std::string_view::npos) not_as_assumed(std::string(key) + " is missing");
  return number_at(text, at + key.size());
}

std::string reference(std::size_t object) { return std::to_string(object) + " 0 R"; }

/// UTF-16 with its mark, in hexadecimal digits.
std::string text_string(const std::string& text) {
  std::string out = "<FEFF";
  for (const QChar unit : QString::fromStdString(text)) {
    char digits[5];
    std::snprintf(digits, sizeof digits, "%04X", unit.unicode());
    out += digits;
  }
  return out + ">";
}

std::string points(double value) { return format_plain_number(value, 2); }

/// The objects of a file, and where they stand.
class PdfFile {
public:
  explicit PdfFile(std::string bytes) : bytes_(std::move(bytes)) {
    const std::size_t table = number_after(std::string_view(bytes_).substr(bytes_.rfind("startxref")), "startxref");
    if (bytes_.compare(table, 5, "xref\n") != 0) not_as_assumed("the table of objects is another");
    const std::size_t trailer = bytes_.find("trailer", table);
    if (trailer == std::string::npos) not_as_assumed("there is no trailer");
    const std::string_view end = std::string_view(bytes_).substr(trailer);
    const std::size_t count = number_after(end, "/Size");
    root_ = number_after(end, "/Root");
    info_ = number_after(end, "/Info");
    const std::size_t first = bytes_.find('\n', table + 5) + 1; // behind "0 count"
    constexpr std::size_t entry = 20;
    for (std::size_t i = 0; i < count; ++i) places_.push_back(number_with_zeros(first + i * entry));
    bytes_.resize(table);
  }

  std::size_t root() const { return root_; }
  std::size_t info() const { return info_; }
  std::size_t add_number() {
    places_.push_back(0);
    return places_.size() - 1;
  }

  /// Of a dictionary: all between `<<` and the last `>>`.
  std::string dictionary(std::size_t object) const {
    const std::size_t start = bytes_.find("<<", places_.at(object)), end = bytes_.find("endobj", places_[object]);
    if (start == std::string::npos || end == std::string::npos || start > end) not_as_assumed("an object is another");
    const std::size_t close = bytes_.rfind(">>", end);
    return bytes_.substr(start + 2, close - start - 2);
  }

  void write(std::size_t object, const std::string& dictionary) {
    places_.at(object) = bytes_.size();
    bytes_ += std::to_string(object) + " 0 obj\n<<" + dictionary + ">>\nendobj\n";
  }

  /// Takes out what is written from `key` to `end` in an object; it may be missing. Objects name one another by number,
  /// so only the table has to know that those behind it have moved.
  void take_out(std::size_t object, std::string_view key, char end) {
    const std::size_t object_end = bytes_.find("endobj", places_.at(object));
    const std::size_t start = bytes_.find(key, places_[object]);
    if (start > object_end) return;
    const std::size_t length = bytes_.find(end, start) + 1 - start;
    bytes_.erase(start, length);
    for (std::size_t& place : places_)
      if (place > start) place -= length;
  }

  std::string close() {
    const QByteArray digest =
        QCryptographicHash::hash(QByteArrayView(bytes_.data(), static_cast<qsizetype>(bytes_.size())),
                                 QCryptographicHash::Sha256)
            .toHex()
            .first(32);
    const std::string id = "<" + digest.toStdString() + ">";
    const std::size_t table = bytes_.size();
    bytes_ += "xref\n0 " + std::to_string(places_.size()) + "\n0000000000 65535 f \n";
    for (std::size_t i = 1; i < places_.size(); ++i) {
      char entry[21];
      std::snprintf(entry, sizeof entry, "%010zu 00000 n \n", places_[i]);
      bytes_ += entry;
    }
    bytes_ += "trailer\n<<\n/Size " + std::to_string(places_.size()) + "\n/Info " + reference(info_) + "\n/Root " +
              reference(root_) + "\n/ID [" + id + " " + id + "]\n>>\nstartxref\n" + std::to_string(table) + "\n%%EOF\n";
    return std::move(bytes_);
  }

private:
  std::size_t number_with_zeros(std::size_t at) const {
    if (at + 20 > bytes_.size()) not_as_assumed("the table of objects is short");
    return number_at(bytes_, at);
  }

  std::string bytes_;
  std::vector<std::size_t> places_; ///< by object
  std::size_t root_ = 0, info_ = 0;
};

std::vector<std::size_t> page_objects(const PdfFile& file, std::size_t count) {
  const std::string list = file.dictionary(number_after(file.dictionary(file.root()), "/Pages"));
  const std::size_t start = list.find("/Kids"), end = list.find(']', start);
  if (start == std::string::npos || end == std::string::npos) not_as_assumed("the list of pages is another");
  std::vector<std::size_t> objects;
  std::size_t at = list.find('[', start) + 1;
  while ((at = list.find_first_of("0123456789", at)) < end) {
    objects.push_back(number_at(list, at));
    at = list.find('R', at);
  }
  if (objects.size() != count) not_as_assumed("the count of pages is another");
  return objects;
}

class Marker {
public:
  Marker(PdfFile& file, const Pages& pages)
      : file_(file), pages_(pages), objects_(page_objects(file, pages.pages.size())) {
    const std::string page = file_.dictionary(objects_.front());
    std::size_t at = page.find("/MediaBox");
    if (at == std::string::npos) not_as_assumed("a page has no size");
    at = page.find('[', at) + 1; // 0 0 width height
    for (int skipped = 0; skipped < 3; ++skipped) at = page.find(' ', page.find_first_not_of(' ', at));
    height_ = static_cast<double>(number_at(page, at)); // in points; y is counted down from it
  }

  void add_links() {
    for (std::size_t i = 0; i < objects_.size(); ++i) {
      std::string list;
      for (const Link& link : pages_.pages[i].links) {
        const BookmarkPlace* place = find_section(link.section);
        if (place == nullptr) continue;
        const std::size_t object = file_.add_number();
        file_.write(object, "/Type /Annot /Subtype /Link /F 4 /Border [0 0 0] /Rect [" + points(across(link.at.x)) +
                                " " + points(up(link.at.y + link.height)) + " " +
                                points(across(link.at.x + link.width)) + " " + points(up(link.at.y)) + "] /Dest " +
                                destination(*place));
        list += reference(object) + " ";
      }
      if (!list.empty()) file_.write(objects_[i], without_annotations(objects_[i]) + "/Annots [" + list + "]\n");
    }
  }

  /// The object of the outline; sections with their parts below them.
  std::size_t add_outline() {
    const std::size_t outline = file_.add_number();
    std::vector<Entry> entries;
    for (const BookmarkPlace& place : pages_.bookmarks) entries.push_back({&place, file_.add_number(), {}});
    std::vector<std::size_t> top;
    for (std::size_t i = 0; i < entries.size(); ++i) {
      if (entries[i].place->bookmark.level <= 2 || top.empty())
        top.push_back(i);
      else
        entries[top.back()].parts.push_back(i);
    }
    write_siblings(entries, top, outline);
    for (const std::size_t i : top) write_siblings(entries, entries[i].parts, entries[i].object);
    file_.write(outline, "/Type /Outlines" + children(entries, top, static_cast<std::ptrdiff_t>(top.size())));
    return outline;
  }

private:
  struct Entry {
    const BookmarkPlace* place;
    std::size_t object;
    std::vector<std::size_t> parts;
  };

  static std::string children(const std::vector<Entry>& entries, const std::vector<std::size_t>& parts,
                              std::ptrdiff_t count) {
    if (parts.empty()) return "";
    return " /First " + reference(entries[parts.front()].object) + " /Last " + reference(entries[parts.back()].object) +
           " /Count " + std::to_string(count);
  }

  void write_siblings(const std::vector<Entry>& entries, const std::vector<std::size_t>& siblings, std::size_t parent) {
    for (std::size_t k = 0; k < siblings.size(); ++k) {
      const Entry& entry = entries[siblings[k]];
      std::string text = "/Title " + text_string(entry.place->bookmark.title) + " /Parent " + reference(parent) +
                         " /Dest " + destination(*entry.place);
      if (k > 0) text += " /Prev " + reference(entries[siblings[k - 1]].object);
      if (k + 1 < siblings.size()) text += " /Next " + reference(entries[siblings[k + 1]].object);
      // A count below zero: closed until it is opened.
      file_.write(entry.object,
                  text + children(entries, entry.parts, -static_cast<std::ptrdiff_t>(entry.parts.size())));
    }
  }

  /// The library names a list for each page, which is empty: no text was printed as a link.
  std::string without_annotations(std::size_t page) const {
    std::string dictionary = file_.dictionary(page);
    const std::size_t key = dictionary.find("/Annots");
    if (key != std::string::npos) {
      const std::size_t reference_end = dictionary.find('R', key);
      if (reference_end == std::string::npos) not_as_assumed("a page has links of its own");
      dictionary.erase(key, reference_end + 1 - key);
    }
    return dictionary;
  }

  const BookmarkPlace* find_section(std::size_t section) const {
    for (const BookmarkPlace& place : pages_.bookmarks)
      if (place.bookmark.section == section) return &place;
    return nullptr;
  }

  std::string destination(const BookmarkPlace& place) const {
    constexpr double above = 6; // units of air over the heading
    return "[" + reference(objects_[place.page]) + " /XYZ 0 " + points(up(place.y - above)) + " null]";
  }

  static double across(double x) { return x * points_per_unit; }
  double up(double y) const { return height_ - y * points_per_unit; }

  PdfFile& file_;
  const Pages& pages_;
  std::vector<std::size_t> objects_;
  double height_ = 0;
};

} // namespace

std::string finish_pdf(std::string printed, const Pages& pages, const std::string& language) {
  PdfFile file(std::move(printed));
  file.take_out(file.info(), "/CreationDate", ')'); // as long as the time zone makes it
  Marker marker(file, pages);
  marker.add_links();
  const std::size_t outline = marker.add_outline();
  file.write(file.root(), file.dictionary(file.root()) + "/Outlines " + reference(outline) +
                              "\n/PageMode /UseOutlines\n/Lang " + text_string(language) +
                              "\n/ViewerPreferences << /DisplayDocTitle true >>\n");
  return file.close();
}

} // namespace docket::pdf
