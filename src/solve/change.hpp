// What a change makes of an element and of a wire's end. The circuit as it is drawn and the patched network both take it
// from here.
#pragma once

#include <utility>

#include "solve/faults.hpp"

namespace towloom {

inline Element after(const ElementInSeries& x, Element e) {
  e.ohm += x.ohm;
  return e;
}
inline Element after(const ElementBecomes& x, const Element& was) {
  Element e;
  e.a = was.a;
  e.b = was.b;
  e.ohm = x.ohm;
  return e;
}
inline Element after(const ElementReversed&, Element e) {
  std::swap(e.a, e.b);
  return e;
}
inline TerminalRef after(const LeadsExchanged& x, TerminalRef end) { return end == x.a ? x.b : end == x.b ? x.a : end; }

template <class What>
concept OfElement = requires(const What& x, const Element& e) { after(x, e); };

}  // namespace towloom
