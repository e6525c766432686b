// What a job file may say, key by key: for `towloom list keys`. The reader in src/spec knows it by itself; a test holds
// the two together.
#include "catalogue/parts.hpp"

namespace towloom {

void read_job_keys(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "job keys file", diagnostics);
  const Node* blocks = file.need_node("job keys");
  file.finish();
  if (blocks == nullptr) return;
  for (const Entry& block : blocks->entries) {
    Fields rows(block.value, "block '" + block.key + "'", diagnostics);
    const std::string under = rows.need_text("under").value;
    for (const Entry& e : block.value.entries) {
      if (e.key == "under") continue;
      Fields fields(e.value, "key '" + e.key + "'", diagnostics);
      JobKey key{block.key, under, e.key, fields.need_text("write").value, fields.need_text("says").value, false};
      if (const auto need = fields.word("need", {"yes"})) key.needed = true;
      fields.finish();
      out.job_keys.push_back(std::move(key));
    }
  }
}

}  // namespace towloom
