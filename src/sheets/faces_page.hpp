// Pages of pin faces: sections one below the other, each with its pictures side by side, or a table.
#pragma once

#include <functional>

#include "sheets/faces_pen.hpp"

namespace towloom {

struct FaceSection {
  std::string title;
  std::vector<Picture> pictures;
  std::vector<CoreRow> rows;       // the continuity table instead of pictures
  std::vector<std::string> notes;  // sentences below the pictures
  bool weak = false;               // "match the moulded letters"
  Mm100 height = 0;
};

constexpr double plain_round_unit = 10, plain_flat_unit = 9.5;  // mm a unit
bool is_round(const Picture&);
Picture picture_of(const FaceView&);
Extent extent_of(const Picture&, const FacesPen&);
std::string sentence(std::string text);  // a capital first, a full stop last

// Cautions of a form, and which of its facts no good source confirmed.
std::vector<std::string> connector_notes(const Connector&, const Style&);

Mm100 section_height(const FaceSection&, const Rect& room, const FacesPen&);
// Room for the sections inside the frame; the legend stands below it.
Rect faces_room(Rect frame_space);
bool fits(FaceSection, Rect space, const FacesPen&);  // on a page of its own
// Sections in order, as many a page as fit.
std::vector<std::vector<FaceSection>> paginate(const std::vector<FaceSection>&, Rect space, const FacesPen&);
void draw_faces_page(const std::vector<FaceSection>&, Rect space, FacesPen&);
// Finished pages. `frame` draws frame and title strip of one page with these sections and returns the room inside;
// `cut` makes the sections for that room.
using FramePage = std::function<Rect(Drawing&, const std::vector<FaceSection>&, int page, int pages)>;
using CutSections = std::function<std::vector<FaceSection>(Rect space, const FacesPen&)>;
std::vector<Drawing> faces_pages(Drawing blank, const std::string& paper, const FramePage&, const CutSections&, const Style&, const TextMeasure&);
// The colour set in which a connector is drawn, as printed.
std::string colour_set_title(const Connector&);
// How the shapes of the contacts on these pictures are to be read.
void draw_legend(const std::vector<FaceSection>&, Point left_middle, FacesPen&);

}  // namespace towloom
