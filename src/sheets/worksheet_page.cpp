// What all worksheets share: their frame, and bench pages that are drawn upon.
#include <algorithm>
#include <set>

#include "drawing/utf8.hpp"
#include "prove/page.hpp"
#include "sheets/worksheet.hpp"

namespace towloom::worksheet {
namespace {

constexpr Mm100 notes_indent = mm(2);    // of the lines at the foot of a bench page

bool inside(const Rect& r, const Rect& space) {
  constexpr Mm100 slack = mm(0.1);
  return r.x >= space.x - slack && r.y >= space.y - slack && r.right() <= space.right() + slack && r.bottom() <= space.bottom() + slack;
}

bool is_note(const Label& label, const Rect& space) {
  return label.decoration && label.anchor == Anchor::start && std::abs(label.at.x - space.x - notes_indent) < mm(0.5) && label.at.y > space.y + space.h / 2;
}

// A box with a reading or with the letter of what was found, and what stands in it.
bool is_boxed(const Item& before, const Label& label, const Job& job) {
  if (std::get_if<Decor>(&before) == nullptr || label.about.empty() || label.decoration) return false;
  const auto& flags = job.facts.flags;
  return job.circuit().find(label.about) || std::any_of(flags.begin(), flags.end(), [&](const Flag& f) { return f.about == label.about && flag_letter(f.number) == label.text; });
}

// Words in the rooms one after the other, each a line; nothing where they are too many.
std::optional<std::vector<std::string>> lines_in(const std::vector<Rect>& rooms, const std::string& text, const SheetPen& pen) {
  if (rooms.empty()) return std::nullopt;
  std::vector<std::string> out(1);
  for (const Word& next : words_of(text)) {
    const auto longer = [&] { return out.back().empty() ? next.text : out.back() + " " + next.text; };
    while (out.size() <= rooms.size() && pen.width(longer()) > rooms[out.size() - 1].w) out.emplace_back();
    if (out.size() > rooms.size()) return std::nullopt;
    out.back() = longer();
  }
  return out;
}

// The first of these texts, from the fullest, that finds room on the lines; else the shortest, beside the cautions too.
void flow(Drawing& page, const std::vector<std::string>& texts, const std::vector<Rect>& own, const Job& job) {
  SheetPen pen{page, job.style, job.measure};
  std::vector<Rect> all = own;
  for (const Rect& beside : beside_cautions(page, job.style, job.measure)) all.push_back(beside);
  const auto write = [&](const std::string& text, const std::vector<Rect>& rooms) {
    const auto lines = lines_in(rooms, text, pen);
    for (std::size_t i = 0; lines && i < lines->size(); ++i) pen.write(pen.text((*lines)[i], {rooms[i].x, rooms[i].y}, Anchor::start));
    return lines.has_value();
  };
  if (std::none_of(texts.begin(), texts.end(), [&](const std::string& text) { return write(text, own); })) write(texts.back(), all);
}

void keep_marks(std::vector<Item>& out, std::vector<Mark> marks) {
  if (!marks.empty()) out.emplace_back(Decor{std::move(marks)});
}

}  // namespace

std::string title_of(const Job& job, Sheet sheet) {
  const std::string letter(1, sheet.letter), small(1, static_cast<char>(sheet.letter - 'A' + 'a'));
  return job.say(sheet.key ? "worksheet-key" : "worksheet") + " " + letter + ": " + job.say("worksheet-" + small);
}

std::string task_of(const Job& job, char letter) { return job.say(std::string("worksheet-task-") + static_cast<char>(letter - 'A' + 'a')); }

std::vector<std::string> tasks(const Job& job, char letter) {
  const char small = static_cast<char>(letter - 'A' + 'a');
  return {task_of(job, letter), job.say(std::string("worksheet-short-") + small), job.say(std::string("worksheet-brief-") + small)};
}

Drawing blank(const Job& job, Sheet sheet) {
  const std::string title = title_of(job, sheet);
  return table_blank(job.facts, job.style, sheet.key ? "key" : "worksheet", title, title + ".");
}

StripRows strip_of(const Job& job, Sheet sheet, Numbering number, int page, int pages) {
  StripRows out;
  out.document = title_of(job, sheet);
  out.page = number.before + page;
  out.pages = number.before + pages + number.after;
  return out;
}

Pages table_of(const Job& job, Sheet sheet, Numbering number, const std::string& text, const std::vector<std::vector<SheetTable>>& tables) {
  std::vector<std::vector<SheetTable>> bands;
  if (!text.empty()) bands.push_back({{job.say(sheet.key ? "worksheet-steps" : "worksheet-do"), {{"", Anchor::start, true}, {""}}, {{{{text}, {""}}}}}});
  bands.insert(bands.end(), tables.begin(), tables.end());
  return table_pages(bands, blank(job, sheet), strip_of(job, sheet, number, 1, 1), job.facts, job.catalogue, job.style, job.measure, number.before, number.after);
}

Drawing on_bench(const Job& job, const Drawing& bench, Sheet sheet, const StripRows& strip, const std::vector<std::string>& texts) {
  Drawing out = blank(job, sheet);
  out.width = bench.width;
  out.height = bench.height;
  const Rect space = add_frame(out, job.facts, job.catalogue, strip, job.style, job.measure).space;
  std::set<Mm100> lines;         // where the notes stood
  for (std::size_t i = 0; i < bench.items.size(); ++i) {
    const Item& item = bench.items[i];
    const Label* next = i + 1 < bench.items.size() ? std::get_if<Label>(&bench.items[i + 1]) : nullptr;
    if (const auto* decor = std::get_if<Decor>(&item)) {
      if (!inside(extent(decor->marks), space) || (next != nullptr && is_boxed(item, *next, job))) continue;
    }
    if (const auto* label = std::get_if<Label>(&item)) {
      if (label->decoration && !inside(label->room, space)) continue;
      if (i > 0 && is_boxed(bench.items[i - 1], *label, job)) continue;
      if (is_note(*label, space)) {
        lines.insert(label->at.y);
        continue;
      }
    }
    out.items.push_back(item);
  }
  std::vector<Rect> rooms;
  for (const Mm100 y : lines) rooms.push_back({space.x + notes_indent, y, space.w - 2 * notes_indent, 0});
  flow(out, texts, rooms, job);
  return out;
}

void make_hollow(Drawing& page, const Style& style) {
  for (Item& item : page.items)
    if (auto* run = std::get_if<WireRun>(&item); run != nullptr && run->status == "new") {
      run->core = {line_width(style, "core"), ink(style, "paper"), {}, false};
      run->tracer = {};
    }
}

void make_mute(Drawing& page) {
  std::vector<Item> out;
  for (Item& item : page.items) {
    if (auto* run = std::get_if<WireRun>(&item)) {
      std::vector<Mark> marks;
      for (const Pen& pen : {run->casing, run->core, run->tracer})
        if (pen.width > 0) marks.emplace_back(polyline(run->path, pen));
      keep_marks(out, std::move(marks));
    } else if (auto* bar = std::get_if<LinkBar>(&item)) {
      keep_marks(out, {polyline(bar->path, bar->pen)});
    } else if (auto* part = std::get_if<PartFigure>(&item)) {
      keep_marks(out, std::move(part->marks));
    } else if (auto* dot = std::get_if<Junction>(&item)) {
      keep_marks(out, {Disc{dot->at, dot->radius, {}, true, dot->colour}});
    } else if (auto* contact = std::get_if<ContactFigure>(&item)) {
      keep_marks(out, std::move(contact->marks));
    } else {
      if (auto* label = std::get_if<Label>(&item)) label->about.clear(), label->wire.clear();
      out.push_back(std::move(item));
    }
  }
  page.items = std::move(out);
}

void write_here(std::vector<Item>& items, const Label& label, const Style& style) {
  items.emplace_back(Decor{{line({label.room.x, label.at.y}, {label.room.right(), label.at.y}, Pen{line_width(style, "outline"), ink(style, "quiet"), {mm(0.5), mm(0.7)}, false})}});
}

SheetCell box_cell(Mm100 width) {
  SheetCell out;
  out.mark = [=](SheetPen& pen, Point at) { pen.add({box({at.x - width / 2, at.y - mm(2), width, mm(4)}, pen.pen("outline", "quiet"), mm(0.4))}); };
  return out;
}

}  // namespace towloom::worksheet
