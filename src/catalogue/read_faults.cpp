// Single faults: their words and resistances.
#include <algorithm>

#include "catalogue/parts.hpp"

namespace towloom {
namespace {

struct Known {
  const char* kind;
  bool asks_ohm;
};
const Known known_faults[] = {
    {"wire-open", false},        {"wire-to-body", true},      {"contact-open", false},  {"contact-corroded", true},
    {"contact-poor", true},      {"contacts-bridged", true},  {"cores-crossed", false}, {"sides-swapped", false},
    {"plug-mirrored", false},    {"ground-open", false},      {"ground-poor", true},    {"fuse-blown", false},
    {"lamp-open", false},        {"filaments-shorted", true}, {"diode-open", false},    {"diode-shorted", true},
    {"diode-reversed", false},   {"diode-leaky", true},       {"leads-exchanged", false}, {"coil-open", false},
    {"contact-welded", false},   {"contact-stuck", false},    {"supply-lost", false},
};

}  // namespace

void read_faults(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "faults file", diagnostics);
  each_row(file, "faults", "fault", [&](Fields& fields, const Entry& e) {
    FaultKind fault;
    fault.name = e.key;
    fault.title = fields.need_text("title").value;
    const auto known = std::find_if(std::begin(known_faults), std::end(known_faults), [&](const Known& k) { return e.key == k.kind; });
    if (known == std::end(known_faults)) {
      std::vector<std::string> names;
      for (const Known& k : known_faults) names.emplace_back(k.kind);
      const std::string near = did_you_mean(e.key, names);
      diagnostics.error("fault-kind", e.key_place, "'" + e.key + "' is no kind of fault that can be solved",
                        near.empty() ? "" : "did you mean '" + near + "'?");
    } else if (known->asks_ohm) {
      const auto ohm = fields.need_quantity("ohm", Unit::ohm);
      fault.ohm = ohm ? ohm->value : 0;
      if (ohm && !(fault.ohm > 0)) diagnostics.error("fault-ohm", ohm->place, "a fault's resistance lies above 0");
    }
    fault.provenance = read_provenance(fields);
    keep(out.faults, e.key, std::move(fault), e.key_place, "fault", diagnostics);
  });
  file.finish();
}

}  // namespace towloom
