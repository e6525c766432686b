// Random moves of one vertex, pin or label of a clean drawing. When a criterion that shares nothing
// with the proof says that the move matters, the proof must find a defect.
#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <stdexcept>

#include "prove/drawn.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {
int pick(std::mt19937& dice, int count) {
  return static_cast<int>(dice() % static_cast<unsigned>(count));
}

Point shift(std::mt19937& dice) {
  const Mm100 step = mm(0.5) * (1 + pick(dice, 20));
  const Point ways[] = {{step, 0}, {-step, 0}, {0, step}, {0, -step}};
  return ways[pick(dice, 4)];
}
}  // namespace

TEST_CASE("an end or a bend moved off its place is found") {
  std::mt19937 dice(1);
  int mattered = 0;
  for (int i = 0; i < 400; ++i) {
    Example e = example();
    WireRun& run = item<WireRun>(e, pick(dice, 6));
    const int vertex = pick(dice, static_cast<int>(run.path.size()));
    const Point before = run.path[static_cast<size_t>(vertex)], by = shift(dice);
    run.path[static_cast<size_t>(vertex)] = {before.x + by.x, before.y + by.y};
    // Every vertex here is an end, which must stay on its pin, or the only bend of an angle, whose
    // neighbours do not follow: any move matters.
    ++mattered;
    CAPTURE(run.wire);
    CAPTURE(vertex);
    CHECK_FALSE(proved(e).empty());
  }
  CHECK(mattered == 400);
}

TEST_CASE("a pin moved away from its wire is found") {
  std::mt19937 dice(2);
  for (int i = 0; i < 200; ++i) {
    Example e = example();
    PartFigure& figure = item<PartFigure>(e, pick(dice, 8));
    Pin& pin = figure.pins[static_cast<size_t>(pick(dice, static_cast<int>(figure.pins.size())))];
    const Point by = shift(dice);
    pin.at = {pin.at.x + by.x, pin.at.y + by.y};
    CAPTURE(pin.terminal);
    CHECK_FALSE(proved(e).empty());  // every pin of the example bears a wire
  }
}

TEST_CASE("a label moved onto something, or away from its wire, is found") {
  std::mt19937 dice(3);
  // Ink of the example in whole millimetres as x0 y0 x1 y1, written down by hand: what must stay
  // clear.
  const std::vector<std::vector<double>> parts = {
      {35, 45, 40, 55},   {120, 45, 130, 55}, {120, 65, 130, 75}, {155, 45, 160, 55},
      {155, 65, 160, 75}, {55, 30, 65, 35},   {55, 80, 65, 85}};
  const std::vector<std::vector<double>> wires = {
      {40, 50, 80, 50},   {80, 50, 120, 50},  {80, 50, 80, 70}, {80, 70, 120, 70},
      {130, 50, 155, 50}, {130, 70, 155, 70}, {60, 35, 60, 80}};
  int mattered = 0, harmless = 0;
  for (int i = 0; i < 2000; ++i) {
    Example e = example();
    Label& label = item<Label>(e, 0);  // of W2, which runs from 80 to 120 at 50
    label.room.x = mm(21 + pick(dice, 160));
    label.room.y = mm(11 + pick(dice, 80));
    const double x0 = to_mm(label.room.x), y0 = to_mm(label.room.y);
    const double x1 = to_mm(label.room.right()), y1 = to_mm(label.room.bottom());
    bool matters = false;
    for (const auto* all : {&parts, &wires})
      for (const auto& b : *all)
        matters = matters || (x0 < b[2] && b[0] < x1 && y0 < b[3] && b[1] < y1);
    const double dx = std::max({80 - x1, x0 - 120, 0.0}), dy = std::max({50 - y1, y0 - 50, 0.0});
    matters = matters || dx * dx + dy * dy > 6.1 * 6.1;
    if (matters) {
      ++mattered;
      CAPTURE(x0);
      CAPTURE(y0);
      CHECK_FALSE(proved(e).empty());
    } else {
      ++harmless;
    }
  }
  CHECK(mattered > 1000);
  CHECK(harmless > 10);
}
