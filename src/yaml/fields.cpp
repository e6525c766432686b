#include "yaml/fields.hpp"

#include <algorithm>
#include <set>

namespace towloom {

Fields::Fields(const Node& map, std::string what, Diagnostics& diagnostics)
    : map_(&map), what_(std::move(what)), diagnostics_(&diagnostics) {
  if (map.kind != Node::Kind::map)
    diagnostics.error("not-a-map", map.place, what_ + " must be rows of 'key: value'");
}

bool Fields::has(std::string_view key) const { return map_->find(key) != nullptr; }

const Node* Fields::node(std::string_view key) {
  known_.emplace_back(key);
  return map_->find(key);
}

const Node* Fields::need_node(std::string_view key) {
  const Node* n = node(key);
  if (n == nullptr && map_->kind == Node::Kind::map)
    diagnostics_->error("missing-key", map_->place, what_ + " lacks '" + std::string(key) + "'");
  return n;
}

std::optional<Placed<std::string>> Fields::text(std::string_view key) {
  const Node* n = node(key);
  if (n == nullptr) return std::nullopt;
  if (n->kind != Node::Kind::scalar) {
    diagnostics_->error("not-text", n->place, "'" + std::string(key) + "' takes one text",
                        "quote it if it holds a colon, comma or bracket");
    return std::nullopt;
  }
  return Placed<std::string>{n->text, n->place};
}

Placed<std::string> Fields::need_text(std::string_view key) {
  if (auto t = text(key)) return *t;
  if (!has(key)) (void)need_node(key);
  return {"", map_->place};
}

std::optional<Placed<double>> Fields::quantity(std::string_view key, Unit unit) {
  const auto t = text(key);
  if (!t) return std::nullopt;
  const auto value = parse_quantity(t->value, unit);
  if (!value) {
    diagnostics_->error("quantity", t->place, "'" + t->value + "' cannot be read as " + std::string(key),
                        "write a number and its unit, like " + std::string(unit_example(unit)));
    return std::nullopt;
  }
  return Placed<double>{*value, t->place};
}

std::optional<Placed<double>> Fields::need_quantity(std::string_view key, Unit unit) {
  if (!has(key)) {
    (void)need_node(key);
    return std::nullopt;
  }
  return quantity(key, unit);
}

std::optional<Placed<double>> Fields::number(std::string_view key) { return quantity(key, Unit::plain); }

std::vector<Placed<std::string>> Fields::texts(std::string_view key) {
  std::vector<Placed<std::string>> out;
  const Node* n = node(key);
  if (n == nullptr) return out;
  if (n->kind == Node::Kind::scalar) return {{n->text, n->place}};
  if (n->kind != Node::Kind::list) {
    diagnostics_->error("not-a-list", n->place, "'" + std::string(key) + "' takes a list: [a, b]");
    return out;
  }
  for (const Node& item : n->items) {
    if (item.kind == Node::Kind::scalar)
      out.push_back({item.text, item.place});
    else
      diagnostics_->error("not-text", item.place, "an item of '" + std::string(key) + "' must be one text");
  }
  return out;
}

std::optional<Placed<std::string>> Fields::word(std::string_view key, const std::vector<std::string>& words) {
  auto t = text(key);
  if (!t) return t;
  if (std::find(words.begin(), words.end(), t->value) != words.end()) return t;
  std::string list;
  for (const std::string& w : words) list += (list.empty() ? "" : ", ") + w;
  const std::string near = did_you_mean(t->value, words);
  diagnostics_->error("unknown-word", t->place, "'" + t->value + "' is not a value of '" + std::string(key) + "'",
                      near.empty() ? "one of: " + list : "did you mean '" + near + "'? one of: " + list);
  return std::nullopt;
}

void Fields::finish() {
  for (const Entry& e : map_->entries) {
    if (std::find(known_.begin(), known_.end(), e.key) != known_.end()) continue;
    const std::string near = did_you_mean(e.key, known_);
    std::string list;
    std::set<std::string> listed;
    for (const std::string& k : known_)
      if (listed.insert(k).second) list += (list.empty() ? "" : ", ") + k;
    diagnostics_->error("unknown-key", e.key_place, "unknown key '" + e.key + "' in " + what_,
                        near.empty() ? "known here: " + list : "did you mean '" + near + "'?");
  }
}

Place Fields::place() const { return map_->place; }

Place Fields::key_place(std::string_view key) const {
  for (const Entry& e : map_->entries)
    if (e.key == key) return e.key_place;
  return map_->place;
}

}  // namespace towloom
