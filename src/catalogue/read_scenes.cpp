// Scenes: the words of what coach and car do, and what is solved of them.
#include "catalogue/parts.hpp"

namespace towloom {
namespace {

const std::vector<std::string> waves = {"off", "on", "flash"};

SceneSignals read_signals(const Node& node, const std::string& what, Diagnostics& diagnostics) {
  SceneSignals out;
  Fields fields(node, what, diagnostics);
  for (const Entry& e : node.entries)
    if (const auto wave = fields.word(e.key, waves)) out[e.key] = wave->value;
  fields.finish();
  return out;
}

SceneSignals need_signals(Fields& file, const char* key) {
  const Node* node = file.need_node(key);
  return node == nullptr ? SceneSignals{} : read_signals(*node, key, file.diagnostics());
}

std::map<std::string, SceneSignals> read_words(Fields& file, const char* key) {
  std::map<std::string, SceneSignals> out;
  const Node* node = file.need_node(key);
  if (node == nullptr) return out;
  for (const Entry& e : node->entries) out[e.key] = read_signals(e.value, "word " + e.key, file.diagnostics());
  return out;
}

// "tail + left" into its words; nothing where one of them is not known.
std::vector<std::string> split_words(const Entry& row, const std::map<std::string, SceneSignals>& known, Diagnostics& diagnostics) {
  std::vector<std::string> out, names;
  for (const auto& [name, signals] : known) names.push_back(name);
  for (std::size_t at = 0; at <= row.key.size();) {
    const std::size_t plus = std::min(row.key.find(" + ", at), row.key.size());
    const std::string word = row.key.substr(at, plus - at);
    at = plus + 3;
    if (known.count(word) == 0) {
      const std::string near = did_you_mean(word, names);
      diagnostics.error("scene-word", row.key_place, "'" + word + "' is no word of a scene", near.empty() ? "" : "did you mean '" + near + "'?");
      return {};
    }
    out.push_back(word);
  }
  return out;
}

// `idle` names the scene without a word.
std::vector<SceneRow> read_rows(Fields& file, const char* key, const char* idle, const std::map<std::string, SceneSignals>& known) {
  std::vector<SceneRow> out;
  const Node* node = file.need_node(key);
  if (node == nullptr) return out;
  Fields rows(*node, key, file.diagnostics());
  for (const Entry& e : node->entries)
    out.push_back({e.key, rows.need_text(e.key).value, e.key == idle ? std::vector<std::string>{} : split_words(e, known, file.diagnostics())});
  rows.finish();
  return out;
}

}  // namespace

void read_scenes(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "scenes file", diagnostics);
  const Node* table = file.need_node("scenes");
  if (!out.scenes.towing.empty())
    return diagnostics.error("twice", node.entries.front().key_place, "the catalogue has its scenes already");
  if (table != nullptr) {
    SceneTable& s = out.scenes;
    Fields fields(*table, "scenes", diagnostics);
    s.coach_words = read_words(fields, "coach words");
    s.car_words = read_words(fields, "car words");
    s.in_tow = need_signals(fields, "in tow");
    s.driven = need_signals(fields, "driven");
    s.towing = read_rows(fields, "towing", "all off", s.coach_words);
    s.towing_with_logic = read_rows(fields, "towing with a converter", "", s.coach_words);
    s.car_alone = read_rows(fields, "car alone", "at rest", s.car_words);
    s.coach_alone = read_rows(fields, "coach alone", "", s.coach_words);
    each_row(fields, "states", "state", [&](Fields& row, const Entry& e) {
      SceneState state{e.key, row.need_text("of").value, row.need_text("why").value, "", {}, need_signals(row, "set")};
      if (const auto why = row.text("why with brake")) state.why_with_brake = why->value;
      for (const PlacedText& t : row.texts("stop lamps")) state.stop_lamps.push_back(t.value);
      s.states.push_back(std::move(state));
    });
    for (const PlacedText& t : fields.texts("printed")) s.printed.push_back(t.value);
    fields.finish();
  }
  out.scenes.provenance = read_provenance(file);
  file.finish();
}

}  // namespace towloom
