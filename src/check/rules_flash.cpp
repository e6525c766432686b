// How fast the coach's flasher beats, as it was timed.
#include "check/flash.hpp"
#include "check/rules.hpp"

namespace towloom {

double flash_rate(const std::vector<std::pair<double, double>>& cycles_s) {
  double sum = 0;
  for (const auto& [lit, dark] : cycles_s) sum += 60 / (lit + dark);
  return cycles_s.empty() ? 0 : sum / static_cast<double>(cycles_s.size());
}

FlashLimits flash_limits(const std::string& kind, const Catalogue& catalogue) {
  return {catalogue.rule(kind == "fixed load" ? "flash_least_fixed" : "flash_least").value, catalogue.rule("flash_most").value};
}

std::string flash_with_lamp_out(const std::string& kind, const Catalogue& catalogue) {
  if (kind == "variable load") return "";
  const std::string rate = "fast, about " + format_plain(catalogue.rule("flash_lamp_out").value) + " times, or stay steady";
  return (kind == "fixed load" ? "flash " : "may flash ") + rate;
}

void flash_rate_off(const Asked& q, const RuleRow& row, Findings& out) {
  if (!q.spec.coach.flasher || q.spec.coach.flasher->cycles_s.empty()) return;
  const Flasher& flasher = *q.spec.coach.flasher;
  const double rate = flash_rate(flasher.cycles_s);
  const FlashLimits limits = flash_limits(flasher.kind.value, q.catalogue);
  if (rate < limits.least || rate > limits.most)
    add(out, row, flasher.kind.place,
        "the coach's turn signal beats " + format_fixed(rate, 1) + " times a minute; a flasher of " + flasher.kind.value + " has " +
            format_plain(limits.least) + " to " + format_plain(limits.most),
        "look for a lamp that is out or an LED where the flasher wants a filament; then time three cycles again");
}

}  // namespace towloom
