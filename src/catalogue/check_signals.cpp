// Signals of the tow line are the contact functions that carry something: no file may name another.
#include "catalogue/parts.hpp"

#include <algorithm>

namespace towloom {
namespace {

void check(const std::string& signal, Place place, const Catalogue& catalogue, Diagnostics& diagnostics) {
  if (catalogue.tow_signals.count(signal) != 0) return;
  std::vector<std::string> known;
  for (const auto& [name, f] : catalogue.tow_signals) known.push_back(name);
  const std::string near = did_you_mean(signal, known);
  diagnostics.error("signal", place, "no contact function '" + signal + "' that carries something",
                    near.empty() ? "contact-functions.yaml lists them: those with a kind" : "did you mean '" + near + "'?");
}

void check_method(const Method& method, const Catalogue& catalogue, Diagnostics& diagnostics) {
  const std::string port = "signal.";
  for (const Fragment& fragment : method.fragments) {
    for (const auto& [signal, end] : fragment.gives) check(signal, end.place, catalogue, diagnostics);
    for (const FragmentJoin& join : fragment.joins)
      for (const PlacedText& end : join.ends)
        if (end.value.rfind(port, 0) == 0 && end.value.find('$') == std::string::npos)
          check(end.value.substr(port.size()), end.place, catalogue, diagnostics);
  }
  for (const Choice& choice : method.choices)
    if (choice.of == "signals" && !choice.fallback.empty()) check(choice.fallback, choice.place, catalogue, diagnostics);
}

}  // namespace

void check_signals(const Catalogue& catalogue, Diagnostics& diagnostics) {
  for (const LampFunction& function : catalogue.functions)
    for (const PlacedText& text : function.tow) {
      const std::size_t at = text.value.find("SIDE");
      if (at == std::string::npos) {
        check(text.value, text.place, catalogue, diagnostics);
        continue;
      }
      for (const char* side : {"left", "right"}) check(std::string(text.value).replace(at, 4, side), text.place, catalogue, diagnostics);
    }
  for (const auto& [name, method] : catalogue.methods) check_method(method, catalogue, diagnostics);
  for (const auto& [name, method] : catalogue.extras) check_method(method, catalogue, diagnostics);
  std::vector<std::string> drives = {"always"};   // what the coach's driver does in any scene
  const auto add = [&](const SceneSignals& signals) {
    for (const auto& [signal, wave] : signals)
      if (signal.rfind("driver.", 0) == 0) drives.push_back(signal.substr(7));
  };
  add(catalogue.scenes.in_tow);
  for (const auto& [word, signals] : catalogue.scenes.coach_words) add(signals);
  for (const auto& [name, f] : catalogue.tow_signals) {
    if (f.kind == "ground" || f.kind == "report" || f.kind == "presence" || std::find(drives.begin(), drives.end(), f.with.value) != drives.end()) continue;
    const std::string near = did_you_mean(f.with.value, drives);
    diagnostics.error("signal", f.with.place, "no scene has the coach's driver do '" + f.with.value + "'", near.empty() ? "see driver.* in scenes.yaml" : "did you mean '" + near + "'?");
  }
}

}  // namespace towloom
