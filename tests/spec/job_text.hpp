// The plain job as text, and texts made from it by one change.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "base/file.hpp"
#include "spec/job.hpp"

namespace towloom::testing {

struct JobReading {
  Diagnostics diagnostics;
  std::optional<Spec> spec;
};

inline JobReading read_text(const std::string& text) {
  JobReading out;
  Sources sources;
  const int file = sources.add("job.yaml", text);
  if (const auto root = read_yaml(file, sources, out.diagnostics))
    out.spec = read_job(*root, file, out.diagnostics);
  return out;
}

inline std::string plain_text() {
  std::string error;
  return read_file(std::string(TOWLOOM_ROOT) + "/specs/jobs/plain-hatchback.yaml", 1 << 20, error)
      .value_or("");
}

inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    out.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return out;
}

inline std::string joined(const std::vector<std::string>& lines) {
  std::string out;
  for (const std::string& line : lines) out += line + "\n";
  return out;
}

}  // namespace towloom::testing
