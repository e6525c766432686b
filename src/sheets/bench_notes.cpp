// The lines at the foot of a bench page.
#include <algorithm>

#include "base/quantity.hpp"
#include "drawing/utf8.hpp"
#include "sheets/bench_flags.hpp"
#include "sheets/bench_page.hpp"

namespace towloom {
namespace {

// One that is wider than the sheet, broken between words.
std::vector<std::string> wrapped(const std::string& sentence, const BenchSet& set, Mm100 width) {
  std::vector<std::string> out;
  for (const Word& word : words_of(sentence)) {
    const std::string longer = out.empty() ? word.text : out.back() + " " + word.text;
    if (!out.empty() && set.measure.reserve(longer, text_size(set.style, "small"), Weight::regular) <= width) out.back() = longer;
    else out.push_back(word.text);
  }
  return out;
}

}  // namespace

std::vector<std::string> notes_of(const BenchSet& set, const PageCircuit& page, const PageHead& head, Mm100 width) {
  const Circuit& circuit = page.circuit;
  std::vector<std::string> sentences;
  const auto has = [&](const char* kind) { return std::any_of(circuit.parts.begin(), circuit.parts.end(), [&](const Part& p) { return p.kind == kind; }); };
  if (!head.index.empty()) sentences.push_back(head.index);
  if (has("contact")) sentences.push_back(word(set.style, "order-not-face") + " " + std::to_string(set.faces) + ".");
  for (const bool plug : {false, true})
    if (std::any_of(circuit.cuts.begin(), circuit.cuts.end(), [&](const CutPoint& c) { return c.plug == plug; })) sentences.push_back(word(set.style, plug ? "plug-here" : "cut-here"));
  const bool unsurveyed = std::any_of(circuit.wires.begin(), circuit.wires.end(), [](const Wire& w) { return w.status == Status::factory && w.group != "coach" && w.colour.empty(); });
  if (unsurveyed) sentences.push_back(word(set.style, "no-letters"));
  if (has("lamp")) sentences.push_back(word(set.style, set.facts.found ? "found-volts" : "volts-at-lamps") + " ± " + format_fixed(set.catalogue.rule("reading_band_v").value, 1) + " V.");
  if (has("lamp") && coach_duty(set.facts.spec, set.catalogue) < 1) sentences.push_back(word(set.style, "volts-pulsed"));
  if (std::any_of(circuit.lamps.begin(), circuit.lamps.end(), [](const LampIntent& l) { return l.tow_signal == "reverse" || l.tow_signal == "fog"; }))
    sentences.push_back(word(set.style, "volts-alone"));
  std::string far;
  for (const int l : head.far) {
    const Part& lamp = circuit.part(circuit.lamps[static_cast<std::size_t>(l)].lamp);
    far += (far.empty() ? "" : ", ") + lamp.group + " " + word(set.style, "lamp-" + lamp.function) + " " + lamp_volts(set.facts, page, static_cast<std::size_t>(l));
  }
  if (!far.empty()) sentences.push_back(word(set.style, "volts-without-room") + " " + far + ".");
  std::vector<std::string> found;
  for (const Flag& flag : set.facts.flags)   // on the page of what they are about
    if (is_on(circuit, flag)) found.push_back(flag_text(flag, set.style));
  if (!found.empty()) found.front() = word(set.style, set.facts.found ? "found-drawn" : "flags-found") + " " + found.front();
  if (has("turn-switch")) sentences.push_back(word(set.style, "switches-at-rest"));
  sentences.insert(sentences.end(), found.begin(), found.end());
  std::vector<std::string> out;
  for (const std::string& sentence : sentences) {
    const std::string longer = out.empty() ? "" : out.back() + " " + sentence;
    if (!out.empty() && set.measure.reserve(longer, text_size(set.style, "small"), Weight::regular) <= width) out.back() = longer;
    else for (std::string& line : wrapped(sentence, set, width)) out.push_back(std::move(line));
  }
  return out;
}

}  // namespace towloom
