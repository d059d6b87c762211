// SPDX-License-Identifier: GPL-3.0-or-later
#include "cast/file_names.hpp"
#include "cast/wearer_files.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright::cli::cast;

TEST_CASE("a name that can be a file's is taken as it is") {
  for (const char *name : {"Anna", "Anna Maria", "O'Neill", "Åse", "Łucja", "Ελένη", "Ольга", "木村", "=1+1", "cast",
                           "cut", "console", "com", "Con Brio", "...", ".x", "a.b", "Bert:2"})
    CHECK_FALSE(fault_of_name(name));
}

TEST_CASE("a name that can be no file's is refused") {
  for (const char *name : {"", ".", "..", "a/b", "/etc/x", "..\\x", "a\nb", "a\tb", "\x7f", "\xC2\x85", "a\u202Eb",
                           "CON", "nul", "Nul.x", "com1", "LPT9", "aux "})
    CHECK(fault_of_name(name));
  CHECK_FALSE(fault_of_name(std::string(239, 'a')));
  CHECK(fault_of_name(std::string(240, 'a')));
  for (const std::string_view suffix : suffixes)
    CHECK(suffix.size() <= longest_suffix);
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
