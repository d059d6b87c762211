// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/job_file.hpp"
#include "cli/page/module.hpp"
#include "cli/page/save.hpp"
#include "tests/cli/cast/folder_test.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <atomic>

using namespace gatherwright::page;
using cast_test::Folder;
namespace fs = std::filesystem;

namespace {

std::atomic<int> digests{0};

/// A digest that is easily seen through, and counted.
gatherwright::cli::Ended size_and_first(std::string_view bytes, std::string &digest) {
  ++digests;
  digest = std::to_string(bytes.size()) + (bytes.empty() ? "" : std::string(1, bytes.front()));
  return gatherwright::cli::Ended::well;
}

std::string text_of(const std::string &path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

template <class Kind> const Kind &as(const SaveOutcome &outcome) {
  REQUIRE(std::holds_alternative<Kind>(outcome));
  return std::get<Kind>(outcome);
}

} // namespace

TEST_CASE("the digest of bytes is their SHA-256") {
  const auto module = gatherwright::page::module();
  REQUIRE(module);
  const auto digest = [&](std::string_view bytes) {
    std::string text;
    module->digest(bytes, text);
    return text;
  };
  // FIPS 180-2, appendix B.
  CHECK(digest("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(digest("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(digest(std::string(1'000'000, 'a')) == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  CHECK(digest("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("a job's file is written only over what was read") {
  const Folder folder;
  const std::string path = folder.in("smock.json");
  JobFile file(path, size_and_first);
  CHECK(file.name() == "smock.json");
  CHECK_FALSE(file.read());
  CHECK_FALSE(file.digest());
  CHECK_FALSE(as<Altered>(file.save({"new", "3x", {}})).now);
  CHECK(as<Saved>(file.save({"one", {}, {}})).digest == "3o");
  CHECK(text_of(path) == "one");
  CHECK(file.digest() == "3o");
  CHECK(as<Altered>(file.save({"other", {}, {}})).now->text == "one");
  CHECK(as<Altered>(file.save({"other", "3x", {}})).now->digest == "3o");
  CHECK(text_of(path) == "one");
  CHECK(as<Saved>(file.save({"two!", "3o", "of no account"})).digest == "4t");
  CHECK(text_of(path) == "two!");
  CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("a job's file is read again only where the system says that it was touched") {
  const Folder folder;
  const std::string path = folder.in("smock.json");
  folder.with("smock.json", "one");
  JobFile file(path, size_and_first);
  // Written just now, it might be written again within the same tick.
  file.digest();
  const int before = digests;
  CHECK(file.digest() == "3o");
  folder.with("smock.json", "two");
  CHECK(file.digest() == "3t");
  CHECK(digests == before + 2);
  JobFile old(in_project("README.md"), size_and_first);
  const auto first = old.digest();
  CHECK(old.digest() == first);
  CHECK(digests == before + 3);
}

TEST_CASE("a name of a first save is of letters, digits, spaces, dashes and strokes") {
  for (const std::string name : {"smock", "Smock 2", "a-b_c", "0", "-", "Kittel f\xC3\xBCr M\xC3\xA4nner",
                                 "\xD0\xA0\xD1\x83\xD0\xB1\xD0\xB0\xD1\x88\xD0\xBA\xD0\xB0"})
    CHECK_FALSE(why_no_name(name));
  for (const std::string name : {"", " ", "   ", ".", "..", "a.json", "a/b", "a\\b", "a:b", "~", "a\n", "a\tb", "\xFF",
                                 "a\xE2\x80\xAE", "\xE2\x80\x8B",
                                 "a\xC2\xA0"
                                 "b"})
    CHECK(why_no_name(name));
  CHECK(why_no_name(std::string("a\0b", 3)));
  CHECK_FALSE(why_no_name(std::string(64, 'x')));
  CHECK(why_no_name(std::string(65, 'x')));
  std::string umlauts;
  for (int i = 0; i < 64; ++i)
    umlauts += "\xC3\xBC";
  CHECK_FALSE(why_no_name(umlauts));
}

TEST_CASE("a file that cannot be read says why") {
  const Folder folder;
  const std::string path = folder.in("smock.json");
  fs::create_directory(path);
  JobFile file(path, size_and_first);
  CHECK_THROWS_AS(file.read(), CannotReadJob);
  CHECK_THROWS_AS(file.digest(), CannotReadJob);
  CHECK_THROWS_AS(file.save({"text", {}, {}}), CannotReadJob);
}

TEST_CASE("the page is told how a save came out") {
  const auto json = [](const Reply &reply) { return nlohmann::json::parse(reply.body); };
  const Reply saved = reply_to_save(Saved{"d", "n.json"});
  CHECK(saved.status == 200);
  CHECK(json(saved) == nlohmann::json{{"read", "d"}, {"name", "n.json"}});
  const Reply altered = reply_to_save(Altered{OnDisk{"text \xFF", "d"}});
  CHECK(altered.status == 409);
  CHECK(json(altered) == nlohmann::json{{"text", "text \xEF\xBF\xBD"}, {"read", "d"}});
  CHECK(json(reply_to_save(Altered{})) == nlohmann::json{{"text", nullptr}, {"read", nullptr}});
  const Reply taken = reply_to_save(NameTaken{"n.json"});
  CHECK(taken.status == 409);
  CHECK(json(taken)["faults"][0]["what"] == "there is a n.json already");
  const Reply none = reply_to_save(NoName{"why"});
  CHECK(none.status == 200);
  CHECK(json(none)["faults"][0]["pointer"] == "/name");
  const Reply cannot = reply_to_save(CannotSave{"n.json", "No space left on device"});
  CHECK(cannot.status == 500);
  CHECK(cannot.body == "n.json cannot be written: No space left on device\n");
}
