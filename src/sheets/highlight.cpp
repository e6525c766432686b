#include "sheets/highlight.hpp"

#include <algorithm>
#include <set>

namespace towloom {

bool on_path(Point p, const Polyline& path) {
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const Point a = path[i], b = path[i + 1];
    const bool beside = p.x >= std::min(a.x, b.x) && p.x <= std::max(a.x, b.x) && p.y >= std::min(a.y, b.y) && p.y <= std::max(a.y, b.y);
    if (beside) return true;
  }
  return false;
}

namespace {

struct Quiet {
  const Style& style;
  std::set<std::string> live{};        // ids of wires and parts
  std::vector<Polyline> paths{};       // of live wires on this page

  Rgb rest() const { return ink(style, "rest"); }
  bool is_live(const std::string& about) const {
    if (live.count(about) == 1) return true;
    const bool cord_end = about.size() > 1 && about[0] == 'P' && about.find('.') != about.npos;   // P1.3 mates J1.3
    return cord_end && live.count("J" + about.substr(1)) == 1;
  }
  bool touches_live(Point p) const {
    return std::any_of(paths.begin(), paths.end(), [&](const Polyline& path) { return on_path(p, path); });
  }

  void fade(std::vector<Mark>& marks) const {
    const Rgb paper = ink(style, "paper");
    for (Mark& mark : marks)
      std::visit([&](auto& m) {
        m.pen.colour = rest();
        if (m.filled && m.fill != paper) m.fill = m.pen.width > 0 ? paper : rest();
      }, mark);
  }

  void operator()(WireRun& run) const {
    if (!is_live(run.wire)) {
      run.casing = run.tracer = {};
      run.core = {line_width(style, "factory"), rest(), {}, false};
    } else if (run.status != "new") {   // thin grey elsewhere; here it is what the sheet is about
      run.core = {line_width(style, "core"), ink(style, "ink"), {}, false};
    }
  }
  void operator()(PartFigure& part) const {
    if (!is_live(part.part)) return fade(part.marks);
    if (part.kind != "lamp") return;
    for (Mark& mark : part.marks)       // lit: the glass is filled, below its cross
      if (auto* glass = std::get_if<Disc>(&mark)) glass->filled = true, glass->fill = ink(style, "lit");
  }
  void operator()(Junction& dot) const {
    if (!touches_live(dot.at)) dot.colour = rest();
  }
  void operator()(LinkBar& bar) const {
    const bool used = std::any_of(paths.begin(), paths.end(), [&](const Polyline& p) { return on_path(p.front(), bar.path) || on_path(p.back(), bar.path); });
    bar.pen.colour = used ? ink(style, "ink") : rest();
  }
  void operator()(ContactFigure& contact) const {
    if (!is_live(contact.connector + "." + contact.contact)) fade(contact.marks);
  }
  void operator()(Label& label) const {
    if (!label.about.empty() && !is_live(label.about)) label.colour = rest();
  }
  void operator()(Decor&) const {}
};

}  // namespace

void highlight(Drawing& drawing, const Circuit& circuit, const LivePath& path, const Style& style) {
  Quiet quiet{style};
  for (std::size_t w = 0; w < circuit.wires.size(); ++w)
    if (path.wires[w] != 0) quiet.live.insert(circuit.wires[w].id);
  for (std::size_t p = 0; p < circuit.parts.size(); ++p)
    if (path.parts[p] != 0) quiet.live.insert(circuit.parts[p].id);
  for (const Item& item : drawing.items) {
    const auto* run = std::get_if<WireRun>(&item);
    if (run != nullptr && quiet.is_live(run->wire)) quiet.paths.push_back(run->path);
    // A reference stands for the wire that goes on behind it.
    const auto* part = std::get_if<PartFigure>(&item);
    if (part != nullptr && part->kind == "reference")
      for (const Item& other : drawing.items)
        if (const auto* wire = std::get_if<WireRun>(&other))
          if (quiet.is_live(wire->wire) && (wire->path.front() == part->pins[0].at || wire->path.back() == part->pins[0].at)) quiet.live.insert(part->part);
  }
  for (std::size_t i = 0; i < drawing.items.size(); ++i) {
    std::visit(quiet, drawing.items[i]);
    // The box round a reading belongs to the label that is written into it.
    auto* box = std::get_if<Decor>(&drawing.items[i]);
    const Label* label = i + 1 < drawing.items.size() ? std::get_if<Label>(&drawing.items[i + 1]) : nullptr;
    if (box == nullptr || label == nullptr || label->about.empty() || label->decoration || quiet.is_live(label->about)) continue;
    for (Mark& mark : box->marks)
      std::visit([&](auto& m) {
        m.pen.colour = quiet.rest();
        if (m.filled) m.fill = ink(style, "paper");
      }, mark);
  }
}

}  // namespace towloom
