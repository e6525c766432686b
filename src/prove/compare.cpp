#include <algorithm>

#include "prove/read_back.hpp"

namespace towloom {
namespace {

const Part& part_at(const Circuit& c, TerminalRef t) {
  return c.parts[static_cast<size_t>(t.part.v)];
}
std::string name_of(const Part& part, const std::string& terminal) {
  return terminal_key(part.id, part.kind, part.id + "." + terminal);
}
std::string name_of(const Circuit& c, TerminalRef t) {
  const Part& part = part_at(c, t);
  return name_of(part, part.terminals[static_cast<size_t>(t.index)]);
}

// Nets as the circuit means them, by its wires, splices and joins.
Groups meant(const Circuit& c) {
  Groups out;
  for (const Part& part : c.parts) {
    for (const std::string& t : part.terminals) out.join(name_of(part, t), name_of(part, t));
    if (!part.joins.empty()) out.join("joins " + part.joins, part.id + "." + part.joins);
  }
  for (const Wire& w : c.wires) out.join(name_of(c, w.from), name_of(c, w.to));
  return out;
}

void compare_wires(const ReadBack& read, const Circuit& c, Defects& out) {
  std::set<std::string> known;
  for (const Wire& w : c.wires) {
    known.insert(w.id);
    const auto ends = read.ends.find(w.id);
    if (ends == read.ends.end()) {
      out.push_back({"missing-wire", w.id + " is not drawn"});
      continue;
    }
    const std::string from = name_of(c, w.from), to = name_of(c, w.to);
    if (ends->second != std::multiset<std::string>{from, to}) {
      std::string met;
      for (const std::string& t : ends->second) met += " " + t;
      out.push_back({"wrong-ends", w.id + " must join " + from + " and " + to + "; drawn:" + met});
    }
    std::multiset<int> all;
    for (int i = 1; i <= read.piece_count.at(w.id); ++i) all.insert(i);
    if (read.pieces.at(w.id) != all)
      out.push_back({"missing-piece", w.id + " is not drawn once, piece by piece"});
  }
  for (const auto& entry : read.ends)
    if (known.count(entry.first) == 0)
      out.push_back({"extra-wire", entry.first + " is not in the circuit"});
}

std::string plain(const Circuit& c, const std::string& terminal) {
  const std::string id = terminal.substr(0, terminal.rfind('.'));
  for (const Part& part : c.parts)
    if (part.id == id) return terminal_key(part.id, part.kind, terminal);
  return terminal;
}

void compare_data(const std::vector<Page>& pages, const Circuit& c, Defects& out) {
  std::map<std::string, const Wire*> wires;
  for (const Wire& w : c.wires) wires[w.id] = &w;
  for (const Page& page : pages) {
    for (const TracedLine& line : page.lines) {
      const auto found = line.run == nullptr ? wires.end() : wires.find(line.id);
      if (found == wires.end()) continue;
      const Wire& w = *found->second;
      const WireRun& run = *line.run;
      if (plain(c, run.from) != name_of(c, w.from) || plain(c, run.to) != name_of(c, w.to))
        out.push_back({"wrong-data", w.id + " says it joins " + run.from + " and " + run.to});
      if (run.colour != w.colour)
        out.push_back({"wrong-data", w.id + " says colour " + run.colour + ", is " + w.colour});
      if (w.size && run.size.rfind(w.size->number + " ", 0) != 0)
        out.push_back({"wrong-data", w.id + " says size " + run.size + ", is " + w.size->text()});
      if (w.status == Status::fitted && run.status != "new")
        out.push_back({"wrong-data", w.id + " is newly fitted, says " + run.status});
    }
  }
}

// Whether a bar of this part lies under the pin: its terminal may then be drawn once more elsewhere on the bar.
bool on_own_bar(const Page& page, const PartFigure& figure, const Pin& pin) {
  return std::any_of(page.segments.begin(), page.segments.end(), [&](const Segment& s) {
    const TracedLine& line = page.lines[static_cast<size_t>(s.line)];
    return line.run == nullptr && line.id == figure.part && line.net == pin.net && touches(s, pin.at);
  });
}

void check_figure(const Page& page, const Part& part, const PartFigure& figure, std::map<std::string, int>& met,
                  Defects& out) {
  if (figure.kind != part.kind)
    out.push_back({"wrong-data", part.id + " says kind " + figure.kind + ", is " + part.kind});
  if (figure.joins != part.joins)
    out.push_back({"wrong-data", part.id + " says it joins " + figure.joins});
  std::set<std::string>
      here;  // a terminal on a bar is shown several times in one figure
  for (const Pin& pin : figure.pins) {
    const std::string key = terminal_key(part.id, part.kind, pin.terminal);
    const bool known = std::any_of(part.terminals.begin(), part.terminals.end(),
                                   [&](const std::string& t) { return name_of(part, t) == key; });
    if (!known)
      out.push_back(
          {"unknown-terminal", pin.terminal + " is no terminal of " + part.id + at(pin.at)});
    const bool again = !here.insert(key).second && !on_own_bar(page, figure, pin);
    if (again) out.push_back({"repeated-terminal", pin.terminal + " is drawn twice" + at(pin.at)});
  }
  if (figure.repeat) return;
  for (const std::string& t : here) ++met[t];
}

void compare_parts(const std::vector<Page>& pages, const Circuit& c, Defects& out) {
  std::map<std::string, const Part*> parts;
  std::set<std::string> drawn;
  std::map<std::string, int> met;
  for (const Part& part : c.parts) parts[part.id] = &part;
  for (const Page& page : pages) {
    for (const PartFigure* figure : page.parts) {
      if (figure->kind == "reference") continue;
      const auto found = parts.find(figure->part);
      if (found == parts.end()) {
        out.push_back({"extra-part", figure->part + " is not in the circuit"});
        continue;
      }
      drawn.insert(figure->part);
      check_figure(page, *found->second, *figure, met, out);
    }
  }
  for (const Part& part : c.parts) {
    if (drawn.count(part.id) == 0) {
      out.push_back({"missing-part", part.id + " is not drawn"});
      continue;
    }
    for (const std::string& t : part.terminals) {
      const int times = met[name_of(part, t)];
      if (times == 0 && t == part.joins) continue;  // a ground symbol shows it
      if (times == 0) out.push_back({"missing-pin", name_of(part, t) + " is not drawn"});
      if (times > 1)
        out.push_back({"repeated-terminal", name_of(part, t) + " is drawn more than once"});
    }
  }
}

void compare_nets(const ReadBack& read, const Circuit& c, Defects& out) {
  const Groups wanted = meant(c);
  std::map<std::string, std::string> to_read,
      to_meant;  // head of a group on one side -> on the other
  for (const Part& part : c.parts) {
    for (const std::string& t : part.terminals) {
      const std::string key = name_of(part, t);
      const std::string w = wanted.head(key), r = read.nets.head(key);
      const auto [split, fresh] = to_read.emplace(w, r);
      if (!fresh && split->second != r)
        out.push_back({"split-net", key + " is not joined to " + w + " as it must be"});
      const auto [extra, first] = to_meant.emplace(r, w);
      if (!first && extra->second != w)
        out.push_back({"extra-net", key + " is joined to the net of " + extra->second});
    }
  }
}

// The net names written beside the geometry must be one name a net.
void compare_names(const ReadBack& read, const std::vector<Page>& pages, Defects& out) {
  std::map<std::string, std::string> net_of, head_of;
  const auto note = [&](const std::string& who, const std::string& key, const std::string& net) {
    const std::string head = read.nets.head(key);
    const auto [one, fresh] = net_of.emplace(head, net);
    const auto [two, first] = head_of.emplace(net, head);
    if ((!fresh && one->second != net) || (!first && two->second != head))
      out.push_back({"wrong-net", who + " says net " + net + ", its geometry says otherwise"});
  };
  for (const Page& page : pages) {
    for (const TracedLine& line : page.lines)
      note(line.id, (line.run != nullptr ? "wire " : "bar ") + line.id, line.net);
    for (const PartFigure* part : page.parts)
      for (const Pin& pin : part->pins)
        if (part->kind != "reference")
          note(pin.terminal, terminal_key(part->part, part->kind, pin.terminal), pin.net);
  }
}

}  // namespace

void compare(const ReadBack& read, const std::vector<Page>& pages, const Circuit& c, Defects& out) {
  compare_wires(read, c, out);
  compare_data(pages, c, out);
  compare_parts(pages, c, out);
  compare_nets(read, c, out);
  compare_names(read, pages, out);
}

Defects prove(const std::vector<Drawing>& drawings, const Circuit& circuit) {
  Defects out;
  std::vector<Page> pages;
  for (size_t i = 0; i < drawings.size(); ++i) {
    pages.push_back(take_apart(drawings[i]));
    for (Defect& d : prove_geometry(drawings[i])) {
      if (drawings.size() > 1) d.message = "page " + std::to_string(i + 1) + ": " + d.message;
      out.push_back(std::move(d));
    }
  }
  compare(read_back(pages), pages, circuit, out);
  return out;
}

}  // namespace towloom
