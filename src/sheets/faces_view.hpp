// What one picture of a connector's face shows: contacts where the eye sees them, and their texts.
#pragma once

#include <string>
#include <vector>

#include "sheets/sheets.hpp"

namespace towloom {

enum class Site { outlet, cord_at_outlet, cord_at_inlet, inlet, part };  // part: in the hand
enum class View { mating, wire };  // the face that meets the other half; the side the wires enter

struct FaceContact {
  const ConnectorContact* contact = nullptr;
  double x = 0, y = 0;  // as seen, x to the right, y UP, in the connector's own units
  std::string gender;   // of this half: pin sleeve blade receiver
  std::string function, title, circuit;  // circuit: short word, "LT"
  std::string colour, size, wire;        // of the wire that lands here
  bool used = false;
  bool as_found = false;                 // carries something else than the catalogue has
};
struct FaceView {
  Site site = Site::outlet;
  View view = View::mating;
  std::string name;  // J1, J2; cord ends P1, P2; of a second plug J3 and so on
  int plug = 0;      // as in Plug
  const Connector* connector = nullptr;
  const ConnectorHalf* half = nullptr;
  std::vector<FaceContact> contacts;
  double key_x = 0, key_y = 0;
  bool weak = false;  // positions not certain: the moulded letters decide
};

// The mirror rule. Coordinates are those of the mating face of the connector's view half; the other
// half's mating face and the same half's wire side are its mirror image, x to -x.
double seen_x(const Connector&, const std::string& half, View, double x);
// The half that mates this one.
const ConnectorHalf* mate_of(const Connector&, const std::string& half);
// Both views of the outlet, of the cord's two ends and of the inlet, in this order, plug by plug.
std::vector<FaceView> face_views(const Facts&, const Catalogue&, const Style&);
// Both views of both halves of a form as the catalogue has it, in one of its colour sets.
std::vector<FaceView> form_views(const Connector&, const std::string& convention, const Catalogue&, const Style&);

struct CoreRow {  // cord continuity, contact to contact; without a core a contact that nothing joins
  std::string from, to;  // J1, J2
  std::string core, function, outlet, inlet, colour, size;
  std::string note;      // "one tail lead feeds both sides"
  std::string found;     // as found: the contact on which it was found to end instead
  bool used = false;     // the job needs it
  bool crossed = false;  // the inlet's contact is for something else
  bool open = false;     // metered: it leads nowhere
};
std::vector<CoreRow> cord_rows(const Facts&, const Catalogue&, const Plug&);

}  // namespace towloom
