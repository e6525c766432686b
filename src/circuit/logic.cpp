// Truth tables over waveforms.
#include <algorithm>

#include "circuit/circuit.hpp"

namespace towloom {
namespace {

char letter(Wave w) {
  switch (w) {
    case Wave::off: return '0';
    case Wave::on: return '1';
    case Wave::flash: return 'F';
    case Wave::counterflash: return 'G';
  }
  return '0';
}

Wave wave(char c) {
  return c == '1' ? Wave::on : c == 'F' ? Wave::flash : c == 'G' ? Wave::counterflash : Wave::off;
}

bool matches(const TableRow& row, const std::string& in) {
  if (row.otherwise) return true;
  for (std::size_t i = 0; i < in.size(); ++i)
    if (row.in[i] != "x" && row.in[i][0] != in[i]) return false;
  return true;
}

char swapped(char c) { return c == 'F' ? 'G' : c == 'G' ? 'F' : c; }

}  // namespace

// A table is written for one flash phase. Where only the other phase occurs it is read with F for G.
LogicAnswer answer(const Logic& logic, const std::vector<Wave>& waves) {
  std::string in;
  for (const Wave w : waves) in += letter(w);
  const bool other = in.find('F') == std::string::npos && in.find('G') != std::string::npos;
  if (other) std::transform(in.begin(), in.end(), in.begin(), swapped);
  LogicAnswer out;
  for (const TableRow& row : logic.rows) {
    if (!matches(row, in)) continue;
    out.uncertain = row.uncertain;
    for (const std::string& cell : row.out) {
      char c = cell[0];
      if (c == '=') {
        const auto at = std::find(logic.inputs.begin(), logic.inputs.end(), cell.substr(1));
        c = in[static_cast<std::size_t>(at - logic.inputs.begin())];
      }
      out.out.push_back(wave(other ? swapped(c) : c));
    }
    return out;
  }
  out.out.assign(logic.outputs.size(), Wave::off);
  return out;
}

}  // namespace towloom
