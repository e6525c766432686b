// Files: read whole, write all or nothing.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace towloom {

// The file's bytes; nothing if it cannot be read or is larger than `limit` bytes (error set).
std::optional<std::string> read_file(const std::filesystem::path&, std::size_t limit, std::string& error);

// Writes every file beside its target, syncs, then renames all; where a later rename fails, the earlier ones
// are taken back. On any error no target changes and nothing is left beside them.
// Returns an empty string, or what went wrong.
std::string write_files(const std::vector<std::pair<std::filesystem::path, std::string>>& files);

}  // namespace towloom
