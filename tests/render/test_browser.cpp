// A sheet in a browser looks as librsvg draws it, on a machine with the sheet face and on one without.
#include <cairo.h>

#include <cmath>
#include <cstdint>
#include <cstring>
#include <iostream>
#include <optional>

#include "outside.hpp"

using namespace towloom::test;
namespace fs = std::filesystem;

namespace {

// Mean grey of squares of 8 x 8 dots: where ink lies, without the edge of every letter.
struct Picture {
  int wide = 0, high = 0;
  std::vector<double> grey;
};
std::optional<Picture> read_png(const std::string& file) {
  cairo_surface_t* surface = cairo_image_surface_create_from_png(file.c_str());
  if (cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS) return cairo_surface_destroy(surface), std::nullopt;
  constexpr int square = 8;
  Picture out{cairo_image_surface_get_width(surface) / square, cairo_image_surface_get_height(surface) / square, {}};
  const unsigned char* data = cairo_image_surface_get_data(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  for (int y = 0; y < out.high; ++y)
    for (int x = 0; x < out.wide; ++x) {
      double sum = 0;
      for (int dy = 0; dy < square; ++dy)
        for (int dx = 0; dx < square; ++dx) {
          std::uint32_t pixel = 0;
          std::memcpy(&pixel, data + (y * square + dy) * stride + (x * square + dx) * 4, 4);
          sum += 0.299 * (pixel >> 16 & 255) + 0.587 * (pixel >> 8 & 255) + 0.114 * (pixel & 255);   // ITU-R BT.601
        }
      out.grey.push_back(sum / (square * square));
    }
  cairo_surface_destroy(surface);
  return out;
}

std::string browser() {
  for (const char* name : {"chromium", "chromium-browser", "google-chrome"})
    if (run(std::string("command -v ") + name).status == 0) return name;
  return "";
}

std::optional<Picture> screenshot(const std::string& svg, const std::string& fonts) {
  static int number = 0;
  const std::string shot = folder() + "/browser" + std::to_string(++number) + ".png";
  run(fonts + "timeout 120 " + browser() +
      " --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --hide-scrollbars --force-device-scale-factor=1 --window-size=1123,794 --user-data-dir=" +
      folder() + "/browser --screenshot=" + shot + " file://" + svg);
  return read_png(shot);
}

struct Difference {
  double mean = 0, most = 0;
};
Difference difference(const Picture& a, const Picture& b) {
  REQUIRE(a.wide == b.wide);
  REQUIRE(a.high == b.high);
  Difference out;
  for (size_t i = 0; i < a.grey.size(); ++i) {
    const double d = std::fabs(a.grey[i] - b.grey[i]);
    out.mean += d / static_cast<double>(a.grey.size());
    out.most = std::max(out.most, d);
  }
  return out;
}

}  // namespace

TEST_CASE("a browser shows the bench sheet as librsvg does, with and without the sheet face on the machine") {
  if (browser().empty()) return std::cerr << "SKIPPED: no browser here; .ci/setup tests installs chromium\n", void();
  const std::string trial = save("trial.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\"/>");
  if (!screenshot(trial, "")) return std::cerr << "SKIPPED: the browser does not run here, not even on an empty picture\n", void();
  REQUIRE(run(TOWLOOM_BINARY " draw specs/jobs/plain-hatchback.yaml -o " + folder()).status == 0);
  const std::string svg = folder() + "/plain-hatchback-bench.svg", png = svg + ".96.png";
  REQUIRE(run("rsvg-convert --dpi-x 96 --dpi-y 96 " + svg + " -o " + png).status == 0);
  const auto librsvg = read_png(png), shown = screenshot(svg, ""), lent = screenshot(svg, fonts_only("/usr/share/fonts/truetype/dejavu"));
  REQUIRE(librsvg);
  REQUIRE(shown);
  REQUIRE(lent);
  // A white page against the sheet differs by 8 in the mean and 250 at most: a face, a line or a letter that is
  // missing or moved by its own width shows in the most, all moved together in the mean.
  const Picture blank{librsvg->wide, librsvg->high, std::vector<double>(librsvg->grey.size(), 255)};
  const double ink = difference(*librsvg, blank).mean;
  const Difference browser_differs = difference(*librsvg, *shown), face_differs = difference(*shown, *lent);
  CAPTURE(ink);
  CAPTURE(browser_differs.mean);
  CAPTURE(browser_differs.most);
  CAPTURE(face_differs.mean);
  CHECK(browser_differs.mean < ink / 10);
  CHECK(browser_differs.most < 64);
  // The same machine with the embedded face taken out shows the stand-in: with it the sheet must be far nearer to the
  // true face (the edges of letters still differ: such a machine smooths them by other rules).
  std::string without_face = bytes_of(svg);
  for (size_t at = without_face.find("@font-face{"); at != std::string::npos; at = without_face.find("@font-face{"))
    without_face.erase(at, without_face.find('}', at) + 1 - at);
  const std::string bare = save("bare.svg", without_face);
  const auto stand_in = screenshot(bare, fonts_only("/usr/share/fonts/truetype/dejavu"));
  REQUIRE(stand_in);
  const Difference without = difference(*shown, *stand_in);
  CAPTURE(without.mean);
  CHECK(without.mean > 0.5);
  CHECK(face_differs.mean < without.mean / 2);
}
