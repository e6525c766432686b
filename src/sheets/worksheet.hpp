// The worksheets one by one, and what they share. sheets.hpp declares the set of them.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "check/live.hpp"
#include "sheets/table.hpp"
#include "solve/way.hpp"

namespace towloom::worksheet {

using Pages = std::vector<Drawing>;

struct Job {
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;
  const TextMeasure& measure;
  std::vector<const Drawing*> bench;   // its pages

  const Circuit& circuit() const { return facts.circuit(); }
  const States& states() const { return facts.states; }
  std::string say(const std::string& key) const { return word(style, key); }
};

struct Numbering { int before = 0, after = 0; };   // pages that stand around
struct Worksheet {
  char letter = 'A';
  std::string left_out = {};     // why this job has none; then there is nothing to draw
  std::function<Pages(Numbering)> sheet = {}, key = {};
};
// In the order in which they are worked.
Worksheet trace_it(const Job&);
Worksheet label_it(const Job&);
Worksheet complete_it(const Job&);
Worksheet predict_it(const Job&);
Worksheet measure_it(const Job&);
Worksheet pin_it(const Job&);
Worksheet choose_it(const Job&);
Worksheet find_it(const Job&);
Worksheet explain_it(const Job&);

// ---- pages --------------------------------------------------------------------------------------
struct Sheet { char letter; bool key; };
std::string title_of(const Job&, Sheet);       // "Worksheet A: read and trace"
std::string task_of(const Job&, char letter);
Drawing blank(const Job&, Sheet);              // an empty page for tables
StripRows strip_of(const Job&, Sheet, Numbering, int page, int pages);
// The text, below it bands of tables that stand side by side where they find room.
Pages table_of(const Job&, Sheet, Numbering, const std::string& text, const std::vector<std::vector<SheetTable>>& bands);
// A bench page without its frame, notes, readings and letters of what was found, in a frame of this sheet. Where the
// notes stood is written the first of the texts that finds room.
Drawing on_bench(const Job&, const Drawing& bench, Sheet, const StripRows&, const std::vector<std::string>& texts);
std::vector<std::string> tasks(const Job&, char letter);   // in full, short, and only what must be said
// New wires without their colours, so that they can be coloured; the car's own stay thin and grey.
void make_hollow(Drawing&, const Style&);
// Pictures only: no wire, part or contact is named where a program can read it, and no label leads anywhere.
void make_mute(Drawing&);
// A dotted line to write upon in place of a label.
void write_here(std::vector<Item>& items, const Label&, const Style&);
SheetCell box_cell(Mm100 width);               // to be filled in

// ---- the way of a current -----------------------------------------------------------------------
struct Traced {
  Way way;
  std::size_t scene = 0;
  int phase = 0;                 // in which the lamp is brightest
};
Traced trace_lamp(const Circuit&, const Catalogue&, const Scene&, const Solved&, PartId lamp);
// Contacts, wires and parts as they are named on the bench sheet, in the order in which the current meets them.
std::vector<std::string> in_order(const Circuit&, const Way&, const Style&);
std::string piece_text(const Circuit&, const Current&, const Style&);   // one of them; never empty
std::string joined(const std::vector<std::string>&, const char* between = ", ");
bool gives_light(Seen);
// A scene in tow by its name.
std::optional<std::size_t> towing_scene(const States&, const std::string& name);

}  // namespace towloom::worksheet
