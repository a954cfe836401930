// check: what is wrong with a teacher's own problems.
#include "tests/app/program.h"

using namespace molewright;

TEST_CASE("check: findings with file, line, why and how to mend", "[app][check]") {
  Workplace place;
  place.write("own.problems",
              "problem feed\n"
              "given V(KNO3) = 250.0 mL\n"
              "given c(KNO3) = 0.120 mol/L\n"
              "find n(KNO3) in mol\n"
              "answer n(KNO3) = 30.0 mol\n");
  auto const said = place.run({"check", "own.problems"});
  CHECK(said.status == 1);
  CHECK(said.err.empty());
  CHECK(said.out ==
        "own.problems:5: feed: the answer for n(KNO3) is 0.0300 mol, not 30.0 mol (volume left in mL) [wrong-answer]\n"
        "    why it matters: right scripts would be marked wrong\n"
        "    how to mend it: answer n(KNO3) = 0.0300 mol\n"
        "own.problems: 1 problem, 1 finding\n");
}

TEST_CASE("check: JSON of the contract; nothing found is an empty list", "[app][check]") {
  Workplace place;
  place.write("own.problems",
              "problem a\ngiven c(KNO3) = 0.250 mol/L\nfind n(KNO3) in mol\nproblem b\ngiven m(NaCl) = 5.85 g\nfind n(NaCl)\n");
  auto const said = place.run({"check", "--json", "own.problems"});
  CHECK(said.status == 1);
  auto const out = lines_of(said.out);
  REQUIRE(out.size() == 2);
  auto const a = Json::parse(out[0]);
  CHECK(a["problem"] == "a");
  REQUIRE(a["findings"].size() == 1);
  CHECK(a["findings"][0]["kind"] == "missing-given");
  CHECK(a["findings"][0]["line"] == 3);
  CHECK(a["findings"][0].contains("mend"));
  CHECK(out[1] == R"({"problem":"b","findings":[]})");
  CHECK(place.run({"check", "-"}, "given m(NaCl) = 5.85 g\nfind n(NaCl) in mol\n").status == 0);
  CHECK(place.run({"check", "none.problems"}).status == 1);
  CHECK(place.run({"check"}).status == 2);
}
