// A job solved, and its report judged by another program.
#pragma once

#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "circuit/fixture.hpp"
#include "export/export.hpp"

namespace towloom::testing {

struct Reported {
  fixture::Job job;
  std::optional<Facts> facts;
  std::string report(const std::vector<Drawing>& pages = {}) const { return to_report(*facts, *job.catalogue, job.sources, pages); }
};

inline Reported reported_job(const std::string& text) {
  Reported out{fixture::built(text), {}};
  INFO(format_diagnostics(out.job.diagnostics, out.job.sources, false));
  REQUIRE(out.job.circuit.has_value());
  out.facts = find_facts(*out.job.spec, *out.job.catalogue, out.job.diagnostics);
  REQUIRE(out.facts.has_value());
  return out;
}

// 0: the text is JSON that the schema accepts (Debian's python3-jsonschema, JSON Schema draft 7).
inline int judged(const std::string& json) {
  const auto path = std::filesystem::temp_directory_path() / "towloom-test-report.json";
  std::ofstream(path, std::ios::binary) << json;
  const std::string command = "/usr/bin/python3 -c 'import json,sys,jsonschema; s=json.load(open(sys.argv[1])); "
                              "jsonschema.Draft7Validator.check_schema(s); jsonschema.Draft7Validator(s).validate(json.load(open(sys.argv[2])))' " +
                              std::string(TOWLOOM_ROOT) + "/specs/report.schema.json " + path.string() + " > /dev/null 2>&1";
  return std::system(command.c_str());
}

}  // namespace towloom::testing
