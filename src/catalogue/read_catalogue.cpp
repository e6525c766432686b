#include <algorithm>

#include "base/file.hpp"
#include "catalogue/parts.hpp"

namespace towloom {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t largest_file = 1 << 20;

// The first key of a catalogue file says what it is.
struct Kind {
  const char* key;
  void (*read)(const Node&, Catalogue&, Diagnostics&);
};
const Kind kinds[] = {
    {"connector", read_connector}, {"lamps", read_lamps_file}, {"series", read_wire_series},
    {"ampacity basis", read_ampacity}, {"fuses", read_fuses},      {"diodes", read_diodes},
    {"feed", read_feed},           {"method", read_method},    {"rules", read_rules},
    {"parts", read_part_models},   {"module", read_module},    {"functions", read_functions},
    {"extra", read_extra},         {"contact functions", read_contact_functions},
    {"faults", read_faults},       {"instruments", read_instruments},
    {"colour conventions", read_colour_conventions}, {"scenes", read_scenes},
    {"fittings", read_fittings},   {"designations", read_designations}, {"surfaces", read_surfaces},
    {"job keys", read_job_keys},
};

void read_definition(const Node& root, Catalogue& out, Diagnostics& diagnostics) {
  const std::string first = root.entries.empty() ? "" : root.entries.front().key;
  std::vector<std::string> known;
  for (const Kind& kind : kinds) {
    if (first == kind.key) return kind.read(root, out, diagnostics);
    known.emplace_back(kind.key);
  }
  const std::string near = did_you_mean(first, known);
  diagnostics.error("catalogue-kind", root.entries.empty() ? root.place : root.entries.front().key_place,
                    "a catalogue file cannot begin with '" + first + "'",
                    near.empty() ? "begin with connector:, lamps:, series:, method: …" : "did you mean '" + near + "'?");
}

void read_one(const fs::path& path, Catalogue& out, Sources& sources, Diagnostics& diagnostics) {
  std::string problem;
  const auto text = read_file(path, largest_file, problem);
  if (!text) return diagnostics.error("catalogue-file", {}, path.string() + " " + problem);
  const int file = sources.add(path.string(), *text);
  Diagnostics own;  // read_yaml asks whether there were errors: those of this file only
  const auto root = read_yaml(file, sources, own);
  for (const Diagnostic& d : own.all()) diagnostics.error(d.code, d.place, d.message, d.hint);
  if (root) read_definition(*root, out, diagnostics);
}

// Every file below a folder, in the order of their names. False if there is none.
bool read_all(const PlacedText& folder, Catalogue& out, Sources& sources, Diagnostics& diagnostics) {
  std::vector<fs::path> files;
  std::error_code refused;
  for (fs::recursive_directory_iterator it(folder.value, refused), end; !refused && it != end; it.increment(refused)) {
    if (it->is_directory() && it->path().filename() == "jobs") it.disable_recursion_pending();
    if (it->is_regular_file() && it->path().extension() == ".yaml") files.push_back(it->path());
  }
  if (refused || files.empty()) {
    diagnostics.error("catalogue", folder.place, "no catalogue files in " + folder.value,
                      "name a folder that holds .yaml files");
    return false;
  }
  std::sort(files.begin(), files.end());
  for (const fs::path& path : files) read_one(path, out, sources, diagnostics);
  return true;
}

// The diode inside a transistor is one of the catalogue's own.
void check_body_diodes(const Catalogue& catalogue, Diagnostics& diagnostics) {
  const auto check = [&](const PlacedText& body) {
    if (!body.value.empty() && catalogue.diodes.count(body.value) == 0)
      diagnostics.error("unknown-diode", body.place, "no diode '" + body.value + "' in the catalogue");
  };
  for (const auto& [name, model] : catalogue.parts) check(model.body_diode);
  for (const auto& [name, model] : catalogue.modules) check(model.body_diode);
}

}  // namespace

std::optional<Confidence> read_confidence(Fields& fields, const char* key) {
  static const std::vector<std::string> words = {"standard", "agreed", "practice", "memory", "low"};
  const auto word = fields.word(key, words);
  if (!word) return std::nullopt;
  return static_cast<Confidence>(std::find(words.begin(), words.end(), word->value) - words.begin());
}

Provenance read_provenance(Fields& fields, const Provenance* fallback) {
  if (fallback != nullptr && !fields.has("source") && !fields.has("confidence")) {
    (void)fields.text("source");
    (void)fields.text("confidence");
    return *fallback;
  }
  Provenance out;
  const auto source = fields.need_text("source");
  out.source = source.value;
  out.place = source.place;
  if (const auto confidence = read_confidence(fields, "confidence"))
    out.confidence = *confidence;
  else if (!fields.has("confidence"))
    (void)fields.need_text("confidence");
  return out;
}

Provenance read_provenance_node(const Node* node, const std::string& what, Diagnostics& diagnostics) {
  if (node == nullptr) return {};
  Fields fields(*node, what, diagnostics);
  const Provenance out = read_provenance(fields);
  fields.finish();
  return out;
}

void check_file_word(const PlacedText& word, const char* what, Diagnostics& diagnostics) {
  const auto plain = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; };
  if (word.value.size() <= 40 && std::all_of(word.value.begin(), word.value.end(), plain)) return;
  diagnostics.error("name", word.place, "'" + word.value + "' cannot name " + what, "use small letters, digits and hyphens: flat-4");
}

// Numbers first: a designation of one contact may be the number of another.
const ConnectorContact* Connector::contact(std::string_view wanted) const {
  for (const auto& way : {&ConnectorContact::number, &ConnectorContact::mark, &ConnectorContact::terminal})
    for (const ConnectorContact& c : contacts)
      if (!wanted.empty() && c.*way == wanted) return &c;
  return nullptr;
}

const ConnectorHalf* Connector::half(std::string_view wanted) const {
  for (const ConnectorHalf& h : halves)
    if (h.name == wanted) return &h;
  return nullptr;
}

const WireSize* WireSeries::find(const WireSizeName& wanted) const {
  for (const WireSize& s : sizes)
    if (s.name == wanted) return &s;
  return nullptr;
}

const LampFunction* Catalogue::function(const std::string& wanted) const {
  for (const LampFunction& f : functions)
    if (f.name == wanted) return &f;
  return nullptr;
}

const Rule& Catalogue::rule(const std::string& name) const { return rules.at(name); }

std::optional<Catalogue> read_catalogue(const fs::path& folder, Sources& sources, Diagnostics& diagnostics,
                                        const std::vector<PlacedText>& own_folders, const std::vector<Node>& definitions) {
  Catalogue out;
  Diagnostics own;
  (void)read_all({folder.string(), {}}, out, sources, own);
  for (const PlacedText& more : own_folders) (void)read_all(more, out, sources, own);
  for (const Node& definition : definitions) read_definition(definition, out, own);
  if (!own.has_errors()) {   // where a file was refused, what it holds is not missing
    for (const char* needed : required_rules())
      if (out.rules.count(needed) == 0) own.error("missing-rule", {}, std::string("no rule '") + needed + "' in the catalogue");
    if (out.scenes.towing.empty()) own.error("missing-scenes", {}, "no scenes in the catalogue", "see specs/scenes.yaml");
    check_ampacity(out, own);
    check_body_diodes(out, own);
    check_connectors(out, own);
    check_instruments(out, own);
    check_signals(out, own);
  }
  for (const Diagnostic& d : own.all()) diagnostics.error(d.code, d.place, d.message, d.hint);
  if (own.has_errors()) return std::nullopt;
  return out;
}

const std::vector<const char*>& required_rules() {
  static const std::vector<const char*> names = {
      "drop_budget_v", "least_new_mm2", "ambient_c", "conductor_c", "stud_ohm", "unit_wire_ohm", "outlet_stub_ohm", "switch_ohm",
      "battery_v", "battery_ohm", "filament_exponent", "filament_epsilon", "flux_exponent", "lit_light", "dark_light",
      "led_lit_v", "led_threshold_v", "led_leak_a", "leak_ohm", "backfeed_limit_v", "hot_diode_c", "accept_ground_v", "accept_body_v", "accept_outlet_v", "plate_hours",
      "filament_low_v", "coach_duty", "load_a", "inlet_loop_m", "lamp_loop_m", "splice_loop_m", "cross_spare_m", "ground_lead_m", "part_lead_m",
      "plate_lead_m", "factory_front_m", "factory_return_m", "car_fuse_a", "car_fuse_ohm", "fuse_margin",
      "cut_rounding_m", "reading_band_v", "outlet_v", "outlet_ohm", "fuse_ohm",
      "fuse_opens", "flash_least", "flash_least_fixed", "flash_most", "coach_fuse_a", "dimmer_share", "fuse_place_m", "fuse_place_covered_m",
      "monitor_a", "sensing_ohm", "led_low_v", "load_works_v", "load_quiet_v", "monitor_change", "output_extra_a",
      "battery_ah", "tow_day_h", "charge_least_a", "resistor_warm_w", "detected_a"};
  return names;
}

}  // namespace towloom
