#include "layout/place.hpp"

#include <algorithm>
#include <cstdlib>

namespace towloom {
namespace {

// Distances from the axis and places along the vehicle, in modules of 2.5 mm: chosen so that every label of
// the sheet has its room.
constexpr int outer_lane = 24, lane_pitch = 10, dark_pitch = 7, input_offset = 2;
constexpr int coach_x = 9, coach_width = 4, outlet_x = 16, inlet_x = 33, block_x = 78, splice_x = 70,
              refeed_x = 88, lamp_x = 98, return_x = 106, stud_x = 113, contact_width = 3, block_width = 8, lamp_width = 4;
constexpr int battery_x = 43, fuse_x = 48, supply_x = 54, switch_x = 55, stop_splice_x = 61, turn_x = 63, trunk_x = 71,
              cap_x = 75, ground_x = 38;

int sign(Side side) { return side == Side::right ? -1 : side == Side::left ? 1 : 0; }

class Placer {
 public:
  explicit Placer(const Circuit& circuit) : c_(circuit) {}
  std::optional<Placement> place(std::string& problem);

 private:
  void lamps();
  void blocks();
  void contacts();
  void sources();
  void splices();
  void studs();
  void finish_ends();

  void stand(PartId, const std::string& symbol, GridPoint at, GridBox body, std::vector<PinSpot> pins);
  void add_bar(PartId, GridPoint a, GridPoint b, const std::vector<std::pair<int, PinSpot>>& wires);
  PartId id(std::size_t i) const { return PartId{static_cast<int>(i)}; }
  std::vector<int> wires_at(PartId) const;
  PartId other(int wire, PartId part) const;
  std::optional<GridPoint> pin_of(TerminalRef) const;
  bool standing(PartId p) const { return out_.of(p) != nullptr; }

  const Circuit& c_;
  Placement out_;
  std::map<int, int> lamp_lane_;                  // part -> y
  std::map<std::string, int> signal_lane_;        // coach signal -> y
  int right_inner_ = 0;
};

std::vector<int> Placer::wires_at(PartId part) const {
  std::vector<int> out;
  for (std::size_t w = 0; w < c_.wires.size(); ++w)
    if (c_.wires[w].from.part == part || c_.wires[w].to.part == part) out.push_back(static_cast<int>(w));
  return out;
}

PartId Placer::other(int wire, PartId part) const {
  const Wire& w = c_.wires[static_cast<std::size_t>(wire)];
  return w.from.part == part ? w.to.part : w.from.part;
}

void Placer::stand(PartId part, const std::string& symbol, GridPoint at, GridBox body, std::vector<PinSpot> pins) {
  out_.parts.push_back({part, symbol, at, body, std::move(pins), {}});
}

// Lamps from outside inwards: those of one side's signal, then tails, then what stays dark in tow.
void Placer::lamps() {
  std::map<std::string, std::vector<std::size_t>> units;
  for (std::size_t i = 0; i < c_.lamps.size(); ++i) units[c_.part(c_.lamps[i].lamp).group].push_back(i);
  int lit = 0, dark = 0;
  for (auto& [name, members] : units) {
    const auto rank = [&](std::size_t i) {
      const std::string& signal = c_.lamps[i].tow_signal;
      return signal.empty() ? 2 : signal == "tail" ? 1 : 0;
    };
    std::stable_sort(members.begin(), members.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
    const int s = sign(c_.part(c_.lamps[members[0]].lamp).side);
    int lane = outer_lane, least = outer_lane;
    for (std::size_t k = 0; k < members.size(); ++k) {
      const LampIntent& lamp = c_.lamps[members[k]];
      int y = out_.axis;
      if (s != 0) {
        if (k > 0) lane -= rank(members[k]) == 2 ? dark_pitch : lane_pitch;
        y += s * lane;
        least = lane;
      } else {
        y += lamp.tow_signal.empty() ? -3 + 4 * dark++ : 5 + 4 * lit++;
      }
      lamp_lane_[lamp.lamp.v] = y;
      stand(lamp.lamp, "lamp", {lamp_x, y}, {lamp_x, y - 1, lamp_x + lamp_width, y + 1},
            {{0, {lamp_x, y}, Way::left}, {1, {lamp_x + lamp_width, y}, Way::right}});
    }
    if (s == 0) continue;
    const double outer = out_.axis + s * (outer_lane + 4.2), inner = out_.axis + s * (least - (rank(members.back()) == 2 ? 1.9 : 3.8));
    out_.housings.push_back({name, s < 0 ? Side::right : Side::left, 94.2, std::min(outer, inner), 107.0, std::max(outer, inner)});
  }
}

// A block stands on the lane of the lamp that it feeds, directly or over a splice.
void Placer::blocks() {
  for (std::size_t p = 0; p < c_.parts.size(); ++p) {
    const Part& part = c_.parts[p];
    if (part.kind != "diode-pair") continue;
    int lane = out_.axis;
    for (int w : wires_at(id(p))) {
      const Wire& wire = c_.wires[static_cast<std::size_t>(w)];
      if (wire.from.part != id(p)) continue;
      PartId next = wire.to.part;
      if (c_.part(next).kind == "splice")
        for (int v : wires_at(next))
          if (c_.wires[static_cast<std::size_t>(v)].status == Status::factory && lamp_lane_.count(other(v, next).v) != 0) next = other(v, next);
      if (lamp_lane_.count(next.v) != 0) lane = lamp_lane_[next.v];
    }
    const int s = sign(part.side);
    const std::string symbol = s > 0 ? "diode-pair-flipped" : "diode-pair";
    stand(id(p), symbol, {block_x, lane}, {block_x, lane - 4, block_x + block_width, lane + 4},
          {{0, {block_x, lane + s * input_offset}, Way::left},
           {1, {block_x, lane - s * input_offset}, Way::left},
           {2, {block_x + block_width, lane}, Way::right}});
  }
}

// Contacts in the order of the lanes that they feed, not as in the face.
void Placer::contacts() {
  for (const LampIntent& lamp : c_.lamps) {
    if (lamp.tow_signal.empty()) continue;
    const int s = sign(c_.part(lamp.lamp).side);
    const bool preferred = lamp.tow_signal != "tail" || s > 0;  // the tail runs on the left, and is jumped to the right
    if (s != 0 && preferred) signal_lane_[lamp.tow_signal] = lamp_lane_[lamp.lamp.v] + s * input_offset;
  }
  signal_lane_["ground"] = out_.axis;
  for (std::size_t p = 0; p < c_.parts.size(); ++p) {
    const Part& part = c_.parts[p];
    if (part.kind != "contact") continue;
    const bool outlet = part.zone == Zone::coach;
    const int x = outlet ? outlet_x : inlet_x;
    const auto lane = signal_lane_.find(part.function);
    const int y = lane == signal_lane_.end() ? out_.axis : lane->second;
    stand(id(p), outlet ? "contact-outlet" : "contact-inlet", {x, y}, {x, y, x + contact_width, y},
          {{0, {x, y}, Way::left}, {1, {x + contact_width, y}, Way::right}});
  }
  for (std::size_t p = 0; p < c_.parts.size(); ++p) {
    const Part& part = c_.parts[p];
    if (part.kind != "coach-feed") continue;
    std::vector<PinSpot> pins;
    for (std::size_t t = 0; t < part.terminals.size(); ++t)
      pins.push_back({static_cast<int>(t), {coach_x + coach_width, signal_lane_[part.terminals[t]]}, Way::right});
    const int reach = outer_lane + input_offset + 1;
    stand(id(p), "", {coach_x, out_.axis - reach}, {coach_x, out_.axis - reach, coach_x + coach_width, out_.axis + reach}, std::move(pins));
  }
}

void Placer::sources() {
  const int y = out_.axis;
  int plain = 0;
  const int rows[] = {-1, 4, -7, 8};  // stop, lamps, reverse … in the order of the circuit
  for (std::size_t p = 0; p < c_.parts.size(); ++p) {
    const Part& part = c_.parts[p];
    if (part.zone != Zone::source) continue;
    if (part.kind == "battery")
      stand(id(p), "battery", {battery_x, y + 2}, {battery_x, y + 1, battery_x + 4, y + 3},
            {{0, {battery_x + 4, y + 2}, Way::right}, {1, {battery_x, y + 2}, Way::left}});
    else if (part.kind == "fuse")
      stand(id(p), "fuse", {fuse_x, y + 2}, {fuse_x, y + 2, fuse_x + 4, y + 2},
            {{0, {fuse_x, y + 2}, Way::left}, {1, {fuse_x + 4, y + 2}, Way::right}});
    else if (part.kind == "turn-switch")
      stand(id(p), "turn-switch", {turn_x, y}, {turn_x, y - 2, turn_x + 5, y + 2},
            {{0, {turn_x, y + 1}, Way::left}, {1, {turn_x, y - 1}, Way::left},
             {2, {turn_x + 3, y + 2}, Way::down}, {3, {turn_x + 3, y - 2}, Way::up}});
    else if (part.kind == "switch" && plain < 4) {
      const int row = y + rows[plain++];
      stand(id(p), "switch", {switch_x, row}, {switch_x, row, switch_x + 4, row + 1},
            {{0, {switch_x, row}, Way::left}, {1, {switch_x + 4, row}, Way::right}});
    } else if (part.kind == "stud")
      stand(id(p), "stud", {battery_x - 2, y + 4}, {battery_x - 3, y + 4, battery_x - 1, y + 6},
            {{0, {battery_x - 2, y + 4}, Way::up}, {1, {battery_x - 2, y + 5}, Way::any}});
  }
}

std::optional<GridPoint> Placer::pin_of(TerminalRef t) const {
  const Standing* s = out_.of(t.part);
  if (s == nullptr) return std::nullopt;
  for (const PinSpot& p : s->pins)
    if (p.terminal == t.index) return p.at;
  return std::nullopt;
}

void Placer::add_bar(PartId part, GridPoint a, GridPoint b, const std::vector<std::pair<int, PinSpot>>& wires) {
  Standing s{part, "", a, {a.x, a.y, b.x, b.y}, {}, {a, b}};
  for (const auto& [wire, spot] : wires) {
    s.pins.push_back(spot);
    out_.ends[{wire, c_.wires[static_cast<std::size_t>(wire)].from.part == part}] = spot;
  }
  out_.parts.push_back(std::move(s));
}

// Factory splices and the returns inside a housing as upright bars; fitted splices and three-wire joints as dots.
void Placer::splices() {
  const int y = out_.axis;
  for (std::size_t p = 0; p < c_.parts.size(); ++p) {
    const Part& part = c_.parts[p];
    const auto wires = wires_at(id(p));
    if (part.kind == "joint") {
      std::vector<std::pair<int, PinSpot>> spots;
      int low = 1 << 20, high = -1, outwards = -1;
      for (int w : wires) {
        const PartId far = other(w, id(p));
        if (lamp_lane_.count(far.v) == 0) {
          outwards = w;
          continue;
        }
        const int lane = lamp_lane_[far.v];
        low = std::min(low, lane);
        high = std::max(high, lane);
        spots.push_back({w, {0, {return_x, lane}, Way::left}});
      }
      const int s = sign(part.side);
      const int exit = y + s * (outer_lane - 6);
      if (wires.size() <= 3) {  // one dot is enough
        stand(id(p), "joint", {return_x, exit}, {return_x, exit, return_x, exit}, {{0, {return_x, exit}, Way::any}});
        continue;
      }
      if (outwards >= 0) spots.push_back({outwards, {0, {return_x, exit}, Way::right}});
      add_bar(id(p), {return_x, low}, {return_x, high}, spots);
    } else if (part.kind == "splice" && part.zone == Zone::source) {
      const bool trunk = std::any_of(wires.begin(), wires.end(), [&](int w) { return c_.part(other(w, id(p))).kind == "diode-pair"; });
      const bool supply = std::any_of(wires.begin(), wires.end(), [&](int w) { return c_.part(other(w, id(p))).kind == "fuse"; });
      std::vector<std::pair<int, PinSpot>> spots;
      int low = 1 << 20, high = -1;
      for (int w : wires) {
        const PartId far = other(w, id(p));
        const Part& f = c_.part(far);
        PinSpot spot{0, {trunk_x, y + 4}, Way::left};
        if (supply) {
          const auto pin = pin_of(c_.wires[static_cast<std::size_t>(w)].from.part == id(p) ? c_.wires[static_cast<std::size_t>(w)].to
                                                                                           : c_.wires[static_cast<std::size_t>(w)].from);
          spot = {0, {supply_x, pin ? pin->y : y}, f.kind == "fuse" ? Way::left : Way::right};
        } else if (trunk && f.kind == "diode-pair") {
          spot = f.side == Side::right ? PinSpot{0, {trunk_x, y + 3}, Way::up} : PinSpot{0, {trunk_x, y + 6}, Way::down};
        } else if (trunk && f.kind == "cap") {
          spot = {0, {trunk_x, y + 5}, Way::right};
        } else if (!trunk) {
          spot = {0, {stop_splice_x, y - 1}, Way::any};
        }
        low = std::min(low, spot.at.y);
        high = std::max(high, spot.at.y);
        spots.push_back({w, spot});
      }
      const int x = supply ? supply_x : trunk ? trunk_x : stop_splice_x;
      if (low < high)
        add_bar(id(p), {x, low}, {x, high}, spots);
      else
        stand(id(p), "splice", {x, low}, {x, low, x, low}, {{0, {x, low}, Way::any}});
    } else if (part.kind == "splice") {
      const bool lamp_side = std::any_of(wires.begin(), wires.end(), [&](int w) {
        return c_.wires[static_cast<std::size_t>(w)].from == TerminalRef{other(w, id(p)), 2};
      });
      GridPoint at{lamp_side ? refeed_x : splice_x, y};
      for (int w : wires) {
        const PartId far = other(w, id(p));
        if (lamp_side && lamp_lane_.count(far.v) != 0 && c_.part(far).side == part.side) at.y = lamp_lane_[far.v];
      }
      if (!lamp_side) at.y = signal_lane_[part.function];
      stand(id(p), "splice", at, {at.x, at.y, at.x, at.y}, {{0, at, Way::any}});
    } else if (part.kind == "cap") {
      stand(id(p), "cap", {cap_x, y + 5}, {cap_x, y + 5, cap_x + 2, y + 5}, {{0, {cap_x, y + 5}, Way::left}});
    }
  }
}

void Placer::studs() {
  for (std::size_t p = 0; p < c_.parts.size(); ++p) {
    if (c_.parts[p].kind != "stud" || standing(id(p))) continue;
    GridPoint at{ground_x, out_.axis + 1};
    if (c_.parts[p].zone == Zone::lamp) {
      at.x = stud_x;
      for (int w : wires_at(id(p))) {
        const auto from = out_.ends.find({w, true});
        const auto pin = pin_of(c_.wires[static_cast<std::size_t>(w)].from);
        at.y = (from != out_.ends.end() ? from->second.at.y : pin ? pin->y : at.y) + 1;
      }
    }
    stand(id(p), "stud", at, {at.x - 1, at.y, at.x + 1, at.y + 1}, {{0, at, Way::up}, {1, {at.x, at.y + 1}, Way::any}});
  }
}

void Placer::finish_ends() {
  for (std::size_t w = 0; w < c_.wires.size(); ++w)
    for (const bool from : {true, false}) {
      if (out_.ends.count({static_cast<int>(w), from}) != 0) continue;
      const TerminalRef t = from ? c_.wires[w].from : c_.wires[w].to;
      const Standing* s = out_.of(t.part);
      if (s == nullptr) continue;
      for (const PinSpot& p : s->pins)
        if (p.terminal == t.index) out_.ends[{static_cast<int>(w), from}] = p;
    }
}

std::optional<Placement> Placer::place(std::string& problem) {
  lamps();
  blocks();
  contacts();
  sources();
  splices();
  studs();
  finish_ends();
  for (std::size_t p = 0; p < c_.parts.size(); ++p)
    if (!standing(id(p))) problem = "no place on the sheet for " + c_.parts[p].id;
  for (std::size_t i = 0; i < out_.parts.size(); ++i)
    for (std::size_t k = i + 1; k < out_.parts.size(); ++k) {
      const GridBox &a = out_.parts[i].body, &b = out_.parts[k].body;
      if (a.left <= b.right && b.left <= a.right && a.top <= b.bottom && b.top <= a.bottom)
        problem = c_.part(out_.parts[i].part).id + " and " + c_.part(out_.parts[k].part).id + " would stand on one place";
    }
  if (!problem.empty()) return std::nullopt;
  return std::move(out_);
}

}  // namespace

const Standing* Placement::of(PartId part) const {
  for (const Standing& s : parts)
    if (s.part == part) return &s;
  return nullptr;
}

std::optional<Placement> place_bench(const Circuit& circuit, std::string& problem) { return Placer(circuit).place(problem); }

}  // namespace towloom
