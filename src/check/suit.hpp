// Whether a method suits a lamp of this car, by the rows of the method's own file.
#pragma once

#include "catalogue/catalogue.hpp"

namespace towloom {

// The rows that speak for this lamp, in the order of the file: those that ask for an extra or doubt, and at the end the
// first that says suited or unsuited. Keys of `when`: suit_words().
std::vector<const SuitRow*> find_suits(const Method&, const Spec&, const LampRow&, const Catalogue&);

}  // namespace towloom
