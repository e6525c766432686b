// B, label it: the bench drawing without the labels of its wires, the direction of its diodes and the names of its grounds.
#include <algorithm>
#include <set>

#include "sheets/worksheet.hpp"

namespace towloom::worksheet {
namespace {

bool has_diode(const Part& part) {
  return std::any_of(part.elements.begin(), part.elements.end(), [](const Element& e) { return e.law == Law::diode; });
}
// Parts with a symbol of their own, so that a box in its place gives away nothing.
bool shows_direction(const Part& part) { return has_diode(part) && part.terminals.size() <= 3 && part.kind != "lamp"; }

struct Blanks {
  std::set<std::string> wires, grounds, diodes;
  explicit Blanks(const Circuit& c) {
    for (const Wire& w : c.wires) wires.insert(w.id);
    for (const Part& p : c.parts) {
      if (p.kind == "stud") grounds.insert(p.id);
      if (shows_direction(p)) diodes.insert(p.id);
    }
  }
  bool holds(const Label& label) const { return !label.decoration && (wires.count(label.about) == 1 || grounds.count(label.about) == 1); }
};

int diodes_on(const Drawing& page, const Blanks& blanks) {
  return static_cast<int>(std::count_if(page.items.begin(), page.items.end(), [&](const Item& item) {
    const auto* part = std::get_if<PartFigure>(&item);
    return part != nullptr && blanks.diodes.count(part->part) == 1;
  }));
}

// What there is to write and to draw on a page; diodes count for several labels.
int worth(const Drawing& page, const Blanks& blanks) {
  constexpr int of_a_diode = 6;
  return of_a_diode * diodes_on(page, blanks) + static_cast<int>(std::count_if(page.items.begin(), page.items.end(), [&](const Item& item) {
    const auto* label = std::get_if<Label>(&item);
    return label != nullptr && blanks.holds(*label) && label->weight == Weight::semibold;   // factory letters are regular
  }));
}

void take_answers(Drawing& page, const Job& job) {
  const Blanks blanks(job.circuit());
  make_hollow(page, job.style);   // colours are among what is asked
  std::vector<Item> out;
  for (Item& item : page.items) {
    if (const auto* label = std::get_if<Label>(&item); label != nullptr && blanks.holds(*label)) {
      write_here(out, *label, job.style);
      continue;
    }
    if (auto* part = std::get_if<PartFigure>(&item); part != nullptr && blanks.diodes.count(part->part) == 1)
      part->marks = {filled_box(part->body, ink(job.style, "paper")), box(part->body, Pen{line_width(job.style, "symbol"), ink(job.style, "ink"), {}, false})};
    out.push_back(std::move(item));
  }
  page.items = std::move(out);
}

}  // namespace

Worksheet label_it(const Job& job) {
  Worksheet out{'B'};
  const Blanks blanks(job.circuit());
  const Drawing* most = nullptr;      // the page with the most to write
  for (const Drawing* page : job.bench)
    if (most == nullptr || worth(*page, blanks) > worth(*most, blanks)) most = page;
  if (most == nullptr || worth(*most, blanks) == 0) return out.left_out = job.say("worksheet-none-b"), out;
  const auto with_diodes = [&job, some = diodes_on(*most, blanks) > 0](std::vector<std::string> texts, const char* key) {
    for (std::string& text : texts)
      if (some) text += " " + job.say(key);
    return texts;
  };
  out.sheet = [&job, most, with_diodes](Numbering n) {
    Drawing page = on_bench(job, *most, {'B', false}, strip_of(job, {'B', false}, n, 1, 1), with_diodes(tasks(job, 'B'), "worksheet-task-diodes"));
    take_answers(page, job);
    make_mute(page);
    return Pages{std::move(page)};
  };
  out.key = [&job, most, with_diodes](Numbering n) {
    return Pages{on_bench(job, *most, {'B', true}, strip_of(job, {'B', true}, n, 1, 1), with_diodes({job.say("worksheet-step-b"), job.say("worksheet-step-brief-b")}, "worksheet-step-diodes"))};
  };
  return out;
}

}  // namespace towloom::worksheet
