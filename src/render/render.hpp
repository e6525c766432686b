// Writers: the same drawing as SVG text and as PDF.
#pragma once

#include <string>
#include <vector>

#include "drawing/drawing.hpp"

namespace towloom {

// SVG by the contract in DEVELOPERS.md: viewBox in mm, no transform, real text, titles, roles, ids,
// data.
std::string to_svg(const Drawing&);
struct PdfInfo {
  std::string title, author, subject, created;  // created: ISO date of the job; bytes repeat
  std::string language = "en";                  // of the printed words, RFC 5646
};
// All pages in one PDF; embedded subset fonts, outline, links between sheets, exact page box, to be printed
// unscaled. Empty and `error` set on failure.
std::string to_pdf(const std::vector<Drawing>&, const PdfInfo&, std::string& error);

}  // namespace towloom
