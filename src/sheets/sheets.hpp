// The sheets: Facts in, drawings out. One file a sheet. No sheet computes a circuit fact of its own.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "check/as_found.hpp"
#include "check/fault_pictures.hpp"
#include "drawing/drawing.hpp"
#include "drawing/text.hpp"
#include "drawing/style.hpp"

namespace towloom {

// `other_pages`: how many follow the bench sheets, for "1 of 3". Several pages where one paper is too small.
// `effort`: other placements tried for each page, the best kept; the same number gives the same drawing.
// `before`: pages that stand before these, where the circuit as found is drawn behind the intended one.
std::vector<Drawing> bench_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int other_pages, Diagnostics&, int effort = 0,
                                 const std::string& caption = "", int before = 0);   // caption: says what is highlighted
// `bench_pages`: how many stand before these in the set.
std::vector<Drawing> faces_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int bench_pages, int after = 0);
// Wire list, cut list, materials. `before` and `after`: pages of the set that stand around these.
std::vector<Drawing> wires_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);
// The car from above: what is where, and what is to be done there. Laid out once, then numbered.
class PlanMap {
 public:
  PlanMap(const Facts&, const Catalogue&, const Style&, const TextMeasure&);   // they must outlive it
  std::vector<Drawing> pages(int before, int after) const;

 private:
  struct Laid;
  std::shared_ptr<const Laid> laid_;
};
std::vector<Drawing> proof_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);
// Tests in working order, each with the reading that the solution expects.
std::vector<Drawing> test_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);
// One small panel a signal state: the bench drawing's wires, live ones in colour, and its lamps lit or dark.
int states_pages(const Facts&, const Catalogue&, const Style&, const TextMeasure&);
std::vector<Drawing> states_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, const Drawing& bench, int before, int after);
// Single faults by what they show.
std::vector<Drawing> fault_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, const std::vector<FaultPicture>&, int before, int after);
// One page for the driver.
std::vector<Drawing> customer_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);
// What was found, what each observation changes, and the readings of the day.
std::vector<Drawing> observed_sheet(const AsFound&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);
struct FoundPages {
  const Facts* drawn = nullptr;      // facts_as_found; nothing where the job records readings only
  const AsFound* solved = nullptr;
};
// Every sheet of a job in its order, numbered through. Empty after an error: the paper is too small.
// `caption` says what is highlighted; "" = nothing. `effort` as for the bench sheet. `found`: an installation as it was
// found has pages of its own behind the bench sheet.
std::vector<Drawing> sheet_set(const Facts&, const Catalogue&, const Style&, const TextMeasure&, Diagnostics&, int effort = 0, const std::string& caption = "",
                               const FoundPages& found = {});

// For the apprentice: a first page that says what to do, worksheets, and their keys behind them, numbered through.
// `set`: the finished sheets of the job; its bench pages are drawn upon.
std::vector<Drawing> worksheet_set(const Facts&, const Catalogue&, const Style&, const TextMeasure&, const std::vector<Drawing>& set);

// Frame, title strip (ISO 7200 fields), banner "n faults: do not build from this" when there are errors,
// "not to scale", "check local law; licensed practice decides". Returns the free space.
struct StripRows { std::string document, scene, extra_head, extra; int page = 1, pages = 1; };
struct StripCell { std::string head, value; bool may_shorten = false; };   // at least two; the second takes what is left
Frame add_frame(Drawing&, const Facts&, const Catalogue&, const StripRows&, const Style&, const TextMeasure&);
Frame add_frame(Drawing&, const std::vector<StripCell>&, const std::string& banner, const Style&, const TextMeasure&);
// On the first of several pages: which sheet stands on which, each leading there, beside the cautions.
void add_index(std::vector<Drawing>& pages, const Style&, const TextMeasure&);
// Room that the cautions of a page leave in their two lines, upper one first; y: where letters stand.
std::array<Rect, 2> beside_cautions(Drawing& page, const Style&, const TextMeasure&);

// The faces of one form as the catalogue has it, and of all forms on one poster.
std::vector<Drawing> form_sheet(const Connector&, const std::string& paper, const Catalogue&, const Style&, const TextMeasure&);
// Every symbol of the style's set.
std::vector<Drawing> symbol_sheet(const Style&, const std::string& paper, const TextMeasure&);
Drawing connector_poster(const Catalogue&, const Style&, const TextMeasure&);

}  // namespace towloom
