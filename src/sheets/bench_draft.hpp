// The bench sheet while it is being drawn: shared by the bench files.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "layout/place.hpp"
#include "layout/split.hpp"
#include "sheets/sheets.hpp"

namespace towloom {

constexpr double note_pitch = 1.5;   // modules

struct BenchDraft {
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;
  const TextMeasure& measure;
  const PageCircuit& page;
  const Placement& place;
  Drawing& drawing;
  const std::vector<std::string>& notes;   // lines at the foot
  std::set<std::string>& shown;   // parts that stand on this page or one before it

  const Circuit& circuit() const { return page.circuit; }
  // The wire as the whole circuit has it: both its true ends.
  const Wire& whole(std::size_t wire) const { return facts.circuit().wires[static_cast<std::size_t>(page.wire_of[wire])]; }
  static constexpr double module = 2.5;
  static Point at(double x, double y) { return {mm(x * module), mm(y * module)}; }
  static Point at(GridPoint p) { return at(p.x, p.y); }
  std::string net(TerminalRef t) const { return "N" + std::to_string(circuit().net(t).v + 1); }

  // Text with its base line at modules x, y. Returns false (and writes nothing) if it is wider than `room` modules.
  bool write(const std::string& text, double x, double y, Anchor, const char* size, Weight, const char* ink_name,
             const std::string& about, double room = 1000, bool decoration = false) const;
};

std::string group_text(const PageCircuit&, const Style&);   // "lamps", "lamps 1 of 2"; "" where all is on one page
std::string capitals(std::string);   // how names of housings are printed
// Expected volts of a lamp, "12.5 V": its own signal with the tail lamps on, where that is solved; "" = none in tow.
std::string lamp_volts(const Facts&, const PageCircuit&, std::size_t lamp);
void draw_zones(const BenchDraft&, const Frame&);
void draw_parts(const BenchDraft&);
void draw_wires(const BenchDraft&, const std::vector<Routed>&);
void label_parts(const BenchDraft&);
// What could not be printed beside its wire. Weight: how much is missed (8 = the length, 16 = the size too …).
struct LabelFault { int wire = 0, weight = 0, lamp = -1; };   // lamp: of the page, whose volts they are
// Nothing where the faults weigh `most` together: the drawing is then not wanted.
std::optional<std::vector<LabelFault>> label_wires(const BenchDraft&, const std::vector<Routed>&, const Frame&, int most);

}  // namespace towloom
