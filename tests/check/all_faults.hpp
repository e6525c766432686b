// Every single fault of the plain job, solved once for all tests of a program.
#pragma once

#include "check/fixture.hpp"
#include "solve/faults.hpp"

namespace towloom::fixture {

// Lamps in the order of the survey; behind them the coach's own.
enum Lamp { turn_left, turn_right, tail_left, tail_right, plate, high_stop, reverse, cars_lamps };

struct AllFaults {
  Checked job = checked(plain_job());
  const Circuit& circuit = job.facts->circuit();
  const Catalogue& catalogue = *job.job.catalogue;
  const States& states = job.facts->states;
  std::vector<Fault> faults = list_faults(circuit, catalogue);
  FaultTable table = solve_faults(circuit, catalogue, states, faults);

  const FaultRow& row(const std::string& kind, const std::string& at) const {
    for (const FaultRow& r : table.rows)
      if (r.fault.kind == kind && r.fault.at == at) return r;
    FAIL("no such fault: " << kind << " " << at);
    return table.rows.front();
  }
  int scene(const std::string& name) const {
    for (std::size_t s = 0; s < states.scenes.size(); ++s)
      if (states.scenes[s].name == name) return static_cast<int>(s);
    FAIL("no such scene: " << name);
    return -1;
  }
  const Symptom* find(const FaultRow& r, const std::string& name, int lamp) const {
    const int s = scene(name);
    for (const Symptom& symptom : r.symptoms)
      if (symptom.scene == s && symptom.lamp == lamp) return &symptom;
    return nullptr;
  }
  Seen seen(const FaultRow& r, const std::string& name, int lamp) const {
    const Symptom* s = find(r, name, lamp);
    return s != nullptr ? s->seen : states.lamps[static_cast<std::size_t>(scene(name))][static_cast<std::size_t>(lamp)].seen;
  }
  bool same(const FaultRow& r, const std::string& name, int lamp) const { return find(r, name, lamp) == nullptr; }
  LightChange light(const FaultRow& r, const std::string& name, int lamp) const {
    const Symptom* s = find(r, name, lamp);
    return s == nullptr ? LightChange::none : s->light;
  }
};

inline const AllFaults& bench() {
  static const AllFaults b;
  return b;
}

}  // namespace towloom::fixture
