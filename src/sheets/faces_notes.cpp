// Sentences below the faces of a form.
#include <algorithm>

#include "sheets/faces_page.hpp"

namespace towloom {

std::vector<std::string> connector_notes(const Connector& c, const Style& style) {
  std::vector<std::string> out = c.cautions;
  const bool functions = std::any_of(c.contacts.begin(), c.contacts.end(),
                                     [](const ConnectorContact& k) { return k.provenance.weak(); });
  const bool positions = std::any_of(c.contacts.begin(), c.contacts.end(),
                                     [](const ConnectorContact& k) { return k.position.weak(); });
  const auto colours = c.colour_sets.find(c.default_colours);
  std::string weak;
  for (const auto& [key, uncertain] : {std::pair{"fact-functions", functions}, {"fact-places", positions},
                                       {"fact-gender", c.genders.weak()}, {"fact-shapes", c.shapes.weak()},
                                       {"fact-key", c.key_source.weak()}, {"fact-lid", c.lid && c.lid->provenance.weak()},
                                       {"fact-sizes", c.sizes.weak()}, {"fact-ratings", c.ratings.weak()},
                                       {"fact-colours", colours != c.colour_sets.end() && colours->second.provenance.weak()}})
    if (uncertain) weak += (weak.empty() ? "" : ", ") + word(style, key);
  if (!weak.empty()) out.push_back(sentence(word(style, "weak-facts") + " " + weak));
  return out;
}

}  // namespace towloom
