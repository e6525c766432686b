#include <algorithm>
#include <map>

#include "commands/list.hpp"

namespace towloom {
namespace {

size_t characters(const std::string& text) {
  return static_cast<size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string units(double value, const char* unit) { return value == 0 ? "" : format_plain(value) + " " + unit; }

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& w : words) out += (out.empty() ? "" : ", ") + w;
  return out;
}

TextRows connectors(const Catalogue& c) {
  TextRows out{{"name", "title", "contacts", "rating", "halves", "colour sets"}};
  for (const auto& [name, k] : c.connectors) {
    std::vector<std::string> halves;
    for (const ConnectorHalf& h : k.halves) halves.push_back(h.name);
    out.push_back({name, k.title, std::to_string(k.contacts.size()), units(k.rating_a, "A"), joined(halves), joined(k.conventions)});
  }
  return out;
}

TextRows lamps(const Catalogue& c) {
  TextRows out{{"name", "title", "filaments", "source"}};
  for (const auto& [name, bulb] : c.bulbs) {
    std::vector<std::string> filaments;
    for (const Filament& f : bulb.filaments)
      filaments.push_back((f.name.empty() ? "" : f.name + " ") + format_plain(f.amps) + " A at " + format_plain(f.volts) + " V");
    out.push_back({name, bulb.title, joined(filaments), bulb.provenance.source});
  }
  return out;
}

TextRows wire(const Catalogue& c) {
  TextRows out{{"name", "size", "copper", "resistance", "carries", "largest fuse"}};
  for (const auto& [name, series] : c.wires)
    for (const WireSize& s : series.sizes)
      out.push_back({name, s.name.text(), format_plain(s.area_mm2) + " mm²", format_fixed(s.ohm_per_m * 1000, 2) + " mΩ/m",
                     format_plain(c.ampacity.at(series.basis).amps(s, series.insulation_c)) + " A", s.fuse_max_a ? format_plain(*s.fuse_max_a) + " A" : ""});
  return out;
}

TextRows fuses(const Catalogue& c) {
  TextRows out{{"name", "resistance", "colour", "source"}};
  for (const FuseRating& f : c.fuses)
    out.push_back({format_plain(f.amps) + " A", format_fixed(f.ohm * 1000, 2) + " mΩ", f.colour, f.provenance.source});
  return out;
}

TextRows diodes(const Catalogue& c) {
  TextRows out{{"name", "title", "rated", "junction at most", "source"}};
  for (const auto& [name, d] : c.diodes)
    out.push_back({name, d.title, units(d.rated_a, "A"), units(d.thermal.hottest_c, "°C"), d.provenance.source});
  return out;
}

TextRows parts_where(const Catalogue& c, bool relays) {
  TextRows out{{"name", "title", "kind", "figures", "source"}};
  for (const auto& [name, p] : c.parts) {
    if ((p.kind == "relay") != relays) continue;
    std::vector<std::string> figures;
    for (const auto& [key, value] : p.figures) figures.push_back(key + " " + format_plain(value));
    out.push_back({name, p.title, p.kind, joined(figures), p.provenance.source});
  }
  return out;
}

TextRows relays(const Catalogue& c) { return parts_where(c, true); }
TextRows parts(const Catalogue& c) { return parts_where(c, false); }

std::string range(const std::vector<WireSizeName>& ends) { return ends.size() == 2 ? ends[0].text() + " to " + ends[1].text() : ""; }

TextRows fittings_where(const Catalogue& c, bool joins) {   // what joins wires, or what covers them
  TextRows out{{"name", "title", "kind", "colour", "gauge", "metric", "use", "source"}};
  for (const auto& [name, f] : c.fittings)
    if ((f.kind == "terminal" || f.kind == "splice") == joins)
      out.push_back({name, f.title, f.kind, f.colour, range(f.awg), range(f.metric), f.use, f.provenance.source});
  return out;
}

TextRows terminals(const Catalogue& c) { return fittings_where(c, true); }
TextRows sleeves(const Catalogue& c) { return fittings_where(c, false); }

TextRows designations(const Catalogue& c) {
  TextRows out{{"name", "is", "in older lists", "source"}};
  for (const auto& [name, d] : c.designations) out.push_back({name, d.meaning, d.older, d.provenance.source});
  return out;
}

TextRows colours(const Catalogue& c) {
  TextRows out{{"name", "title", "codes", "source"}};
  for (const auto& [name, convention] : c.colour_conventions) {
    std::vector<std::string> codes;
    for (const auto& [code, letters] : convention.codes) codes.push_back(code == letters ? code : code + " " + letters);
    out.push_back({name, convention.title, joined(codes), convention.provenance.source});
  }
  return out;
}

TextRows modules(const Catalogue& c) {
  TextRows out{{"name", "title", "takes", "gives", "source"}};
  for (const auto& [name, m] : c.modules) out.push_back({name, m.title, joined(m.inputs), joined(m.outputs), m.provenance.source});
  return out;
}

TextRows methods(const Catalogue& c) {
  TextRows out{{"name", "title", "what it does"}};
  for (const auto& [name, m] : c.methods) out.push_back({name, m.title, m.says});
  return out;
}

TextRows extras(const Catalogue& c) {
  TextRows out{{"name", "title", "what it does"}};
  for (const auto& [name, m] : c.extras) out.push_back({name, m.title, m.says});
  return out;
}

TextRows keys(const Catalogue& c) {
  TextRows out{{"block", "stands under", "key", "", "written", "says"}};
  for (const JobKey& k : c.job_keys) out.push_back({k.block, k.under, k.key, k.needed ? "needed" : "", k.write, k.says});
  return out;
}

TextRows feeds(const Catalogue& c) {
  TextRows out{{"name", "title", "drives"}};
  for (const auto& [name, f] : c.feeds) out.push_back({name, f.title, joined(f.drives)});
  return out;
}

}  // namespace

const std::vector<ListKind>& list_kinds() {
  static const std::vector<ListKind> kinds = {
      {"keys", "what a job file may say, block by block", keys},
      {"connectors", "tow connectors, contact by contact", connectors},
      {"lamps", "bulbs and their filaments", lamps},
      {"wire", "wire series and sizes", wire},
      {"fuses", "blade fuses", fuses},
      {"diodes", "diodes and diode blocks", diodes},
      {"relays", "relays and their contacts", relays},
      {"parts", "isolators, chargers, outputs", parts},
      {"terminals", "terminals and splices", terminals},
      {"sleeves", "sleeves, covers, grommets", sleeves},
      {"designations", "marks of terminals by DIN 72552", designations},
      {"colours", "colour letters of each convention, and what they mean in IEC 60757", colours},
      {"modules", "converters", modules},
      {"methods", "ways to keep the car's circuits and the coach's apart", methods},
      {"extras", "charge lines, brakes and what else goes with a tow", extras},
      {"feeds", "how the car drives its lamps", feeds},
  };
  return kinds;
}

std::string text_table(const TextRows& rows, const std::string& indent) {
  std::vector<size_t> widths;
  for (const auto& row : rows)
    for (size_t i = 0; i < row.size(); ++i) {
      if (i == widths.size()) widths.push_back(0);
      widths[i] = std::max(widths[i], characters(row[i]));
    }
  std::string out;
  for (const auto& row : rows) {
    std::string line = indent;
    for (size_t i = 0; i < row.size(); ++i) line += row[i] + std::string(widths[i] - characters(row[i]) + 2, ' ');
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
  }
  return out;
}

const char* confidence_word(Confidence c) {
  static const char* const words[] = {"standard", "agreed", "practice", "memory", "low"};
  return words[static_cast<size_t>(c)];
}

}  // namespace towloom
