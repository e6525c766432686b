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

namespace {

fs::path beside(const fs::path& path, const char* what) {
  return path.parent_path() / ("." + path.filename().string() + what);
}

// A second name for an old file, so that it outlives the new one's rename; a copy where the disk has no links.
std::string keep_old(const fs::path& path, const fs::path& kept) {
  std::error_code refused;
  fs::remove(kept, refused);
  fs::create_hard_link(path, kept, refused);
  if (!refused) return {};
  refused.clear();
  fs::copy_file(path, kept, refused);
  return refused ? path.string() + ": " + refused.message() : std::string{};
}

// Renamed so far: the old file's second name, or nothing where there was none.
struct Renamed {
  fs::path path;
  std::optional<fs::path> kept;
};

void roll_back(const std::vector<Renamed>& done) {
  std::error_code ignored;
  for (auto r = done.rbegin(); r != done.rend(); ++r) {
    if (r->kept) fs::rename(*r->kept, r->path, ignored);
    else fs::remove(r->path, ignored);
  }
}

void sync_folder(const fs::path& folder) {
  const int handle = open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle < 0) return;
  (void)fsync(handle);   // some disks have no such thing; the files themselves are synced
  (void)close(handle);
}

std::string put_in_place(const std::vector<std::pair<fs::path, std::string>>& files) {
  std::vector<Renamed> done;
  std::string problem;
  for (const auto& [path, bytes] : files) {
    std::error_code refused;
    std::optional<fs::path> kept;
    const fs::file_status old = fs::symlink_status(path, refused);
    if (fs::exists(old) && !fs::is_directory(old)) {
      kept = beside(path, ".old");
      problem = keep_old(path, *kept);
    }
    refused.clear();
    if (problem.empty()) fs::rename(beside(path, ".part"), path, refused);
    if (refused) problem = path.string() + ": " + refused.message();
    if (problem.empty()) {
      done.push_back({path, kept});
      continue;
    }
    if (kept) fs::remove(*kept, refused);
    roll_back(done);
    return problem;
  }
  std::error_code ignored;
  for (const Renamed& r : done) {
    if (r.kept) fs::remove(*r.kept, ignored);
    sync_folder(r.path.parent_path());
  }
  return {};
}

}  // namespace

std::string write_files(const std::vector<std::pair<fs::path, std::string>>& files) {
  std::string problem;
  std::size_t written = 0;
  for (; problem.empty() && written < files.size(); ++written)
    problem = write_one(beside(files[written].first, ".part"), files[written].second);
  if (problem.empty()) problem = put_in_place(files);
  std::error_code ignored;
  for (std::size_t i = 0; i < written; ++i) fs::remove(beside(files[i].first, ".part"), ignored);
  return problem;
}

}  // namespace towloom
