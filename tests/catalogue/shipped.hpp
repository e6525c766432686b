// The catalogue as shipped, and folders made for one test.
#pragma once

#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "catalogue/catalogue.hpp"

namespace towloom::testing {

inline std::string describe(const Diagnostics& diagnostics) {
  std::string out;
  for (const Diagnostic& d : diagnostics.all())
    out += std::to_string(d.place.line) + ":" + std::to_string(d.place.column) + " " + d.code +
           " " + d.message + " / " + d.hint + "\n";
  return out;
}

struct CatalogueReading {
  Sources sources;
  Diagnostics diagnostics;
  std::optional<Catalogue> catalogue;
};

inline CatalogueReading read_folder(const std::filesystem::path& folder) {
  CatalogueReading out;
  out.catalogue = read_catalogue(folder, out.sources, out.diagnostics);
  return out;
}

// Read once a program; a catalogue that cannot be read ends the test that asked.
inline const Catalogue& shipped() {
  static const CatalogueReading reading = read_folder(std::string(TOWLOOM_ROOT) + "/specs");
  INFO(describe(reading.diagnostics));
  REQUIRE(reading.catalogue);
  return *reading.catalogue;
}

// An empty folder that is gone when the test ends.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "towloom-XXXXXX").string();
    if (mkdtemp(name.data()) != nullptr) path_ = name;
    REQUIRE_FALSE(path_.empty());
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  void write(const std::string& name, const std::string& text) const {
    const auto file = path_ / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << text;
  }
  // What every catalogue must hold: the shipped rules and scenes, two instruments, one ampacity basis.
  void write_needed() const {
    copy_from_specs("rules.yaml");
    copy_from_specs("scenes.yaml");
    copy_from_specs("wire/ampacity-cfr.yaml");
    copy_from_specs("connectors/contact-functions.yaml");
    write_instruments();
  }
  void write_instruments() const {
    write("instruments.yaml",
          "instruments:\n  meter: {title: m, resistance: 10 Mohm, source: s, confidence: practice}\n"
          "  meter-1k: {title: k, resistance: 1 kohm, source: s, confidence: practice}\n");
  }
  void copy_from_specs(const std::string& name) const {
    std::filesystem::create_directories((path_ / name).parent_path());
    std::filesystem::copy_file(std::filesystem::path(TOWLOOM_ROOT) / "specs" / name, path_ / name);
  }

 private:
  std::filesystem::path path_;
};

}  // namespace towloom::testing
