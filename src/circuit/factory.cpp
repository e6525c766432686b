// The car's own feeds: battery, fuse, the switches that drive each factory node, trunks and legs.
#include <algorithm>

#include "circuit/builder.hpp"

namespace towloom {
namespace {

struct Tree {
  std::map<std::string, PartId> made;                 // feed, or feed and node -> its part
  std::map<std::string, int> trunks;                  // the same and its port -> index in Builder::trunks
  std::vector<TerminalRef> supplied;
};

// How one node is fed.
struct Fed {
  const Feed* feed = nullptr;
  std::string node, signal;    // signal: what works an output that is made for this node
  std::string key() const { return feed->each_node ? feed->name + " " + node : feed->name; }
};

const Feed* feed_for(Builder& b, const std::string& function, const std::string& drive, const Place& place) {
  for (const auto& [name, feed] : b.catalogue.feeds)
    if (feed.drive == drive && std::find(feed.drives.begin(), feed.drives.end(), function) != feed.drives.end()) return &feed;
  b.diagnostics.error("no-feed", place, "nothing in the catalogue drives a '" + function + "' lamp" + (drive == "switched" ? "" : " by " + drive),
                      "see specs/feeds/ for what can");
  return nullptr;
}

// The terminal of the feed's own part that is joined to `port`.
std::optional<TerminalRef> port_terminal(const Builder& b, const Feed& feed, PartId part, const std::string& port) {
  for (const FragmentJoin& join : feed.joins) {
    bool here = false;
    std::string terminal;
    for (const PlacedText& end : join.ends) {
      if (end.value == port) here = true;
      if (const std::size_t dot = end.value.find('.'); dot != std::string::npos && end.value.substr(0, dot) == feed.parts[0].name)
        terminal = end.value.substr(dot + 1);
    }
    if (!here || terminal.empty()) continue;
    const TerminalRef t = b.circuit.terminal(b.circuit.part(part).id + "." + terminal);
    if (t.part) return t;
  }
  return std::nullopt;
}

int trunk_of(Builder& b, Tree& tree, const Fed& fed, const std::string& port);

PartId make_feed(Builder& b, Tree& tree, const Fed& fed) {
  if (const auto old = tree.made.find(fed.key()); old != tree.made.end()) return old->second;
  const Feed& feed = *fed.feed;
  const FragmentPart& from = feed.parts[0];
  std::map<std::string, PlacedText> values = from.values;
  for (auto& [key, value] : values)
    if (value.value == "$signal") value.value = fed.signal;
  auto part = make_kind(from, values, b);
  if (!part) return {};
  part->id = feed.each_node ? fed.node : values.count("id") != 0 ? values["id"].value : feed.name;
  if (b.circuit.find(part->id)) part->id += " feed";
  part->title = feed.title;
  part->zone = Zone::source;
  part->status = Status::factory;
  part->origin = {b.spec.car.stop_switch.kind.place, from.place};
  const PartId id = b.add(std::move(*part));
  tree.made[fed.key()] = id;
  if (const auto supply = port_terminal(b, feed, id, "supply")) tree.supplied.push_back(*supply);
  if (const auto stop = port_terminal(b, feed, id, "stop")) {
    const Feed* source = feed_for(b, "stop", "switched", b.spec.car.stop_switch.kind.place);
    const int trunk = source == nullptr ? -1 : trunk_of(b, tree, {source, "STOP", ""}, "out");
    if (trunk >= 0) b.legs.push_back({trunk, *stop, {}, -1, "", b.spec.car.stop_switch.kind.place});
  }
  return id;
}

int trunk_of(Builder& b, Tree& tree, const Fed& fed, const std::string& port) {
  const std::string key = fed.key() + " " + port;
  if (const auto old = tree.trunks.find(key); old != tree.trunks.end()) return old->second;
  const PartId part = make_feed(b, tree, fed);
  const auto driver = part ? port_terminal(b, *fed.feed, part, port) : std::nullopt;
  if (!driver) return -1;
  b.trunks.push_back({"", fed.feed->drives, *driver, *driver, {}, b.spec.car.place, false});
  return tree.trunks[key] = static_cast<int>(b.trunks.size()) - 1;
}

void hang_lamps(Builder& b, Tree& tree) {
  std::map<std::string, std::pair<std::string, Place>> node_driver;
  for (std::size_t i = 0; i < b.circuit.lamps.size(); ++i) {
    const LampRow& row = b.spec.car.lamps[static_cast<std::size_t>(b.lamp_rows[i])];
    if (row.added) continue;
    const Feed* feed = feed_for(b, row.function.value, row.drive, row.function.place);
    if (feed == nullptr) continue;
    std::string port = "out";
    for (const FragmentJoin& join : feed->joins)
      for (const PlacedText& end : join.ends)
        if (end.value == "out.left" && row.side != Side::centre) port = row.side == Side::left ? "out.left" : "out.right";
    const Fed fed{feed, row.node.value, b.circuit.lamps[i].car_signal};
    const std::string driver = feed->each_node ? feed->name + " " + fed.signal : feed->name + " " + port;
    const auto [known, first] = node_driver.emplace(row.node.value, std::pair{driver, row.node.place});
    if (!first && known->second.first != driver) {
      b.diagnostics.error("node-drivers", row.node.place, "node '" + row.node.value + "' would have two drivers",
                          "it is fed differently on line " + std::to_string(known->second.second.line));
      continue;
    }
    const int trunk = trunk_of(b, tree, fed, port);
    if (trunk < 0) {
      b.diagnostics.error("no-output", row.function.place, "a " + feed->title + " cannot feed this lamp",
                          "name the lamp's side: left or right");
      continue;
    }
    Trunk& t = b.trunks[static_cast<std::size_t>(trunk)];
    if (t.node.empty()) t.node = row.node.value;
    if (feed->each_node) t.drives = {row.function.value};   // its feed can drive any lamp; this one drives these
    b.legs.push_back({trunk, {b.circuit.lamps[i].lamp, 0}, row.feed, static_cast<int>(i), row.unit, row.place});
  }
}

// A splice where several legs leave; a single leg starts at the driver.
void join_legs(Builder& b) {
  for (std::size_t t = 0; t < b.trunks.size(); ++t) {
    Trunk& trunk = b.trunks[t];
    int legs = 0;
    for (const Leg& leg : b.legs) {
      if (leg.trunk != static_cast<int>(t)) continue;
      if (legs++ == 0) trunk.job = leg.job;
      if (trunk.colour.colour.value.empty()) trunk.colour = leg.feed;
    }
    if (legs < 2) continue;
    const PartId splice = b.add_splice("SP-" + (trunk.node.empty() ? "STOP" : trunk.node), "car", Side::centre, Zone::source, Status::factory);
    trunk.joint = {splice, 0};
  }
}

void build_supply(Builder& b, const Tree& tree) {
  const Origin origin{b.spec.car.place, {}};
  Part battery;
  battery.id = "BAT";
  battery.kind = "battery";
  battery.title = "battery";
  battery.value = format_plain(b.rule("battery_v")) + " V";
  battery.zone = Zone::source;
  battery.status = Status::factory;
  battery.place = b.spec.car.battery;
  battery.terminals = {"+", "-"};
  Element e;
  e.law = Law::source;
  e.a = 0;
  e.b = 1;
  e.volts = b.rule("battery_v");
  e.ohm = b.rule("battery_ohm");
  battery.elements = {e};
  battery.origin = origin;
  const PartId battery_id = b.add(std::move(battery));
  const PartId stud = b.add_stud("G-BAT", "body at battery", Side::centre, Zone::source, Status::factory, origin);
  Part fuse;
  fuse.id = "FU1";
  fuse.kind = "fuse";
  fuse.title = "lamp fuse";
  fuse.value = format_plain(b.rule("car_fuse_a")) + " A";
  fuse.zone = Zone::source;
  fuse.status = Status::factory;
  fuse.terminals = {"1", "2"};
  fuse.elements = {resistor(0, 1, b.rule("car_fuse_ohm"))};
  fuse.origin = origin;
  const PartId fuse_id = b.add(std::move(fuse));
  b.assume("car's lamp fuse FU1", "15 A, not surveyed", "car_fuse_a");
  const double front = b.rule("factory_front_m");
  SizedColour heavy;
  heavy.size = PlacedSize{{"2.5", WireSizeName::System::mm2}, {}};
  b.factory_wire({battery_id, 1}, {stud, 0}, heavy, front, origin);
  b.factory_wire({battery_id, 0}, {fuse_id, 0}, heavy, front, origin);
  TerminalRef from{fuse_id, 1};
  if (tree.supplied.size() > 1) {
    const PartId splice = b.add_splice("SP-SUPPLY", "car", Side::centre, Zone::source, Status::factory);
    b.factory_wire(from, {splice, 0}, heavy, front, origin);
    from = {splice, 0};
  }
  for (const TerminalRef& to : tree.supplied) b.factory_wire(from, to, {}, front, origin);
}

}  // namespace

void build_factory(Builder& b) {
  Tree tree;
  hang_lamps(b, tree);
  if (b.diagnostics.has_errors()) return;
  build_supply(b, tree);
  join_legs(b);
  b.assume("factory wires", "as long as the runs beside them; inner colours of the car's front not surveyed", "factory_front_m");
}

}  // namespace towloom
