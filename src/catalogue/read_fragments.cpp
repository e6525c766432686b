// Methods and feeds: circuit fragments that name parts, cuts and joins.
#include <algorithm>

#include "catalogue/parts.hpp"

namespace towloom {

std::vector<FragmentPart> read_parts(const Node& node, Diagnostics& diagnostics) {
  std::vector<FragmentPart> out;
  for (const Entry& entry : node.entries) {
    FragmentPart part;
    part.name = entry.key;
    part.place = entry.key_place;
    Fields fields(entry.value, "part '" + entry.key + "'", diagnostics);
    part.kind = fields.need_text("kind").value;
    for (const Entry& e : entry.value.entries) {
      if (e.key == "kind") continue;
      if (e.key == "at")
        part.at = fields.need_text("at").value;
      else
        part.values[e.key] = fields.need_text(e.key);
    }
    out.push_back(std::move(part));
  }
  return out;
}

std::vector<FragmentJoin> read_joins(const Node& node, Diagnostics& diagnostics) {
  std::vector<FragmentJoin> out;
  for (const Node& row : node.items) {
    FragmentJoin join;
    for (const Node& end : row.items) join.ends.push_back({end.text, end.place});
    if (join.ends.size() < 2) diagnostics.error("join", row.place, "a join names two ends or more: [signal, block.A1]");
    out.push_back(std::move(join));
  }
  return out;
}

void check_joins(const std::vector<FragmentJoin>& joins, const std::vector<FragmentPart>& parts,
                 const std::vector<std::string>& ports, Diagnostics& diagnostics) {
  std::vector<std::string> known = ports;
  for (const FragmentPart& p : parts) known.push_back(p.name + ".…");
  for (const FragmentJoin& join : joins)
    for (const PlacedText& end : join.ends) {
      const std::string part = end.value.substr(0, end.value.find('.'));
      const bool of_part = end.value.find('.') != std::string::npos &&
                           std::any_of(parts.begin(), parts.end(), [&](const FragmentPart& p) { return p.name == part; });
      if (of_part || std::find(ports.begin(), ports.end(), end.value) != ports.end()) continue;
      std::string list;
      for (const std::string& k : known) list += (list.empty() ? "" : ", ") + k;
      diagnostics.error("join-end", end.place, "'" + end.value + "' is no part or port here", "known here: " + list);
    }
}

void read_feed(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Feed feed;
  Fields fields(node, "feed", diagnostics);
  feed.name = fields.need_text("feed").value;
  feed.title = fields.need_text("title").value;
  (void)fields.text("says");
  for (const PlacedText& function : fields.texts("drives")) feed.drives.push_back(function.value);
  if (const Node* n = fields.need_node("parts")) feed.parts = read_parts(*n, diagnostics);
  if (const Node* n = fields.need_node("join")) feed.joins = read_joins(*n, diagnostics);
  feed.provenance = read_provenance(fields);
  fields.finish();
  check_joins(feed.joins, feed.parts, {"supply", "stop", "out", "out.left", "out.right"}, diagnostics);
  keep(out.feeds, feed.name, feed, node.entries.front().key_place, "feed", diagnostics);
}

namespace {

Fragment read_fragment(const Node& node, Diagnostics& diagnostics) {
  Fragment out;
  out.place = node.place;
  Fields fields(node, "fragment", diagnostics);
  if (const auto scope = fields.word("scope", {"lamp"})) out.scope = scope->value;
  if (const auto cut = fields.word("cut", {"leg", "none"})) out.cut = cut->value;
  if (const Node* n = fields.need_node("parts")) out.parts = read_parts(*n, diagnostics);
  if (const Node* n = fields.need_node("join")) out.joins = read_joins(*n, diagnostics);
  fields.finish();
  check_joins(out.joins, out.parts, {"signal", "feed", "lamp", "return"}, diagnostics);
  return out;
}

SuitRow read_suit(const Node& node, Diagnostics& diagnostics) {
  SuitRow out;
  out.place = node.place;
  Fields fields(node, "suits row", diagnostics);
  if (const Node* when = fields.node("when"))
    for (const Entry& e : when->entries)
      for (const Node& item : e.value.items) out.when[e.key].push_back(item.text);
  if (const auto v = fields.word("verdict", {"suited", "with-extra", "unsuited"})) out.verdict = v->value;
  if (const auto extra = fields.text("extra")) out.extra = extra->value;
  if (const auto why = fields.text("why")) out.why = why->value;
  fields.finish();
  return out;
}

}  // namespace

void read_method(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Method m;
  Fields fields(node, "method", diagnostics);
  m.name = fields.need_text("method").value;
  m.title = fields.need_text("title").value;
  m.says = fields.need_text("says").value;
  if (const Node* n = fields.node("suits"))
    for (const Node& row : n->items) m.suits.push_back(read_suit(row, diagnostics));
  if (const Node* n = fields.node("choose"))
    for (const Entry& e : n->entries) {
      Fields row(e.value, "choice '" + e.key + "'", diagnostics);
      m.choices.push_back({e.key, row.need_text("of").value, row.need_text("default").value, e.key_place});
      row.finish();
    }
  if (const Node* n = fields.need_node("fragments"))
    for (const Node& row : n->items) m.fragments.push_back(read_fragment(row, diagnostics));
  for (const PlacedText& s : fields.texts("steps")) m.steps.push_back(s.value);
  for (const PlacedText& s : fields.texts("cautions")) m.cautions.push_back(s.value);
  m.provenance = read_provenance(fields);
  fields.finish();
  for (const Fragment& f : m.fragments)
    for (const FragmentPart& part : f.parts)
      for (const auto& [key, value] : part.values) {
        if (value.value.rfind('$', 0) != 0) continue;
        const bool known = std::any_of(m.choices.begin(), m.choices.end(),
                                       [&](const Choice& c) { return "$" + c.key == value.value; });
        if (!known) diagnostics.error("choice", value.place, "'" + value.value + "' is not among the method's choices");
      }
  keep(out.methods, m.name, m, node.entries.front().key_place, "method", diagnostics);
}

}  // namespace towloom
