// What was found otherwise than drawn: a letter in a box beside the part or wire, and what it stands for in the notes.
#include <algorithm>

#include "sheets/bench_flags.hpp"
#include "sheets/bench_labels.hpp"

namespace towloom {
namespace {

constexpr Mm100 margin = mm(0.7), air = mm(0.4);   // of the box round the letter; round the box

// The thing itself, or what belongs to it: a contact of a connector.
bool is_about(const std::string& id, const std::string& about) { return id == about || id.rfind(about + ".", 0) == 0; }

}  // namespace

bool is_on(const Circuit& c, const Flag& flag) {
  return std::any_of(c.parts.begin(), c.parts.end(), [&](const Part& p) { return is_about(p.id, flag.about); }) ||
         std::any_of(c.wires.begin(), c.wires.end(), [&](const Wire& w) { return w.id == flag.about; });
}

bool is_drawn(const Circuit& c, const Flag& flag) {
  const PartId part = c.find(flag.about);
  return part && c.part(part).found == "added";
}

std::string flag_text(const Flag& flag, const Style& style) {
  return flag_letter(flag.number) + ": " + flag.what + ", " + word(style, "found") + ": " + flag.found + "; " + word(style, "should-be") + ": " + flag.should + "; " +
         flag.date + ", " + flag.why + ".";
}

std::string letters_at(const Facts& facts, const Wire& wire) {
  std::string out;
  const Circuit& c = facts.circuit();
  for (const Flag& flag : facts.flags)
    if (wire.id == flag.about || is_about(c.part(wire.from.part).id, flag.about) || is_about(c.part(wire.to.part).id, flag.about))
      out += (out.empty() ? "" : " ") + flag_letter(flag.number);
  return out;
}

SheetTable found_table(const Facts& facts, const Style& style) {
  const auto say = [&](const char* key) { return word(style, key); };
  SheetTable out{say("found-list"),
                 {{""}, {say("found-at"), Anchor::start, true}, {say("found"), Anchor::start, true}, {say("should-be"), Anchor::start, true}, {say("found-on")}, {say("found-why"), Anchor::start, true}},
                 {}, mm(5), {say("found-note")}};
  for (const Flag& flag : facts.flags)
    out.rows.push_back({{{flag_letter(flag.number), Weight::semibold, "cut"}, {flag.what, Weight::semibold, "ink", "", flag.about}, {flag.found, Weight::regular, "cut"}, {flag.should},
                         {flag.date, Weight::regular, "quiet"}, {flag.why, Weight::regular, "quiet"}}});
  return out;
}

// The free place nearest to what is meant, among those round it.
bool Labels::flag(const Flag& flag) {
  std::vector<std::pair<Rect, std::string>> meant;
  for (const Standing& s : d_.place.parts) {
    const std::string& id = d_.circuit().part(s.part).id;
    const Point a = BenchDraft::at(s.body.left, s.body.top), b = BenchDraft::at(s.body.right, s.body.bottom);
    if (is_about(id, flag.about)) meant.emplace_back(around(a, b, 0), id);
  }
  for (std::size_t w = 0; w < lines_.size(); ++w)
    if (d_.circuit().wires[w].id == flag.about)
      for (const Rect& line : lines_[w]) meant.emplace_back(line, flag.about);
  const LabelLine line{flag_letter(flag.number), Weight::semibold, "cut"};
  for (double reach = 0.75; reach < 4; reach += 0.5)
    for (const auto& [box, id] : meant) {
      const double left = to_mm(box.x) / BenchDraft::module - reach, right = to_mm(box.right()) / BenchDraft::module + reach;
      const double top = to_mm(box.y) / BenchDraft::module - reach, bottom = to_mm(box.bottom()) / BenchDraft::module + reach;
      const double wide = width(line);
      for (double x = left - wide; x <= right + 0.01; x += label_step)
        for (const double y : {top, bottom + 1})
          if (put_flag(line, x, y, id, box)) return true;
      for (double y = top; y <= bottom + 1.01; y += label_step)
        for (const double x : {left - wide, right})
          if (put_flag(line, x, y, id, box)) return true;
    }
  return false;
}

bool Labels::put_flag(const LabelLine& line, double x, double y, const std::string& about, const Rect& meant) {
  Label label = make(line, x, y, 0);
  label.about = about;
  const Rect& r = label.room;
  const Rect box_room{r.x - margin, r.y - margin / 2, r.w + 2 * margin, r.h + margin};
  const Rect wanted{box_room.x - air, box_room.y - air, box_room.w + 2 * air, box_room.h + 2 * air};
  if (wanted.x < frame_.x || wanted.y < frame_.y || wanted.right() > frame_.right() || wanted.bottom() > frame_.bottom()) return false;
  if (taken_.meets(wanted)) return false;
  const double own = apart(box_room, meant);
  for (const Rect& other : bodies_)   // nearer to nothing else
    if (other.x != meant.x && apart(box_room, other) < own) return false;
  const bool wire = std::any_of(d_.circuit().wires.begin(), d_.circuit().wires.end(), [&](const Wire& w) { return w.id == about; });
  for (std::size_t w = 0; wire && w < lines_.size(); ++w)
    for (const Rect& l : lines_[w])
      if (d_.circuit().wires[w].id != about && apart(r, l) <= apart(r, meant)) return false;
  Decor frame;
  frame.marks.push_back(box(box_room, Pen{line_width(d_.style, "symbol"), ink(d_.style, "cut"), {}, false}, mm(0.6)));
  items_.emplace_back(std::move(frame));
  taken_.add(box_room);
  texts_.add(box_room);
  items_.emplace_back(std::move(label));
  return true;
}

}  // namespace towloom
