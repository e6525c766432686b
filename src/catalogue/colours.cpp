#include "catalogue/colours.hpp"

#include <algorithm>
#include <cctype>

namespace towloom {
namespace {

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

const std::string* find(const std::string& code, const ColourConvention& convention) {
  for (const auto& [known, iec] : convention.codes)
    if (lower(known) == lower(code)) return &iec;
  return nullptr;
}

size_t rank(const std::string& letters, const ColourConvention& iec) {
  for (size_t i = 0; i < iec.codes.size(); ++i)
    if (iec.codes[i].second == letters) return i;
  return iec.codes.size();
}

using Pieces = std::vector<std::string>;

// Codes run together: every split into two known ones.
std::vector<Pieces> run_together(const std::string& code, const ColourConvention& convention) {
  std::vector<Pieces> out;
  for (size_t cut = 1; cut < code.size(); ++cut) {
    const std::string *base = find(code.substr(0, cut), convention), *tracer = find(code.substr(cut), convention);
    if (base != nullptr && tracer != nullptr) out.push_back({*base, *tracer});
  }
  return out;
}

std::optional<Pieces> parted(const std::string& code, const ColourConvention& convention) {
  for (const std::string& mark : convention.between) {
    const size_t at = code.find(mark);
    if (at == std::string::npos) continue;
    const std::string *base = find(code.substr(0, at), convention), *tracer = find(code.substr(at + mark.size()), convention);
    if (base != nullptr && tracer != nullptr) return Pieces{*base, *tracer};
  }
  return std::nullopt;
}

std::string spoken(const WireCode& code, const ColourConvention& convention) {
  return code.text() + " in " + convention.title;
}

}  // namespace

std::string WireCode::text() const {
  std::string out;
  for (const std::string& l : letters) out += (out.empty() ? "" : "/") + l;
  return out;
}

std::optional<WireCode> read_code(const std::string& code, const ColourConvention& convention) {
  if (const std::string* one = find(code, convention)) return WireCode{{*one}, true};
  if (const auto two = parted(code, convention)) return WireCode{*two, true};
  if (convention.joined == ColourConvention::Joined::no) return std::nullopt;
  const auto splits = run_together(code, convention);
  if (splits.size() != 1) return std::nullopt;   // none, or more than one way to read it
  if (convention.joined == ColourConvention::Joined::base_first) return WireCode{splits[0], true};
  const auto sorted = iec_item(splits[0], convention);
  if (!sorted || lower(*sorted) != lower(code)) return std::nullopt;
  return WireCode{splits[0], lower(code) == "gnye"};
}

std::optional<std::string> iec_item(std::vector<std::string> letters, const ColourConvention& iec) {
  std::sort(letters.begin(), letters.end(), [&](const auto& a, const auto& b) { return rank(a, iec) < rank(b, iec); });
  std::string out;
  bool earth = false;
  for (const std::string& l : letters) {
    if (rank(l, iec) == iec.codes.size()) return std::nullopt;
    earth = earth || l == "GN" || l == "YE";
    out += l;
  }
  // GN and YE are read here in table order too: YE stands before GN there, the reserved pair is GNYE.
  if (out == "YEGN") return "GNYE";
  if (earth && letters.size() > 1) return std::nullopt;
  return out;
}

std::string iec_cable(std::vector<std::string> items, const ColourConvention& iec) {
  const auto place = [&](const std::string& item) { return item == "GNYE" ? iec.codes.size() : rank(item.substr(0, 2), iec); };
  std::stable_sort(items.begin(), items.end(), [&](const auto& a, const auto& b) { return place(a) < place(b); });
  std::string out;
  for (const std::string& item : items) out += (out.empty() ? "" : "+") + item;
  return out;
}

std::optional<WireCode> settle_code(const PlacedText& code, const std::optional<PlacedText>& convention,
                                    const Catalogue& catalogue, Diagnostics& diagnostics) {
  const auto& conventions = catalogue.colour_conventions;
  const std::string where = "name the convention of the car's diagram, like car: {colours: german-vehicle}";
  std::vector<std::pair<WireCode, std::string>> readings;   // distinct ones, and in which convention
  bool firm = false;   // a convention that is known from memory does not settle a code by itself
  for (const auto& [name, known] : conventions) {
    const auto reading = read_code(code.value, known);
    if (!reading) continue;
    firm = firm || !known.provenance.weak();
    const bool met = std::any_of(readings.begin(), readings.end(), [&](const auto& r) { return r.first.letters == reading->letters; });
    if (!met) readings.emplace_back(*reading, spoken(*reading, known));
  }
  std::string all;
  for (const auto& [reading, says] : readings) all += (all.empty() ? "" : ", ") + says;
  if (convention) {
    const auto found = conventions.find(convention->value);
    if (found == conventions.end()) return std::nullopt;   // reported once, where it is named
    if (auto reading = read_code(code.value, found->second)) return reading;
    diagnostics.error("colour", code.place, "'" + code.value + "' is no colour in " + found->second.title,
                      all.empty() ? "write base/tracer, like GY/VT" : "elsewhere it is " + all);
    return std::nullopt;
  }
  if (readings.size() == 1 && firm) return readings[0].first;
  if (readings.empty())
    diagnostics.error("colour", code.place, "'" + code.value + "' is no colour in any convention of the catalogue",
                      "write base/tracer, like GY/VT");
  else
    diagnostics.error("ambiguous-colour", code.place, "'" + code.value + (readings.size() == 1 ? "' is known only as " : "' can be ") + all, where);
  return std::nullopt;
}

}  // namespace towloom
