// I, explain it to the customer: three questions, and sentences that would answer them.
#include <set>

#include "sheets/customer_words.hpp"
#include "sheets/worksheet.hpp"

namespace towloom::worksheet {
namespace {

// "stop/turn, tail, plate": each function once.
std::string lamps_that(const Job& job, bool follow) {
  std::vector<std::string> out;
  std::set<std::string> seen;
  for (const LampIntent& lamp : job.circuit().lamps) {
    const Part& part = job.circuit().part(lamp.lamp);
    const std::string added = part.status == Status::fitted ? job.say("added") + " " : "";
    if (lamp.tow_signal.empty() != follow && seen.insert(added + part.function).second) out.push_back(added + job.say("lamp-" + part.function));
  }
  return joined(out);
}

std::string model_answer(const Job& job, int question) {
  const auto all = [](const std::vector<std::string>& lines) { return joined(lines, " "); };
  if (question == 1) {
    const std::string dark = lamps_that(job, false);
    return job.say("worksheet-lamps-follow") + " " + lamps_that(job, true) + "." + (dark.empty() ? "" : " " + job.say("worksheet-lamps-dark") + " " + dark + ".");
  }
  if (question == 2) {
    std::string odd;
    for (std::string line : odd_but_right(job.facts, job.catalogue, job.style)) odd += (odd.empty() ? "" : " ") + line;
    return odd.empty() ? job.say("worksheet-nothing-odd") : odd;
  }
  return job.say("before-towing") + ": " + all(before_towing(job.facts, job.catalogue, job.style)) + " " + job.say("after-towing") + ": " + all(after_towing(job.facts, job.catalogue, job.style));
}

SheetTable questions(const Job& job, bool key) {
  constexpr int lines = 5;       // for an answer: the rules between the rows
  SheetTable out{job.say("worksheet-customer-asks"), {{job.say("worksheet-question"), Anchor::start, true, mm(70)}, {job.say("worksheet-answer"), Anchor::start, true}}, {}};
  if (!key) out.columns[1] = {job.say("worksheet-answer"), Anchor::start, false, mm(150)};
  for (int q = 1; q <= 3; ++q) {
    out.rows.push_back({{{job.say("worksheet-question-" + std::to_string(q)), Weight::semibold}, {key ? model_answer(job, q) : ""}}});
    for (int i = 1; i < lines && !key; ++i) out.rows.push_back({{{""}, {""}}});
  }
  return out;
}

}  // namespace

Worksheet explain_it(const Job& job) {
  Worksheet out{'I'};
  out.sheet = [&job](Numbering n) { return table_of(job, {'I', false}, n, task_of(job, 'I'), {{questions(job, false)}}); };
  out.key = [&job](Numbering n) { return table_of(job, {'I', true}, n, job.say("worksheet-step-i"), {{questions(job, true)}}); };
  return out;
}

}  // namespace towloom::worksheet
