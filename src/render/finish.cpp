#include "render/finish.hpp"

#include <exception>
#include <map>

#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>

#include "render/xml.hpp"

namespace towloom {
namespace {

constexpr double points_per_mm = 72 / 25.4;

// 1/100 point, which no printer shows; as digits, so that no locale is asked.
QPDFObjectHandle number(double points) {
  const Mm100 v = mm(points);
  return QPDFObjectHandle::parse(mm_text(v));
}

struct Page {
  QPDFObjectHandle object;
  double height = 0;           // points: PDF counts upwards

  QPDFObjectHandle x(Mm100 v) const { return number(to_mm(v) * points_per_mm); }
  QPDFObjectHandle y(Mm100 v) const { return number(height - to_mm(v) * points_per_mm); }
};

QPDFObjectHandle annotation(const PageLink& link, const Page& from, const Page& to) {
  QPDFObjectHandle out = QPDFObjectHandle::parse("<< /Type /Annot /Subtype /Link /Border [ 0 0 0 ] >>");
  const Rect& r = link.area;
  out.replaceKey("/Rect", QPDFObjectHandle::newArray(std::vector<QPDFObjectHandle>{from.x(r.x), from.y(r.bottom()), from.x(r.right()), from.y(r.y)}));
  out.replaceKey("/Dest", QPDFObjectHandle::newArray(std::vector<QPDFObjectHandle>{
                              to.object, QPDFObjectHandle::newName("/XYZ"), to.x(link.to.x), to.y(link.to.y), QPDFObjectHandle::newNull()}));
  return out;
}

void add_links(QPDF& document, const std::vector<PageLink>& links) {
  std::vector<Page> pages;
  for (QPDFObjectHandle& page : std::vector<QPDFObjectHandle>(document.getAllPages()))
    pages.push_back({page, page.getKey("/MediaBox").getArrayItem(3).getNumericValue()});
  std::map<int, std::vector<QPDFObjectHandle>> by_page;
  for (const PageLink& link : links) {
    const Page &from = pages.at(static_cast<std::size_t>(link.page)), &to = pages.at(static_cast<std::size_t>(link.to_page));
    by_page[link.page].push_back(document.makeIndirectObject(annotation(link, from, to)));
  }
  for (const auto& [page, annotations] : by_page)
    pages[static_cast<std::size_t>(page)].object.replaceKey("/Annots", QPDFObjectHandle::newArray(annotations));
}

}  // namespace

std::string finish_pdf(const std::string& pdf, const std::vector<PageLink>& links, const std::string& language, std::string& error) {
  try {
    QPDF document;
    document.setSuppressWarnings(true);
    document.processMemoryFile("sheets", pdf.data(), pdf.size());
    QPDFObjectHandle root = document.getRoot();
    root.replaceKey("/Lang", QPDFObjectHandle::newUnicodeString(language));
    root.replaceKey("/ViewerPreferences", QPDFObjectHandle::parse("<< /PrintScaling /None /DisplayDocTitle true >>"));
    root.replaceKey("/PageMode", QPDFObjectHandle::newName("/UseOutlines"));
    add_links(document, links);
    QPDFWriter writer(document);
    writer.setOutputMemory();
    writer.setDeterministicID(true);
    writer.setStreamDataMode(qpdf_s_preserve);
    writer.setObjectStreamMode(qpdf_o_generate);
    writer.setMinimumPDFVersion("1.6");   // PrintScaling, ISO 32000-1 table 150
    writer.write();
    if (!document.getWarnings().empty()) return error = document.getWarnings().front().what(), std::string();
    const std::shared_ptr<Buffer> bytes = writer.getBufferSharedPointer();
    return {reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()};
  } catch (const std::exception& problem) {   // the library reports by exceptions: they end here
    error = problem.what();
    return "";
  }
}

}  // namespace towloom
