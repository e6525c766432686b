#include "sheets/faces_tags.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {
namespace {

// |sin| of angles that are labelled above or below; none are where the sides hold many labels, for
// their leads would run through.
double upright(const FaceView& v) { return v.contacts.size() > 8 ? 0 : 0.25; }
constexpr Mm100 between = mm(1.2);

constexpr double degree = 3.14159265358979323846 / 180;

struct Way {  // of a lead, from its contact to the rim; degrees clockwise from the top
  double exit = 0;
  FacePoint from, to;
};

double apart(double a, double b) {  // angle between two directions, 0 to 180 degrees
  const double d = std::fabs(std::fmod(std::fabs(a - b), 360));
  return d > 180 ? 360 - d : d;
}

double distance(FacePoint p, FacePoint a, FacePoint b) {  // of a point from a stretch
  const double dx = b.first - a.first, dy = b.second - a.second, length = dx * dx + dy * dy;
  double t = length > 0 ? ((p.first - a.first) * dx + (p.second - a.second) * dy) / length : 0;
  t = std::clamp(t, 0.0, 1.0);
  return std::hypot(a.first + t * dx - p.first, a.second + t * dy - p.second);
}

bool cross(const Way& a, const Way& b) {
  const auto side = [](FacePoint p, FacePoint q, FacePoint r) {
    return (q.first - p.first) * (r.second - p.second) - (q.second - p.second) * (r.first - p.first) > 0;
  };
  return side(a.from, a.to, b.from) != side(a.from, a.to, b.to) &&
         side(b.from, b.to, a.from) != side(b.from, b.to, a.to);
}

// Leads leave an outer contact outwards. An inner one passes between the others and clear of the
// key, as straight as it can, and to the side that has fewer labels.
std::vector<Way> ways_of(const FaceView& v, bool compact) {
  const double steep = upright(v);
  constexpr double outer = 0.9, clearance = 0.24, blade_clearance = 0.32;
  const double key_clear = steep == 0 ? 24 : 12;
  std::vector<Way> ways(v.contacts.size());
  int balance = 0;  // labels at the right less those at the left
  const auto reach = [](double angle) {
    return FacePoint{(shell_rim + 0.08) * std::sin(angle * degree), (shell_rim + 0.08) * std::cos(angle * degree)};
  };
  const auto settle = [&](size_t i, double angle) {
    const FaceContact& c = v.contacts[i];
    ways[i] = {angle, {c.x, c.y}, reach(angle)};
    const double sine = std::sin(angle * degree);
    if (std::fabs(sine) >= steep) balance += sine > 0 ? 1 : -1;
  };
  for (const bool middle : {false, true})  // those on the middle line go last, to the lighter side
    for (size_t i = 0; i < v.contacts.size(); ++i) {
      const FaceContact& c = v.contacts[i];
      if (std::hypot(c.x, c.y) < outer || (std::fabs(c.x) < 0.05) != middle) continue;
      const double aside = middle && steep == 0 ? (balance > 0 ? -6 : 6) * (c.y > 0 ? 1 : -1) : 0;
      settle(i, std::atan2(c.x, c.y) / degree + aside);
    }
  for (size_t i = 0; i < v.contacts.size(); ++i) {
    const FaceContact& c = v.contacts[i];
    if (std::hypot(c.x, c.y) >= outer) continue;
    const double radial = std::hypot(c.x, c.y) < 0.1 ? 180 : std::atan2(c.x, c.y) / degree;
    double best = 0, least = 1e9;
    for (int angle = 0; angle < 360; angle += 3) {
      const Way way{static_cast<double>(angle), {c.x, c.y}, reach(angle)};
      double cost = apart(angle, radial);
      const double sine = std::sin(angle * degree);
      if (std::fabs(sine) < steep && compact) cost += 80;  // room above and below is dear
      if (std::fabs(sine) >= steep) cost += balance * (sine > 0 ? 1.5 : -1.5);
      for (size_t k = 0; k < v.contacts.size(); ++k) {
        if (k == i) continue;
        const double needed = v.contacts[k].contact->shape == "blade" ? blade_clearance : clearance;
        const double gap = distance({v.contacts[k].x, v.contacts[k].y}, way.from, way.to);
        if (gap < needed) cost += 1000 * (1 + needed - gap);
        const bool laid = ways[k].to != FacePoint{};
        if (laid && cross(way, ways[k])) cost += 1000;
        const bool stacked = std::fabs(sine) < steep && std::fabs(std::sin(ways[k].exit * degree)) < steep;
        if (laid && stacked && apart(angle, ways[k].exit) < 40) cost += 300;
        if (laid && apart(angle, ways[k].exit) < 10) cost += 300;
      }
      if (!v.connector->key.empty() && apart(angle, std::atan2(v.key_x, v.key_y) / degree) < key_clear) cost += 500;
      if (cost < least) least = cost, best = angle;
    }
    settle(i, best);
  }
  return ways;
}

Tag tag_of(const Picture& p, const FaceContact& c, const Way& way, const Style& style) {
  Tag tag;
  tag.contact = &c;
  tag.lines = contact_lines(p, c, style);
  tag.sine = std::sin(way.exit * degree);
  tag.cosine = std::cos(way.exit * degree);
  if (std::fabs(tag.sine) < upright(*p.view))
    tag.spot = tag.cosine > 0 ? Spot::above : Spot::below;
  else
    tag.spot = tag.sine < 0 ? Spot::left : Spot::right;
  return tag;
}

// Labels of one side keep their order downwards and clear one another, each as near to its contact as
// the others allow: pools of labels that touch stand round the middle of their wishes.
void spread(std::vector<Tag>& tags, Spot side) {
  std::vector<Tag*> column;
  for (Tag& t : tags)
    if (t.spot == side) column.push_back(&t);
  std::stable_sort(column.begin(), column.end(),
                   [](const Tag* a, const Tag* b) { return a->cosine > b->cosine; });
  struct Pool {
    size_t first = 0, count = 0;
    double wish = 0;  // sum of the places the first label of the pool would have for each of them
    Mm100 height = 0;
    Mm100 top() const { return static_cast<Mm100>(wish / static_cast<double>(count)); }
  };
  std::vector<Pool> pools;
  for (size_t i = 0; i < column.size(); ++i) {
    pools.push_back({i, 1, static_cast<double>(column[i]->y), column[i]->height() + between});
    while (pools.size() > 1 && pools[pools.size() - 2].top() + pools[pools.size() - 2].height > pools.back().top()) {
      const Pool last = pools.back();
      pools.pop_back();
      Pool& into = pools.back();
      into.wish += last.wish - static_cast<double>(last.count) * static_cast<double>(into.height);
      into.count += last.count;
      into.height += last.height;
    }
  }
  for (const Pool& pool : pools) {
    Mm100 y = pool.top();
    for (size_t i = pool.first; i < pool.first + pool.count; ++i) {
      column[i]->y = y;
      y += column[i]->height() + between;
    }
  }
}

}  // namespace

bool has_lid(const FaceView& v) { return v.connector->lid && v.connector->lid->half == v.half->name; }
FacePoint lid_at(const FaceView& v) {
  const auto [x, y] = v.connector->lid->at;
  return {seen_x(*v.connector, v.half->name, v.view, x), y};
}
namespace {
Mm100 named_at(const Picture& p, int way) {
  const FaceView& v = *p.view;
  const bool key = !v.connector->key.empty() && v.key_y * way > 0 && std::fabs(v.key_x) < 0.3;
  return (key ? face_line + mm(1) : 0) + (has_lid(v) && lid_at(v).second * way > 0 ? mm(hinge_depth * p.unit) : 0);
}
}  // namespace
Mm100 named_above(const Picture& p) { return named_at(p, 1); }
Mm100 named_below(const Picture& p) { return named_at(p, -1); }

std::vector<Tag> place_tags(const Picture& p, const Style& style) {
  std::vector<Tag> tags;
  const Mm100 outer = mm(shell_rim * p.unit);
  const std::vector<Way> ways = ways_of(*p.view, p.compact);
  for (size_t i = 0; i < ways.size(); ++i) {
    Tag tag = tag_of(p, p.view->contacts[i], ways[i], style);
    if (tag.spot == Spot::above)
      tag.y = -outer - named_above(p) - mm(2) - tag.height();
    else if (tag.spot == Spot::below)
      tag.y = outer + named_below(p) + mm(2.5);
    else
      tag.y = -mm(tag.cosine * 1.35 * p.unit) - tag.height() / 2;
    tags.push_back(std::move(tag));
  }
  spread(tags, Spot::left);
  spread(tags, Spot::right);
  return tags;
}

}  // namespace towloom
