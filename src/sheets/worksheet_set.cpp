// The worksheets of a job in the order in which they are worked, a first page that says what to do, and the keys behind them.
#include "sheets/worksheet.hpp"

namespace towloom {
namespace {

using namespace worksheet;

std::vector<Worksheet> all_of(const Job& job) {
  std::vector<Worksheet> out;
  for (const auto make : {trace_it, label_it, complete_it, predict_it, measure_it, pin_it, choose_it, find_it, explain_it}) out.push_back(make(job));
  return out;
}

// What each asks for and on which page it stands; then what was left out and why.
Pages first_page(const Job& job, const std::vector<Worksheet>& all, const std::vector<int>& page_of, int after) {
  const auto say = [&](const char* key) { return job.say(key); };
  Drawing blank = table_blank(job.facts, job.style, "worksheet", say("worksheets"), say("worksheets") + ".");
  StripRows strip;
  strip.document = say("worksheets");
  SheetTable learner{say("worksheet-learner"), 
                     {{say("worksheet-name"), Anchor::middle, false, mm(84)}, {say("worksheet-date"), Anchor::middle, false, mm(44)}, {say("worksheet-teacher"), Anchor::middle, false, mm(84)}},
                     {{{box_cell(mm(80)), box_cell(mm(40)), box_cell(mm(80))}}}};
  SheetTable sheets{say("worksheets"), {{""}, {say("worksheet-page"), Anchor::end}, {say("worksheet-what-to-do"), Anchor::start, true}, {say("worksheet-done"), Anchor::middle}}, {}, mm(5), {say("worksheet-how")}};
  SheetTable left_out{say("worksheet-left-out"), {{""}, {say("worksheet-because"), Anchor::start, true}}, {}};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Worksheet& w = all[i];
    const std::string title = title_of(job, {w.letter, false});
    const bool on_drawing = w.letter <= 'C';   // has no room for its whole task
    if (w.sheet) sheets.rows.push_back({{{title, Weight::semibold}, {std::to_string(page_of[i])}, {on_drawing ? task_of(job, w.letter) : tasks(job, w.letter).back()}, box_cell(mm(5))}});
    else left_out.rows.push_back({{{title}, {w.left_out}}});
  }
  return table_pages({{learner}, {sheets}, {left_out}}, blank, strip, job.facts, job.catalogue, job.style, job.measure, 0, after);
}

}  // namespace

std::vector<Drawing> worksheet_set(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, const std::vector<Drawing>& set) {
  Job job{facts, catalogue, style, measure, {}};
  for (const Drawing& page : set)
    if (page.sheet == "bench") job.bench.push_back(&page);
  const std::vector<Worksheet> all = all_of(job);
  // How many pages each has does not depend on their numbers.
  std::vector<int> page_of(all.size(), 0);
  int sum = 0;
  std::vector<std::pair<const std::function<Pages(Numbering)>*, int>> parts;
  const int first = static_cast<int>(first_page(job, all, page_of, 0).size());
  for (const bool key : {false, true})
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto& draw = key ? all[i].key : all[i].sheet;
      if (!draw) continue;
      if (!key) page_of[i] = first + sum + 1;
      parts.emplace_back(&draw, static_cast<int>(draw({}).size()));
      sum += parts.back().second;
    }
  std::vector<Drawing> out = first_page(job, all, page_of, sum);
  for (const auto& [draw, pages] : parts) {
    sum -= pages;
    for (Drawing& page : (*draw)({static_cast<int>(out.size()), sum})) out.push_back(std::move(page));
  }
  return out;
}

}  // namespace towloom
