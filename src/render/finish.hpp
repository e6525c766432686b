// What Cairo cannot say of a PDF: its language, how it is to be shown and printed; and the links, which
// Cairo 1.16 writes with broken references.
#pragma once

#include <string>
#include <vector>

#include "render/links.hpp"

namespace towloom {

// The same document with Lang, print scaling None (sheets are true to size), the title in the window's head,
// the outline open beside it, and the links. Equal input gives equal bytes. Empty and `error` set on failure.
std::string finish_pdf(const std::string& pdf, const std::vector<PageLink>&, const std::string& language, std::string& error);

}  // namespace towloom
