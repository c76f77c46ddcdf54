#include "report/figures/svg.h"

#include "report/format.h"
#include "report/html/markup.h"

#include <set>

namespace docket {
namespace {

constexpr std::string_view dark = "#1d2125", mid = "#6b7177", light = "#c4c8cc";

std::string_view colour_of(Ink ink) {
  switch (ink) {
  case Ink::dark:
    return dark;
  case Ink::mid:
    return mid;
  case Ink::light:
    return light;
  }
  return dark;
}

std::string number(double value) { return format_plain_number(value, 2); }

std::string attribute(std::string_view name, std::string_view value) {
  return " " + std::string(name) + "=\"" + std::string(value) + "\"";
}

std::string paint_of(Fill fill, std::string_view id) {
  switch (fill) {
  case Fill::none:
    return "none";
  case Fill::white:
    return "#ffffff";
  case Fill::pale:
    return "#ececec";
  case Fill::grey:
    return "#9a9fa4";
  case Fill::dark:
    return std::string(dark);
  case Fill::hatch:
    return "url(#" + std::string(id) + "-hatch)";
  case Fill::dots:
    return "url(#" + std::string(id) + "-dots)";
  }
  return "none";
}

std::set<Fill> fills_in(const Drawing& drawing) {
  std::set<Fill> fills;
  for (const Shape& shape : drawing.shapes) {
    if (const auto* rectangle = std::get_if<RectangleShape>(&shape)) fills.insert(rectangle->fill);
    if (const auto* polyline = std::get_if<PolylineShape>(&shape)) fills.insert(polyline->fill);
  }
  return fills;
}

std::string patterns_for(const Drawing& drawing, std::string_view id) {
  const std::set<Fill> fills = fills_in(drawing);
  std::string out;
  if (fills.count(Fill::hatch) != 0) {
    out += "<pattern id=\"" + std::string(id) + "-hatch\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" " +
           "patternTransform=\"rotate(45)\"><rect width=\"5\" height=\"5\" fill=\"#ffffff\"/>" +
           "<line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"5\" stroke=\"" + std::string(dark) +
           "\" stroke-width=\"2\"/></pattern>";
  }
  if (fills.count(Fill::dots) != 0) {
    out += "<pattern id=\"" + std::string(id) + "-dots\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\">" +
           "<rect width=\"5\" height=\"5\" fill=\"#ffffff\"/><circle cx=\"2.5\" cy=\"2.5\" r=\"1\" fill=\"" +
           std::string(dark) + "\"/></pattern>";
  }
  return out.empty() ? out : "<defs>" + out + "</defs>\n";
}

struct ShapeWriter {
  std::string_view id;

  std::string operator()(const LineShape& line) const {
    return "<line" + attribute("x1", number(line.from.x)) + attribute("y1", number(line.from.y)) +
           attribute("x2", number(line.to.x)) + attribute("y2", number(line.to.y)) +
           attribute("stroke", colour_of(line.ink)) + attribute("stroke-width", number(line.width)) +
           (line.dashed ? attribute("stroke-dasharray", "5 3") : std::string()) + "/>";
  }

  std::string operator()(const RectangleShape& rectangle) const {
    return "<rect" + attribute("x", number(rectangle.at.x)) + attribute("y", number(rectangle.at.y)) +
           attribute("width", number(rectangle.width)) + attribute("height", number(rectangle.height)) +
           attribute("fill", paint_of(rectangle.fill, id)) +
           (rectangle.outlined ? attribute("stroke", dark) + attribute("stroke-width", "1") : std::string()) + "/>";
  }

  std::string operator()(const CircleShape& circle) const {
    if (circle.ink != Ink::dark) {
      return "<circle" + attribute("cx", number(circle.centre.x)) + attribute("cy", number(circle.centre.y)) +
             attribute("r", number(circle.radius)) + attribute("fill", colour_of(circle.ink)) + "/>";
    }
    return "<circle" + attribute("cx", number(circle.centre.x)) + attribute("cy", number(circle.centre.y)) +
           attribute("r", number(circle.radius)) + attribute("fill", circle.filled ? dark : "#ffffff") +
           attribute("stroke", dark) + attribute("stroke-width", "1.6") + "/>";
  }

  std::string operator()(const PolylineShape& polyline) const {
    std::string points;
    for (const Point& point : polyline.points) {
      if (!points.empty()) points += ' ';
      points += number(point.x) + "," + number(point.y);
    }
    if (polyline.fill != Fill::none) {
      return "<polygon" + attribute("points", points) + attribute("fill", paint_of(polyline.fill, id)) + "/>";
    }
    return "<polyline" + attribute("points", points) + attribute("fill", "none") +
           attribute("stroke", colour_of(polyline.ink)) + attribute("stroke-width", number(polyline.width)) +
           attribute("stroke-linejoin", "round") +
           (polyline.dashed ? attribute("stroke-dasharray", "4 3") : std::string()) + "/>";
  }

  std::string operator()(const TextShape& text) const {
    static constexpr std::string_view anchors[] = {"start", "middle", "end"};
    return "<text" + attribute("x", number(text.at.x)) + attribute("y", number(text.at.y)) +
           attribute("font-size", number(text.size)) +
           attribute("text-anchor", anchors[static_cast<std::size_t>(text.anchor)]) +
           (text.strong ? attribute("font-weight", "600") : std::string()) + attribute("fill", colour_of(text.ink)) +
           ">" + escape_running_text(text.text) + "</text>";
  }
};

} // namespace

std::string write_svg(const Drawing& drawing, std::string_view id, std::string_view title,
                      std::string_view description) {
  const std::string name(id);
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\"" +
                    attribute("viewBox", "0 0 " + number(drawing.width) + " " + number(drawing.height)) +
                    attribute("role", "img") + attribute("aria-labelledby", name + "-title " + name + "-desc") + ">\n";
  out += "<title id=\"" + name + "-title\">" + escape_markup(title) + "</title>\n";
  out += "<desc id=\"" + name + "-desc\">" + escape_markup(description) + "</desc>\n";
  out += patterns_for(drawing, id);
  for (const Shape& shape : drawing.shapes) out += std::visit(ShapeWriter{id}, shape) + "\n";
  return out + "</svg>\n";
}

} // namespace docket
