// To which page a part goes, before it is known which pages there are.
#pragma once

#include <array>
#include <compare>
#include <vector>

#include "circuit/circuit.hpp"

namespace towloom {

enum Group : int { signals, lamps, auxiliaries, car };
struct Share {
  int group = lamps, part = 0, length = 0;   // part: which of the group's pages; length: which piece of that, cut across
  auto operator<=>(const Share&) const = default;
};

// `shared`, by part: it stands on every page that has a wire to it. Lamps in their order, right, centre, left, in runs of
// about equal number; whole housings stay together. `signal_pages`: of what feeds lamps of several pages.
void share_lamps(const Circuit&, const std::vector<bool>& shared, std::vector<Share>&, int pages, int signal_pages);
// The car's feeds behind its fuses in runs of about equal number of wires.
void share_car(const Circuit&, const std::vector<bool>& shared, std::vector<Share>&, int pages);
// Coach, cord and inlet on the page of the signals, whatever they feed.
void contacts_to_signals(const Circuit&, std::vector<Share>&);
// More pages of the signals than there are parts that divide them: the contacts take the further ones, in runs of about equal
// number.
void share_contacts(const Circuit&, const std::vector<bool>& shared, std::vector<Share>&, int signal_pages);
// The two contacts of a core stand on one page, the coach's on that of the inlet's; so do contacts that share a terminal
// of the coach's loom.
void mate_contacts(const Circuit&, std::vector<Share>&);
// Pages too wide for the paper, cut between parts that follow each other, into lengths of about as many parts in a row;
// by group. A housing stays whole.
void cut_across(const Circuit&, const std::vector<bool>& shared, std::vector<Share>&, const std::array<int, 4>& lengths);

}  // namespace towloom
