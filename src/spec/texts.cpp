#include <cctype>
#include <chrono>

#include "spec/parts.hpp"

namespace towloom {

std::string trimmed(std::string_view s) {
  while (!s.empty() && s.front() == ' ') s.remove_prefix(1);
  while (!s.empty() && s.back() == ' ') s.remove_suffix(1);
  return std::string(s);
}

std::vector<std::string> split(std::string_view text, std::string_view between) {
  std::vector<std::string> out;
  std::size_t at = 0;
  for (;;) {
    const std::size_t next = text.find(between, at);
    out.push_back(trimmed(text.substr(at, next == std::string_view::npos ? next : next - at)));
    if (next == std::string_view::npos) return out;
    at = next + between.size();
  }
}

bool is_iso_date(const std::string& s) {
  if (s.size() != 10 || s[4] != '-' || s[7] != '-') return false;
  for (std::size_t i = 0; i < s.size(); ++i)
    if (i != 4 && i != 7 && !std::isdigit(static_cast<unsigned char>(s[i]))) return false;
  using namespace std::chrono;
  const year_month_day date{year{std::stoi(s.substr(0, 4))}, month{static_cast<unsigned>(std::stoi(s.substr(5, 2)))},
                            day{static_cast<unsigned>(std::stoi(s.substr(8, 2)))}};
  return date.ok();
}

std::optional<std::string> behind(const std::string& text, const std::string& words) {
  if (text.size() <= words.size() || text.compare(0, words.size(), words) != 0) return std::nullopt;
  return trimmed(text.substr(words.size()));
}

namespace {

// Why there is a bound; common practice, no source.
const char* why_most(Unit unit) {
  switch (unit) {
    case Unit::metre: return "; the longest loop, out and back through a big coach, is about 30 m";
    case Unit::volt: return "; a 24 V system reads below the 32 V that blade fuses are made for";
    case Unit::ampere: return "; no tow wiring carries more";
    case Unit::watt: return "; no lamp takes more";
    case Unit::ohm: return "; more is an open circuit";
    default: return "";
  }
}

}  // namespace

std::optional<PlacedNumber> bounded(Fields& fields, std::string_view key, Unit unit, double most) {
  auto q = fields.quantity(key, unit);
  if (!q) return q;
  if (q->value > 0 && q->value <= most) return q;
  const bool too_much = q->value > most;
  fields.diagnostics().error("out-of-range", q->place, "'" + std::string(key) + "'" + (too_much && unit == Unit::metre ? " is absurdly long" : " cannot be right"),
                             "expected above 0 and at most " + (unit == Unit::percent ? format_plain(100 * most) + " %" : format_plain(most)) + ", like " + unit_example(unit) + (too_much ? why_most(unit) : ""));
  return std::nullopt;
}

std::optional<Outlet> read_outlet(Fields& fields, const std::string& key, Diagnostics& diagnostics) {
  const Node* node = fields.need_node(key);
  if (node == nullptr) return std::nullopt;
  Outlet out;
  if (node->kind == Node::Kind::scalar) {
    const auto parts = split(node->text, ",");
    out.form = {parts[0], node->place};
    for (std::size_t i = 1; i < parts.size(); ++i) out.at += (i > 1 ? ", " : "") + parts[i];
    return out;
  }
  Fields row(*node, key, diagnostics);
  out.form = row.need_text("form");
  out.half = row.text("half");
  out.layout = row.text("layout");
  out.use = row.text("use");
  out.colours = row.text("colours");
  if (const auto at = row.text("at")) out.at = at->value;
  for (const auto& [name, into] : {std::pair{"pins", &out.pins}, {"positions", &out.positions}})
    if (const Node* rows = row.node(name)) {
      Fields contacts(*rows, name, diagnostics);
      for (const Entry& e : rows->entries)
        if (const auto says = contacts.text(e.key)) into->push_back({{e.key, e.key_place}, *says});
      contacts.finish();
    }
  const bool differs = !out.pins.empty() || !out.positions.empty();
  out.why = row.text("why");
  if (differs && !row.has("why"))
    diagnostics.error("why", row.place(), "this " + key + " differs from the catalogue and the job does not say why",
                      "why: letters read on the part, 2026-11-24");
  if (!differs && out.why)
    diagnostics.error("why", out.why->place, "'why' belongs to pins: or positions:", "or write it as a comment");
  row.finish();
  return out;
}

SizedColour read_colour(const PlacedText& text, Diagnostics& diagnostics) {
  SizedColour out;
  // The size begins with the first digit; before it stands the colour, in letters and marks.
  const std::size_t digit = text.value.find_first_of("0123456789");
  out.colour = {trimmed(text.value.substr(0, digit)), text.place};
  bool letters = !out.colour.value.empty();
  for (char c : out.colour.value)
    letters = letters && (std::isalpha(static_cast<unsigned char>(c)) || c == '/' || c == '-' || c == ' ');
  if (!letters) {
    diagnostics.error("colour", text.place, "'" + text.value + "' does not begin with colour letters",
                      "write the colour, base first, and then the size: GY/VT 0.75 mm2");
    return out;
  }
  if (digit == std::string::npos) return out;
  const auto size = parse_wire_size(text.value.substr(digit));
  if (size)
    out.size = PlacedSize{*size, text.place};
  else
    diagnostics.error("wire-size", text.place, "'" + trimmed(text.value.substr(digit)) + "' is not a wire size",
                      "write it like 0.75 mm2 or 18 AWG");
  return out;
}

}  // namespace towloom
