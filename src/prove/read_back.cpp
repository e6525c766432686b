#include "prove/read_back.hpp"

namespace towloom {
namespace {

std::string key(const TracedLine& line) {
  return (line.run != nullptr ? "wire " : "bar ") + line.id;
}

void read_parts(const Page& page, ReadBack& out) {
  for (const PartFigure* part : page.parts) {
    if (part->kind == "reference") continue;  // the pieces of a wire are one wire by its number
    // The terminal of that name is one net with all its like; no wire and often no pin shows it.
    if (!part->joins.empty()) out.nets.join("joins " + part->joins, part->part + "." + part->joins);
    for (const Pin& pin : part->pins) {
      const std::string terminal = terminal_key(part->part, part->kind, pin.terminal);
      out.nets.join(terminal, terminal);
      for (const Segment& s : page.segments) {
        if (s.a.x > pin.at.x + pin_tolerance) break;
        if (touches(s, pin.at))
          out.nets.join(terminal, key(page.lines[static_cast<size_t>(s.line)]));
      }
    }
  }
}

void read_ends(const Page& page, const WireRun& run, ReadBack& out) {
  out.pieces[run.wire].insert(run.piece);
  out.piece_count[run.wire] = run.pieces;
  auto& ends = out.ends[run.wire];
  if (run.path.size() < 2) return;
  for (Point end : {run.path.front(), run.path.back()}) {
    std::set<std::string> met;
    for (const PartFigure* part : page.parts)
      for (const Pin& pin : part->pins)
        if (part->kind != "reference" && same_place(pin.at, end))
          met.insert(terminal_key(part->part, part->kind, pin.terminal));
    ends.insert(met.begin(), met.end());
  }
}

// Lines that touch at an end or a bend are read as joined; a right-angle crossing is not.
void read_touches(const Page& page, ReadBack& out) {
  for (const TracedLine& line : page.lines) {
    for (Point p : line.path) {
      for (const Segment& s : page.segments) {
        if (s.a.x > p.x + pin_tolerance) break;
        if (touches(s, p)) out.nets.join(key(line), key(page.lines[static_cast<size_t>(s.line)]));
      }
    }
  }
}

void read_dots(const Page& page, const std::string& page_name, ReadBack& out) {
  int count = 0;
  for (const Junction* dot : page.dots) {
    const std::string name = "dot " + page_name + "." + std::to_string(count++);
    const Rect cover{dot->at.x - dot->radius, dot->at.y - dot->radius, 2 * dot->radius,
                     2 * dot->radius};
    for (const Segment& s : page.segments)
      if (gap(cover, s) == 0) out.nets.join(name, key(page.lines[static_cast<size_t>(s.line)]));
  }
}

}  // namespace

int Groups::place(const std::string& name) {
  const auto [where, fresh] = index_.emplace(name, static_cast<int>(names_.size()));
  if (fresh) {
    names_.push_back(name);
    parent_.push_back(where->second);
  }
  return where->second;
}
int Groups::root(int i) const {
  while (parent_[static_cast<size_t>(i)] != i) i = parent_[static_cast<size_t>(i)];
  return i;
}
void Groups::join(const std::string& a, const std::string& b) {
  const int p = root(place(a)), q = root(place(b));
  if (p != q) parent_[static_cast<size_t>(q)] = p;
}
std::string Groups::head(const std::string& name) const {
  const auto found = index_.find(name);
  return found == index_.end() ? name : names_[static_cast<size_t>(root(found->second))];
}

std::string terminal_key(const std::string& part, const std::string& kind,
                         const std::string& terminal) {
  return kind == "splice" || kind == "joint" ? part + ".*" : terminal;
}

ReadBack read_back(const std::vector<Page>& pages) {
  ReadBack out;
  for (size_t i = 0; i < pages.size(); ++i) {
    const Page& page = pages[i];
    read_parts(page, out);
    for (const TracedLine& line : page.lines)
      if (line.run != nullptr) read_ends(page, *line.run, out);
    read_touches(page, out);
    read_dots(page, std::to_string(i), out);
  }
  return out;
}

}  // namespace towloom
