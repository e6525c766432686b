// The fault-finder's sheet: which half of the train is at fault, then what each picture of lamps can mean and which
// reading tells its causes apart. Symptoms are solved, fault by fault.
#include <algorithm>

#include "check/fault_pictures.hpp"
#include "sheets/table.hpp"

namespace towloom {
namespace {

SheetTable halves(const Style& style) {
  const auto say = [&](const std::string& key) { return word(style, key); };
  SheetTable out{say("fault-halves"), {{say("test-number"), Anchor::end}, {say("fault-do"), Anchor::start, true}, {say("fault-if"), Anchor::start, true}, {say("fault-then"), Anchor::start, true}}, {}};
  for (int step = 1;; ++step) {
    const std::string key = "fault-half-" + std::to_string(step);
    if (say(key) == key) return out;   // as many as the language has
    out.rows.push_back({{{std::to_string(step)}, {say(key), Weight::semibold}, {say(key + "-if")}, {say(key + "-then"), Weight::regular, "quiet"}}});
  }
}

std::string joined(const std::vector<std::string>& lines, const char* between) {
  std::string out;
  for (const std::string& line : lines) out += (out.empty() ? "" : between) + line;
  return out;
}

// The first lines; a mirrored plug shows at every lamp.
std::string shown(const std::vector<std::string>& lines, const Style& style) {
  constexpr std::size_t most = 4;
  if (lines.size() <= most) return joined(lines, "\n");
  return joined({lines.begin(), lines.begin() + most}, "\n") + "\n" + word(style, "fault-more");
}

// What opens with each of several faults is said once, at their end.
std::string listed(const std::vector<FaultCause>& causes, const Style& style) {
  const std::string& with = causes.front().opens;
  const bool each = causes.size() > 1 && !with.empty() && std::all_of(causes.begin(), causes.end(), [&](const FaultCause& c) { return c.opens == with; });
  std::vector<std::string> out;
  for (const FaultCause& c : causes) out.push_back(each ? c.fault : text_of(c));
  if (each) out.push_back(word(style, "fault-with-each") + " " + with);
  return joined(out, "; ");
}

// The readings as a tree, or the faults where no reading tells them apart.
std::string causes(const FaultPicture& p, const Circuit& c, const Style& style) {
  if (p.readings.empty()) return in_words(listed(p.faults, style), c, style);
  std::string out = word(style, "fault-in") + " " + p.scene + ":";
  constexpr std::size_t most = 20;   // so that a page can hold it; the rest is in check --faults
  std::size_t lines = 0;
  for (const FaultReading& r : p.readings) {
    if (lines++ == most) return out + "\n" + word(style, "fault-read-on");
    out += "\n" + (r.depth > 0 ? std::string(static_cast<std::size_t>(r.depth), '>') + " " : "") + in_words(text_of(r), c, style);
  }
  return out;
}

// What shows, and below it what it can be.
SheetCell row_cell(std::string shows, std::string causes) {
  SheetCell out{std::move(shows), Weight::semibold};
  out.then = std::move(causes);
  return out;
}

SheetTable pictures(const std::vector<FaultPicture>& all, const Circuit& c, const Style& style) {
  const auto say = [&](const std::string& key) { return word(style, key); };
  SheetTable out{say("fault-pictures"), {{say("test-number"), Anchor::end}, {say("fault-shows"), Anchor::start, true}}, {}, mm(4), {say("fault-note")}, 2};
  std::vector<const FaultPicture*> order;
  std::vector<std::string> hidden;
  for (const FaultPicture& p : all)
    if (!p.shows.empty()) order.push_back(&p);
    else
      for (const FaultCause& cause : p.faults) hidden.push_back(text_of(cause));
  std::stable_sort(order.begin(), order.end(), [](const FaultPicture* a, const FaultPicture* b) { return a->shows.size() < b->shows.size(); });
  int number = 0;
  for (const FaultPicture* p : order) out.rows.push_back({{{std::to_string(++number)}, row_cell(shown(p->shows, style), causes(*p, c, style))}});
  constexpr std::size_t in_a_row = 12;   // so that a page can end between
  for (std::size_t i = 0; i < hidden.size(); i += in_a_row)
    out.rows.push_back({{{i == 0 ? std::to_string(++number) : ""}, row_cell(say(i == 0 ? "fault-nothing" : "fault-nothing-more"),
                                  in_words(joined({hidden.begin() + static_cast<std::ptrdiff_t>(i), hidden.begin() + static_cast<std::ptrdiff_t>(std::min(hidden.size(), i + in_a_row))}, "; "), c, style))}});
  return out;
}

}  // namespace

std::vector<Drawing> fault_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure,
                                 const std::vector<FaultPicture>& faults, int before, int after) {
  const Drawing blank = table_blank(facts, style, "fault", word(style, "fault-sheet"), "Fault finding: halves of the train, then single faults by what the lamps show, and readings that tell them apart.");
  StripRows strip;
  strip.document = word(style, "fault-sheet");
  return table_pages({{halves(style)}, {pictures(faults, facts.circuit(), style)}}, blank, strip, facts, catalogue, style, measure, before, after);
}

}  // namespace towloom
