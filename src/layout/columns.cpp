#include "layout/columns.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
// Ranks within a zone are counted in steps, so that splices and references find columns between.
constexpr int rank_step = 16, behind_parts = 8, most_rank = 24;

class Columns {
 public:
  Columns(const Circuit& c, const Flow& flow, const std::vector<Side>& sides, const std::vector<int>& twins)
      : c_(c), next_(flow.next), before_(flow.before), side_(sides), twin_(twins), count_(static_cast<int>(c.parts.size())) {}
  std::vector<ColumnKey> find();

 private:
  const Part& part(int p) const { return c_.parts[at(p)]; }
  bool is(int p, const char* kind) const { return part(p).kind == kind; }
  bool fitted_splice(int p) const { return is(p, "splice") && part(p).status == Status::fitted; }
  bool beside_lamps(int p) const;
  int zone_of(int p) const;
  void find_zones();
  void rank_along_wires();
  void gather_contacts();
  void gather_kinds();
  void pull_right();
  void returns_behind_lamps();
  void spread_splices();
  std::pair<int, int> reach(int p) const;

  const Circuit& c_;
  const std::vector<std::vector<int>>&next_, &before_;
  const std::vector<Side>& side_;
  const std::vector<int>& twin_;
  int count_;
  std::vector<int> zone_, rank_;
};

// What is fitted where isolating parts sit stands among them.
bool Columns::beside_lamps(int p) const {
  const Part& x = part(p);
  if (x.status != Status::fitted || x.place.empty() || x.kind == "module" || x.kind == "splice") return false;
  return std::any_of(c_.parts.begin(), c_.parts.end(), [&](const Part& q) {
    return q.zone == Zone::pocket && q.status == Status::fitted && q.place == x.place && q.kind != "splice" && q.kind != "module";
  });
}

int Columns::zone_of(int p) const {
  const Part& x = part(p);
  switch (x.zone) {
    case Zone::coach: case Zone::cord: return in_coach;
    case Zone::inlet: return in_inlet;
    case Zone::run: case Zone::source: return beside_lamps(p) ? in_pocket : in_middle;
    case Zone::pocket: return x.kind == "module" ? in_middle : in_pocket;   // the signals start anew behind a module
    case Zone::lamp: return x.kind == "reference" ? in_pocket : in_lamp;   // lamps stand below each other
  }
  return in_middle;
}

void Columns::find_zones() {
  zone_.resize(at(count_));
  for (int p = 0; p < count_; ++p) zone_[at(p)] = zone_of(p);
  // A fitted splice stands before the first of what it feeds.
  for (int round = 0; round < 4; ++round)
    for (int p = 0; p < count_; ++p) {
      if (!fitted_splice(p) || next_[at(p)].empty()) continue;
      int least = in_lamp;
      for (int q : next_[at(p)]) least = std::min(least, zone_[at(q)]);
      zone_[at(p)] = std::max<int>(in_inlet, std::min<int>(in_pocket, least));
    }
  // So does a reference from which a wire comes.
  for (int p = 0; p < count_; ++p)
    if (is(p, "reference"))
      for (int q : next_[at(p)]) zone_[at(p)] = std::min(zone_[at(p)], zone_[at(q)]);
  // A splice that gathers the returns of added lamps stands behind them.
  for (int round = 0; round < 4; ++round)
    for (int p = 0; p < count_; ++p) {
      if (!fitted_splice(p)) continue;
      for (int q : before_[at(p)])
        if (zone_[at(q)] == in_lamp) zone_[at(p)] = in_lamp;
    }
  for (int p = 0; p < count_; ++p)
    if (twin_[at(p)] >= 0) zone_[at(p)] = std::max(zone_[at(p)], zone_[at(twin_[at(p)])]);
}

void Columns::rank_along_wires() {
  rank_.assign(at(count_), 0);
  for (int round = 0; round < count_; ++round) {   // a loop of wires stops growing after as many rounds as parts
    bool changed = false;
    const auto raise = [&](int p, int least) {
      if (rank_[at(p)] >= least || least > most_rank) return;
      rank_[at(p)] = least;
      changed = true;
    };
    for (int p = 0; p < count_; ++p) {
      for (int q : next_[at(p)])
        if (zone_[at(q)] == zone_[at(p)]) raise(q, rank_[at(p)] + 1);
      if (twin_[at(p)] >= 0) raise(twin_[at(p)], rank_[at(p)]);
    }
    if (!changed) break;
  }
}

// The contacts of a connector stand in one column; those of the ground circuit have no rank of their own.
void Columns::gather_contacts() {
  for (int zone : {in_coach, in_inlet}) {
    int last = zone == in_coach ? 1 : 0;
    for (int p = 0; p < count_; ++p)
      if (is(p, "contact") && zone_[at(p)] == zone) last = std::max(last, rank_[at(p)]);
    for (int p = 0; p < count_; ++p)
      if (is(p, "contact") && zone_[at(p)] == zone) rank_[at(p)] = last;
  }
}

// Parts of a kind stand in one column where the wires allow it.
void Columns::gather_kinds() {
  std::map<std::pair<int, std::string>, int> last_of;   // of each kind in a zone: nothing is moved beyond it
  for (int p = 0; p < count_; ++p) {
    int& last = last_of[{zone_[at(p)], part(p).kind}];
    last = std::max(last, rank_[at(p)]);
  }
  for (int p = 0; p < count_; ++p) {
    if (is(p, "splice") || is(p, "reference") || is(p, "stud")) continue;
    if (zone_[at(p)] == in_middle && part(p).status == Status::fitted) continue;   // these stand close to what feeds them
    int last = last_of.at({zone_[at(p)], part(p).kind});
    for (const int me : {p, twin_[at(p)]})
      if (me >= 0)
        for (int q : next_[at(me)])
          if (zone_[at(q)] == zone_[at(p)]) last = std::min(last, rank_[at(q)] - 1);
    for (const int me : {p, twin_[at(p)]})
      if (me >= 0) rank_[at(me)] = std::max(rank_[at(me)], last);
  }
  // What leads nowhere further in its zone stands in the column of the zone's last part.
  int last = 0;
  for (int p = 0; p < count_; ++p)
    if (zone_[at(p)] == in_pocket && !is(p, "splice")) last = std::max(last, rank_[at(p)]);
  for (int p = 0; p < count_; ++p)
    if (zone_[at(p)] == in_pocket && next_[at(p)].empty() && !is(p, "splice")) rank_[at(p)] = last;
}

// What has more ways out than in moves to the right: fewer wires pass other parts.
void Columns::pull_right() {
  int last_of[in_lamp + 1] = {};   // of each zone
  for (int p = 0; p < count_; ++p) last_of[zone_[at(p)]] = std::max(last_of[zone_[at(p)]], rank_[at(p)]);
  for (int round = 0; round < 3; ++round)
    for (int p = count_ - 1; p >= 0; --p) {
      if (next_[at(p)].size() <= before_[at(p)].size() || twin_[at(p)] >= 0 || is(p, "stud") || is(p, "coach-feed")) continue;
      int last = last_of[zone_[at(p)]];
      for (int q : next_[at(p)])
        if (zone_[at(q)] == zone_[at(p)]) last = std::min(last, rank_[at(q)] - 1);
      if (before_[at(p)].empty()) continue;
      rank_[at(p)] = std::max(rank_[at(p)], last);
    }
}

// Splices of the new returns stand behind the joints of the factory lamps: their wires then pass none.
void Columns::returns_behind_lamps() {
  int last = 0;
  for (int p = 0; p < count_; ++p)
    if (zone_[at(p)] == in_lamp && !fitted_splice(p) && !is(p, "stud")) last = std::max(last, rank_[at(p)]);
  for (int round = 0; round < 4; ++round)
    for (int p = 0; p < count_; ++p) {
      if (zone_[at(p)] != in_lamp || !fitted_splice(p)) continue;
      int least = last + 1;
      for (int q : before_[at(p)])
        if (zone_[at(q)] == in_lamp && fitted_splice(q)) least = std::max(least, rank_[at(q)] + 1);
      rank_[at(p)] = std::max(rank_[at(p)], least);
    }
}

// From which side to which the wires of a part lead: right -1, centre 0, left 1.
std::pair<int, int> Columns::reach(int p) const {
  const auto height = [&](int q) { return side_[at(q)] == Side::right ? -1 : side_[at(q)] == Side::left ? 1 : 0; };
  std::pair<int, int> out{height(p), height(p)};
  for (const auto* list : {&next_[at(p)], &before_[at(p)]})
    for (int q : *list) out = {std::min(out.first, height(q)), std::max(out.second, height(q))};
  return out;
}

// Splices and joints fan out upwards and downwards: two whose wires would lie on each other stand in columns of
// their own, joints of the factory loom behind the parts of theirs, references behind the splices.
void Columns::spread_splices() {
  std::map<ColumnKey, std::vector<std::pair<int, int>>> taken;   // reach of what stands there
  for (int p = 0; p < count_; ++p) {
    rank_[at(p)] *= rank_step;
    if (!is(p, "splice")) continue;
    const bool joint = part(p).zone == Zone::source;
    if (joint && next_[at(p)].size() > 1) rank_[at(p)] += behind_parts;
    if (next_[at(p)].size() + before_[at(p)].size() < 3) continue;
    const std::pair<int, int> mine = reach(p);
    const auto meets = [&](const std::pair<int, int>& r) { return r.first <= mine.second && mine.first <= r.second; };
    for (int step = 0; step < behind_parts - 1; ++step) {
      auto& there = taken[{zone_[at(p)], rank_[at(p)]}];
      if (std::none_of(there.begin(), there.end(), meets)) break;
      ++rank_[at(p)];
    }
    taken[{zone_[at(p)], rank_[at(p)]}].push_back(mine);
  }
  for (int p = 0; p < count_; ++p) {
    if (!is(p, "reference")) continue;
    int last = -1;
    for (const auto& [key, reaches] : taken)
      if (key.zone == zone_[at(p)] && key.rank / rank_step == rank_[at(p)] / rank_step) last = std::max(last, key.rank);
    const bool begins = !next_[at(p)].empty();
    if (begins && last >= 0) rank_[at(p)] = std::max(rank_[at(p)], last + 1);
  }
}

std::vector<ColumnKey> Columns::find() {
  find_zones();
  rank_along_wires();
  gather_contacts();
  gather_kinds();
  pull_right();
  returns_behind_lamps();
  spread_splices();
  std::vector<ColumnKey> out;
  for (int p = 0; p < count_; ++p) out.push_back({zone_[at(p)], rank_[at(p)]});
  return out;
}

}  // namespace

std::vector<ColumnKey> find_columns(const Circuit& c, const Flow& flow, const std::vector<Side>& sides, const std::vector<int>& twins) {
  return Columns(c, flow, sides, twins).find();
}

}  // namespace towloom
