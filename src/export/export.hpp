// What is already solved, for other programs: a report in JSON, tables in CSV. The same bytes from the same job.
#pragma once

#include <string>
#include <vector>

#include "check/check.hpp"
#include "drawing/drawing.hpp"

namespace towloom {

// The report of a job; its form is specs/report.schema.json. Volts and amps as solved, rounded to 1e-6; lengths in
// metres, copper in mm². `pages`: for the figures of each sheet.
std::string to_report(const Facts&, const Catalogue&, const Sources&, const std::vector<Drawing>& pages);

// RFC 4180 with a head line. Text that a spreadsheet would take for a formula gets an apostrophe before it.
std::string wires_csv(const Facts&, const Catalogue&);      // one row a wire, with its ends
std::string cuts_csv(const Facts&, const Catalogue&);       // one row a piece to cut, by reel
std::string materials_csv(const Facts&, const Catalogue&);  // one row an article to buy
std::string csv_cell(const std::string&);

// The towing scene in which most lamps are lit, both flash phases counted: what a netlist of the job shows.
const Scene& fullest_scene(const Facts&);

}  // namespace towloom
