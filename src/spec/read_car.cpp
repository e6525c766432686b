#include <charconv>

#include "spec/parts.hpp"

namespace towloom {
namespace {

constexpr double longest_flash_ms = 10000;   // catches slips of the pen

void read_towing(Car& car, Fields& fields, Diagnostics& diagnostics) {
  const Node* node = fields.node("towing");
  if (node == nullptr) return;
  Fields row(*node, "towing", diagnostics);
  car.ignition = row.word("ignition", {"off", "accessory", "run"});
  car.stop_lamps = row.word("stop lamps", {"live", "asleep", "dead"});
  car.standing_draw_a = bounded(row, "standing draw", Unit::ampere, most_a);
  row.finish();
}

// battery: engine bay left, or {at: engine bay left, sensor: yes}
void read_battery(Car& car, Fields& fields, Diagnostics& diagnostics) {
  const Node* node = fields.node("battery");
  if (node == nullptr) return;
  if (node->kind == Node::Kind::scalar) {
    car.battery = node->text;
    return;
  }
  Fields row(*node, "battery", diagnostics);
  car.battery = row.need_text("at").value;
  if (const auto sensor = row.word("sensor", {"yes", "no"})) car.battery_sensor = sensor->value == "yes";
  row.finish();
}

void read_stop_switch(Car& car, Fields& fields, Diagnostics& diagnostics) {
  const Node* node = fields.need_node("stop switch");
  if (node == nullptr) return;
  Fields row(*node, "stop switch", diagnostics);
  if (const auto kind = row.word("kind", {"switch", "module"})) car.stop_switch.kind = *kind;
  car.stop_switch.feeds = row.texts("feeds");
  row.finish();
}

// flasher: {kind: variable load, cycles: [160/200 ms, 160/200 ms, 160/620 ms]}: lit and dark, as timed.
std::optional<Flasher> read_flasher(const Node& node, Diagnostics& diagnostics) {
  Flasher out;
  Fields row(node, "flasher", diagnostics);
  if (const auto kind = row.word("kind", {"fixed load", "variable load"}))
    out.kind = *kind;
  else if (!row.has("kind"))
    (void)row.need_text("kind");
  if (!row.has("cycles")) (void)row.need_node("cycles");
  for (const PlacedText& text : row.texts("cycles")) {
    double lit = 0, dark = 0;
    const char *at = text.value.data(), *end = at + text.value.size();
    auto read = std::from_chars(at, end, lit);
    if (read.ec == std::errc{} && read.ptr != end && *read.ptr == '/') read = std::from_chars(read.ptr + 1, end, dark);
    const bool good = read.ec == std::errc{} && std::string(read.ptr, end) == " ms" && lit > 0 && dark > 0 && lit + dark < longest_flash_ms;
    if (good)
      out.cycles_s.emplace_back(lit / 1000, dark / 1000);
    else
      diagnostics.error("flash-cycle", text.place, "'" + text.value + "' is no flash cycle", "write lit and dark time: 350/350 ms");
  }
  row.finish();
  return out;
}

}  // namespace

Coach read_coach(const Node& node, Diagnostics& diagnostics) {
  Coach coach;
  coach.place = node.place;
  Fields fields(node, "coach", diagnostics);
  if (const auto outlet = read_outlet(fields, "outlet", diagnostics)) coach.outlet = *outlet;
  if (const auto signals = fields.word("signals", {"combined", "separate"}))
    coach.signals = *signals;
  else if (!fields.has("signals"))
    (void)fields.need_text("signals");
  coach.lamp = fields.text("lamp");
  if (const Node* flasher = fields.node("flasher")) coach.flasher = read_flasher(*flasher, diagnostics);
  coach.detection = fields.word("detection", {"none", "load"});
  coach.outputs = fields.word("outputs", {"plain", "pulse-modulated"});
  coach.duty = bounded(fields, "duty", Unit::percent, most_duty);
  if (coach.duty && (!coach.outputs || coach.outputs->value != "pulse-modulated"))
    diagnostics.error("duty", coach.duty->place, "only pulse-modulated outputs have a duty", "write outputs: pulse-modulated, or take the duty out");
  coach.limit_a = bounded(fields, "limit", Unit::ampere, most_a);
  coach.found = read_found(fields, 0, diagnostics);
  fields.finish();
  return coach;
}

Car read_car(const Node& node, Diagnostics& diagnostics) {
  Car car;
  car.place = node.place;
  Fields fields(node, "car", diagnostics);
  if (const auto inlet = read_outlet(fields, "inlet", diagnostics)) car.inlet = *inlet;
  car.colours = fields.text("colours");
  read_battery(car, fields, diagnostics);
  if (const auto drive = fields.word("drive", {"left-hand", "right-hand"})) car.drive = *drive;
  read_towing(car, fields, diagnostics);
  if (const auto monitoring = fields.word("monitoring", {"none", "flasher", "on-current", "off-pulse"}))
    car.monitoring = *monitoring;
  else
    car.monitoring = {"none", node.place};
  read_stop_switch(car, fields, diagnostics);
  if (const Node* lamps = fields.need_node("lamps")) {
    Fields check(*lamps, "lamps", diagnostics);
    car.lamps = read_lamps(*lamps, false, diagnostics);
  }
  fields.finish();
  return car;
}

}  // namespace towloom
