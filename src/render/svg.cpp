// The SVG contract: what is drawn can be read back. Geometry absolute in mm; meaning in data
// attributes.
#include <algorithm>
#include <map>

#include "drawing/text.hpp"
#include "drawing/utf8.hpp"
#include "render/paint.hpp"
#include "render/render.hpp"
#include "render/xml.hpp"

namespace towloom {
namespace {

constexpr const char* sheet_style =
    "text{font-family:Inter,'Liberation Sans',Arial,Helvetica,'DejaVu Sans',sans-serif;font-kerning:none;"
    "font-feature-settings:'kern' 0,'calt' 0;white-space:pre}"
    ".body,.terminal{fill:none;stroke:none}"
    ".run,.casing,.tracer,.link{fill:none}";

std::string xy(Point p) { return mm_text(p.x) + " " + mm_text(p.y); }

// M, then H and V; L only where a line is neither.
std::string line_data(const Polyline& points) {
  std::string out;
  for (size_t i = 0; i < points.size(); ++i) {
    if (i > 0) out += " ";
    if (i == 0)
      out += "M " + xy(points[i]);
    else if (points[i].y == points[i - 1].y)
      out += "H " + mm_text(points[i].x);
    else if (points[i].x == points[i - 1].x)
      out += "V " + mm_text(points[i].y);
    else
      out += "L " + xy(points[i]);
  }
  return out;
}

std::string path_data(const std::vector<PathStep>& steps) {
  std::string out;
  for (const PathStep& s : steps) {
    if (!out.empty()) out += " ";
    switch (s.kind) {
      case PathStep::Kind::move:
        out += "M " + xy(s.a);
        break;
      case PathStep::Kind::line:
        out += "L " + xy(s.a);
        break;
      case PathStep::Kind::cubic:
        out += "C " + xy(s.a) + " " + xy(s.b) + " " + xy(s.c);
        break;
      case PathStep::Kind::close:
        out += "Z";
        break;
    }
  }
  return out;
}

std::string stroke(const Pen& pen) {
  if (pen.width == 0) return " stroke=\"none\"";
  std::string out =
      " stroke=\"" + colour_text(pen.colour) + "\" stroke-width=\"" + mm_text(pen.width) + "\"";
  if (pen.round) out += " stroke-linecap=\"round\" stroke-linejoin=\"round\"";
  for (size_t i = 0; i < pen.dash.size(); ++i)
    out += (i == 0 ? " stroke-dasharray=\"" : " ") + mm_text(pen.dash[i]);
  return pen.dash.empty() ? out : out + "\"";
}

std::string fill(bool filled, Rgb colour) {
  return filled ? " fill=\"" + colour_text(colour) + "\"" : " fill=\"none\"";
}

std::string circle_at(Point p, Mm100 r) {
  return " cx=\"" + mm_text(p.x) + "\" cy=\"" + mm_text(p.y) + "\" r=\"" + mm_text(r) + "\"";
}

std::string rect_at(Rect r) {
  return " x=\"" + mm_text(r.x) + "\" y=\"" + mm_text(r.y) + "\" width=\"" + mm_text(r.w) +
         "\" height=\"" + mm_text(r.h) + "\"";
}

struct Writer {
  std::string out{};
  std::map<std::string, int> ids{};
  TextMeasure measure{};

  // Unique in this file: a second piece of a wire on one page gets "-2".
  std::string id(const std::string& prefix, const std::string& name) {
    const std::string base = prefix + xml_id(name);
    const int count = ++ids[base];
    return attribute("id", count == 1 ? base : base + "-" + std::to_string(count));
  }

  void mark(const Mark& m) {
    if (const auto* d = std::get_if<Disc>(&m)) {
      out += "<circle" + circle_at(d->centre, d->radius) + fill(d->filled, d->fill) +
             stroke(d->pen) + "/>\n";
      return;
    }
    const Shape& s = std::get<Shape>(m);
    out +=
        "<path d=\"" + path_data(s.path) + "\"" + fill(s.filled, s.fill) + stroke(s.pen) + "/>\n";
  }
  void marks(const std::vector<Mark>& all) {
    for (const Mark& m : all) mark(m);
  }

  void operator()(const Decor& d) {
    out += "<g class=\"decor\">\n";
    marks(d.marks);
    out += "</g>\n";
  }

  void wire_path(const char* name, const Polyline& path, const Pen& pen) {
    out += std::string("<path class=\"") + name + "\" d=\"" + line_data(path) + "\"" + stroke(pen) +
           "/>\n";
  }

  void operator()(const WireRun& w) {
    out += "<g class=\"wire\"" + id("wire-", w.wire) + attribute("data-wire", w.wire) +
           attribute("data-net", w.net) + attribute("data-from", w.from) +
           attribute("data-to", w.to) + attribute("data-colour", w.colour) +
           attribute("data-size", w.size) + attribute("data-status", w.status);
    if (w.pieces > 1)
      out += attribute("data-piece", std::to_string(w.piece) + "/" + std::to_string(w.pieces));
    out += ">\n";
    if (w.casing.width > 0) wire_path("casing", w.path, w.casing);
    wire_path("run", w.path, w.core);  // the centre line is what is seen: the core
    if (w.tracer.width > 0) wire_path("tracer", w.path, w.tracer);
    out += "</g>\n";
  }

  void operator()(const LinkBar& b) {
    out += "<path class=\"link\"" + attribute("data-part", b.part) + attribute("data-net", b.net) +
           " d=\"" + line_data(b.path) + "\"" + stroke(b.pen) + "/>\n";
  }

  void operator()(const PartFigure& p) {
    out += "<g class=\"part\"" + id("part-", p.unit.empty() ? p.part : p.part + "-" + p.unit) +
           attribute("data-part", p.part) + attribute("data-kind", p.kind);
    if (p.kind == "reference") {
      if (!p.pins.empty()) out += attribute("data-net", p.pins.front().net);
      out += attribute("data-to", p.value);
    } else {
      out += attribute("data-value", p.value);
    }
    if (!p.unit.empty()) out += attribute("data-unit", p.unit);
    if (!p.joins.empty()) out += attribute("data-joins", p.joins);
    if (p.repeat) out += " data-repeat=\"true\"";
    out += ">\n";
    if (!p.title.empty()) out += "<title>" + xml_escape(p.title) + "</title>\n";
    out += "<rect class=\"body\"" + rect_at(p.body) + "/>\n";
    marks(p.marks);
    for (const Pin& pin : p.pins)
      out += "<circle class=\"terminal\"" + attribute("data-terminal", pin.terminal) +
             attribute("data-net", pin.net) + circle_at(pin.at, terminal_radius) + "/>\n";
    out += "</g>\n";
  }

  void operator()(const Junction& j) {
    out += "<circle class=\"junction\"" + attribute("data-net", j.net) + circle_at(j.at, j.radius) +
           fill(true, j.colour) + "/>\n";
  }

  void operator()(const ContactFigure& c) {
    out += "<g class=\"contact\"" + attribute("data-connector", c.connector) +
           attribute("data-contact", c.contact) + attribute("data-function", c.function) +
           attribute("data-view", c.view) + ">\n";
    marks(c.marks);
    out += "</g>\n";
  }

  // One tspan a word. A single word keeps its anchor, so that another face stays centred; several stand where
  // no face lets them touch, a blank between for search and copying.
  void operator()(const Label& l) {
    out += l.decoration ? "<text class=\"decor\"" : "<text class=\"label\"";
    if (!l.about.empty()) out += attribute("data-for", l.about);
    const auto words = words_of(l.text);
    const bool single = words.size() == 1 && words[0].text.size() == l.text.size();
    out += " y=\"" + mm_text(l.at.y) + "\" font-size=\"" + mm_text(l.size) + "\" fill=\"" +
           colour_text(l.colour) + "\"";
    if (l.weight == Weight::semibold) out += " font-weight=\"600\"";
    if (single && l.anchor != Anchor::start)
      out += l.anchor == Anchor::end ? " text-anchor=\"end\"" : " text-anchor=\"middle\"";
    out += ">";
    const auto places = measure.word_places(l.text, l.size, l.weight);
    const Mm100 wide = std::max(places.back(), measure.width(l.text, l.size, l.weight));
    const Mm100 left = single || l.anchor == Anchor::start ? l.at.x : l.at.x - (l.anchor == Anchor::middle ? wide / 2 : wide);
    for (size_t i = 0; i < words.size(); ++i) {
      const Mm100 x = left + places[i];
      out += (i > 0 ? " <tspan x=\"" : "<tspan x=\"") + mm_text(x) + "\">" +
             xml_escape(words[i].text) + "</tspan>";
    }
    out += "</text>\n";
  }
};

}  // namespace

std::string to_svg(const Drawing& drawing) {
  Writer writer;
  const std::string w = mm_text(drawing.width), h = mm_text(drawing.height);
  writer.out =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
      "width=\"" +
      w + "mm\" height=\"" + h + "mm\" viewBox=\"0 0 " + w + " " + h +
      "\" role=\"img\" aria-labelledby=\"sheet-title sheet-desc\"" +
      attribute("data-sheet", drawing.sheet) + attribute("data-job", drawing.job) +
      ">\n<title id=\"sheet-title\">" + xml_escape(drawing.title) +
      "</title>\n<desc id=\"sheet-desc\">" + xml_escape(drawing.description) + "</desc>\n<style>" +
      sheet_style + "</style>\n<rect class=\"paper\" width=\"" + w + "\" height=\"" + h +
      "\" fill=\"#ffffff\"/>\n";
  for (const Item& item : drawing.items) std::visit(writer, item);
  return writer.out + "</svg>\n";
}

}  // namespace towloom
