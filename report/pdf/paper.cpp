#include "report/pdf/paper.h"

#include "core/error.h"
#include "report/html/markup.h"
#include "report/wording/pdf.h"

#include <QBuffer>
#include <QFile>
#include <QFontDatabase>
#include <QFontMetricsF>
#include <QGuiApplication>
#include <QHashSeed>
#include <QPainter>
#include <QPainterPath>
#include <QPdfWriter>
#include <QTemporaryDir>
#include <array>
#include <clocale>
#include <cmath>
#include <unordered_map>

// Outside the namespace, as the macro demands.
static void load_bundled_fonts() { Q_INIT_RESOURCE(fonts); }

namespace docket::pdf {
namespace {

[[noreturn]] void could_not_start(const std::string& what_happened) {
  throw Error(ErrorKind::could_not_be_done, "casefile.pdf", what_happened,
              "Give --only html,json to do without it. Nothing was written.");
}

/// A variable of the environment that is another while this lives.
class Setting {
public:
  Setting(const char* name, const QByteArray& value)
      : name_(name), was_set_(qEnvironmentVariableIsSet(name)), former_(qgetenv(name)) {
    qputenv(name, value);
  }
  Setting(const Setting&) = delete;
  Setting& operator=(const Setting&) = delete;
  ~Setting() {
    if (was_set_)
      qputenv(name_, former_);
    else
      qunsetenv(name_);
  }

private:
  const char* name_;
  bool was_set_;
  QByteArray former_;
};

/// What the library says of the machine (no runtime folder, no UTF-8) is of no concern to whoever reads a case.
void say_nothing(QtMsgType, const QMessageLogContext&, const QString&) {}

class Silence {
public:
  Silence() : former_(qInstallMessageHandler(say_nothing)) {}
  Silence(const Silence&) = delete;
  Silence& operator=(const Silence&) = delete;
  ~Silence() { qInstallMessageHandler(former_); }

private:
  QtMessageHandler former_;
};

/// The library's application sets the locale of the process, by which others read and print numbers.
class KeptLocale {
public:
  KeptLocale() : former_(std::setlocale(LC_ALL, nullptr)) {}
  KeptLocale(const KeptLocale&) = delete;
  KeptLocale& operator=(const KeptLocale&) = delete;
  ~KeptLocale() { std::setlocale(LC_ALL, former_.c_str()); }

private:
  std::string former_;
};

/// A folder of this run alone, and in it a list of fonts that has none: those of the machine stay unseen.
class EmptyPlace {
public:
  EmptyPlace() {
    QFile fonts(folder_.filePath("fonts.conf"));
    if (!folder_.isValid() || !fonts.open(QIODevice::WriteOnly) || fonts.write("<fontconfig/>\n") < 0)
      could_not_start("No temporary folder can be made for the work on it.");
  }
  QByteArray path() const { return folder_.path().toUtf8(); }

private:
  QTemporaryDir folder_;
};

/// All that must be there before a letter can be measured.
class PrintShop {
public:
  PrintShop() {
    for (const char* file : {":/pdf/DejaVuSans.ttf", ":/pdf/DejaVuSans-Bold.ttf"})
      if (QFontDatabase::addApplicationFont(file) < 0) could_not_start("The bundled letters can't be loaded.");
  }

private:
  // In this order: each needs those before it.
  Silence silence_;
  KeptLocale locale_;
  EmptyPlace place_;
  Setting runtime_{"XDG_RUNTIME_DIR", place_.path()};
  Setting root_{"FONTCONFIG_SYSROOT", place_.path()}; // all files of it are looked for below this one
  Setting fonts_{"FONTCONFIG_FILE", "/fonts.conf"};
  std::array<char, 7> name_{"docket"};
  std::array<char, 10> option_{"-platform"};
  std::array<char, 10> platform_{"offscreen"};
  std::array<char*, 4> words_{name_.data(), option_.data(), platform_.data(), nullptr};
  int count_ = 3;
  QGuiApplication application_{count_, words_.data()};
};

QFont font_of(double size, bool strong) {
  QFont font("DejaVu Sans");
  font.setPixelSize(static_cast<int>(std::lround(size * dots_per_unit)));
  font.setBold(strong);
  font.setHintingPreference(QFont::PreferNoHinting);
  font.setStyleStrategy(QFont::NoFontMerging);
  font.setKerning(false);
  // The smallest spacing there is: with it letters are never joined, so that a search finds every word.
  font.setLetterSpacing(QFont::AbsoluteSpacing, 1.0 / 64);
  return font;
}

char32_t code_at(const QString& text, qsizetype i) {
  return text[i].isHighSurrogate() && i + 1 < text.size() ? QChar::surrogateToUcs4(text[i], text[i + 1])
                                                          : text[i].unicode();
}

/// Fonts by size and weight, with the widths of the words measured so far.
class Letters {
public:
  explicit Letters(QPdfWriter& writer) : writer_(writer) {}

  double width(std::string_view text, const TextLook& look) {
    Face& face = face_of(look.size, look.strong);
    const auto [found, fresh] = face.widths.try_emplace(std::string(text), 0.0);
    if (fresh) found->second = face.metrics.horizontalAdvance(printable(text, face)) / dots_per_unit;
    return found->second;
  }

  const QFont& font(double size, bool strong) { return face_of(size, strong).font; }

  /// The text with the sign for a lacking letter in its place.
  QString printable(std::string_view text, double size, bool strong) { return printable(text, face_of(size, strong)); }

private:
  struct Face {
    QFont font;
    QFontMetricsF metrics;
    std::unordered_map<std::string, double> widths;
  };

  static QString printable(std::string_view text, const Face& face) {
    const QString whole = QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
    QString out;
    for (qsizetype i = 0; i < whole.size(); ++i) {
      const char32_t code = code_at(whole, i);
      if (face.metrics.inFontUcs4(code))
        out += QString::fromUcs4(&code, 1);
      else
        out += QString::fromUtf8(wording::sign_without_letter.data());
      if (code > 0xFFFFU) ++i;
    }
    return out;
  }

  Face& face_of(double size, bool strong) {
    const int pixels = static_cast<int>(std::lround(size * dots_per_unit)) * 2 + (strong ? 1 : 0);
    const auto found = faces_.find(pixels);
    if (found != faces_.end()) return found->second;
    const QFont font = font_of(size, strong);
    return faces_.emplace(pixels, Face{font, QFontMetricsF(font, &writer_), {}}).first->second;
  }

  QPdfWriter& writer_;
  std::unordered_map<int, Face> faces_;
};

constexpr QColor dark(0x1d, 0x21, 0x25), mid(0x6b, 0x71, 0x77), light(0xc4, 0xc8, 0xcc);

QColor colour_of(Ink ink) { return ink == Ink::dark ? dark : ink == Ink::mid ? mid : light; }

QPointF dots(Point point) { return {point.x * dots_per_unit, point.y * dots_per_unit}; }

/// Draws what report/figures/svg.cpp writes as SVG: the same inks, widths and patterns.
class ShapePainter {
public:
  ShapePainter(QPainter& painter, Letters& letters) : painter_(painter), letters_(letters) {}

  bool lacked_a_letter() const { return lacked_; }

  void operator()(const LineShape& line) {
    painter_.setPen(pen(line.width, line.ink, line.dashed ? 5 : 0));
    painter_.drawLine(dots(line.from), dots(line.to));
  }

  void operator()(const RectangleShape& rectangle) {
    const QRectF area(dots(rectangle.at), QSizeF(rectangle.width, rectangle.height) * dots_per_unit);
    QPainterPath path;
    path.addRect(area);
    fill(path, rectangle.fill);
    if (!rectangle.outlined) return;
    QPen outline = pen(1, Ink::dark, 0);
    outline.setJoinStyle(Qt::MiterJoin);
    painter_.setPen(outline);
    painter_.setBrush(Qt::NoBrush);
    painter_.drawRect(area);
  }

  void operator()(const CircleShape& circle) {
    const bool plain = circle.ink != Ink::dark;
    painter_.setPen(plain ? QPen(Qt::NoPen) : pen(1.6, Ink::dark, 0));
    painter_.setBrush(plain ? colour_of(circle.ink) : circle.filled ? dark : QColor(Qt::white));
    painter_.drawEllipse(dots(circle.centre), circle.radius * dots_per_unit, circle.radius * dots_per_unit);
  }

  void operator()(const PolylineShape& polyline) {
    QPolygonF points;
    for (const Point& point : polyline.points) points << dots(point);
    if (polyline.fill != Fill::none) {
      QPainterPath path;
      path.addPolygon(points);
      path.closeSubpath();
      fill(path, polyline.fill);
      return;
    }
    painter_.setPen(pen(polyline.width, polyline.ink, polyline.dashed ? 4 : 0));
    painter_.drawPolyline(points);
  }

  void operator()(const TextShape& text) {
    const QString words = letters_.printable(text.text, text.size, text.strong);
    const QString sign = QString::fromUtf8(wording::sign_without_letter.data());
    lacked_ = lacked_ || (words.contains(sign) && text.text.find(wording::sign_without_letter) == std::string::npos);
    const double width = text.anchor == Anchor::start ? 0 : letters_.width(text.text, {text.size, text.strong});
    const double x = text.at.x - (text.anchor == Anchor::middle ? width / 2 : width);
    painter_.setPen(colour_of(text.ink));
    painter_.setFont(letters_.font(text.size, text.strong));
    painter_.drawText(dots({x, text.at.y}), words);
  }

private:
  static QPen pen(double width, Ink ink, double dash) {
    QPen pen(colour_of(ink), width * dots_per_unit, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin);
    if (dash > 0) pen.setDashPattern({dash / width, 3 / width});
    return pen;
  }

  void fill(const QPainterPath& path, Fill fill) {
    static constexpr QColor pale(0xec, 0xec, 0xec), grey(0x9a, 0x9f, 0xa4);
    if (fill == Fill::none) return;
    painter_.fillPath(path, fill == Fill::pale   ? pale
                            : fill == Fill::grey ? grey
                            : fill == Fill::dark ? dark
                                                 : Qt::white);
    if (fill != Fill::hatch && fill != Fill::dots) return;
    painter_.save();
    painter_.setClipPath(path);
    const QRectF area = path.boundingRect();
    fill == Fill::hatch ? draw_hatch(area) : draw_dots(area);
    painter_.restore();
  }

  static constexpr double pitch = 5.0 * dots_per_unit;

  void draw_hatch(const QRectF& area) {
    painter_.setPen(pen(1, Ink::dark, 0));
    const double step = pitch * std::sqrt(2.0), height = area.height();
    for (double x = std::floor((area.left() + area.top()) / step) * step - area.top(); x < area.right() + height;
         x += step)
      painter_.drawLine(QPointF(x, area.top()), QPointF(x - height, area.bottom()));
  }

  void draw_dots(const QRectF& area) {
    painter_.setPen(Qt::NoPen);
    painter_.setBrush(dark);
    for (double y = (std::floor(area.top() / pitch) + 0.5) * pitch; y < area.bottom() + pitch; y += pitch)
      for (double x = (std::floor(area.left() / pitch) + 0.5) * pitch; x < area.right() + pitch; x += pitch)
        painter_.drawEllipse(QPointF(x, y), dots_per_unit, dots_per_unit);
  }

  QPainter& painter_;
  Letters& letters_;
  bool lacked_ = false;
};

/// Without days: the file has no clock.
QByteArray metadata(const std::string& title) {
  const std::string text =
      "<?xpacket begin='' id='W5M0MpCehiHzreSzNTczkc9d'?>\n"
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
      " <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
      "  <rdf:Description xmlns:dc=\"http://purl.org/dc/elements/1.1/\" rdf:about=\"\">\n"
      "   <dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">" +
      escape_markup(title) +
      "</rdf:li></rdf:Alt></dc:title>\n"
      "  </rdf:Description>\n"
      "  <rdf:Description xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" rdf:about=\"\" "
      "xmp:CreatorTool=\"Station Docket\"/>\n"
      "  <rdf:Description xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" rdf:about=\"\" pdf:Producer=\"Qt " +
      std::string(qVersion()) +
      "\"/>\n"
      "  <rdf:Description xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\" rdf:about=\"\" pdfaid:part=\"1\" "
      "pdfaid:conformance=\"B\"/>\n"
      " </rdf:RDF>\n"
      "</x:xmpmeta>\n"
      "<?xpacket end='w'?>\n";
  return QByteArray::fromStdString(text);
}

void add_note_on_signs(ShapePainter& paint) {
  constexpr double size = 8.6, baseline = page_height - 10.5 * units_per_mm;
  paint(TextShape{
      {page_left, baseline}, std::string(wording::sign_without_letter_note), Anchor::start, size, false, Ink::mid});
}

} // namespace

std::string print_pages(const std::string& title, const std::function<Pages(const MeasureText&)>& lay_out) {
  QHashSeed::setDeterministicGlobalSeed(); // fonts are written in the order of a hash table
  load_bundled_fonts();
  const PrintShop shop;
  QBuffer bytes;
  bytes.open(QIODevice::WriteOnly);
  {
    QPdfWriter writer(&bytes);
    writer.setPdfVersion(QPagedPaintDevice::PdfVersion_A1b);
    writer.setResolution(dots_per_inch);
    writer.setPageSize(QPageSize(QPageSize::A4));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    writer.setTitle(QString::fromStdString(title));
    writer.setCreator("Station Docket");
    writer.setDocumentXmpMetadata(metadata(title));
    Letters letters(writer);
    const Pages pages = lay_out([&](std::string_view text, const TextLook& look) { return letters.width(text, look); });
    QPainter painter(&writer);
    for (const Page& page : pages.pages) {
      if (&page != &pages.pages.front()) writer.newPage();
      ShapePainter paint(painter, letters);
      for (const Shape& shape : page.shapes) std::visit(paint, shape);
      if (paint.lacked_a_letter()) add_note_on_signs(paint);
    }
    if (!painter.end()) could_not_start("The pages can't be printed.");
  }
  QHashSeed::resetRandomGlobalSeed();
  return bytes.data().toStdString();
}

std::vector<std::string> signs_without_letter(std::string_view text) {
  load_bundled_fonts();
  const PrintShop shop;
  const QFontMetricsF plain(font_of(10, false)), strong(font_of(10, true));
  const QString whole = QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
  QList<char32_t> lacking;
  for (qsizetype i = 0; i < whole.size(); ++i) {
    const char32_t code = code_at(whole, i);
    if (code > 0xFFFFU) ++i;
    if (code < 0x20U || (plain.inFontUcs4(code) && strong.inFontUcs4(code)) || lacking.contains(code)) continue;
    lacking.append(code);
  }
  std::vector<std::string> signs;
  for (const char32_t code : lacking) signs.push_back(QString::fromUcs4(&code, 1).toStdString());
  return signs;
}

} // namespace docket::pdf
