// Inside the room only: which page each part goes to (page_of.cpp), contacts among them (share_contacts.cpp).
#pragma once

#include <vector>

#include "circuit/circuit.hpp"

namespace towloom {

enum Group : int { signals, lamps, auxiliaries, car };
struct Share { int group = lamps, part = 0; };   // part: which of the group's pages

// Coach, cord and inlet on the page of the signals, whatever they feed.
void contacts_to_signals(const Circuit&, std::vector<Share>&);
// More pages of the signals than there are parts that divide them: the contacts take the further ones, in runs of about equal
// number.
void share_contacts(const Circuit&, const std::vector<bool>& shared, std::vector<Share>&, int signal_pages);
// The two contacts of a core stand on one page, the coach's on that of the inlet's; so do contacts that share a terminal
// of the coach's loom.
void mate_contacts(const Circuit&, std::vector<Share>&);

}  // namespace towloom
