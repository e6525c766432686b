// How the labels of the plan map find room: blocks of the places above and below the car, those of the runs beside
// their lines; the cheapest free place of each, looked for again until none moves.
#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <map>

#include "sheets/map_geometry.hpp"

namespace towloom::map {
namespace {

constexpr Mm100 air = mm(1.5), step = mm(2.5), body_air = mm(3), fine = mm(1.25), beside = mm(8);
constexpr double moved_cost = 40, plain_gap = 3.5;   // mm; closer than that it is plain whose label it is
constexpr int most_moves = 20;       // of one block; it then waits for a page of its own
constexpr double never = std::numeric_limits<double>::max();

Mm100 nearest(Mm100 v, Mm100 low, Mm100 high) { return std::clamp(v, low, std::max(low, high)); }

struct Room {
  Figure& figure;
  Leaders leaders;
  std::vector<Segment> lines = {}, edges = {};   // of the ways; of the body
  std::map<const Callout*, int> moved = {};   // how often each had to make room

  // Free of all that stands still.
  bool free(const Rect& r) const {
    if (r.x < figure.room.x || r.y < figure.room.y || r.right() > figure.room.right() || r.bottom() > figure.room.bottom()) return false;
    const Rect wide = grown(r, air), close = grown(r, mm(0.8));
    const auto over = [&](const Rect& m) { return m.overlaps(wide); };
    return std::none_of(figure.markers.begin(), figure.markers.end(), over) && std::none_of(figure.reserved.begin(), figure.reserved.end(), over) &&
           std::none_of(lines.begin(), lines.end(), [&](const Segment& s) { return meets(s, close); }) &&
           std::none_of(edges.begin(), edges.end(), [&](const Segment& s) { return meets(s, close); });
  }
  // What a leader costs in mm of its length; never where it would run through what stands still.
  double leader_cost(const Segment& s, int own_marker, const std::vector<Segment>& own_line) const {
    const double dx = std::abs(to_mm(s.a.x - s.b.x)), dy = std::abs(to_mm(s.a.y - s.b.y));
    double out = std::sqrt(dx * dx + dy * dy) + 1.5 * std::min(dx, dy);   // upright or level reads best
    for (std::size_t m = 0; m < figure.markers.size(); ++m)
      if (static_cast<int>(m) != own_marker && meets(s, grown(figure.markers[m], mm(1.2)))) return never;
    for (const Rect& r : figure.reserved)
      if (meets(s, r)) return never;
    for (const Segment& t : lines) {
      if (std::any_of(own_line.begin(), own_line.end(), [&](const Segment& o) { return o.a == t.a && o.b == t.b; })) continue;
      if (along(s, t)) return never;
      if (meet(s, t)) out += 8;
    }
    return out;
  }
  std::vector<Callout*> in_the_way(const Rect& at, const std::optional<Segment>& leader, const Callout& mine) const {
    std::vector<Callout*> out;
    const Rect wide = grown(at, air);
    for (std::vector<Callout>* all : {&figure.spots, &figure.runs})
      for (Callout& c : *all) {
        if (&c == &mine || !c.at) continue;
        if (c.at->overlaps(grown(wide, air)) || (c.leader && meets(*c.leader, wide)) || (leader && (meets(*leader, grown(*c.at, air)) || (c.leader && meet(*leader, *c.leader))))) out.push_back(&c);
      }
    return out;
  }
  // Who has made room often does so no more.
  double moving_cost(const std::vector<Callout*>& others) const {
    double out = 0;
    for (const Callout* c : others) {
      const auto often = moved.find(c);
      out += moved_cost * (1 + (often == moved.end() ? 0 : often->second));
    }
    return out;
  }
};

struct Choice {
  double cost = never;
  Rect at;
  std::optional<Segment> leader;
};

// Places that a block could take, each with what it costs at least.
struct Candidates {
  std::vector<Choice> all = {};

  // The cheapest by its full cost; those that cost more at least than one costs in full are not looked at.
  template <class Full>
  Choice cheapest(Full full) {
    const auto dearer = [](const Choice& a, const Choice& b) { return a.cost > b.cost; };
    std::make_heap(all.begin(), all.end(), dearer);
    Choice best;
    while (!all.empty() && all.front().cost < best.cost) {
      std::pop_heap(all.begin(), all.end(), dearer);
      Choice c = all.back();
      all.pop_back();
      c.cost = full(c);
      if (c.cost < best.cost) best = c;
    }
    return best;
  }
};

// Outside the car, on the side where the marker is, or behind its tail. The leader begins at the marker's frame.
Choice place_spot(const Room& room, const Plan& plan, const Callout& mine) {
  const Figure& f = room.figure;
  const Rect marker = f.markers[static_cast<std::size_t>(mine.subject)];
  const Standing& standing = plan.spots[static_cast<std::size_t>(mine.subject)].at;
  const Point middle{marker.x + marker_half, marker.y + marker_half};
  const Mm100 w = mine.text.width, h = mine.text.height();
  Candidates candidates;
  const auto consider = [&](const Rect& at, const Segment& leader, double more) {
    candidates.all.push_back({length_mm(leader) + more, at, leader});
  };
  for (const bool above : {true, false}) {
    if ((above && standing.across > 0.2) || (!above && standing.across < -0.2)) continue;
    const Mm100 first = above ? f.body.y - body_air : f.body.bottom() + body_air + h;
    for (Mm100 bottom = first; above ? bottom - h >= f.room.y : bottom <= f.room.bottom(); bottom += above ? -step : step)
      for (Mm100 x = f.room.x; x + w <= f.room.right(); x += step) {
        const Rect at{x, bottom - h, w, h};
        for (const Mm100 aside : {0, -grid, grid}) {   // beside a way that leaves in the middle
          const Mm100 from = middle.x + aside, foot = nearest(from, at.x + mm(1), at.right() - mm(1));
          consider(at, {{from, above ? marker.y : marker.bottom()}, {foot, above ? at.bottom() + rule_gap : at.y - rule_gap}}, std::abs(to_mm(at.x + at.w / 2 - middle.x)) * 0.05 + (aside == 0 ? 0 : 1.5));
        }
      }
  }
  if (standing.along > 0.9)
    for (Mm100 y = f.room.y; y + h <= f.room.bottom(); y += fine) {
      const Rect at{f.body.right() + body_air + mm(2), y, w, h};
      for (const Mm100 aside : {0, -grid, grid}) {
        const Mm100 from = middle.y + aside, foot = nearest(from, at.y + mm(1), at.bottom() - mm(1));
        consider(at, {{marker.right(), from}, {at.x - rule_gap, foot}}, std::abs(to_mm(at.y + at.h / 2 - middle.y)) * 0.05 + (aside == 0 ? 0 : 1.5));
      }
    }
  return candidates.cheapest([&](Choice& c) {
    if (!room.free(c.at)) return never;
    if (room.leaders == Leaders::none) c.leader.reset();
    if (!c.leader) return c.cost + room.moving_cost(room.in_the_way(c.at, {}, mine));
    const double led = room.leader_cost(*c.leader, mine.subject, {});
    return led == never ? never : c.cost - length_mm(*c.leader) + led + room.moving_cost(room.in_the_way(c.at, c.leader, mine));
  });
}

std::vector<Segment> segments(const Polyline& line) {
  std::vector<Segment> out;
  for (std::size_t i = 1; i < line.size(); ++i) out.push_back({line[i - 1], line[i]});
  return out;
}

// Beside its line where there is room, else farther off with a leader to it.
Choice place_way(const Room& room, const Callout& mine) {
  const Figure& f = room.figure;
  const std::vector<Segment> own = segments(f.ways[static_cast<std::size_t>(mine.subject)]);
  Candidates candidates;
  const Mm100 w = mine.text.width, h = mine.text.height();
  const auto consider = [&](Mm100 x, Mm100 y, const Segment& s, bool close) {
    const Rect at{x, y, w, h};
    const Point mid{(s.a.x + s.b.x) / 2, (s.a.y + s.b.y) / 2};
    const Point on = s.a.y == s.b.y ? Point{nearest(x + w / 2, std::min(s.a.x, s.b.x) + mm(1), std::max(s.a.x, s.b.x) - mm(1)), s.a.y}
                                    : Point{s.a.x, nearest(y + h / 2, std::min(s.a.y, s.b.y) + mm(1), std::max(s.a.y, s.b.y) - mm(1))};
    const Point off{nearest(on.x, at.x, at.right()), nearest(on.y, at.y, at.bottom())};
    const double gap = length_mm({on, off});
    if ((gap <= to_mm(beside)) != close) return;
    const double off_middle = std::abs(to_mm(x + w / 2 - mid.x)) + std::abs(to_mm(y + h / 2 - mid.y));
    const double cost = gap * 3 + off_middle * 0.1 - std::min(length_mm(s), 40.0) * 0.15;
    if (gap > plain_gap)
      candidates.all.push_back({cost + 10 + gap, at, Segment{on, off}});
    else
      candidates.all.push_back({cost, at, std::nullopt});
  };
  for (const Segment& s : own) {   // a fine net beside the line, a coarse one farther off
    const auto snap = [](Mm100 v, Mm100 from) { return from + std::max<Mm100>(0, (v - from) / fine) * fine; };
    const Mm100 right = std::min(f.room.right() - w, std::max(s.a.x, s.b.x) + beside), low = std::min(f.room.bottom() - h, std::max(s.a.y, s.b.y) + beside);
    for (Mm100 y = snap(std::min(s.a.y, s.b.y) - h - beside, f.room.y); y <= low; y += fine)
      for (Mm100 x = snap(std::min(s.a.x, s.b.x) - w - beside, f.room.x); x <= right; x += fine) consider(x, y, s, true);
    for (Mm100 y = f.room.y; y + h <= f.room.bottom(); y += step)
      for (Mm100 x = f.room.x; x + w <= f.room.right(); x += step) consider(x, y, s, false);
  }
  return candidates.cheapest([&](Choice& c) {
    if (!room.free(c.at)) return never;
    if (room.leaders == Leaders::none) c.leader.reset();
    double cost = c.cost + room.moving_cost(room.in_the_way(c.at, c.leader, mine));
    if (!c.leader) return cost;
    const double led = room.leader_cost(*c.leader, -1, own);
    return led == never ? never : cost - length_mm(*c.leader) + led;
  });
}

}  // namespace

// One after the other; one that drives others from their places has them look again.
void find_room(Figure& figure, const Plan& plan, Leaders leaders) {
  Room room{figure, leaders};
  for (const Polyline& way : figure.ways)
    for (const Segment& s : segments(way)) room.lines.push_back(s);
  room.edges = segments(figure.outline);
  std::deque<Callout*> waiting;
  for (std::vector<Callout>* all : {&figure.spots, &figure.runs}) {
    for (Callout& c : *all) waiting.push_back(&c);
    std::stable_sort(waiting.end() - static_cast<std::ptrdiff_t>(all->size()), waiting.end(), [](const Callout* a, const Callout* b) { return a->text.height() > b->text.height(); });
  }
  const auto is_spot = [&](const Callout* c) { return c >= figure.spots.data() && c < figure.spots.data() + figure.spots.size(); };
  while (!waiting.empty()) {
    Callout& mine = *waiting.front();
    waiting.pop_front();
    const Choice choice = is_spot(&mine) ? place_spot(room, plan, mine) : place_way(room, mine);
    if (choice.cost == never) continue;
    for (Callout* other : room.in_the_way(choice.at, choice.leader, mine)) {
      other->at.reset();
      other->leader.reset();
      if (++room.moved[other] <= most_moves) waiting.push_back(other);
    }
    mine.at = choice.at;
    mine.leader = choice.leader;
  }
  // All stand: each may now look for a better place that is free.
  for (int round = 0; round < 2; ++round)
    for (std::vector<Callout>* all : {&figure.spots, &figure.runs})
      for (Callout& mine : *all) {
        const Choice choice = is_spot(&mine) ? place_spot(room, plan, mine) : place_way(room, mine);
        if (choice.cost == never || !room.in_the_way(choice.at, choice.leader, mine).empty()) continue;
        mine.at = choice.at;
        mine.leader = choice.leader;
      }
}

}  // namespace towloom::map
