#include "sheets/names.hpp"

#include <algorithm>
#include <cctype>

namespace towloom {
namespace {

std::string side_words(const Part& part, int terminal, const Style& style) {
  const std::string key = "side-" + part.terminals[static_cast<std::size_t>(terminal)], said = word(style, key);
  return said == key ? part.terminals[static_cast<std::size_t>(terminal)] : said;
}

// An end without its place.
std::string near_end(const Circuit& c, TerminalRef t, const Style& style) {
  const Part& part = c.part(t.part);
  if (part.kind == "contact" || part.kind == "lamp") return end_text(c, t, style);
  return part.id + (part.terminals.size() == 1 || part.kind == "stud" ? "" : " " + part.terminals[static_cast<std::size_t>(t.index)]);
}

// "coach's wire to J1 contact 3", "GN/RD, D1 K to left rear stop/turn".
std::string wire_words(const Circuit& c, const Wire& w, const Style& style) {
  const bool stub = c.part(w.from.part).kind == "coach-feed" || c.part(w.to.part).kind == "coach-feed";
  if (stub) return word(style, "wire-of-coach") + " " + contact_text(c.part(c.part(w.from.part).kind == "coach-feed" ? w.to.part : w.from.part), style);
  const std::string colour = colour_text(w.colour, style);
  return word(style, "factory-wire") + " " + (colour.empty() ? "" : colour + " ") + "(" + near_end(c, w.from, style) + " " + word(style, "to") + " " + near_end(c, w.to, style) + ")";
}

// Nothing where the mark stands on the drawing as it is.
std::string mark_words(const std::string& mark, const Circuit& c, const Style& style) {
  for (const Wire& w : c.wires)
    if (w.id == mark && (w.status == Status::factory || w.group == "coach")) return wire_words(c, w, style);
  const PartId whole = c.find(mark);
  if (whole && c.part(whole).kind == "lamp") return lamp_place(c.part(whole), style);
  if (whole && c.part(whole).kind == "contact") return contact_text(c.part(whole), style);
  if (whole) return "";
  const TerminalRef t = c.terminal(mark);
  if (!t.part) return "";
  const Part& part = c.part(t.part);
  if (part.kind == "lamp") return lamp_place(part, style) + ", " + side_words(part, t.index, style);
  if (part.kind == "contact") return contact_text(part, style) + ", " + side_words(part, t.index, style);
  return part.id + " " + part.terminals[static_cast<std::size_t>(t.index)];
}

bool in_mark(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '-' || c == '_' || c == '+'; }

}  // namespace

std::string lamp_text(const Circuit& c, const Part& lamp, const Style& style) {
  const auto namesakes = std::count_if(c.lamps.begin(), c.lamps.end(), [&](const LampIntent& other) {
    return c.part(other.lamp).side == lamp.side && c.part(other.lamp).function == lamp.function;
  });
  if (namesakes > 1) return lamp_place(lamp, style);
  const std::string side = lamp.side == Side::left ? word(style, "left-side") + " " : lamp.side == Side::right ? word(style, "right-side") + " " : "";
  return side + word(style, "lamp-" + lamp.function);
}

std::string lamp_place(const Part& lamp, const Style& style) {
  const std::string function = word(style, "lamp-" + lamp.function);
  return lamp.group == function ? function : lamp.group + " " + function;
}

std::string contact_text(const Part& contact, const Style& style) {
  if (contact.title == contact.contact) return contact.group + " " + word(style, "contact") + " " + contact.contact;
  return contact.group + " " + contact.title + " (" + contact.contact + ")";
}

std::string end_text(const Circuit& c, TerminalRef t, const Style& style) {
  const Part& part = c.part(t.part);
  const std::string at = part.place.empty() ? "" : ", " + part.place;
  if (part.kind == "contact") return contact_text(part, style);
  if (part.kind == "lamp") return lamp_place(part, style);
  if (part.terminals.size() == 1 || part.kind == "stud") return part.id + at;
  return part.id + " " + part.terminals[static_cast<std::size_t>(t.index)] + at;
}

std::string in_words(const std::string& text, const Circuit& c, const Style& style) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    while (end < text.size() && in_mark(text[end])) ++end;
    if (end == i) {
      out += text[i++];
      continue;
    }
    const std::string mark = text.substr(i, end - i), words = mark_words(mark, c, style);
    const std::string once = word(style, "contact") + " ";   // not "contact J1 contact 3"
    if (words.find(" " + once) != std::string::npos && out.size() >= once.size() && out.compare(out.size() - once.size(), once.size(), once) == 0) out.resize(out.size() - once.size());
    out += words.empty() ? mark : words;
    i = end;
  }
  return out;
}

}  // namespace towloom
