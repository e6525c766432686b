#include "commands/list.hpp"

namespace towloom {
namespace {

std::string sourced(const std::string& what, const Provenance& p) {
  return "  " + what + ": " + p.source + " [" + confidence_word(p.confidence) + (p.weak() ? ": no hard limit" : "") + "]\n";
}

TextRows contact_rows(const Connector& c) {
  TextRows out{{"no.", "mark", "terminal", "function", "shape"}};
  for (const ConnectorHalf& h : c.halves) out[0].push_back(h.name);
  for (const char* head : {"from", "rating"}) out[0].push_back(head);
  for (const std::string& convention : c.conventions) out[0].push_back(convention);
  for (const ConnectorContact& k : c.contacts) {
    std::string shape = k.shape;
    if (k.larger) shape += ", larger";
    if (k.longer) shape += ", longer";
    std::vector<std::string> row = {k.number, k.mark, k.terminal, k.title + (k.provenance.weak() ? " (?)" : ""), shape};
    for (const ConnectorHalf& h : c.halves) row.push_back(k.gender.at(h.name));
    row.push_back(k.minimum_size);
    row.push_back(k.rating_a ? format_plain(*k.rating_a) + " A" : "");
    for (const std::string& convention : c.conventions) row.push_back(k.colour.at(convention));
    out.push_back(row);
  }
  // A column without an entry is left out.
  for (size_t i = out[0].size(); i-- > 0;) {
    bool empty = true;
    for (size_t r = 1; r < out.size(); ++r) empty = empty && out[r][i].empty();
    if (!empty) continue;
    for (auto& row : out) row.erase(row.begin() + static_cast<std::ptrdiff_t>(i));
  }
  return out;
}

}  // namespace

std::string connector_text(const Connector& c, const Catalogue&) {
  std::string out = c.name + ": " + c.title + ", " + c.shell;
  if (!c.key.empty()) out += ", " + c.key;
  if (c.rating_a > 0) out += ", " + format_plain(c.rating_a) + " A a circuit";
  if (c.unit_mm && c.shell == "round") out += ", circle of contacts " + format_plain(2 * *c.unit_mm) + " mm";
  out += "\n\n" + text_table(contact_rows(c));
  if (!c.contacts.empty() && c.contacts.front().position.weak())
    out += "\n  Places on the face are not certain: match the moulded letters.\n";
  for (const std::string& caution : c.cautions) out += "\n  " + caution;
  if (!c.cautions.empty()) out += "\n";
  if (!c.separate_returns.empty()) {
    out += "\n  Returns kept apart:";
    for (const std::string& number : c.separate_returns) out += " " + number;
    out += "\n";
  }
  if (!c.allocations.empty()) out += "\nOther uses\n";
  for (const auto& [name, allocation] : c.allocations) {
    std::string uses;
    for (const auto& [number, use] : allocation.contacts) uses += (uses.empty() ? "" : ", ") + number + " " + use.title;
    out += sourced(name + " (" + uses + ")", allocation.provenance);
  }
  if (!c.layouts.empty()) out += "\nOther orders on the face\n";
  for (const auto& [name, layout] : c.layouts) out += sourced(name + " (" + layout.title + ")", layout.provenance);
  if (!c.others.empty()) out += "\nAgainst other forms\n";
  for (const auto& [form, note] : c.others)
    out += sourced(std::string(note.mates ? "mates " : "refuses ") + form + ", " + note.says, note.provenance);
  out += "\nSources\n";
  out += sourced("functions", c.provenance);
  if (!c.contacts.empty()) out += sourced("places", c.contacts.front().position);
  for (const ConnectorContact& k : c.contacts)
    if (k.provenance.source != c.provenance.source) out += sourced("contact " + k.number, k.provenance);
  for (const auto& [name, p] : {std::pair<const char*, const Provenance*>{"sizes", &c.sizes}, {"ratings", &c.ratings},
                                {"gender", &c.genders}, {"shapes", &c.shapes}, {"key", &c.key_source}})
    if (!p->source.empty()) out += sourced(name, *p);
  if (c.lid) out += sourced("lid", c.lid->provenance);
  if (c.unit_mm) out += sourced("dimension", c.unit_source);
  out += sourced("resistance", c.contact_ohm_source);
  for (const auto& [name, set] : c.colour_sets)
    out += sourced("colours " + name + (name == c.default_colours ? " (usual)" : "") + ", " + set.title, set.provenance);
  return out;
}

}  // namespace towloom
