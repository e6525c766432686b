// Circuit fragments: parts and joins, shared by feeds, methods and extras.
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
        part.at = fields.need_text("at");
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
  std::string list;
  for (const std::string& port : ports) list += (list.empty() ? "" : ", ") + port + (port.back() == '.' ? "…" : "");
  for (const FragmentPart& p : parts) list += (list.empty() ? "" : ", ") + p.name + ".…";
  const auto is_port = [&](const std::string& end) {
    return std::any_of(ports.begin(), ports.end(), [&](const std::string& port) {
      return port.back() == '.' ? end.size() > port.size() && end.rfind(port, 0) == 0 : end == port;
    });
  };
  for (const FragmentJoin& join : joins)
    for (const PlacedText& end : join.ends) {
      const std::string part = end.value.substr(0, end.value.find('.'));
      const bool of_part = end.value.find('.') != std::string::npos &&
                           std::any_of(parts.begin(), parts.end(), [&](const FragmentPart& p) { return p.name == part; });
      if (of_part || is_port(end.value) || end.value[0] == '$') continue;   // a port that the job chooses: see check_names
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
  feed.drive = "switched";
  if (const auto drive = fields.word("drive", lamp_drives())) feed.drive = drive->value;
  if (const auto each = fields.word("one for each", {"node", "car"})) feed.each_node = each->value == "node";
  if (const Node* n = fields.need_node("parts")) feed.parts = read_parts(*n, diagnostics);
  if (const Node* n = fields.need_node("join")) feed.joins = read_joins(*n, diagnostics);
  feed.provenance = read_provenance(fields);
  fields.finish();
  check_joins(feed.joins, feed.parts, {"supply", "stop", "out", "out.left", "out.right"}, diagnostics);
  keep(out.feeds, feed.name, feed, node.entries.front().key_place, "feed", diagnostics);
}

}  // namespace towloom
