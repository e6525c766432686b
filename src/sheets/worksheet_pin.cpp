// G, pin it: the mating face of the car's inlet is given, the side that the fitter wires is drawn from it.
#include <deque>
#include <memory>

#include "sheets/faces_page.hpp"
#include "sheets/worksheet.hpp"

namespace towloom::worksheet {
namespace {

constexpr const char* write_long = "____________";
constexpr const char* write_short = "______";

// Both views, and the wire side with lines to write upon: without numbers, marks, colours and the place of the key.
struct InletFaces {
  FaceView mating, wire, empty;
  Connector keyless;
  std::deque<ConnectorContact> contacts;
};

std::shared_ptr<const InletFaces> faces_of(const Job& job) {
  const auto out = std::make_shared<InletFaces>();
  bool found = false;
  for (const FaceView& v : face_views(job.facts, job.catalogue, job.style)) {
    if (v.site != Site::inlet || v.plug != 0) continue;
    found = true;
    (v.view == View::mating ? out->mating : out->wire) = v;
  }
  if (!found) return nullptr;
  out->keyless = *out->wire.connector;
  out->keyless.key.clear();
  out->empty = out->wire;
  out->empty.connector = &out->keyless;
  for (FaceContact& c : out->empty.contacts) {
    ConnectorContact plain = *c.contact;
    plain.number = write_short;
    plain.mark.clear();
    plain.title.clear();
    plain.larger = false;        // a thicker wire would tell the ground
    out->contacts.push_back(std::move(plain));
    c.contact = &out->contacts.back();
    c.title = write_long;
    c.used = true;               // nor is it told which stay empty
    c.function.clear(), c.circuit.clear(), c.colour.clear(), c.size.clear(), c.wire.clear();
  }
  return out;
}

Picture picture(const FaceView& v, double larger) {
  Picture out = picture_of(v);
  out.you_wire = v.site == Site::inlet && v.view == View::wire;
  out.unit = (is_round(out) ? plain_round_unit : plain_flat_unit) * larger;
  return out;
}

Pages drawn(const Job& job, const InletFaces& faces, Sheet sheet, Numbering n) {
  const auto frame = [&](Drawing& page, const std::vector<FaceSection>&, int number, int pages) { return add_frame(page, job.facts, job.catalogue, strip_of(job, sheet, n, number, pages), job.style, job.measure).space; };
  const auto cut = [&](Rect, const FacesPen&) {
    FaceSection s;
    s.title = faces.mating.name + "  " + job.say("car-inlet") + ": " + faces.mating.connector->title + ", " + faces.mating.half->title;
    s.pictures = {picture(faces.mating, 1.2), picture(sheet.key ? faces.wire : faces.empty, 1.2)};
    s.weak = faces.mating.weak;
    s.notes = {job.say(sheet.key ? "worksheet-step-g" : "worksheet-task-g")};
    return std::vector<FaceSection>{s};
  };
  Pages pages = faces_pages(blank(job, sheet), folded_paper(job.style, job.facts.spec.paper), frame, cut, job.style, job.measure);
  if (!sheet.key)
    for (Drawing& page : pages) make_mute(page);
  return pages;
}

}  // namespace

Worksheet pin_it(const Job& job) {
  Worksheet out{'G'};
  const auto faces = faces_of(job);
  if (faces == nullptr) return out.left_out = job.say("worksheet-none-g"), out;
  out.sheet = [&job, faces](Numbering n) { return drawn(job, *faces, {'G', false}, n); };
  out.key = [&job, faces](Numbering n) { return drawn(job, *faces, {'G', true}, n); };
  return out;
}

}  // namespace towloom::worksheet
