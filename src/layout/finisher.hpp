// The steps of finishing, inside the room only: symbols and housings (finish.cpp), bars (bars.cpp), ground
// symbols (grounds.cpp).
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "layout/finish.hpp"

namespace towloom {

struct BarEnd { int wire; bool from; int goal; Way way; };   // goal: the height its wire would like

class Finisher {
 public:
  Finisher(Placement& out, const Sketch& sketch, const Circuit& circuit, const Look& look) : out_(out), s_(sketch), c_(circuit), look_(look) {}
  void run();

 private:
  void stand(const SketchNode&);
  void stand_bar(int node);
  void stand_post(int node, int terminal);
  std::pair<int, int> bar_limits(int node) const;
  std::vector<BarEnd> bar_ends(int node, int terminal, int level) const;
  int meeting_height(int node, int other) const;
  void grow_outlet(std::size_t index);
  bool comes_from_left(int wire, TerminalRef) const;
  void ends_of_symbols();
  void add_studs();
  int lanes_between(GridPoint terminal, GridPoint ground) const;
  std::vector<GridPoint> ground_places(const Wire&, TerminalRef, const PinSpot&) const;
  std::optional<GridPoint> ground_place(const Wire&, TerminalRef, const PinSpot&, const Room&) const;
  void add_housings();
  std::optional<GridPoint> pin(TerminalRef) const;
  int terminal_y(int node, int terminal) const;
  bool is_stud(PartId p) const { return c_.part(p).kind == "stud"; }
  bool free(const GridBox&, GridPoint from) const;
  int before_bars(GridPoint from) const;
  int room_below(PartId, GridPoint terminal) const;
  bool in_housing(GridPoint ground) const;

  Placement& out_;
  const Sketch& s_;
  const Circuit& c_;
  const Look& look_;
};

}  // namespace towloom
