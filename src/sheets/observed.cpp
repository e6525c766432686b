// What was found explains: of each observation what mending it alone would change, of each reading of the day whether the
// circuit as found has it, and because of what.
#include <algorithm>
#include <cmath>

#include "sheets/table.hpp"

namespace towloom {
namespace {

constexpr std::size_t most_shown = 2;

std::string lines(const std::vector<std::string>& said, const Style& style) {
  std::string out;
  for (std::size_t i = 0; i < std::min(most_shown, said.size()); ++i) out += (i > 0 ? "\n" : "") + said[i];
  if (said.size() > most_shown) out += "\n" + word(style, "and-more") + " " + std::to_string(said.size() - most_shown) + " " + word(style, "more-places");
  return out;
}

std::string effect(const AsFound::Row& row, const Style& style) {
  if (row.masked()) return word(style, "observed-hidden");
  if (row.shows.empty()) return word(style, "observed-nothing");
  return lines(row.shows, style);
}

SheetTable observations(const AsFound& found, const Style& style) {
  const auto say = [&](const char* key) { return word(style, key); };
  SheetTable out{say("observed-list"), {{""}, {say("found-at"), Anchor::start, true}, {say("found"), Anchor::start, true}, {say("observed-fault"), Anchor::start, true}, {say("observed-shows"), Anchor::start, true}},
                 {}, mm(5), {say("observed-note")}};
  for (std::size_t i = 0; i < found.rows.size() && i < found.facts.flags.size(); ++i) {
    const Flag& flag = found.facts.flags[i];
    const AsFound::Row& row = found.rows[i];
    out.rows.push_back({{{flag_letter(flag.number), Weight::semibold, "cut"}, {flag.what, Weight::semibold, "ink", "", flag.about}, {flag.found, Weight::regular, "cut"},
                         {row.fault.empty() ? "–" : in_words(row.fault, found.facts.circuit(), style), Weight::regular, "quiet"}, {effect(row, style)}}});
  }
  return out;
}

std::string explained(const AsFound::Reading& r, const AsFound& found, const Style& style) {
  if (!r.explained) return word(style, "reading-unexplained") + (r.suspects.empty() ? "" : ". " + word(style, "reading-would") + " " + lines(r.suspects, style));
  std::string by;
  for (const int row : r.by) by += (by.empty() ? "" : ", ") + flag_letter(found.facts.flags[static_cast<std::size_t>(row)].number);
  if (!by.empty()) return word(style, "reading-by") + " " + by;
  return word(style, std::fabs(r.sound_v - r.measured_v) <= std::fabs(r.found_v - r.measured_v) ? "reading-sound" : "reading-together");
}

SheetTable readings(const AsFound& found, const Style& style) {
  const auto say = [&](const char* key) { return word(style, key); };
  const auto volts = [](double v) { return format_fixed(v, 1) + " V"; };
  SheetTable out{say("reading-list"), {{say("found-at"), Anchor::start, true}, {say("state"), Anchor::start, true}, {say("reading-read"), Anchor::end}, {say("reading-found"), Anchor::end}, {say("should-be"), Anchor::end}, {say("reading-says"), Anchor::start, true}},
                 {}, mm(5), {say("reading-note")}};
  for (const AsFound::Reading& r : found.readings)
    out.rows.push_back({{{in_words(r.at, found.facts.circuit(), style), Weight::semibold}, {r.scene}, {volts(r.measured_v), Weight::semibold, r.explained ? "ink" : "cut"}, {volts(r.found_v)}, {volts(r.sound_v), Weight::regular, "quiet"},
                         {explained(r, found, style)}}});
  return out;
}

}  // namespace

std::vector<Drawing> observed_sheet(const AsFound& found, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, int before, int after) {
  const Drawing blank = table_blank(found.facts, style, "observed", word(style, "observed-sheet"), "What was found, what each observation changes at the lamps, and the readings of the day.");
  StripRows strip;
  strip.document = word(style, "observed-sheet");
  return table_pages({{observations(found, style)}, {readings(found, style)}}, blank, strip, found.facts, catalogue, style, measure, before, after);
}

}  // namespace towloom
