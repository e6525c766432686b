// Wires, pieces to cut and articles to buy, as CSV.
#include <algorithm>
#include <map>

#include "export/rows.hpp"

namespace towloom {
namespace {

std::string row_of(const std::vector<std::string>& cells) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i) out += (i == 0 ? "" : ",") + csv_cell(cells[i]);
  return out + "\r\n";
}

std::string metres(double m) { return format_fixed(m, 2); }

std::string join(const std::vector<std::string>& words, const char* between) {
  std::string out;
  for (const std::string& w : words) out += (out.empty() ? "" : between) + w;
  return out;
}

struct Article {
  int count = 0;
  double metres = 0;
  std::vector<std::string> ids;
};

// "diode-pair, silicon"; ring terminals and splices by what they are.
std::string article_name(const Part& part) {
  if (part.kind == "stud") return "ring terminal";
  return part.kind + (part.value.empty() ? "" : ", " + part.value);
}

bool is_bought(const Part& part) {
  return part.status == Status::fitted && part.kind != "contact" && part.kind != "cut" && part.kind != "joint";
}

}  // namespace

std::string csv_cell(const std::string& text) {
  std::string out = text;
  if (!out.empty() && std::string("=+-@\t\r").find(out[0]) != std::string::npos) out.insert(0, "'");
  if (out.find_first_of(",\"\r\n") == std::string::npos) return out;
  std::string quoted = "\"";
  for (const char c : out) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

std::string wires_csv(const Facts& facts, const Catalogue& catalogue) {
  const Circuit& c = facts.circuit();
  std::string out = row_of({"wire", "status", "circuit", "colour", "size", "mm2", "length_m", "cut_m", "from", "from_place", "to", "to_place", "runs",
                            "most_A", "drop_V", "fuse_A", "fuse"});
  for (const WireRow& row : wire_rows(facts, catalogue)) {
    const Wire& w = *row.wire;
    out += row_of({w.id, to_text(w.status), w.circuit, w.colour, w.size ? w.size->text() : "", row.mm2 > 0 ? format_plain(row.mm2) : "", metres(w.length_m),
                   is_bought(w) ? metres(cut_length(w, catalogue)) : "", c.name(w.from), c.part(w.from.part).place, c.name(w.to), c.part(w.to.part).place,
                   join(w.runs, " "), format_fixed(row.amps_max, 2), format_fixed(row.drop_v, 3), row.fuse.amps > 0 ? format_plain(row.fuse.amps) : "", row.fuse.fuse});
  }
  return out;
}

std::string cuts_csv(const Facts& facts, const Catalogue& catalogue) {
  const Circuit& c = facts.circuit();
  std::vector<const Wire*> pieces;
  for (const Wire& w : c.wires)
    if (is_bought(w)) pieces.push_back(&w);
  std::stable_sort(pieces.begin(), pieces.end(), [](const Wire* a, const Wire* b) {
    return std::pair(a->size->text(), a->colour) < std::pair(b->size->text(), b->colour);
  });
  std::string out = row_of({"size", "colour", "cut_m", "wire", "from", "to"});
  for (const Wire* w : pieces)
    out += row_of({w->size->text(), w->colour, metres(cut_length(*w, catalogue)), w->id, c.name(w->from), c.name(w->to)});
  return out;
}

std::string materials_csv(const Facts& facts, const Catalogue& catalogue) {
  const Circuit& c = facts.circuit();
  std::map<std::string, Article> wire, parts;
  std::map<int, int> landing;   // new wires at each part
  for (const Wire& w : c.wires) {
    if (!is_bought(w)) continue;
    Article& a = wire["wire, " + w.size->text() + (w.colour.empty() ? "" : ", " + w.colour)];
    a.metres += cut_length(w, catalogue);
    a.ids.push_back(w.id);
    ++landing[w.from.part.v];
    ++landing[w.to.part.v];
  }
  std::vector<std::string> seen;
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const Part& part = c.parts[p];
    if (part.kind == "contact" && part.zone == Zone::inlet && std::find(seen.begin(), seen.end(), part.group) == seen.end()) {
      const auto form = catalogue.connectors.find(part.model);
      parts["inlet, " + (form == catalogue.connectors.end() ? part.model : form->second.title)] = {1, 0, {part.group}};
      seen.push_back(part.group);
    }
    if (!is_bought(part)) continue;
    const int count = part.kind == "stud" ? landing[static_cast<int>(p)] : 1;
    if (count == 0) continue;
    Article& a = parts[article_name(part)];
    a.count += count;
    a.ids.push_back(part.id);
  }
  std::string out = row_of({"article", "count", "length_m", "designations"});
  for (const auto& [name, a] : parts) out += row_of({name, std::to_string(a.count), "", join(a.ids, " ")});
  for (const auto& [name, a] : wire) out += row_of({name, "", metres(a.metres), join(a.ids, " ")});
  return out;
}

}  // namespace towloom
