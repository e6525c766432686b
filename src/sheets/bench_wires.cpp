#include <algorithm>

#include "sheets/bench_draft.hpp"

namespace towloom {
void draw_wires(const BenchDraft& d, const std::vector<Routed>& routed) {
  for (std::size_t i = 0; i < routed.size(); ++i) {
    const Wire &w = d.whole(i), &here = d.circuit().wires[i];
    WireRun run;
    run.wire = w.id;
    run.net = d.net(here.from);
    run.from = d.facts.circuit().name(w.from);
    run.to = d.facts.circuit().name(w.to);
    const bool begins = d.circuit().part(here.from.part).kind != "reference", ends = d.circuit().part(here.to.part).kind != "reference";
    run.pieces = begins && ends ? 1 : 2;
    run.piece = begins ? 1 : 2;
    run.colour = w.colour;
    run.size = cut_text(w).size;
    run.status = w.status == Status::factory || w.group == "coach" ? "factory" : "new";
    for (const GridPoint& p : routed[i].path) run.path.push_back(BenchDraft::at(p));
    set_pens(run, d.style);
    d.drawing.items.emplace_back(std::move(run));
  }
  // Cut marks lie on the car side of each cut, close to where it ends.
  for (const CutPoint& cut : d.circuit().cuts) {
    const auto& path = routed[static_cast<std::size_t>(cut.car_side.v)].path;
    const GridPoint end = path.back();
    Decor mark;
    mark.marks = symbol_marks(d.style.symbol(cut.plug ? "unplugged" : "cut"), BenchDraft::at(end.x - 1, end.y), false, d.style, ink(d.style, "cut"));
    d.drawing.items.emplace_back(std::move(mark));
  }
}

}  // namespace towloom
