// Where the labels of the bench sheet find their places.
#pragma once

#include <string>
#include <vector>

#include "sheets/bench_clutter.hpp"
#include "sheets/bench_draft.hpp"

namespace towloom {

constexpr double label_step = 0.25;   // modules between two places that are tried

struct LabelLine {
  std::string text;
  Weight weight = Weight::regular;
  const char* ink_name = "quiet";
};
using LabelBlock = std::vector<LabelLine>;   // lines below each other

Rect around(Point a, Point b, Mm100 by);
double apart(const Rect&, const Rect&);   // shortest distance, 1/100 mm
void move(Label&, Point to);              // with its room

// A value: what stands so far may be kept, and gone on from again.
class Labels {
 public:
  Labels(const BenchDraft& d, const std::vector<Routed>& routed, const Frame& frame);
  int label(std::size_t wire);     // weight of what found no place
  int volts(std::size_t lamp);
  bool splice(const Standing&);
  bool flag(const Flag&);          // false: no place; it stands in the notes only
  void ends(std::size_t wire);
  bool nearest(const Rect& text, const Standing& bar) const;
  void sides(double x, double from, double to);
  const std::vector<Item>& items() const { return items_; }   // what has been placed

 private:
  struct Stretch { double left, top, right, bottom; };
  std::vector<Stretch> stretches(std::size_t wire, bool level) const;
  Label make(const LabelLine&, double x, double y, std::size_t wire) const;
  double width(const LabelLine&) const;
  int label_new(std::size_t wire);
  bool test_point(const LabelLine&, std::size_t wire, const std::string& about);
  int label_factory(std::size_t wire);
  bool goes_on(std::size_t wire) const;
  bool fits(const Rect& text, std::size_t wire, Mm100 above) const;
  bool put(const std::vector<Label>&, std::size_t wire);
  bool along(const LabelBlock& above, const LabelBlock& below, const Stretch&, std::size_t wire, double reach);
  bool upright(const LabelBlock&, const Stretch&, std::size_t wire);
  bool astride(const LabelBlock& above, const LabelBlock& below, std::size_t wire);
  bool put_flag(const LabelLine&, double x, double y, const std::string& about, const Rect& meant);
  bool level(const LabelBlock&, std::size_t wire);
  bool upright(const LabelBlock&, std::size_t wire);
  bool leader(const LabelBlock&, std::size_t wire);
  bool lead(std::vector<Label>&, std::size_t wire, Point dot, double x, double y);
  bool clear_way(Point from, Point to, std::size_t wire) const;
  Decor top_view(Point at, bool right) const;

  const BenchDraft& d_;
  const std::vector<Routed>& routed_;
  std::vector<Item> items_;
  Rect frame_;
  Mm100 floor_;                  // where the zones end: what stands beside a wire does not come near the notes
  bool airy_ = false;            // whether labels keep a wide distance from other text
  Clutter texts_;                // labels that stand already
  std::vector<Rect> bodies_;     // parts
  Clutter taken_;
  std::vector<Rect> points_;     // frames of volts
  std::vector<Rect> housings_;   // frames round lamps
  std::vector<std::vector<Rect>> lines_;   // of each wire, bare centre lines
  Clutter all_lines_;            // the same
};

}  // namespace towloom
