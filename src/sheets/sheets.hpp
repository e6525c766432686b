// The sheets: Facts in, drawings out. One file a sheet. No sheet computes a circuit fact of its own.
#pragma once

#include <vector>

#include "check/check.hpp"
#include "drawing/drawing.hpp"
#include "drawing/text.hpp"
#include "drawing/style.hpp"

namespace towloom {

// `other_pages`: how many follow the bench sheets, for "1 of 3". Several pages where one paper is too small.
// `effort`: other placements tried for each page, the best kept; the same number gives the same drawing.
std::vector<Drawing> bench_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int other_pages, Diagnostics&, int effort = 0);
// `bench_pages`: how many stand before these in the set.
std::vector<Drawing> faces_sheet(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int bench_pages);

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
