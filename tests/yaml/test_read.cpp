// What a YAML text means, and where an error is said to stand.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "yaml/reading.hpp"

using namespace towloom;
using towloom::testing::Bad;
using towloom::testing::read;

TEST_CASE("scalars stay as written: no YAML 1.1 booleans, octals or base-60 numbers") {
  const auto r = read("a: off\nb: no\nc: 010\nd: 9:00\ne: 1e3\nf: \"null\"\n");
  REQUIRE(r.root);
  const std::vector<std::pair<std::string, std::string>> expected = {
      {"a", "off"}, {"b", "no"}, {"c", "010"}, {"d", "9:00"}, {"e", "1e3"}, {"f", "null"}};
  REQUIRE(r.root->entries.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CHECK(r.root->entries[i].key == expected[i].first);
    CHECK(r.root->entries[i].value.text == expected[i].second);
  }
  CHECK(r.root->find("f")->quoted);
  CHECK_FALSE(r.root->find("a")->quoted);
}

TEST_CASE("places count lines and columns from one") {
  const auto r = read("first: 1\n\nmap: {key: some text, other: [x, yy]}\n");
  REQUIRE(r.root);
  const Node* map = r.root->find("map");
  REQUIRE(map != nullptr);
  CHECK(map->entries[0].key_place == Place{0, 3, 7, 3});
  CHECK(map->entries[0].value.place == Place{0, 3, 12, 9});
  CHECK(map->entries[1].value.items[1].place == Place{0, 3, 34, 2});
  CHECK(r.root->find("absent") == nullptr);
}

TEST_CASE("line ends of any system and a byte order mark are accepted") {
  for (const char* text : {"a: 1\r\nb: 2\r\n", "a: 1\nb: 2",
                           "\xEF\xBB\xBF"
                           "a: 1\nb: 2\n"}) {
    CAPTURE(text);
    const auto r = read(text);
    REQUIRE(r.root);
    REQUIRE(r.root->entries.size() == 2);
    CHECK(r.root->entries[0].key == "a");
    CHECK(r.root->entries[1].value.text == "2");
    CHECK(r.root->entries[1].key_place.line == 2);
  }
}

TEST_CASE("bad texts are refused at their place") {
  const std::vector<Bad> table = {
      {"a: 1\nb: 2\na: 3\n", 3, 1, "duplicate-key", "line 1"},
      {"m: {x: 1, y: 2, x: 3}\n", 1, 17, "duplicate-key", "'x'"},
      {"a: 1\nb:\nc: 2\n", 2, 1, "empty-value", "'b' has no value"},
      {"a: ~\n", 1, 1, "empty-value", "'a' has no value"},
      {"m: {note: dead, no fuse}\n", 1, 17, "empty-value", "quote the text"},
      {"a: [1,,2]\n", 1, 7, "empty-value", "empty"},
      {"a: 1\n\tb: 2\n", 2, 1, "tab", "spaces"},
      {"a: 1\nb: \"\xC3\xA9\xFF\"\n", 2, 6, "not-utf8", "UTF-8"},
      {"a: \xC0\xAF\n", 1, 4, "not-utf8", "UTF-8"},      // overlong slash
      {"a: \xED\xA0\x80\n", 1, 4, "not-utf8", "UTF-8"},  // surrogate half
      {"a: \xE2\x82", 1, 4, "not-utf8", "UTF-8"},        // cut off
      {std::string("a: x\0y\n", 7), 1, 5, "control-character", "control"},
      {"a: \x1b[31m\n", 1, 4, "control-character", "control"},
      {"a: x\xE2\x80\xAEy\n", 1, 5, "control-character", "control"},  // right-to-left override
      {"a: &x 1\nb: 2\n", 1, 4, "alias", "anchors"},
      {"a: 1\nb: [*a]\n", 2, 5, "alias", "aliases"},
      {"a: 1\n<<: {b: 2}\n", 2, 1, "merge-key", "merge"},
      {"? [a, b]\n: 1\n", 1, 3, "key-kind", "plain text"},
      {"a: |\n  one\n  two\n", 1, 4, "text-lines", "several lines"},
      {"a: |-\n  one\n", 1, 4, "text-lines", "several lines"},
      {"a: >-\n  one\n  two\n", 1, 4, "text-lines", "several lines"},
      // Joined in silence: a lost comma, a lost colon, a row out of its column, and a note that goes on.
      {"m: {feed: GY 0.75\n    mm2, node: A}\n", 1, 11, "text-lines", "comma"},
      {"b: 1\na: left pocket\n  right  factory stud\n", 2, 4, "text-lines", "colon"},
      {"l:\n  - one\n    two\n", 2, 5, "text-lines", "one line"},
      {"é: {note: dead\n  fuse}\n", 1, 11, "text-lines", "one line"},
      {"m: {a: 1, b\n  c: 2}\n", 1, 11, "yaml", "missing colon"},
      {"b: 1\na: \"one\n  two\"\n", 2, 4, "text-lines", "not closed"},
      {"a: 'one\nb: 2\n", 1, 4, "text-lines", "not closed"},
      {"é: \"one\n", 1, 4, "text-lines", "not closed"},
      {"a: !!str 1\n", 1, 4, "tag", "tags"},
      {"a: !x {b: 1}\n", 1, 4, "tag", "tags"},
      {"a: x\xE2\x81\xA6y\n", 1, 5, "control-character", "control"},  // left-to-right isolate
      {"a: &a [&b [1,1,1], *b, *b]\nc: [*a,*a,*a,*a]\n", 2, 5, "alias", "anchors"},  // what would grow ninefold a level
      {"a: " + std::string(40, '[') + "1" + std::string(40, ']') + "\n", 1, 36, "too-deep", "nested"},
      {"a: 1\n---\nb: 2\n", 3, 1, "documents", "second document"},
      {"", 1, 1, "empty-file", "empty"},
      {"# only a remark\n", 1, 1, "empty-file", "empty"},
  };
  for (const Bad& bad : table) {
    CAPTURE(bad.text);
    CAPTURE(bad.fragment);
    const auto r = read(bad.text);
    CHECK_FALSE(r.root);
    CHECK(towloom::testing::says(r.diagnostics, bad));
    CAPTURE(format_diagnostics(r.diagnostics, r.sources, false));
    CHECK(r.diagnostics.has_errors());
  }
}

TEST_CASE("broken syntax is an error with a hint to look above") {
  for (const char* text : {"a: 1\nb 2\nc: 3\n", "a: {b: 1\n", "a: [1, 2\n", "a: b: c\n"}) {
    CAPTURE(text);
    const auto r = read(text);
    CHECK_FALSE(r.root);
    REQUIRE(r.diagnostics.all().size() == 1);
    CHECK(r.diagnostics.all()[0].code == "yaml");
    CHECK(r.diagnostics.all()[0].hint.find("above") != std::string::npos);
  }
}

TEST_CASE("all problems of a tree are reported in one run") {
  const auto r = read("a:\nm: {x: 1, x: 2, z}\na: 1\nl: [1,,2]\n");
  CHECK(towloom::testing::says(r.diagnostics, {"", 1, 1, "empty-value", "'a'"}));
  CHECK(towloom::testing::says(r.diagnostics, {"", 2, 11, "duplicate-key", "'x'"}));
  CHECK(towloom::testing::says(r.diagnostics, {"", 2, 17, "empty-value", "'z'"}));
  CHECK(towloom::testing::says(r.diagnostics, {"", 4, 7, "empty-value", ""}));
}

TEST_CASE("several traps are reported in one run") {
  const auto r = read("a: &x 1\nb: *x\nc: \"open\nd: 'too\n");
  CHECK(r.diagnostics.all().size() == 4);
}

TEST_CASE("one line however long, quoted text with quotes in it, and a comma outside a flow row are read") {
  const auto r = read("\xEF\xBB\xBF" "a: " + std::string(5000, 'x') + " y\nb: 'it''s'\nc: \"a \\\"b\\\" c\"\nd: one, two  # why\ne: \"\"\n");
  REQUIRE(r.root);
  CHECK(r.root->find("a")->text.size() == 5002);
  CHECK(r.root->find("b")->text == "it's");
  CHECK(r.root->find("c")->text == "a \"b\" c");
  CHECK(r.root->find("d")->text == "one, two");
  CHECK(r.root->find("e")->text.empty());
}

TEST_CASE("size and depth are bounded") {
  CHECK(read("a: " + std::string(20, '[') + "1" + std::string(20, ']') + "\n").root);
  CHECK_FALSE(read("a: " + std::string(40, '[') + "1" + std::string(40, ']') + "\n").root);
  CHECK_FALSE(read(std::string(100'000, '[')).root);
  std::string many = "a: [0";
  for (int i = 0; i < 100'001; ++i) many += ",0";
  CHECK_FALSE(read(many + "]\n").root);
  const auto large = read("a: " + std::string((1 << 20) + 1, 'x') + "\n");
  CHECK_FALSE(large.root);
  CHECK(towloom::testing::says(large.diagnostics, {"", 1, 1, "too-large", "1 MB"}));
}

TEST_CASE("several documents are read only where they are wanted") {
  Sources sources;
  Diagnostics diagnostics;
  const int file = sources.add("two.yaml", "a: 1\n---\nb: 2\n");
  const auto all = read_yaml_documents(file, sources, diagnostics);
  REQUIRE(all.size() == 2);
  CHECK(all[1].entries[0].key == "b");
  CHECK(all[1].entries[0].key_place.line == 3);
  CHECK_FALSE(diagnostics.has_errors());
}

TEST_CASE("an error is printed with place, line, caret and what to do") {
  const auto plain = read("good: 1\nbad: {note: one, note: two}\n");
  CHECK(format_diagnostics(plain.diagnostics, plain.sources, false) ==
        "in.yaml:2:18: error: 'note' is written twice\n"
        "  bad: {note: one, note: two}\n"
        "                   ^~~~\n"
        "  hint: it stands on line 2 already; keep one of them\n");
}
