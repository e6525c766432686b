// The methods and extras that a job uses, each with its choices; the signals that they and the lamps want.
#include <algorithm>

#include "circuit/builder.hpp"

namespace towloom {
namespace {

// Bounds that only catch slips of the pen; common practice, no source.
constexpr double most_choice_a = 200, most_choice_ohm = 10e6;

bool within(const std::string& text, Unit unit, double most) {
  const auto value = parse_quantity(text, unit);
  return value && *value > 0 && *value <= most;
}

void check_value(Builder& b, const Method& m, const Choice& choice, const PlacedText& said) {
  const auto bad = [&](const std::string& hint) {
    b.diagnostics.error("choice-value", said.place, m.title + ": '" + said.value + "' is no " + choice.key, hint);
  };
  if (!choice.words.empty() && std::find(choice.words.begin(), choice.words.end(), said.value) == choice.words.end()) {
    std::string list;
    for (const std::string& w : choice.words) list += (list.empty() ? "" : ", ") + w;
    bad("one of: " + list);
  } else if (choice.of == "amps" && !within(said.value, Unit::ampere, most_choice_a)) {
    bad("write it like 15 A");
  } else if (choice.of == "ohms" && !within(said.value, Unit::ohm, most_choice_ohm)) {
    bad("write it like 1 kohm");
  } else if (choice.of == "signals" && b.catalogue.tow_signals.count(said.value) == 0) {
    bad("a signal of the tow line, like charge");
  }
}

// The job's words for a recipe's choices; what it does not say takes the file's default.
Recipe make_recipe(Builder& b, const Method& m, const std::map<std::string, PlacedText>& said, Place place) {
  Recipe out{&m, {}, place};
  for (const Choice& choice : m.choices) {
    const auto at = said.find(choice.key);
    if (at != said.end()) {
      check_value(b, m, choice, at->second);
      out.choices[choice.key] = at->second;
    } else if (choice.fallback.empty()) {
      b.diagnostics.error("choice-missing", place, m.title + " needs '" + choice.key + "'", "see specs/ for what it can be");
    } else {
      out.choices[choice.key] = {choice.fallback, choice.place};
    }
  }
  return out;
}

void refuse_unknown(Builder& b, const std::map<std::string, PlacedText>& said, const std::vector<const Method*>& methods,
                    const std::string& title) {
  for (const auto& [key, value] : said) {
    std::vector<std::string> known = {"plate"};
    for (const Method* m : methods)
      for (const Choice& c : m->choices) known.push_back(c.key);
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    const std::string near = did_you_mean(key, known);
    b.diagnostics.error("unknown-key", value.place, "'" + key + "' is no choice of " + title, near.empty() ? "" : "did you mean '" + near + "'?");
  }
}

void find_isolation(Builder& b) {
  const Isolation& isolation = b.spec.isolation;
  std::vector<const Method*> used;
  const auto take = [&](const PlacedText& name) {
    const Method* m = &b.catalogue.methods.at(name.value);
    for (std::size_t i = 0; i < b.recipes.size(); ++i)
      if (b.recipes[i].method == m) return static_cast<int>(i);
    used.push_back(m);
    b.recipes.push_back(make_recipe(b, *m, isolation.choices, name.place));
    return static_cast<int>(b.recipes.size()) - 1;
  };
  b.tow_kind = b.spec.coach.signals.value;
  b.method_of[""] = -1;
  if (isolation.method.value.empty())
    return b.diagnostics.error("no-method", isolation.place, "the job names no method of isolation",
                               "towloom advise ranks them; then write isolation: {method: ...}");
  if (isolation.converter) take(*isolation.converter);
  b.method_of[""] = take(isolation.method);
  for (const auto& [function, method] : isolation.by_function) b.method_of[function] = take(method);
  for (const Method* m : used)
    if (!m->gives_signals.empty()) b.tow_kind = m->gives_signals;
  std::string title;
  for (const Method* m : used) title += (title.empty() ? "" : " or ") + m->name;
  if (!used.empty()) refuse_unknown(b, isolation.choices, used, title);
}

void find_extras(Builder& b) {
  for (const ExtraRow& row : b.spec.extras) {
    const Method* m = &b.catalogue.extras.at(row.name.value);
    refuse_unknown(b, row.choices, {m}, m->name);
    b.recipes.push_back(make_recipe(b, *m, row.choices, row.name.place));
  }
}

void want(Builder& b, const Recipe& recipe) {
  for (const Fragment& fragment : recipe.method->fragments)
    if (counts(recipe, fragment))
      for (const FragmentJoin& join : fragment.joins)
        for (const PlacedText& end : join.ends) {
          const std::string text = filled(end.value, recipe);
          for (const std::string& port : {std::string("signal."), std::string("coach.")})
            if (text.rfind(port, 0) == 0) b.wanted.insert(text.substr(port.size()));
        }
}

}  // namespace

std::string filled(const std::string& text, const Recipe& recipe) {
  std::string out = text;
  for (const std::string& name : choice_names(text))
    if (const auto said = recipe.choices.find(name); said != recipe.choices.end()) out.replace(out.find("$" + name), name.size() + 1, said->second.value);
  return out;
}

bool counts(const Recipe& recipe, const Fragment& fragment) {
  return std::all_of(fragment.only.begin(), fragment.only.end(), [&](const auto& row) {
    const auto said = recipe.choices.find(row.first);
    return said != recipe.choices.end() && std::find(row.second.begin(), row.second.end(), said->second.value) != row.second.end();
  });
}

void find_recipes(Builder& b) {
  find_isolation(b);
  find_extras(b);
  b.wanted = {"ground"};
  for (const Recipe& recipe : b.recipes) {
    want(b, recipe);
    b.circuit.pedal_in_tow = b.circuit.pedal_in_tow || recipe.method->presses_pedal;
  }
  for (const LampRow& row : b.spec.car.lamps)
    if (const LampFunction* f = b.catalogue.function(row.function.value); f != nullptr && !row.dark_in_tow)
      for (const PlacedText& text : f->tow) b.wanted.insert(sided(text.value, row.side));
  // Where the outlet has a return of its own for it.
  for (const std::string supply : {"charge", "ignition"})
    if (b.wanted.count(supply) != 0) b.wanted.insert(supply + "-return");
}

}  // namespace towloom
