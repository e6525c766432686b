#include "base/file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>
#include <system_error>

namespace towloom {
namespace fs = std::filesystem;
namespace {

std::string reason() { return std::generic_category().message(errno); }

// Writes and syncs one file; the message on failure.
std::string write_one(const fs::path& path, const std::string& bytes) {
  const int handle = open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (handle < 0) return path.string() + ": " + reason();
  std::string problem;
  for (std::size_t done = 0; done < bytes.size();) {
    const ssize_t n = write(handle, bytes.data() + done, bytes.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) {
      problem = path.string() + ": " + reason();
      break;
    }
    done += static_cast<std::size_t>(n);
  }
  if (problem.empty() && fsync(handle) != 0) problem = path.string() + ": " + reason();
  if (close(handle) != 0 && problem.empty()) problem = path.string() + ": " + reason();
  return problem;
}

}  // namespace

std::optional<std::string> read_file(const fs::path& path, std::size_t limit, std::string& error) {
  std::error_code ignored;
  if (fs::is_directory(path, ignored)) {
    error = "is a folder";
    return std::nullopt;
  }
  std::ifstream in(path, std::ios::binary);
  if (!in) {
    error = "cannot be opened: " + reason();
    return std::nullopt;
  }
  std::string text(limit + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(in.gcount()));
  if (text.size() > limit) {
    error = "is larger than " + std::to_string(limit) + " bytes";
    return std::nullopt;
  }
  return text;
}

std::string write_files(const std::vector<std::pair<fs::path, std::string>>& files) {
  std::vector<fs::path> beside;
  std::string problem;
  std::error_code ignored;
  for (const auto& [path, bytes] : files) {
    beside.push_back(path.parent_path() / ("." + path.filename().string() + ".part"));
    problem = fs::is_directory(path, ignored) ? path.string() + ": is a folder" : write_one(beside.back(), bytes);
    if (!problem.empty()) break;
  }
  for (std::size_t i = 0; problem.empty() && i < files.size(); ++i) {
    std::error_code refused;
    fs::rename(beside[i], files[i].first, refused);
    if (refused) problem = files[i].first.string() + ": " + refused.message();
  }
  for (const fs::path& path : beside) fs::remove(path, ignored);
  return problem;
}

}  // namespace towloom
