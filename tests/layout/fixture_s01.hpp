// The circuit of the plain job, typed by hand from its survey, so that layout is tested without the builder.
#pragma once

#include "circuit/circuit.hpp"

namespace towloom::fixture {

struct Maker {
  Circuit c;
  int factory = 0, fitted = 0;

  Part& part(std::string id, std::string kind, std::vector<std::string> terminals, Zone zone, Side side,
             Status status) {
    Part p;
    p.id = std::move(id), p.kind = std::move(kind), p.terminals = std::move(terminals);
    p.zone = zone, p.side = side, p.status = status;
    c.parts.push_back(p);
    return c.parts.back();
  }
  TerminalRef at(const std::string& ref) const {
    const size_t dot = ref.rfind('.');
    for (size_t i = 0; i < c.parts.size(); ++i) {
      if (c.parts[i].id != ref.substr(0, dot)) continue;
      for (size_t t = 0; t < c.parts[i].terminals.size(); ++t)
        if (c.parts[i].terminals[t] == ref.substr(dot + 1)) return {PartId{int(i)}, int(t)};
    }
    return {};
  }
  WireId wire(std::string id, const std::string& from, const std::string& to, std::string circuit,
              std::string colour, std::string size, double length, Status status) {
    Wire w;
    w.id = std::move(id), w.from = at(from), w.to = at(to), w.circuit = std::move(circuit);
    w.colour = std::move(colour), w.length_m = length, w.status = status;
    if (!size.empty()) w.size = parse_wire_size(size);
    c.wires.push_back(w);
    return WireId{int(c.wires.size()) - 1};
  }
  WireId f(const std::string& from, const std::string& to, std::string circuit, std::string colour,
           std::string size) {
    return wire("F" + std::to_string(++factory), from, to, std::move(circuit), std::move(colour), std::move(size),
                0, Status::factory);
  }
  WireId w(const std::string& from, const std::string& to, std::string circuit, std::string colour, double m) {
    return wire("W" + std::to_string(++fitted), from, to, std::move(circuit), std::move(colour), "16 AWG", m,
                Status::fitted);
  }
  void lamp(std::string id, std::string title, std::string value, std::string function, std::string group,
            Side side, std::string signal) {
    Part& p = part(id, "lamp", {"feed", "return"}, Zone::lamp, side, Status::factory);
    p.title = title, p.value = value, p.function = function, p.group = group;
    c.lamps.push_back({PartId{int(c.parts.size()) - 1}, signal, function, side});
  }
  void stud(std::string id, std::string place, Zone zone, Side side, Status status) {
    Part& p = part(id, "stud", {"1", "body"}, zone, side, status);
    p.place = place, p.joins = "body";
  }
};

inline void coach(Maker& m) {
  m.part("COACH", "coach-feed", {"ground", "tail", "left", "right"}, Zone::coach, Side::centre, Status::coach);
  const char* names[] = {"ground", "tail", "left", "right"};
  const char* colours[] = {"WH", "BN", "YE", "GN"};
  for (int n = 1; n <= 4; ++n) {
    const std::string k = std::to_string(n), name = names[n - 1];
    for (const char* j : {"J1", "J2"}) {
      const bool outlet = j[1] == '1';
      Part& p = m.part(j + ("." + k), "contact",
                       outlet ? std::vector<std::string>{"coach", "cord"} : std::vector<std::string>{"cord", "car"},
                       outlet ? Zone::coach : Zone::inlet, Side::centre, Status::coach);
      p.group = j, p.contact = k, p.function = name, p.model = "flat-4";
    }
    m.wire("M" + k, "COACH." + name, "J1." + k + ".coach", name, colours[n - 1], "", 0, Status::coach);
    m.c.wires.back().fixed_ohm = 1e-4;
    m.wire("C" + k, "J1." + k + ".cord", "J2." + k + ".cord", name, colours[n - 1], "16 AWG", 2.4, Status::coach);
    m.c.wires.back().group = "cord";
  }
}

inline void sources(Maker& m) {
  const Zone z = Zone::source;
  const Side s = Side::centre;
  m.part("BAT", "battery", {"+", "-"}, z, s, Status::factory).value = "12.6 V";
  m.stud("G-BAT", "battery", z, s, Status::factory);
  m.part("FU1", "fuse", {"1", "2"}, z, s, Status::factory).value = "15 A";
  m.part("SP1", "splice", {"1"}, z, s, Status::factory);
  m.part("SW-LAMP", "switch", {"1", "2"}, z, s, Status::factory).title = "lamps";
  m.part("SW-STOP", "switch", {"1", "2"}, z, s, Status::factory).title = "stop";
  m.part("SW-REV", "switch", {"1", "2"}, z, s, Status::factory).title = "reverse";
  m.part("TURN", "turn-switch", {"supply", "stop", "left", "right"}, z, s, Status::factory).title = "turn";
  m.part("SP-TAIL", "splice", {"1"}, z, s, Status::factory);
  m.part("SP-STOP", "splice", {"1"}, z, s, Status::factory);
  m.part("CAP1", "cap", {"1"}, Zone::pocket, s, Status::fitted).title = "old plate branch";
}

inline void rear(Maker& m) {
  const char* ids[] = {"D1", "D2", "D3", "D4"};
  for (int i = 0; i < 4; ++i) {
    Part& p = m.part(ids[i], "diode-pair", {"A1", "A2", "K"}, Zone::pocket, i % 2 ? Side::right : Side::left,
                     Status::fitted);
    p.value = "silicon", p.function = i < 2 ? "stop-turn" : "tail";
  }
  m.part("S1", "splice", {"1"}, Zone::pocket, Side::left, Status::fitted);
  m.part("S2", "splice", {"1"}, Zone::pocket, Side::left, Status::fitted);
  m.lamp("E-ST-L", "stop/turn", "P21/5W bright", "stop-turn", "left rear", Side::left, "left");
  m.lamp("E-ST-R", "stop/turn", "P21/5W bright", "stop-turn", "right rear", Side::right, "right");
  m.lamp("E-TL-L", "tail", "P21/5W dim", "tail", "left rear", Side::left, "tail");
  m.lamp("E-TL-R", "tail", "P21/5W dim", "tail", "right rear", Side::right, "tail");
  m.lamp("E-PL", "plate", "2 x R5W", "plate", "plate", Side::centre, "tail");
  m.lamp("E-HS", "high stop", "LED 0.25 A", "chmsl", "high stop", Side::centre, "");
  m.lamp("E-RV", "reverse", "P21W", "reverse", "right rear", Side::right, "");
  m.part("JT-L", "joint", {"1"}, Zone::lamp, Side::left, Status::factory).group = "left rear";
  m.part("JT-R", "joint", {"1"}, Zone::lamp, Side::right, Status::factory).group = "right rear";
  m.stud("G-F", "front frame stud", Zone::inlet, Side::centre, Status::fitted);
  m.stud("G-RL", "left pocket", Zone::lamp, Side::left, Status::factory);
  m.stud("G-RR", "right pocket", Zone::lamp, Side::right, Status::factory);
  m.stud("G-P", "body at the plate", Zone::lamp, Side::centre, Status::factory);
  m.stud("G-H", "body at the high stop", Zone::lamp, Side::centre, Status::factory);
}

inline void factory_wires(Maker& m) {
  m.f("BAT.-", "G-BAT.1", "ground", "BK", "");
  m.f("BAT.+", "FU1.1", "supply", "RD", "");
  m.f("FU1.2", "SP1.1", "supply", "RD", "");
  m.f("SP1.1", "SW-LAMP.1", "supply", "RD", "");
  m.f("SP1.1", "SW-STOP.1", "supply", "RD", "");
  m.f("SP1.1", "TURN.supply", "supply", "RD", "");
  m.f("SP1.1", "SW-REV.1", "supply", "RD", "");
  m.f("SW-LAMP.2", "SP-TAIL.1", "tail", "PK/BK", "0.5 mm2");
  m.f("SW-STOP.2", "SP-STOP.1", "stop", "WH/VT", "0.5 mm2");
  m.f("SP-STOP.1", "TURN.stop", "stop", "WH/VT", "0.5 mm2");
  m.f("SP-STOP.1", "E-HS.feed", "stop", "WH/VT", "0.5 mm2");
  m.f("SW-REV.2", "E-RV.feed", "reverse", "TQ/BK", "0.75 mm2");
  m.f("SP-TAIL.1", "CAP1.1", "tail", "PK/BK", "0.5 mm2");
  const WireId legs[] = {
      m.f("TURN.left", "D1.A2", "left", "GY/VT", "0.75 mm2"), m.f("TURN.right", "D2.A2", "right", "GY/OG", "0.75 mm2"),
      m.f("SP-TAIL.1", "D3.A2", "tail", "PK/BK", "0.5 mm2"), m.f("SP-TAIL.1", "D4.A2", "tail", "PK/BK", "0.5 mm2")};
  const WireId ends[] = {
      m.f("D1.K", "E-ST-L.feed", "left", "GY/VT", "0.75 mm2"), m.f("D2.K", "E-ST-R.feed", "right", "GY/OG", "0.75 mm2"),
      m.f("S2.1", "E-TL-L.feed", "tail", "PK/BK", "0.5 mm2"), m.f("D4.K", "E-TL-R.feed", "tail", "PK/BK", "0.5 mm2")};
  for (int i = 0; i < 4; ++i) m.c.cuts.push_back({legs[i], ends[i], "cut", {}});
  for (const char* x : {"E-ST-L", "E-TL-L"}) m.f(std::string(x) + ".return", "JT-L.1", "ground", "BK", "");
  for (const char* x : {"E-ST-R", "E-TL-R", "E-RV"}) m.f(std::string(x) + ".return", "JT-R.1", "ground", "BK", "");
  m.f("JT-L.1", "G-RL.1", "ground", "BK/WH", "0.75 mm2");
  m.f("JT-R.1", "G-RR.1", "ground", "BK/WH", "0.75 mm2");
  m.f("E-PL.return", "G-P.1", "ground", "BK", "");
  m.f("E-HS.return", "G-H.1", "ground", "BK", "");
}

inline void new_wires(Maker& m) {
  m.w("J2.1.car", "G-F.1", "ground", "WH", 0.4);
  m.w("J2.2.car", "S1.1", "tail", "BN", 5.4);
  m.w("S1.1", "D3.A1", "tail", "BN", 0.2);
  m.w("S1.1", "D4.A1", "tail", "BN", 1.6);
  m.w("J2.3.car", "D1.A1", "left", "YE", 5.5);
  m.w("J2.4.car", "D2.A1", "right", "GN", 6.9);
  m.w("D3.K", "S2.1", "tail", "BN", 0.2);
  m.w("S2.1", "E-PL.feed", "plate", "BN", 0.8);
}

inline Circuit s01() {
  Maker m;
  coach(m);
  sources(m);
  rear(m);
  factory_wires(m);
  new_wires(m);
  return m.c;
}

}  // namespace towloom::fixture
