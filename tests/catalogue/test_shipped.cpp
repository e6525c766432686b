// The catalogue as shipped: it reads without a word, and its files agree with one another.
#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "catalogue/shipped.hpp"

using namespace towloom;
using namespace towloom::testing;

TEST_CASE("the shipped catalogue reads without a word, jobs left out, files in name order") {
  const CatalogueReading r = read_folder(std::string(TOWLOOM_ROOT) + "/specs");
  CHECK(r.diagnostics.all().empty());
  REQUIRE(r.catalogue);
  std::vector<std::filesystem::path> names;
  for (const auto& file : r.sources.files) names.emplace_back(file.name);
  CHECK(std::is_sorted(names.begin(), names.end()));
  for (const auto& name : names) CHECK(name.parent_path().filename() != "jobs");
  // One folder a kind: nothing was read as something else.
  CHECK(r.catalogue->connectors.count("flat-4") == 1);
  CHECK(r.catalogue->connectors.count("blade-7") == 1);
  for (const char* series : {"AWG", "SAE", "ISO"}) CHECK(r.catalogue->wires.count(series) == 1);
  CHECK(r.catalogue->methods.count("two-way-diodes") == 1);
}

TEST_CASE("every figure group names its source") {
  const Catalogue& c = shipped();
  const auto sourced = [](const Provenance& p) { return !p.source.empty() && p.place.known(); };
  for (const auto& [name, connector] : c.connectors) {
    CAPTURE(name);
    CHECK(sourced(connector.provenance));
    CHECK(sourced(connector.contact_ohm_source));
    for (const Provenance* p : {&connector.genders, &connector.shapes}) CHECK(sourced(*p));
    CHECK(sourced(connector.key_source) == !connector.key.empty());
    for (const auto& [key, set] : connector.colour_sets) CHECK(sourced(set.provenance));
    for (const auto& [key, layout] : connector.layouts) CHECK(sourced(layout.provenance));
    for (const auto& [key, allocation] : connector.allocations) CHECK(sourced(allocation.provenance));
    for (const auto& [key, note] : connector.others) CHECK(sourced(note.provenance));
    if (connector.lid) CHECK(sourced(connector.lid->provenance));
    if (connector.unit_mm) CHECK(sourced(connector.unit_source));
    for (const ConnectorContact& contact : connector.contacts) {
      CHECK(sourced(contact.provenance));
      CHECK(sourced(contact.position));
      CHECK((contact.minimum_size.empty() || sourced(connector.sizes)));
      CHECK((!contact.rating_a || sourced(connector.ratings)));
    }
  }
  for (const auto& [name, bulb] : c.bulbs) {
    CAPTURE(name);
    CHECK(sourced(bulb.provenance));
    for (const Filament& f : bulb.filaments) CHECK(sourced(f.provenance));
  }
  for (const auto& [name, series] : c.wires) {
    CAPTURE(name);
    CHECK(sourced(series.resistance));
  }
  for (const auto& [name, diode] : c.diodes)
    CHECK((sourced(diode.provenance) && sourced(diode.thermal.provenance)));
  for (const auto& [name, rule] : c.rules) {
    CAPTURE(name);
    CHECK(sourced(rule.provenance));
  }
  for (const FuseRating& f : c.fuses) CHECK(sourced(f.provenance));
  for (const auto& [name, basis] : c.ampacity) {
    CHECK(sourced(basis.provenance));
    CHECK(sourced(basis.bundling_provenance));
  }
}

TEST_CASE("connector halves mate: a contact is bare on one half and shrouded on the other") {
  const std::set<std::string> inner = {"pin", "blade"}, outer = {"sleeve", "receiver"};
  for (const auto& [name, connector] : shipped().connectors) {
    CAPTURE(name);
    REQUIRE(connector.halves.size() == 2);
    for (const ConnectorContact& contact : connector.contacts) {
      CAPTURE(contact.number);
      REQUIRE(contact.gender.size() == 2);
      const std::string a = contact.gender.at(connector.halves[0].name);
      const std::string b = contact.gender.at(connector.halves[1].name);
      CHECK(inner.count(a) + inner.count(b) == 1);
      CHECK(outer.count(a) + outer.count(b) == 1);
    }
  }
}

TEST_CASE("contacts: no two in one place, each function once, colours in IEC 60757 letters") {
  const std::set<std::string> letters = {"BK", "BN", "RD", "OG", "YE", "GN", "BU",
                                         "VT", "GY", "WH", "PK", "GD", "TQ", "SR"};
  const std::set<std::string> repeated = {"aux", "spare"};
  for (const auto& [name, connector] : shipped().connectors) {
    CAPTURE(name);
    std::set<std::string> functions;
    std::set<std::pair<double, double>> places;
    for (const ConnectorContact& contact : connector.contacts) {
      CAPTURE(contact.number);
      CHECK((functions.insert(contact.function).second || repeated.count(contact.function) == 1));
      CHECK(places.insert({contact.x, contact.y}).second);
      for (const auto& [convention, colour] : contact.colour) {
        CAPTURE(colour);
        CHECK(letters.count(colour.substr(0, colour.find('/'))) == 1);
        if (colour.find('/') != std::string::npos)
          CHECK(letters.count(colour.substr(colour.find('/') + 1)) == 1);
      }
      CHECK(contact.colour.size() == connector.conventions.size());
    }
    for (const std::string& convention : connector.conventions) {
      std::set<std::string> seen;  // one convention gives no two signals one colour
      for (const ConnectorContact& contact : connector.contacts)
        if (contact.function != "charge-return" && contact.function != "reserved")
          CHECK(seen.insert(contact.colour.at(convention)).second);
    }
  }
}

TEST_CASE("every form that the work asks for is there") {
  for (const char* form : {"flat-4", "flat-5", "round-4", "round-4-heavy", "round-6", "blade-7", "j560",
                           "j560-aux", "iso-12n", "iso-12s", "iso-13", "au-flat-7", "au-flat-12",
                           "au-round-large", "au-round-small", "au-heavy-7", "charge-2", "bullet-1"})
    CHECK_MESSAGE(shipped().connectors.count(form) == 1, form);
}

TEST_CASE("a contact is found by number or by moulded letters") {
  const Connector& blade = shipped().connectors.at("blade-7");
  REQUIRE(blade.contact("5"));
  CHECK(blade.contact("5")->function == "left");
  CHECK(blade.contact("LT") == blade.contact("5"));
  CHECK(blade.contact("8") == nullptr);
  CHECK(shipped().connectors.at("flat-4").contact("") == nullptr);  // the flat has no letters
  CHECK(blade.half("plug") != nullptr);
  CHECK(blade.half("live") == nullptr);
}

TEST_CASE("a method's choices have a default that the catalogue knows") {
  const Catalogue& c = shipped();
  for (const auto& [name, method] : c.methods) {
    CAPTURE(name);
    CHECK_FALSE(method.fragments.empty());
    CHECK_FALSE(method.steps.empty());
    for (const Choice& choice : method.choices) {
      CAPTURE(choice.key);
      if (choice.of == "diodes") CHECK(c.diodes.count(choice.fallback) == 1);
    }
    // The last row speaks for every car that no row before it names.
    REQUIRE_FALSE(method.suits.empty());
    CHECK(method.suits.back().when.empty());
  }
}

TEST_CASE("two-way diodes: anodes to coach and car, common cathode to the lamp") {
  const Method& m = shipped().methods.at("two-way-diodes");
  REQUIRE(m.fragments.size() == 1);
  const Fragment& f = m.fragments[0];
  CHECK(f.scope == "lamp");
  CHECK(f.cut == "leg");
  std::set<std::set<std::string>> joins;
  for (const FragmentJoin& join : f.joins) {
    std::set<std::string> ends;
    for (const PlacedText& end : join.ends) ends.insert(end.value);
    joins.insert(ends);
  }
  CHECK(joins == std::set<std::set<std::string>>{
                     {"signal", "block.A1"}, {"feed", "block.A2"}, {"block.K", "lamp"}});
}

TEST_CASE("no lamp function is driven by two feeds of one kind") {
  std::set<std::string> seen;
  for (const auto& [name, feed] : shipped().feeds)
    for (const std::string& function : feed.drives) {
      CAPTURE(function);
      CHECK(seen.insert(feed.drive + " " + function).second);
    }
  for (const char* needed : {"stop-turn", "tail", "plate", "chmsl", "reverse"})
    CHECK(seen.count(std::string("switched ") + needed) == 1);
}

TEST_CASE("wire: thicker means less resistance and more current; fuses stay below the ampacity") {
  for (const auto& entry : shipped().wires) {
    const WireSeries& series = entry.second;
    CAPTURE(entry.first);
    const auto amps = [&](const WireSize& s) { return shipped().ampacity.at(series.basis).amps(s, series.insulation_c); };
    for (std::size_t i = 0; i < series.sizes.size(); ++i) {
      const WireSize& s = series.sizes[i];
      CAPTURE(s.name.number);
      if (i > 0) {
        CHECK(s.ohm_per_m < series.sizes[i - 1].ohm_per_m);
        CHECK(amps(s) > amps(series.sizes[i - 1]));
      }
      if (s.fuse_max_a) CHECK(*s.fuse_max_a <= amps(s));
      CHECK(series.find(s.name) == &s);
      if (s.name.system == WireSizeName::System::mm2)  // a metric name is the nominal area
        CHECK(parse_quantity(s.name.number, Unit::plain) == s.area_mm2);
    }
  }
}

TEST_CASE("fuses rise in rating and fall in resistance; bundling rows leave no gap") {
  const Catalogue& c = shipped();
  for (std::size_t i = 1; i < c.fuses.size(); ++i) {
    CHECK(c.fuses[i].amps > c.fuses[i - 1].amps);
    CHECK(c.fuses[i].ohm < c.fuses[i - 1].ohm);
  }
  CHECK(c.ampacity.size() >= 2);
  for (const auto& [name, basis] : c.ampacity) {
    REQUIRE_FALSE(basis.bundling.empty());
    CHECK(basis.bundling.front().from == 1);
    for (std::size_t i = 1; i < basis.bundling.size(); ++i) CHECK(basis.bundling[i].from == basis.bundling[i - 1].to + 1);
  }
}

TEST_CASE("rules are stored in volts, amperes, ohms and metres") {
  const Catalogue& c = shipped();
  // 5 mohm, 0.075 m and 10 Mohm as written in the file: prefixes are resolved.
  CHECK(c.rule("stud_ohm").value == doctest::Approx(0.005).epsilon(1e-12));
  CHECK(c.rule("splice_loop_m").value == doctest::Approx(0.075).epsilon(1e-12));
  CHECK(c.instruments.at("meter").ohm == doctest::Approx(1e7).epsilon(1e-12));
  CHECK(c.rule("leak_ohm").value == doctest::Approx(1e9).epsilon(1e-12));
  CHECK(c.rule("battery_ohm").provenance.weak());
  CHECK_FALSE(c.rule("led_lit_v").provenance.weak());
}
