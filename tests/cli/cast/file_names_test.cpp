// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/file_names.hpp"
#include "cli/cast/wearer_files.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright::cli::cast;

namespace {

/// A character as UTF-8.
std::string letter(char32_t code) {
  const auto tail = [code](int place) { return static_cast<char>(0x80 | (code >> 6 * place & 63)); };
  if (code < 0x80) return {static_cast<char>(code)};
  if (code < 0x800) return {static_cast<char>(0xc0 | code >> 6), tail(0)};
  if (code < 0x10000) return {static_cast<char>(0xe0 | code >> 12), tail(1), tail(0)};
  return {static_cast<char>(0xf0 | code >> 18), tail(2), tail(1), tail(0)};
}

struct Range {
  char32_t first;
  char32_t last;
};

} // namespace

TEST_CASE("a name that can be a file's is taken as it is") {
  for (const char *name :
       {"Anna",  "Anna Maria", "O'Neill", "Åse",    "Łucja", "Ελένη",   "Ольга",   "木村",    "=1+1",  "cast",
        "cut",   "फ़ातिमा",     "فاطمة",   "김지은", "สมชาย", "e\u0301", "console", "com",     "com¹0", "Con Brio",
        "conin", "...",        ".x",      "a.b",    "com10", "¹",       "lpt⁴",    "Com One", "-",     "Anna!"})
    CHECK_FALSE(fault_of_name(name));
}

TEST_CASE("a name that can be no file's on some common system is refused") {
  for (const char *name :
       {"",         ".",     "..",        "a/b",  "/etc/x",    "..\\x",  "Bert:2",    "Anna*",  "who?",
        "\"Anna\"", "<Anna", "Anna>",     "a|b",  "CON",       "nul",    "Nul.x",     "com1",   "LPT9",
        "aux ",     "com¹",  "COM².json", "lpt³", "Lpt¹ .x.y", "CONIN$", "conout$.a", "conin$ "})
    CHECK(fault_of_name(name));
  CHECK_FALSE(fault_of_name(std::string(239, 'a')));
  CHECK(fault_of_name(std::string(240, 'a')));
  for (const std::string_view suffix : suffixes)
    CHECK(suffix.size() <= longest_suffix);
}

TEST_CASE("a name with a character that cannot be seen is refused") {
  // Controls; Default_Ignorable_Code_Point of Unicode's DerivedCoreProperties.txt; the ends of lines and paragraphs;
  // and blanks that are no spaces.
  constexpr Range unseen[] = {{0x01, 0x1f},       {0x7f, 0x9f},       {0xad, 0xad},       {0x34f, 0x34f},
                              {0x61c, 0x61c},     {0x115f, 0x1160},   {0x17b4, 0x17b5},   {0x180b, 0x180f},
                              {0x200b, 0x200f},   {0x2028, 0x202e},   {0x2060, 0x206f},   {0x2800, 0x2800},
                              {0x3164, 0x3164},   {0xfe00, 0xfe0f},   {0xfeff, 0xfeff},   {0xffa0, 0xffa0},
                              {0xfff0, 0xfffb},   {0x16fe4, 0x16fe4}, {0x1bca0, 0x1bca3}, {0x1d159, 0x1d159},
                              {0x1d173, 0x1d17a}, {0xe0000, 0xe0fff}};
  for (const Range &range : unseen)
    for (char32_t code = range.first; code <= range.last; ++code) {
      CAPTURE(static_cast<unsigned>(code));
      REQUIRE(fault_of_name("An" + letter(code) + "na"));
      REQUIRE(fault_of_name(letter(code)));
      REQUIRE(fault_of_name("Anna" + letter(code)));
    }
  const auto fault = fault_of_name("An\u00adna\U000e0041");
  REQUIRE(fault);
  CHECK(fault->what == "\"An\\u00adna\\ue0041\" has a character that cannot be seen");
  // So are spaces that begin or end it, which a list of wearers takes away only where they are plain.
  for (const char *name : {"\u00a0", "Anna\u00a0", "\u2003Anna", "Anna\u3000"})
    CHECK(fault_of_name(name));
}

TEST_CASE("spaces of every kind are one, so that no two wearers look alike") {
  for (const char *space : {"\u00a0", "\u2002", "\u2009", "\u202f", "\u3000"}) {
    const std::string name = std::string("Anna") + space + "Maria";
    CHECK_FALSE(fault_of_name(name));
    CHECK(folded(name) == folded("ANNA MARIA"));
    CHECK(folded(folded(name)) == folded(name));
  }
  CHECK(folded("Anna Maria") != folded("AnnaMaria"));
}

TEST_CASE("capitals and small letters are one, and so are the two ways of writing an accent") {
  CHECK(folded("ANNA") == folded("anna"));
  CHECK(folded("ÅSE") == folded("åse"));
  CHECK(folded("A\xCC\x8Ase") == folded("Åse")); // a ring that combines
  CHECK(folded("ΕΛΕΝΗΣ") == folded("ελενης"));   // both small sigmas
  CHECK(folded("ОЛЬГА") == folded("ольга"));
  CHECK(folded("Strauß") == folded("STRAUSS"));
  CHECK(folded("Anna") != folded("Hanna"));
  CHECK(folded("Åse") != folded("Ase"));
}
