#include <iostream>

#include "base/file.hpp"
#include "commands/commands.hpp"

namespace towloom {
namespace fs = std::filesystem;

int save(const std::filesystem::path& folder, const std::vector<std::pair<fs::path, std::string>>& files) {
  std::error_code refused;
  fs::create_directories(folder, refused);
  const std::string problem = refused ? folder.string() + ": " + refused.message() : write_files(files);
  if (!problem.empty()) {
    std::cerr << "towloom: error: cannot write: " << problem << "\n";
    return cannot_write;
  }
  for (const auto& [path, bytes] : files) std::cout << path.string() << "\n";
  return clean;
}

}  // namespace towloom
