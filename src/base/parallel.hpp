// Independent pieces of work over the threads of the machine.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace towloom {

inline std::size_t most_threads() { return std::max(1u, std::thread::hardware_concurrency()); }

// `work` gets the number of its thread and an index below `count`, each once. Nothing may hang on which thread that is.
template <class Work>
void in_parallel(std::size_t threads, std::size_t count, const Work& work) {
  std::atomic<std::size_t> next = 0;
  const auto run = [&](std::size_t thread) {
    for (std::size_t i = next++; i < count; i = next++) work(thread, i);
  };
  std::vector<std::jthread> others;
  for (std::size_t t = 1; t < threads; ++t) others.emplace_back(run, t);
  run(0);
}

}  // namespace towloom
