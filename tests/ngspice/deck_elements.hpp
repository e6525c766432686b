// A deck of ours read back as what ngspice makes of its lines: laws typed here from electrical.md 3.3, 3.4 and 4.2 and
// ngspice's manual, not taken from src/solve.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <functional>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace towloom::ngspice {

struct Flow {
  double amps = 0, siemens = 0;
};
struct DeckElement {
  int a = -1, b = -1;                      // points, -1 = 0 V
  double ohm = 0, emf = 0;                 // amps = (V - emf) / ohm, where there is no law
  std::function<Flow(double)> law;
};
struct Deck {
  std::map<std::string, int> points;       // "p12" -> its number
  std::vector<DeckElement> elements;
};

inline Flow junction(double is, double slope, double v) {
  Flow out;
  if (v >= -3 * slope) {
    out = {is * std::expm1(v / slope), is / slope * std::exp(v / slope)};
  } else {
    const double a = 3 * slope / (v * std::exp(1.0)), cube = a * a * a;
    out = {-is * (1 + cube), 3 * is * cube / v};
  }
  return {out.amps + 1e-12 * v, out.siemens + 1e-12};
}

// Junction and series resistance: the inner volts by halving, then by Newton.
inline Flow diode(double is, double slope, double rs, double v) {
  double low = std::min(v, 0.0), high = std::max(v, 0.0);
  if (v > 0) high = std::min(high, slope * std::log1p(v / (rs * is)));
  for (int i = 0; i < 60; ++i) {
    const double middle = low + (high - low) / 2;
    (middle + rs * junction(is, slope, middle).amps > v ? high : low) = middle;
  }
  double u = low;
  for (int i = 0; i < 4; ++i) {
    const Flow f = junction(is, slope, u);
    u -= (u + rs * f.amps - v) / (1 + rs * f.siemens);
  }
  const Flow f = junction(is, slope, u);
  return {f.amps, f.siemens / (1 + rs * f.siemens)};
}

inline Flow bounded(double least, double most, double siemens, double v, double zero) {
  const double amps = (v - zero) * siemens;
  return {std::clamp(amps, least, most) + 1e-12 * v, (amps > least && amps < most ? siemens : 0) + 1e-12};
}

// Of a B line: what stands behind "I = ", with "v" for the volts between its points.
inline std::function<Flow(double)> law_of(const std::string& text) {
  double p[6];
  if (std::sscanf(text.c_str(), "%lf*(v/%lf)*pow((v/%lf)*(v/%lf)+%lf,%lf)", p, p + 1, p + 2, p + 3, p + 4, p + 5) == 6)
    return [i = p[0], vd = p[1], c = p[4], e = p[5]](double v) {
      const double x = v / vd, s = x * x + c;
      return Flow{i * x * std::pow(s, e), i / vd * std::pow(s, e) * (1 + 2 * e * x * x / s)};
    };
  if (std::sscanf(text.c_str(), "(v > %lf) ? (v-%lf)*%lf + 1e-12*v", p, p + 1, p + 2) == 3)
    return [t = p[0], g = p[2]](double v) { return v > t ? Flow{(v - t) * g + 1e-12 * v, g + 1e-12} : Flow{1e-12 * v, 1e-12}; };
  if (std::sscanf(text.c_str(), "max(-%lf, min(%lf, (v-%lf)*%lf)) + 1e-12*v", p, p + 1, p + 2, p + 3) == 4)
    return [least = -p[0], most = p[1], zero = p[2], g = p[3]](double v) { return bounded(least, most, g, v, zero); };
  if (std::sscanf(text.c_str(), "max(0, min(%lf/max(v,%lf), (v-%lf)*%lf)) + 1e-12*v", p, p + 1, p + 2, p + 3) == 4)
    return [w = p[0], t = p[1], zero = p[2], g = p[3]](double v) { return bounded(0, w / std::max(v, t), g, v, zero); };
  FAIL("a law that this test does not know: " << text);
  return {};
}

inline Deck read_deck(const std::string& text) {
  Deck out;
  struct Emf { std::string minus; double volts; };
  std::map<std::string, Emf> sources;                  // inner point -> what lies behind it
  std::map<std::string, std::array<double, 5>> models; // IS N RS EG XTI
  std::vector<std::vector<std::string>> rows;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line) && line != ".control";) {
    std::istringstream words(line);
    std::vector<std::string> row;
    for (std::string w; words >> w;) row.push_back(w);
    if (row.empty() || row[0][0] == '*') continue;
    if (row[0][0] == 'V') sources[row[1]] = {row[2], std::stod(row[4])};
    if (row[0] == ".model") {
      std::array<double, 5> m{};
      REQUIRE(std::sscanf(line.c_str() + line.find("D("), "D(IS=%lf N=%lf RS=%lf EG=%lf XTI=%lf)", &m[0], &m[1], &m[2], &m[3], &m[4]) == 5);
      models[row[1]] = m;
    }
    if (row[0][0] == 'B') row.push_back(line.substr(line.find("I = ") + 4));
    rows.push_back(std::move(row));
  }
  const auto point = [&](const std::string& name) {
    return name == "0" ? -1 : out.points.try_emplace(name, static_cast<int>(out.points.size())).first->second;
  };
  for (const auto& row : rows) {
    DeckElement e;
    if (row[0][0] == 'R') {
      const auto source = sources.find(row[1]);
      e.ohm = std::stod(row[3]);
      if (source != sources.end()) {                   // R from the inner point to a: current counts from a
        e.a = point(row[2]), e.b = point(source->second.minus), e.emf = source->second.volts;
      } else {
        e.a = point(row[1]), e.b = point(row[2]);
      }
    } else if (row[0][0] == 'D') {
      const auto& m = models.at(row[3]);
      const double kelvin = std::stod(row[4].substr(5)) + 273.15, ratio = kelvin / 300.15;
      const double thermal = 1.38064852e-23 / 1.6021766208e-19 * kelvin;
      const double is = m[0] * std::exp((ratio - 1) * m[3] / (m[1] * thermal) + m[4] / m[1] * std::log(ratio));
      e.a = point(row[1]), e.b = point(row[2]);
      e.law = [is, slope = m[1] * thermal, rs = m[2]](double v) { return rs > 0 ? diode(is, slope, rs, v) : junction(is, slope, v); };
    } else if (row[0][0] == 'B') {
      std::string law = row.back();
      const std::string volts = "V(" + row[1] + "," + row[2] + ")";
      for (auto at = law.find(volts); at != std::string::npos; at = law.find(volts)) law.replace(at, volts.size(), "v");
      e.a = point(row[1]), e.b = point(row[2]), e.law = law_of(law);
    } else {
      continue;
    }
    out.elements.push_back(std::move(e));
  }
  return out;
}

}  // namespace towloom::ngspice
