// The function matrix as text: required against solved.
#include <algorithm>
#include <cmath>

#include "check/check.hpp"

namespace towloom {
namespace {

const char* sign(Seen seen) {
  switch (seen) {
    case Seen::dark: return ".";
    case Seen::lit: return "1";
    case Seen::flash: return "F";
    case Seen::counterflash: return "G";
    case Seen::glow: return "~";
    case Seen::may: return "?";
  }
  return " ";
}

std::string head(const Part& lamp) {
  const std::string side = lamp.side == Side::left ? "left " : lamp.side == Side::right ? "right " : "";
  return side + lamp.function;
}

std::string padded(std::string s, std::size_t width) {
  if (s.size() < width) s.append(width - s.size(), ' ');
  return s;
}

// "30.000 mV", "11.774 V".
std::string small_volts(double volts) {
  return std::fabs(volts) < 1 ? format_fixed(1000 * volts, 3) + " mV" : format_fixed(volts, 3) + " V";
}

// The worst probe each way, cold, and the worst with every diode hot, which may be another.
std::string backfeed_text(const Facts& facts) {
  const States& states = facts.states;
  std::string out = "\nBack-feed: " + std::to_string(states.backfeed.size()) + " probes solved, highest with 1 kohm across\n";
  for (const auto towards : {BackfeedProbe::Towards::coach, BackfeedProbe::Towards::car})
    for (double States::Backfeed::*const reading : {&States::Backfeed::loaded_v, &States::Backfeed::hot_v}) {
      const States::Backfeed* worst = nullptr;
      for (const States::Backfeed& b : states.backfeed)
        if (facts.circuit().probes[static_cast<std::size_t>(b.probe)].towards == towards && (worst == nullptr || std::fabs(b.*reading) > std::fabs(worst->*reading)))
          worst = &b;
      if (worst == nullptr) continue;
      const std::string way = towards == BackfeedProbe::Towards::coach ? "car to coach" : "coach to car";
      out += "  " + padded(reading == &States::Backfeed::loaded_v ? way : way + ", diodes hot", 26) + small_volts(worst->*reading) + " at " +
             facts.circuit().probes[static_cast<std::size_t>(worst->probe)].name + " in scene '" + states.scenes[static_cast<std::size_t>(worst->scene)].name + "'\n";
    }
  return out;
}

}  // namespace

std::string matrix_text(const Facts& facts) {
  const States& states = facts.states;
  std::size_t widest = 0;
  for (const Scene& scene : states.scenes) widest = std::max(widest, scene.name.size());
  std::string out = "Function matrix: solved; 'required>solved' where they differ\n"
                    "1 lit, F flashing, G flashing in the other phase, . dark, ~ glows, ? either\n";
  std::string heads = padded("", widest + 2);
  std::vector<std::size_t> widths;
  for (const LampIntent& lamp : facts.circuit().lamps) {
    const std::string text = head(facts.circuit().part(lamp.lamp));
    widths.push_back(text.size() + 2);
    heads += padded(text, widths.back());
  }
  std::string kind;
  std::size_t more = 0;
  for (std::size_t s = 0; s < states.scenes.size(); ++s) {
    if (!to_print(states, s)) {
      ++more;
      continue;
    }
    if (states.scenes[s].kind != kind) {
      kind = states.scenes[s].kind;
      out += "\n" + padded(kind, widest + 2) + heads.substr(widest + 2) + "\n";
    }
    out += padded(states.scenes[s].name, widest + 2);
    for (std::size_t l = 0; l < widths.size(); ++l) {
      const Seen required = states.required[s][l], seen = states.lamps[s][l].seen;
      const bool same = required == seen || required == Seen::may;
      out += padded(same ? sign(seen) : std::string(sign(required)) + ">" + sign(seen), widths[l]);
    }
    while (out.back() == ' ') out.pop_back();
    out += "\n";
  }
  if (more > 0) out += "and " + std::to_string(more) + " more scenes, solved too: in them every lamp does what it must, or may do either\n";
  std::string equal;
  for (const Scene& scene : states.scenes)
    for (const std::string& name : scene.printed ? scene.also : std::vector<std::string>{}) equal += "  " + name + ": as " + scene.name + "\n";
  if (!equal.empty()) out += "\nNot solved again: nothing in this circuit differs\n" + equal;
  out += "\nLamp volts in tow, lowest and highest while lit\n";
  for (std::size_t l = 0; l < widths.size(); ++l) {
    double low = 1e9, high = 0;
    for (std::size_t s = 0; s < states.scenes.size(); ++s) {
      const LampState& lamp = states.lamps[s][l];
      const bool lit = lamp.seen == Seen::lit || lamp.seen == Seen::flash || lamp.seen == Seen::counterflash;
      if (states.scenes[s].kind != "towing" || !lit || states.required[s][l] == Seen::may) continue;
      low = std::min(low, lamp.volts);
      high = std::max(high, lamp.volts);
    }
    out += "  " + padded(head(facts.circuit().part(facts.circuit().lamps[l].lamp)), 18);
    out += high > 0 ? format_fixed(low, 2) + " to " + format_fixed(high, 2) + " V\n" : "dark\n";
  }
  out += backfeed_text(facts);
  return out;
}

}  // namespace towloom
