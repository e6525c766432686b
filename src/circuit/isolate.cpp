// The method's fragments on the factory legs. Knows no method by name.
#include <algorithm>

#include "catalogue/part_kinds.hpp"
#include "circuit/builder.hpp"

namespace towloom {
namespace {

double leg_length(const Builder& b, const Leg& leg) {
  const double along = b.distance("inlet", leg.place);
  if (along >= 0) return along;
  double longest = 0;  // a lamp that no run reaches: as far as the farthest place that one does
  for (const RunRow& run : b.spec.runs) longest = std::max(longest, b.distance("inlet", run.to.value));
  return longest;
}

std::string short_of(const Builder& b, const Leg& leg) {
  return b.circuit.part(b.circuit.lamps[static_cast<std::size_t>(leg.lamp)].lamp).id;
}

std::map<std::string, std::string> chosen(const Builder& b, const Method& method, const FragmentPart& part) {
  std::map<std::string, std::string> out;
  for (const auto& [key, value] : part.values) {
    out[key] = value.value;
    if (value.value.rfind('$', 0) != 0) continue;
    for (const Choice& c : method.choices) {
      if ("$" + c.key != value.value) continue;
      const auto said = b.spec.isolation.choices.find(c.key);
      out[key] = said == b.spec.isolation.choices.end() ? c.fallback : said->second.value;
    }
  }
  return out;
}

// One fragment on one lamp: parts first, then each join by its ports.
void place_fragment(Builder& b, const Method& method, const Fragment& fragment, const Leg& leg, std::map<std::string, int>* numbers) {
  const LampIntent& lamp = b.circuit.lamps[static_cast<std::size_t>(leg.lamp)];
  const Part& lamp_part = b.circuit.part(lamp.lamp);
  const Side side = lamp_part.side;
  const std::string place = lamp_part.place, function = lamp_part.function;
  std::map<std::string, PartId> made;
  for (const FragmentPart& from : fragment.parts) {
    auto part = make_kind(from, chosen(b, method, from), b);
    if (!part) return;
    const char* prefix = find_kind(from.kind)->prefix;
    part->id = prefix + std::to_string(++(*numbers)[prefix]);
    part->title = function;
    part->function = function;
    part->place = place;
    part->side = side;
    part->zone = Zone::pocket;
    part->status = Status::fitted;
    part->origin = {b.spec.isolation.place, from.place};
    made[from.name] = b.add(std::move(*part));
  }
  CutPoint cut;
  cut.label = leg.feed.colour.value;
  cut.origin = {leg.job, fragment.place};
  for (const FragmentJoin& join : fragment.joins) {
    std::vector<TerminalRef> own;
    std::string port;
    for (const PlacedText& end : join.ends) {
      const std::size_t dot = end.value.find('.');
      if (dot == std::string::npos) {
        port = end.value;
        continue;
      }
      const TerminalRef t = b.circuit.terminal(b.circuit.part(made[end.value.substr(0, dot)]).id + end.value.substr(dot));
      if (!t.part) {
        b.diagnostics.error("join-end", end.place, "'" + end.value + "' is no terminal of that part");
        return;
      }
      own.push_back(t);
    }
    if (own.empty()) continue;
    if (port == "signal")
      b.signal_users[lamp.tow_signal].push_back(own[0]);
    else if (port == "feed")
      cut.car_side = b.factory_wire(leg.from, own[0], leg.feed, leg_length(b, leg), cut.origin);
    else if (port == "lamp")
      cut.lamp_side = b.factory_wire(own[0], leg.to, leg.feed, b.rule("lamp_loop_m"), cut.origin);
  }
  b.circuit.cuts.push_back(cut);
}

// plate: with left tail. The plate's own branch is cut and capped; it hangs on that lamp's side of its cut.
void refeed(Builder& b, const Leg& leg, const std::string& host_name) {
  for (std::size_t i = 0; i < b.circuit.lamps.size(); ++i) {
    const LampRow& row = b.spec.car.lamps[static_cast<std::size_t>(b.lamp_rows[i])];
    if (row.name.value != host_name) continue;
    if (b.circuit.lamps[i].tow_signal != "tail")
      b.diagnostics.error("refeed", b.spec.isolation.plate->place, "'" + host_name + "' carries no tail signal in tow");
    b.lamp_side_users[static_cast<int>(i)].push_back(leg.to);
    Part cap;
    cap.id = "CAP-" + short_of(b, leg);
    cap.kind = "cap";
    cap.title = "cap";
    cap.place = leg.place;
    cap.zone = Zone::pocket;
    cap.side = Side::centre;
    cap.terminals = {"1"};
    cap.origin = {b.spec.isolation.place, {}};
    const PartId id = b.add(std::move(cap));
    CutPoint cut;
    cut.label = leg.feed.colour.value;
    cut.origin = {leg.job, {}};
    cut.car_side = b.factory_wire(leg.from, {id, 0}, leg.feed, leg_length(b, leg), cut.origin);
    b.circuit.cuts.push_back(cut);
    return;
  }
  std::vector<std::string> known;
  for (const LampRow& row : b.spec.car.lamps) known.push_back(row.name.value);
  const std::string near = did_you_mean(host_name, known);
  b.diagnostics.error("refeed", b.spec.isolation.plate->place, "no lamp '" + host_name + "' to feed the plate lamp with",
                      near.empty() ? "" : "did you mean 'with " + near + "'?");
}

const Method* find_method(Builder& b) {
  const auto found = b.catalogue.methods.find(b.spec.isolation.method.value);
  std::vector<std::string> known;
  for (const auto& [name, method] : b.catalogue.methods) known.push_back(name);
  if (found == b.catalogue.methods.end()) {
    const std::string near = did_you_mean(b.spec.isolation.method.value, known);
    b.diagnostics.error("unknown-method", b.spec.isolation.method.place,
                        "no method '" + b.spec.isolation.method.value + "' in the catalogue",
                        near.empty() ? "known: " + known.front() : "did you mean '" + near + "'?");
    return nullptr;
  }
  for (const auto& [key, value] : b.spec.isolation.choices) {
    std::vector<std::string> keys = {"plate"};
    for (const Choice& c : found->second.choices) keys.push_back(c.key);
    if (std::find(keys.begin(), keys.end(), key) != keys.end()) continue;
    const std::string near = did_you_mean(key, keys);
    b.diagnostics.error("unknown-key", value.place, "'" + key + "' is no choice of " + found->second.name,
                        near.empty() ? "" : "did you mean '" + near + "'?");
  }
  return &found->second;
}

}  // namespace

void build_isolation(Builder& b) {
  const Method* method = find_method(b);
  if (method == nullptr) return;
  const std::string with = b.spec.isolation.plate ? b.spec.isolation.plate->value : "";
  if (!with.empty() && with.rfind("with ", 0) != 0)
    b.diagnostics.error("refeed", b.spec.isolation.plate->place, "'" + with + "' does not say with which lamp",
                        "write it like: plate: with left tail");
  std::map<std::string, int> numbers;   // by prefix of the designation
  for (const Leg& leg : b.legs) {
    const LampIntent& lamp = b.circuit.lamps[static_cast<std::size_t>(leg.lamp)];
    if (lamp.tow_signal.empty()) {
      b.factory_wire(leg.from, leg.to, leg.feed, leg_length(b, leg), {leg.job, {}});
    } else if (b.signal_port.count(lamp.tow_signal) == 0) {
      b.diagnostics.error("no-signal", leg.job, "the coach has no " + lamp.tow_signal + " signal for this lamp");
    } else if (lamp.car_function == "plate" && with.size() > 5) {
      refeed(b, leg, with.substr(5));
    } else {
      for (const Fragment& fragment : method->fragments) place_fragment(b, *method, fragment, leg, &numbers);
    }
  }
}

}  // namespace towloom
