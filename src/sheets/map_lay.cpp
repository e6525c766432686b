// The plan map's page divided: the car in the middle, room for words around it.
#include <algorithm>
#include <iterator>

#include "sheets/car_outline.hpp"
#include "sheets/map_words.hpp"

namespace towloom::map {
namespace {

constexpr Mm100 nose_room = mm(11), tail_room = mm(36), body_height = mm(70), head_height = mm(5);

template <class Keep>
std::vector<Callout> those(const std::vector<Callout>& all, Keep keep) {
  std::vector<Callout> out;
  std::copy_if(all.begin(), all.end(), std::back_inserter(out), keep);
  return out;
}

}  // namespace

Figure lay_figure(const Plan& plan, const Facts& facts, Rect room, const SheetPen& pen) {
  Figure out;
  out.room = room;
  const Mm100 wide = (room.w - nose_room - tail_room) / grid * grid;
  out.body = {room.x + nose_room, room.y + (room.h - body_height) / 2, wide, body_height};
  out.outline = car_edges(out.body, nose_x, nose_y);
  out.outline.push_back(out.outline.front());
  const Mm100 right = pen.width(word(pen.style, "side-right"), Weight::semibold), left = pen.width(word(pen.style, "side-left"), Weight::semibold);
  out.reserved = {{room.x, room.y, right + mm(1), head_height}, {room.x, room.bottom() - head_height, left + mm(1), head_height}};
  out.markers = stand_markers(plan, out.body);
  out.ways = lay_ways(plan, out.markers, out.body);
  for (std::size_t s = 0; s < plan.spots.size(); ++s) out.spots.push_back({spot_block(plan, static_cast<int>(s), facts, pen), static_cast<int>(s), {}, {}});
  for (std::size_t w = 0; w < plan.ways.size(); ++w) out.runs.push_back({way_block(plan.ways[w], facts, pen), static_cast<int>(w), {}, {}});
  find_room(out, plan);
  return out;
}

std::optional<Figure> further_figure(const Figure& figure, const Plan& plan) {
  const auto waits = [](const Callout& c) { return !c.at; };
  Figure out = figure;
  out.spots = those(figure.spots, waits);
  out.runs = those(figure.runs, waits);
  if (out.spots.empty() && out.runs.empty()) return std::nullopt;
  for (const Leaders leaders : {Leaders::drawn, Leaders::none}) {
    find_room(out, plan, leaders);
    if (!std::all_of(out.spots.begin(), out.spots.end(), waits) || !std::all_of(out.runs.begin(), out.runs.end(), waits)) return out;
  }
  return std::nullopt;
}

}  // namespace towloom::map
