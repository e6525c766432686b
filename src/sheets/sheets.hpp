// The sheets: Facts in, drawings out. One file a sheet. No sheet computes a circuit fact of its own.
#pragma once

#include <vector>

#include "check/fault_pictures.hpp"
#include "drawing/drawing.hpp"
#include "drawing/text.hpp"
#include "drawing/style.hpp"

namespace towloom {

// `other_pages`: how many follow the bench sheets, for "1 of 3". Several pages where one paper is too small.
std::vector<Drawing> bench_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int other_pages, Diagnostics&,
                                 const std::string& caption = "");   // says what is highlighted
// `bench_pages`: how many stand before these in the set.
std::vector<Drawing> faces_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int bench_pages, int after = 0);
// Wire list, cut list, materials; and the proof. `before` and `after`: pages of the set that stand around these.
std::vector<Drawing> wires_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);
std::vector<Drawing> proof_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);
// Tests in working order, each with the reading that the solution expects.
std::vector<Drawing> test_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);
// Single faults by what they show.
std::vector<Drawing> fault_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, const std::vector<FaultPicture>&, int before, int after);
// One page for the driver.
std::vector<Drawing> customer_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);
// Every sheet of a job in its order, numbered through. Empty after an error: the paper is too small.
std::vector<Drawing> sheet_set(const Facts&, const Catalogue&, const Style&, const TextMeasure&, Diagnostics&);

// Frame, title strip (ISO 7200 fields), banner "n faults: do not build from this" when there are errors,
// "not to scale", "check local law; licensed practice decides". Returns the free space.
struct StripRows { std::string document, scene, extra_head, extra; int page = 1, pages = 1; };
struct StripCell { std::string head, value; bool may_shorten = false; };   // at least two; the second takes what is left
Frame add_frame(Drawing&, const Facts&, const Catalogue&, const StripRows&, const Style&, const TextMeasure&);
Frame add_frame(Drawing&, const std::vector<StripCell>&, int faults, const Style&, const TextMeasure&);

// The faces of one form as the catalogue has it, and of all forms on one poster.
std::vector<Drawing> form_sheet(const Connector&, const std::string& paper, const Catalogue&, const Style&, const TextMeasure&);
Drawing connector_poster(const Catalogue&, const Style&, const TextMeasure&);

}  // namespace towloom
