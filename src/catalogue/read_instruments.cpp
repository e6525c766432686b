// Meters and test lamps.
#include "catalogue/parts.hpp"

namespace towloom {

void read_instruments(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "instruments file", diagnostics);
  each_row(file, "instruments", "instrument", [&](Fields& fields, const Entry& e) {
    Instrument i;
    i.name = e.key;
    i.title = fields.need_text("title").value;
    if (const auto ohm = fields.quantity("resistance", Unit::ohm)) i.ohm = ohm->value;
    if (const auto lamp = fields.text("lamp")) i.lamp = *lamp;
    if (i.lamp.value.empty() == !(i.ohm > 0))
      diagnostics.error("instrument", e.key_place, "an instrument has either a resistance or a lamp");
    i.provenance = read_provenance(fields);
    keep(out.instruments, e.key, std::move(i), e.key_place, "instrument", diagnostics);
  });
  file.finish();
}

void check_instruments(const Catalogue& catalogue, Diagnostics& diagnostics) {
  for (const char* needed : {"meter", "meter-1k"}) {
    const auto found = catalogue.instruments.find(needed);
    if (found == catalogue.instruments.end() || !(found->second.ohm > 0))
      diagnostics.error("missing-instrument", {}, std::string("no instrument '") + needed + "' with a resistance in the catalogue");
  }
  for (const auto& [name, i] : catalogue.instruments) {
    if (i.lamp.value.empty()) continue;
    const auto bulb = catalogue.bulbs.find(i.lamp.value);
    if (bulb == catalogue.bulbs.end() || bulb->second.filaments.size() != 1)
      diagnostics.error("instrument-lamp", i.lamp.place, "'" + i.lamp.value + "' is no lamp with one filament in the catalogue");
  }
}

}  // namespace towloom
