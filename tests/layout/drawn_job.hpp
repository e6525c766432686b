// A shown job, solved, with its bench sheet.
#pragma once

#include "layout/style_fixture.hpp"
#include "sheets/sheets.hpp"

namespace towloom::fixture {

struct DrawnJob {
  Job job;
  Facts facts;
  std::vector<Drawing> pages;
};
inline DrawnJob drawn_job(const std::string& name, const Looks& looks) {
  Job job = built(job_file(name));
  REQUIRE(job.spec.has_value());
  Diagnostics diagnostics;
  auto facts = find_facts(*job.spec, *job.catalogue, diagnostics);
  REQUIRE(facts.has_value());
  auto pages = bench_sheet(*facts, *job.catalogue, *looks.style, looks.measure, 0, diagnostics);
  return {std::move(job), std::move(*facts), std::move(pages)};
}

}  // namespace towloom::fixture
