#include "sheets/customer_words.hpp"

#include <algorithm>
#include <set>

namespace towloom {
namespace {

using Lines = std::vector<std::string>;

struct Teller {
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;

  const Circuit& circuit() const { return facts.circuit(); }
  std::string say(const std::string& key) const { return word(style, key); }
  // Nothing where the language has no such word.
  std::string maybe(const std::string& key) const {
    const std::string out = say(key);
    return out == key ? "" : out;
  }
};

}  // namespace

Lines before_towing(const Facts& facts, const Catalogue& catalogue, const Style& style) {
  const Teller c{facts, catalogue, style};
  const Spec& spec = c.facts.spec;
  Lines out{c.say("before-couple") + (spec.car.ignition ? " " + c.say("key-is") + " " + c.say("key-" + spec.car.ignition->value) + "." : "")};
  for (const std::string& line : {c.maybe("before-" + spec.isolation.method.value)})
    if (!line.empty()) out.push_back(line);
  for (const ExtraRow& extra : spec.extras)
    if (const std::string line = c.maybe("before-" + extra.name.value); !line.empty()) out.push_back(line);
  out.push_back(c.say(spec.second_plugs.empty() ? "before-plug" : "before-plugs"));
  out.push_back(c.say("before-check"));
  return out;
}

Lines after_towing(const Facts& facts, const Catalogue& catalogue, const Style& style) {
  const Teller c{facts, catalogue, style};
  Lines out{c.say("after-unplug")};
  const Spec& spec = c.facts.spec;
  for (auto extra = spec.extras.rbegin(); extra != spec.extras.rend(); ++extra)
    if (const std::string line = c.maybe("after-" + extra->name.value); !line.empty()) out.push_back(line);
  if (const std::string line = c.maybe("after-" + spec.isolation.method.value); !line.empty()) out.push_back(line);
  out.push_back(c.say("after-check"));
  return out;
}

Lines fuse_places(const Facts& facts, const Catalogue& catalogue, const Style& style) {
  const Teller c{facts, catalogue, style};
  Lines out;
  for (const Part& part : c.circuit().parts)
    if ((part.kind == "fuse" || part.kind == "breaker") && part.status == Status::fitted) out.push_back(part.id + ": " + part.value + ", " + part.place);
  out.push_back(c.say("fuses-coach"));
  return out;
}

Lines odd_but_right(const Facts& facts, const Catalogue& catalogue, const Style& style) {
  const Teller c{facts, catalogue, style};
  Lines out;
  std::set<std::string> dark, converters;
  std::string replaced, unused;
  for (const LampIntent& lamp : c.circuit().lamps) {
    const Part& part = c.circuit().part(lamp.lamp);
    if (lamp.tow_signal.empty() && dark.insert(part.function).second) {
      const bool added = std::any_of(c.circuit().lamps.begin(), c.circuit().lamps.end(), [&](const LampIntent& l) {
        return !l.tow_signal.empty() && c.circuit().part(l.lamp).function == part.function;
      });
      std::string& names = added ? replaced : unused;
      names += (names.empty() ? "" : ", ") + c.say("lamp-" + part.function);
    }
    if (!lamp.converter) continue;
    const auto model = c.catalogue.modules.find(c.circuit().part(lamp.converter).model);
    if (model != c.catalogue.modules.end() && converters.insert(model->first).second) out.insert(out.end(), model->second.limits.begin(), model->second.limits.end());
  }
  if (!replaced.empty()) out.insert(out.begin(), replaced + ": " + c.say("added-shows"));
  if (!unused.empty()) out.insert(out.begin(), unused + ": " + c.say("stays-dark-why"));
  if (const std::string line = c.maybe("odd-" + c.facts.spec.isolation.method.value); !line.empty()) out.push_back(line);
  return out;
}

}  // namespace towloom
