// The test sheet: tests in working order, what each must read by the solution, and a box for what it does read.
#include <algorithm>
#include <cmath>

#include "sheets/table.hpp"
#include "solve/meter.hpp"

namespace towloom {
namespace {

constexpr Mm100 box_height = mm(4);

struct Tests {
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;
  std::vector<SheetRow> rows;
  int number = 0;

  const Circuit& circuit() const { return facts.circuit(); }
  const States& states() const { return facts.states; }
  std::string say(const std::string& key) const { return word(style, key); }
  std::string rule_v(const char* name, const char* key) const { return say(key) + " " + format_plain(catalogue.rule(name).value) + " V"; }

  static SheetCell box(Mm100 width) {
    SheetCell out;
    out.mark = [=](SheetPen& pen, Point at) { pen.add({towloom::box({at.x - width / 2, at.y - box_height / 2, width, box_height}, pen.pen("outline", "quiet"), mm(0.4))}); };
    return out;
  }
  void head(const char* key) { rows.push_back({{{say(key), Weight::semibold}}}); }
  void test(std::string what, std::string expect, std::string accept = "", bool read = true, std::string about = "") {
    SheetCell reading = read ? box(mm(20)) : SheetCell{""};
    rows.push_back({{{std::to_string(++number)}, {std::move(what), Weight::regular, "ink", "", std::move(about)}, {std::move(expect), Weight::semibold},
                     {std::move(accept), Weight::regular, "quiet"}, std::move(reading), box(mm(5))}});
  }
  void words(const std::string& key) { test(say(key), say(key + "-expect"), "", false); }

  std::string lamp(std::size_t l) const { return lamp_text(circuit(), circuit().part(circuit().lamps[l].lamp), style); }
  // "left tail, right tail, plate lit; left stop/turn flashing; all others dark", from what survey and method want.
  std::string picture(std::size_t s) const {
    const std::pair<Seen, const char*> kinds[] = {{Seen::lit, "is-lit"}, {Seen::flash, "is-flashing"}, {Seen::counterflash, "is-counterflashing"}, {Seen::may, "is-either"}};
    std::string out;
    for (const auto& [seen, key] : kinds) {
      std::string names;
      for (std::size_t l = 0; l < circuit().lamps.size(); ++l)
        if (states().required[s][l] == seen) names += (names.empty() ? "" : ", ") + lamp(l);
      if (!names.empty()) out += (out.empty() ? "" : "; ") + names + " " + say(key);
    }
    return out.empty() ? say("all-dark") : out + "; " + say("others-dark");
  }
  std::optional<std::size_t> scene(const std::string& name) const {
    for (std::size_t s = 0; s < states().scenes.size(); ++s)
      if (states().scenes[s].name == name) return s;
    return std::nullopt;
  }
  // The meter's reading in the flash phase in which it is highest.
  std::string reading(std::size_t s, TerminalRef from, TerminalRef to) const {
    double most = 0;
    const Attached meter = attach(catalogue.instruments.at("meter"), catalogue, from, to);
    for (const Reading& r : read_between(circuit(), catalogue, states().scenes[s], meter, {&states().solved[s], nullptr}))
      if (std::fabs(r.volts) > std::fabs(most)) most = r.volts;
    return format_fixed(most, std::fabs(most) < 1 ? 2 : 1) + " V";
  }
};

Plug plug_of(const Tests& t, const FoundContact& f) { return plugs(t.facts.spec)[static_cast<std::size_t>(f.plug)]; }

bool tests_lamps(const Scene& scene, bool pairs) {
  return scene.printed && scene.kind == "towing" && (scene.name.find(" + ") != std::string::npos || scene.name.find(',') != std::string::npos) == pairs;
}

void before_work(Tests& t) {
  t.head("test-before");
  t.words("test-car-as-is");
  t.words("test-draw");
  if (const double duty = coach_duty(t.facts.spec, t.catalogue); duty < 1)
    t.test(t.say("test-duty"), format_fixed(100 * duty, 0) + " %", t.say(t.facts.spec.coach.duty ? "surveyed" : "assumed"));
  for (const Part& part : t.circuit().parts) {
    if (part.kind != "contact" || part.zone != Zone::coach) continue;
    if (t.catalogue.tow_signals.at(part.function).kind == "ground") continue;
    const FoundContact* found = nullptr;
    for (const FoundContact& f : t.facts.spec.coach.found)
      if (plug_of(t, f).outlet_id() == part.group && (f.contact.value == part.contact || f.contact.value == part.title)) found = &f;
    const std::string what = contact_text(part, t.style) + ", " + t.say("circuit-" + part.function) + ", " + t.say("to-ground");
    const double open = found && found->open_v ? found->open_v->value : t.catalogue.rule("outlet_v").value;
    t.test(what + ", " + t.say("open"), format_fixed(open, 1) + " V", found && found->open_v ? t.say("surveyed") : t.say("assumed"), true, part.id);
    if (found && found->loaded_v)
      t.test(what + ", " + t.say("loaded") + " " + format_fixed(found->load_a ? found->load_a->value : t.catalogue.rule("load_a").value, 1) + " A", format_fixed(found->loaded_v->value, 1) + " V", t.say("surveyed"), true, part.id);
  }
}

void dead(Tests& t) {
  t.head("test-dead");
  for (const Wire& w : t.circuit().wires) {
    if (!is_core(w)) continue;
    const Part &from = t.circuit().part(w.from.part), &to = t.circuit().part(w.to.part);
    t.test(w.id + " " + colour_text(w.colour, t.style) + ": " + contact_text(from, t.style) + " " + t.say("to") + " " + contact_text(to, t.style), t.say("through"), t.say("open-to-others"), false, w.id);
  }
  for (const Part& part : t.circuit().parts) {
    if (part.status != Status::fitted) continue;
    if (part.kind == "diode-pair" || part.kind == "diode") t.test(part.id + ", " + part.place + ": " + t.say("diode-range"), t.say("one-way"), "", false, part.id);
    if (part.kind == "relay" && !part.elements.empty())
      t.test(part.id + ", " + part.place + ": 86 " + t.say("to") + " 85", format_fixed(part.elements[0].ohm, 0) + " Ω", t.say("coil-band"), true, part.id);
    if (part.kind == "fuse") t.test(part.id + ", " + part.place + ": " + t.say("test-fuse"), part.value, "", false, part.id);
  }
}

void car_alone(Tests& t, const char* head) {
  t.head(head);
  for (std::size_t s = 0; s < t.states().scenes.size(); ++s)
    if (t.states().scenes[s].kind == "car alone") t.test(t.states().scenes[s].name, t.picture(s), "", false);
}

void inlet_quiet(Tests& t) {
  t.head("test-inlet");
  for (const BackfeedProbe& p : t.circuit().probes)
    if (p.towards == BackfeedProbe::Towards::coach) t.test(p.name + ", " + t.say("with-1k"), "0.0 V", t.rule_v("backfeed_limit_v", "at-most"), true, t.circuit().part(p.at.part).id);
}

void towed(Tests& t) {
  t.head("test-singles");
  for (const bool pairs : {false, true}) {
    if (pairs) t.head("test-pairs");
    for (std::size_t s = 0; s < t.states().scenes.size(); ++s)
      if (tests_lamps(t.states().scenes[s], pairs)) t.test(t.states().scenes[s].name, t.picture(s), "", false);
  }
}

void cuts_quiet(Tests& t) {
  t.head("test-cuts");
  for (const BackfeedProbe& p : t.circuit().probes)
    if (p.towards == BackfeedProbe::Towards::car) t.test(p.name + " " + t.say("to-body") + ", " + t.say("with-1k"), "0.0 V", t.rule_v("backfeed_limit_v", "at-most"), true, t.circuit().part(p.at.part).id);
}

void loaded_volts(Tests& t) {
  const auto s = t.scene("tail + stop");
  if (!s) return;
  t.head("test-volts");
  const std::string band = "± " + format_fixed(t.catalogue.rule("reading_band_v").value, 1) + " V";
  for (std::size_t l = 0; l < t.circuit().lamps.size(); ++l) {
    const LampIntent& intent = t.circuit().lamps[l];
    if (intent.tow_signal.empty() || t.states().lamps[*s][l].seen == Seen::dark) continue;
    const Part& part = t.circuit().part(intent.lamp);
    const LampState& lamp = t.states().lamps[*s][l];   // the limit is RMS, a meter shows the mean of pulses
    const double least = t.catalogue.rule("filament_low_v").value * lamp.meter_v / lamp.volts;
    t.test(t.lamp(l) + ": " + t.say("across-lamp"), t.reading(*s, {intent.lamp, 0}, {intent.lamp, 1}), band + ", " + t.say("at-least") + " " + format_plain(std::round(10 * least) / 10) + " V", true, part.id);
    t.test(t.lamp(l) + ": " + t.say("return-to-body"), t.reading(*s, {intent.lamp, 1}, {}), t.rule_v("accept_ground_v", "at-most"), true, part.id);
  }
  for (std::size_t p = 0; p < t.circuit().parts.size(); ++p) {
    const Part& part = t.circuit().parts[p];
    const PartId id{static_cast<int>(p)};
    const bool blocks = part.kind == "diode-pair" || part.kind == "ideal-pair" || part.kind == "diode" || part.kind == "ideal-diode";
    if (!blocks || part.status != Status::fitted) continue;
    const int out = part.kind == "diode-pair" || part.kind == "ideal-pair" ? 2 : 1;
    t.test(part.id + ", " + part.place + ": " + part.terminals[0] + " " + t.say("to") + " " + part.terminals[static_cast<std::size_t>(out)], t.reading(*s, {id, 0}, {id, out}), band, true, part.id);
  }
  for (std::size_t p = 0; p < t.circuit().parts.size(); ++p) {
    const Part& part = t.circuit().parts[p];
    if (part.kind != "contact" || part.zone != Zone::coach || part.function != "ground") continue;
    const std::string what = t.say("body-to-outlet") + ", " + contact_text(part, t.style);
    t.test(what, t.reading(*s, {}, {PartId{static_cast<int>(p)}, 0}), t.rule_v("accept_body_v", "at-most"), true, part.id);
  }
}

void extras(Tests& t) {
  if (t.facts.spec.extras.empty()) return;
  t.head("test-extras");
  for (const ExtraRow& row : t.facts.spec.extras) {
    const auto extra = t.catalogue.extras.find(row.name.value);
    if (extra != t.catalogue.extras.end()) t.test(extra->second.title, extra->second.says, "", true);
  }
}

void last(Tests& t) {
  t.head("test-last");
  for (const char* key : {"test-real", "test-heat", "test-car-last", "test-pin", "test-sign"}) t.words(key);
}

}  // namespace

std::vector<Drawing> test_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, int before, int after) {
  Tests t{facts, catalogue, style, {}, 0};
  before_work(t);
  dead(t);
  car_alone(t, "test-alone");
  inlet_quiet(t);
  towed(t);
  cuts_quiet(t);
  loaded_volts(t);
  extras(t);
  last(t);
  SheetTable table{t.say("test-sheet"),
                   {{t.say("test-number"), Anchor::end}, {t.say("test-what"), Anchor::start, true}, {t.say("test-expect"), Anchor::start, true}, {t.say("test-accept"), Anchor::start, true},
                    {t.say("test-reading"), Anchor::middle, false, mm(21)}, {t.say("test-right"), Anchor::middle, false, mm(7)}},
                   std::move(t.rows), mm(4), {t.say("test-note")}};
  const Drawing blank = table_blank(facts, style, "test", word(style, "test-sheet"), "Tests in working order with the reading expected by the solution and a box for each reading.");
  StripRows strip;
  strip.document = word(style, "test-sheet");
  return table_pages({{table}}, blank, strip, facts, catalogue, style, measure, before, after);
}

}  // namespace towloom
