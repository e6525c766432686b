// One laying of a fragment: its parts with their places, then each join by its ports.
#include <algorithm>

#include "catalogue/part_kinds.hpp"
#include "circuit/builder.hpp"

namespace towloom {
namespace {

using Made = std::map<std::string, PartId>;

const Part& lamp_of(const Builder& b, const Site& site) {
  return b.circuit.part(b.circuit.lamps[static_cast<std::size_t>(site.lamp)].lamp);
}

std::string place_of(Builder& b, const FragmentPart& from, const Site& site) {
  const std::string at = filled(from.at.value, site.recipe);
  if (at.empty() || at == "lamp") return site.lamp >= 0 ? lamp_of(b, site).place : "inlet";
  const bool known = at == "inlet" || at == "battery" || at == "stop switch" ||
                     std::any_of(b.spec.runs.begin(), b.spec.runs.end(), [&](const RunRow& r) { return r.from.value == at || r.to.value == at; });
  if (!known) {
    std::vector<std::string> places;
    for (const RunRow& r : b.spec.runs) places.insert(places.end(), {r.from.value, r.to.value});
    const std::string near = did_you_mean(at, places);
    const auto said = site.recipe.choices.find(from.at.value.substr(from.at.value[0] == '$' ? 1 : 0));
    b.diagnostics.error("unknown-place", said != site.recipe.choices.end() ? said->second.place : site.recipe.place,
                        "no run leads to '" + at + "'", near.empty() ? "name a place of the runs" : "did you mean '" + near + "'?");
  }
  return at;
}

Zone zone_of(const std::string& place, bool lamp) {
  if (lamp) return Zone::pocket;
  return place == "battery" || place == "stop switch" ? Zone::source : Zone::run;
}

void make_parts(Builder& b, const Site& site, Made& made) {
  for (const FragmentPart& from : site.fragment.parts) {
    std::map<std::string, PlacedText> values;
    for (const auto& [key, text] : from.values) {
      values[key] = {filled(text.value, site.recipe), text.place};
      if (text.value.size() > 1 && text.value[0] == '$')
        if (const auto said = site.recipe.choices.find(text.value.substr(1)); said != site.recipe.choices.end()) values[key] = said->second;
    }
    auto part = make_kind(from, values, b);
    if (!part) return;
    const char* prefix = find_kind(from.kind)->prefix;
    do part->id = prefix + std::to_string(++b.numbers[prefix]);   // FU1 may be the car's own
    while (b.circuit.find(part->id));
    part->place = place_of(b, from, site);
    part->title = site.lamp >= 0 ? lamp_of(b, site).function : from.name;
    part->function = site.lamp >= 0 ? lamp_of(b, site).function : "";
    part->side = site.lamp >= 0 ? lamp_of(b, site).side : side_of_place(part->place);
    part->zone = zone_of(part->place, site.lamp >= 0);
    part->status = Status::fitted;
    part->origin = {site.recipe.place, from.place};
    made[from.name] = b.add(std::move(*part));
  }
}

// What the ends of one join come to.
struct Ends {
  std::vector<TerminalRef> own;
  std::vector<int> nets;
  std::string wire;            // feed lamp driver joint "negative post" "negative cable": an end of a parted factory wire
  bool failed = false;
};

bool ends_factory_wire(const std::string& port) {
  return port == "feed" || port == "lamp" || port == "driver" || port == "joint" || port == "lamp side" || port.rfind("negative ", 0) == 0;
}

Ends find_ends(Builder& b, const Site& site, const Made& made, const FragmentJoin& join) {
  Ends out;
  for (const PlacedText& end : join.ends) {
    const std::string text = filled(end.value, site.recipe);
    const std::size_t dot = text.find('.');
    const auto part = made.find(text.substr(0, dot));
    if (dot != std::string::npos && part != made.end()) {
      const TerminalRef t = b.circuit.terminal(b.circuit.part(part->second).id + text.substr(dot));
      if (!t.part) {
        b.diagnostics.error("join-end", end.place, "'" + text + "' is no terminal of that part");
        out.failed = true;
        return out;
      }
      out.own.push_back(t);
    } else if (site.lamp >= 0 && (text == "return" || (text == "lamp" && site.fragment.scope == "added"))) {
      out.own.push_back({b.circuit.lamps[static_cast<std::size_t>(site.lamp)].lamp, text == "lamp" ? 0 : 1});
    } else if (ends_factory_wire(text)) {
      if (!out.wire.empty()) {
        b.diagnostics.error("sides-joined", end.place, "'" + out.wire + "' and '" + text + "' in one join: the cut would be bridged",
                            "keep car side and lamp side apart: they meet in the isolating part only");
        out.failed = true;
        return out;
      }
      out.wire = text;
    } else {
      const std::string place = !out.own.empty() ? b.circuit.part(out.own[0].part).place : site.lamp >= 0 ? lamp_of(b, site).place : "inlet";
      const int net = net_of_port(b, {text, end.place}, place, site);
      if (net < 0) {
        out.failed = true;
        return out;
      }
      out.nets.push_back(net);
    }
  }
  return out;
}

// The ends that are not a factory wire's, as one net. -1 when there are none.
int join_nets(Builder& b, const Site& site, const Ends& ends) {
  int net = ends.nets.empty() ? -1 : ends.nets[0];
  std::size_t first = 0;
  if (net < 0) {
    if (ends.own.size() < 2) return -1;
    net = b.add_net({"other", ends.own[0], {}, b.circuit.part(ends.own[0].part).place, 0, false, site.recipe.place});
    first = 1;
  }
  Net& at = b.nets[static_cast<std::size_t>(net)];
  for (std::size_t i = first; i < ends.own.size(); ++i) {
    if (at.root.part) {
      at.users.push_back(ends.own[i]);
      continue;
    }
    at.root = ends.own[i];   // a net.NAME begins where it is first named
    at.place = b.circuit.part(at.root.part).place;
  }
  for (std::size_t n = 1; n < ends.nets.size(); ++n)
    if (const TerminalRef root = b.nets[static_cast<std::size_t>(ends.nets[n])].root; root.part) at.users.push_back(root);
  return net;
}

// Where a parted factory wire lands: the one terminal that it is joined to, or a splice with all of them.
TerminalRef landing(Builder& b, const Site& site, const Ends& ends, const std::string& circuit) {
  if (ends.own.size() == 1 && ends.nets.empty()) return ends.own[0];
  const std::string place = !ends.own.empty() ? b.circuit.part(ends.own[0].part).place : site.lamp >= 0 ? lamp_of(b, site).place : "inlet";
  const PartId splice = b.add_fitted_splice(place, circuit);
  if (ends.nets.empty())
    b.add_net({circuit, {splice, 0}, ends.own, place, 0, false, site.recipe.place});
  else
    b.nets[static_cast<std::size_t>(join_nets(b, site, ends))].users.push_back({splice, 0});
  return {splice, 0};
}

// Signals that come from a converter from here on.
void give(Builder& b, const Site& site, const Made& made) {
  for (const auto& [signal, end] : site.fragment.gives) {
    const std::size_t dot = end.value.find('.');
    const auto part = made.find(end.value.substr(0, dot));
    const TerminalRef root = part == made.end() ? TerminalRef{} : b.circuit.terminal(b.circuit.part(part->second).id + end.value.substr(dot));
    if (!root.part) {
      b.diagnostics.error("join-end", end.place, "'" + end.value + "' is no terminal of that part");
      continue;
    }
    if (const auto before = b.given_by.find(signal); before != b.given_by.end() && before->second != root.part) {
      b.diagnostics.error("two-converters", site.recipe.place,
                          "two converters in line: " + b.circuit.part(before->second).id + " and " + b.circuit.part(root.part).id + " both give " + signal,
                          "two in series leave the stop lamps dead: keep one");
      continue;
    }
    b.given_by[signal] = root.part;
    b.signal_net[signal] = b.add_net({signal, root, {}, b.circuit.part(root.part).place, 0, false, site.recipe.place});
  }
}

}  // namespace

void lay_fragment(Builder& b, const Site& site) {
  Made made;
  make_parts(b, site, made);
  if (b.diagnostics.has_errors()) return;
  Parted parted;
  for (const FragmentJoin& join : site.fragment.joins) {
    const Ends ends = find_ends(b, site, made, join);
    if (ends.failed) return;
    if (ends.wire == "lamp side") {   // beside the lamp, behind whatever isolates it
      auto& users = b.lamp_side_users[site.lamp];
      users.insert(users.end(), ends.own.begin(), ends.own.end());
      continue;
    }
    if (ends.wire.empty()) {
      join_nets(b, site, ends);
      continue;
    }
    const std::string circuit = site.lamp >= 0 ? b.circuit.lamps[static_cast<std::size_t>(site.lamp)].tow_signal : "other";
    const TerminalRef at = landing(b, site, ends, circuit);
    const bool car = ends.wire == "feed" || ends.wire == "driver" || ends.wire == "negative post";
    (car ? parted.car : parted.lamp) = at;
    if (site.fragment.cut == "none" && site.leg >= 0) parted.car = parted.lamp = at;   // a tap: the wire runs on
  }
  part_factory_wires(b, site, parted);
  give(b, site, made);
}

}  // namespace towloom
