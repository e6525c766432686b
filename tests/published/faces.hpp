// Orders of contacts round a face, for tables that give them clockwise.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "catalogue/shipped.hpp"

namespace towloom::testing {

// Numbers of the outer ring, clockwise from `from_degrees` (0 = 12 o'clock) as the eye sees them;
// `mirror` turns the face round.
inline std::string ring(const Connector& c, bool mirror, double from_degrees = 0) {
  std::vector<std::pair<double, std::string>> found;
  for (const ConnectorContact& contact : c.contacts) {
    if (std::hypot(contact.x, contact.y) < 0.9) continue;
    double angle = std::atan2(mirror ? -contact.x : contact.x, contact.y) * 180 / std::acos(-1.0) - from_degrees;
    while (angle < -0.5) angle += 360;
    found.emplace_back(angle, contact.number);
  }
  std::sort(found.begin(), found.end());
  std::string out;
  for (const auto& [angle, number] : found) out += (out.empty() ? "" : " ") + number;
  return out;
}

// Numbers of the contacts at height `y`, left to right as seen.
inline std::string row(const Connector& c, bool mirror, double y) {
  std::vector<std::pair<double, std::string>> found;
  for (const ConnectorContact& contact : c.contacts)
    if (std::fabs(contact.y - y) < 0.01) found.emplace_back(mirror ? -contact.x : contact.x, contact.number);
  std::sort(found.begin(), found.end());
  std::string out;
  for (const auto& [x, number] : found) out += (out.empty() ? "" : " ") + number;
  return out;
}

}  // namespace towloom::testing
