// Numbers of 32 digits: the sum of two doubles. (T. J. Dekker, A floating-point technique for extending the available
// precision, Numerische Mathematik 18, 1971, from memory; needs doubles that are not contracted.)
#pragma once

#include <cmath>

namespace towloom::ngspice {

struct Wide {
  double high = 0, low = 0;
  Wide(double v = 0) : high(v) {}
  Wide(double h, double l) : high(h + l), low(l - (high - h)) {}   // |h| >= |l|
};

inline Wide operator-(const Wide& a) { return {-a.high, -a.low}; }
inline Wide operator+(const Wide& a, const Wide& b) {
  const double sum = a.high + b.high, part = sum - a.high;
  return {sum, (a.high - (sum - part)) + (b.high - part) + a.low + b.low};
}
inline Wide operator-(const Wide& a, const Wide& b) { return a + -b; }
inline Wide operator*(const Wide& a, const Wide& b) {
  const double product = a.high * b.high;
  return {product, std::fma(a.high, b.high, -product) + a.high * b.low + a.low * b.high};
}
inline Wide operator/(const Wide& a, const Wide& b) {
  const double first = a.high / b.high;
  const Wide left = a - b * Wide(first);
  return Wide(first) + Wide(left.high / b.high);
}

}  // namespace towloom::ngspice
