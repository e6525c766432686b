#include <cairo-pdf.h>

#include <cmath>
#include <cstdlib>
#include <ctime>

#include "render/finish.hpp"
#include "render/glyphs.hpp"
#include "render/links.hpp"
#include "render/paint.hpp"
#include "render/render.hpp"
#include "render/xml.hpp"

namespace towloom {
namespace {

constexpr double points_per_mm = 72 / 25.4;

cairo_status_t append(void* closure, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

struct Painter {
  cairo_t* cr;
  const Glyphs& glyphs;

  void source(Rgb c) { cairo_set_source_rgb(cr, c.r / 255.0, c.g / 255.0, c.b / 255.0); }

  // Fills and strokes the current path, and ends it.
  void ink(const Pen& pen, bool filled, Rgb fill) {
    if (filled) {
      source(fill);
      cairo_fill_preserve(cr);
    }
    if (pen.width > 0) {
      const std::vector<double> dash(pen.dash.begin(), pen.dash.end());
      source(pen.colour);
      cairo_set_line_width(cr, pen.width);
      cairo_set_dash(cr, dash.data(), static_cast<int>(dash.size()), 0);
      cairo_set_line_cap(cr, pen.round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
      cairo_set_line_join(cr, pen.round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
      cairo_stroke_preserve(cr);
    }
    cairo_new_path(cr);
  }

  void circle(Point p, Mm100 r) {
    cairo_new_sub_path(cr);
    cairo_arc(cr, p.x, p.y, r, 0, 6.283185307179586);
    cairo_close_path(cr);
  }

  void mark(const Mark& m) {
    if (const auto* d = std::get_if<Disc>(&m)) {
      circle(d->centre, d->radius);
      return ink(d->pen, d->filled, d->fill);
    }
    const Shape& s = std::get<Shape>(m);
    for (const PathStep& step : s.path) {
      switch (step.kind) {
        case PathStep::Kind::move:
          cairo_move_to(cr, step.a.x, step.a.y);
          break;
        case PathStep::Kind::line:
          cairo_line_to(cr, step.a.x, step.a.y);
          break;
        case PathStep::Kind::cubic:
          cairo_curve_to(cr, step.a.x, step.a.y, step.b.x, step.b.y, step.c.x, step.c.y);
          break;
        case PathStep::Kind::close:
          cairo_close_path(cr);
          break;
      }
    }
    ink(s.pen, s.filled, s.fill);
  }
  void marks(const std::vector<Mark>& all) {
    for (const Mark& m : all) mark(m);
  }
  void stroke(const Polyline& path, const Pen& pen) {
    if (pen.width > 0) mark(polyline(path, pen));
  }

  void operator()(const Decor& d) { marks(d.marks); }
  void operator()(const PartFigure& p) { marks(p.marks); }
  void operator()(const ContactFigure& c) { marks(c.marks); }
  void operator()(const LinkBar& b) { stroke(b.path, b.pen); }
  void operator()(const WireRun& w) {
    stroke(w.path, w.casing);
    stroke(w.path, w.core);
    stroke(w.path, w.tracer);
  }
  void operator()(const Junction& j) {
    circle(j.at, j.radius);
    ink({}, true, j.colour);
  }
  void operator()(const Label& l) { glyphs.show(cr, l); }
};

bool is_date(const std::string& t) {
  if (t.size() != 10 || t[4] != '-' || t[7] != '-') return false;
  for (size_t i : {0, 1, 2, 3, 5, 6, 8, 9})
    if (t[i] < '0' || t[i] > '9') return false;
  return true;
}

// Cairo would stamp the present time: the job's own date makes the bytes repeat, without one that of
// SOURCE_DATE_EPOCH (reproducible-builds.org), without both the first day of 1970.
std::string stamp(const std::string& created) {
  if (is_date(created)) return created + "T00:00:00Z";
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  char* end = nullptr;
  const long long seconds = epoch == nullptr ? 0 : std::strtoll(epoch, &end, 10);
  const bool usable = epoch != nullptr && end != epoch && *end == 0 && seconds >= 0 && seconds <= 253402300799;   // year 9999
  const std::time_t time = usable ? static_cast<std::time_t>(seconds) : 0;
  std::tm utc{};
  gmtime_r(&time, &utc);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &utc);
  return text;
}

void set_metadata(cairo_surface_t* surface, const PdfInfo& info) {
  const std::string date = stamp(info.created);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, info.title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_AUTHOR, info.author.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, info.subject.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "towloom");
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, date.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, date.c_str());
}

// "page=3 pos=[x y]" of Cairo's tags: points, from the top left of the page; never through the locale.
std::string target(int page, Point at) {
  const auto points = [](Mm100 v) { return std::to_string(std::lround(to_mm(v) * points_per_mm)); };
  return "page=" + std::to_string(page + 1) + " pos=[" + points(at.x) + " " + points(at.y) + "]";
}

void add_outline(cairo_surface_t* surface, const Drawing& page, int index) {
  const auto none = static_cast<cairo_pdf_outline_flags_t>(0);
  const std::string title = std::to_string(index + 1) + "  " + page.title;
  const int entry = cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, title.c_str(), target(index, {0, 0}).c_str(), none);
  for (const Bookmark& b : find_bookmarks(page))
    cairo_pdf_surface_add_outline(surface, entry, plain_text(b.text).c_str(), target(index, b.at).c_str(), none);
}

void paint_page(cairo_surface_t* surface, cairo_t* cr, const Drawing& page, int index, const Glyphs& glyphs) {
  cairo_pdf_surface_set_size(surface, to_mm(page.width) * points_per_mm, to_mm(page.height) * points_per_mm);
  cairo_pdf_surface_set_page_label(surface, std::to_string(index + 1).c_str());
  add_outline(surface, page, index);
  cairo_save(cr);
  cairo_scale(cr, points_per_mm / 100, points_per_mm / 100);
  Painter painter{cr, glyphs};
  for (const Item& item : page.items) std::visit(painter, item);
  cairo_restore(cr);
  cairo_show_page(cr);
}

// Cairo takes only UTF-8; job text that is none must not spoil the whole set.
Drawing clean(Drawing page) {
  page.title = plain_text(page.title);
  for (Item& item : page.items)
    if (auto* label = std::get_if<Label>(&item)) label->text = plain_text(label->text);
  return page;
}

std::string paint(const std::vector<Drawing>& pages, const PdfInfo& info, const Glyphs& glyphs, std::string& error) {
  std::string out;
  cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(
      append, &out, to_mm(pages[0].width) * points_per_mm, to_mm(pages[0].height) * points_per_mm);
  cairo_pdf_surface_restrict_to_version(surface, CAIRO_PDF_VERSION_1_5);
  set_metadata(surface, {plain_text(info.title), plain_text(info.author), plain_text(info.subject),
                         info.created, info.language});
  cairo_t* cr = cairo_create(surface);
  for (size_t i = 0; i < pages.size(); ++i) paint_page(surface, cr, clean(pages[i]), static_cast<int>(i), glyphs);
  cairo_status_t status = cairo_status(cr);
  cairo_destroy(cr);
  cairo_surface_finish(surface);
  if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(surface);
  cairo_surface_destroy(surface);
  if (status != CAIRO_STATUS_SUCCESS) return error = cairo_status_to_string(status), std::string();
  return out;
}

}  // namespace

std::string to_pdf(const std::vector<Drawing>& pages, const PdfInfo& info, std::string& error) {
  error.clear();
  if (pages.empty()) return error = "no pages", std::string();
  const Glyphs glyphs;
  if (!glyphs.error().empty()) return error = glyphs.error(), std::string();
  const std::string painted = paint(pages, info, glyphs, error);
  return error.empty() ? finish_pdf(painted, find_links(pages), info.language, error) : painted;
}

}  // namespace towloom
