// solve as it stands in the contract, and problems that cannot be solved.
#include "tests/app/program.h"

using namespace molewright;

namespace {
std::string const precipitate =
    "problem silver-from-chloride; title Mass of a precipitate; reaction BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq); "
    "given V(BaCl2) = 40.0 mL; given c(BaCl2) = 0.150 mol/L; excess AgNO3; find m(AgCl) in g to 3 figures marks 3";
}

TEST_CASE("solve: JSON of the contract, a problem on one line of standard input", "[app][solve]") {
  Workplace place;
  auto const said = place.run({"solve", "--json", "-"}, precipitate + '\n');
  CHECK(said.err.empty());
  CHECK(said.status == 0);
  auto const json = Json::parse(said.out);
  CHECK(keys_of(json) == std::vector<std::string>{"problem", "answers", "steps", "warnings"});
  CHECK(json["problem"] == "silver-from-chloride");
  // The contract's example: 2 × 0.150 × 0.0400 × 143.32 = 1.71984.
  CHECK(json["answers"].dump() ==
        R"x([{"find":"m(AgCl)","value":"1.72","unit":"g","significant_figures":3,"unrounded":"1.71984"}])x");
  for (auto const& step : json["steps"]) {
    for (char const* key : {"node", "relation", "relation_name", "text", "result"}) CHECK(step.contains(key));
    CHECK(keys_of(step["result"]) == std::vector<std::string>{"symbol", "value", "unit"});
  }
  // What the answer is rounded to is the last step, in the words of the plain text.
  CHECK(json["steps"].back().dump() ==
        R"x({"node":"m(AgCl)","relation":"rounding","relation_name":"rounding to the figures that are due",)x"
        R"x("text":"m(AgCl) = 1.72 g   (3 figures)","result":{"symbol":"m(AgCl)","value":"1.72","unit":"g"}})x");
  CHECK(lines_of(place.run({"solve", "-"}, precipitate + '\n').out).back() == "    m(AgCl) = 1.72\u00a0g   (3 figures)");
  CHECK(json["warnings"].is_array());
}

TEST_CASE("solve: when a relation holds is said once, and stands in the JSON with each of its steps", "[app][solve]") {
  Workplace place;
  std::string const gas =
      "problem gas; reaction Zn + HCl -> ZnCl2 + H2; given p(H2) = 101.3 kPa; given T = 298 K; given V(H2) = 0.500 L; "
      "excess HCl; find n(H2) in mol; find rho(H2) in g/L";
  auto const said = place.run({"solve", "-"}, gas + '\n').out;
  CAPTURE(said);
  auto const condition = std::string(", provided that the gas is ideal");
  auto const first = said.find(condition);
  REQUIRE(first != std::string::npos);
  CHECK(said.find(condition, first + 1) == std::string::npos);
  int under_it = 0;
  auto const json = Json::parse(place.run({"solve", "--json", "-"}, gas + '\n').out);
  for (auto const& step : json["steps"]) {
    if (step["relation"] == "n = m/M") CHECK(!step.contains("conditions"));
    if (step["relation"] != "pV = nRT" && step["relation"] != "rho = pM/(RT)") continue;
    CHECK(step["conditions"] == "the gas is ideal");
    ++under_it;
  }
  CHECK(under_it >= 2);
}

TEST_CASE("solve: several files, a fault in one problem leaves the others", "[app][solve]") {
  Workplace place;
  place.write("one.problem",
              "problem a\ngiben V(HCl) = 2 mL\nproblem b\ngiven V(HCl) = 20.0 mL\ngiven c(HCl) = 0.100 mol/L\nfind n(HCl)\n");
  place.write("two.problem", precipitate);
  auto const said = place.run({"solve", "one.problem", "none.problem", "two.problem", "--json"});
  CHECK(said.status == 1);
  CHECK(said.err ==
        "one.problem:2:1: unknown statement \"giben\", expected given\n  giben V(HCl) = 2 mL\n  ^\n"
        "none.problem:1:1: cannot be read: No such file or directory\n");
  auto const out = lines_of(said.out);
  REQUIRE(out.size() == 2);
  CHECK(Json::parse(out[0])["problem"] == "b");
  CHECK(Json::parse(out[0])["answers"][0]["value"] == "0.00200");
  CHECK(Json::parse(out[1])["problem"] == "silver-from-chloride");
}

TEST_CASE("solve: bad problems, the exact text", "[app][solve][bad-input]") {
  struct Case {
    std::string problem, said;
  };
  auto const c = GENERATE(values<Case>({
      {"given V(NaCl) = -25.0 mL\ngiven c(NaCl) = 0.1 mol/L\nfind n(NaCl)",
       "p.problem:2:7: V(NaCl) is negative, expected a number above zero\n  given V(NaCl) = -25.0 mL\n        ^\n"},
      {"given V(NaCl) = 0 mL\ngiven c(NaCl) = 0.1 mol/L\nfind n(NaCl)",
       "p.problem:2:7: V(NaCl) is zero, expected a number above zero\n  given V(NaCl) = 0 mL\n        ^\n"},
      {"reaction NaCl(aq) + KNO3(aq) -> NaNO3(aq) + KCl(aq)\ngiven V(NaCl) = 10.0 mL\ngiven c(NaCl) = 0.100 mol/L\nexcess "
       "KNO3\nfind m(KCl) in g",
       "p.problem:2:10: NaCl and KNO3 do not react: NaNO3 and KCl both stay dissolved, expected two solutions that form a solid, "
       "water or a gas\n  reaction NaCl(aq) + KNO3(aq) -> NaNO3(aq) + KCl(aq)\n           ^\n"},
      {"reaction NaCl(aq) + KNO3(aq) -> AgCl(s)\ngiven m(NaCl) = 1.00 g\nfind m(AgCl) in g",
       "p.problem:2:10: the equation cannot be balanced: Na, K, N, O and Ag stand on one side only\n  reaction NaCl(aq) + "
       "KNO3(aq) -> AgCl(s)\n           ^\n"},
      {"given n(HCl) = measured mol\ngiven V(HCl) = 10.0 mL\nfind c(HCl)",
       "p.problem:2:7: n(HCl) is the student's own reading, expected a value for it, or an example for the key as in: measured "
       "about 24.60 mL\n  given n(HCl) = measured mol\n        ^\n"},
      {"given m(soduim chloride) = 5.0 g\nfind n(NaCl)",
       "p.problem:2:7: \"soduim chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or barium "
       "chloride\n  given m(soduim chloride) = 5.0 g\n        ^\n"},
      {"reaction magnesum + hydrochloric acid -> magnesium chloride + hydrogen\ngiven m(Mg) = 1.0 g\nfind m(MgCl2)",
       "p.problem:2:10: \"magnesum\" is no name that is known here, expected magnesium, magnesia or magnesite\n  reaction "
       "magnesum + hydrochloric acid -> magnesium chloride + hydrogen\n           ^\n"},
      {"given m(NaCl) = 0,250 g\nfind n(NaCl)",
       "p.problem:2:17: 0,250 has a comma, and this course writes a point, expected 0.250, or a course with decimal = "
       "\"comma\"\n  given m(NaCl) = 0,250 g\n                  ^\n"},
  }));
  CAPTURE(c.problem);
  Workplace place;
  place.write("p.problem", "problem a\n" + c.problem + '\n');
  auto const said = place.run({"solve", "p.problem"});
  CHECK(said.status == 1);
  CHECK(said.out.empty());
  CHECK(said.err == c.said);
}

TEST_CASE("solve: a course with a comma, and an equation that lacks a product", "[app][solve]") {
  Workplace place;
  place.write("course.toml", "decimal = \"comma\"\n");
  place.write("p.problem", "problem a\nreaction Zn + HCl -> ZnCl2\ngiven m(Zn) = 6,54 g\nexcess HCl\nfind m(ZnCl2)\n");
  auto const json = Json::parse(place.run({"solve", "--json", "--course", "course.toml", "p.problem"}).out);
  CHECK(json["answers"][0]["value"] == "13.6");  // 6.54 × 136.28 / 65.38 = 13.632
  CHECK(json["warnings"][0] == "H2 was added to the products, so that it balances");
  auto const text = place.run({"solve", "--course", "course.toml", "p.problem"});
  CHECK(text.status == 0);
  CHECK(text.out.find("= 6,54") != std::string::npos);
  CHECK(text.out.find("note: H2 was added to the products, so that it balances\n") != std::string::npos);
  CHECK(place
            .run({"check", "--course", "course.toml", "-"},
                 "given m(NaCl) = 5,85 g; find n(NaCl); text Take 5,85 g. What amount "
                 "is it?; end\n")
            .out.find("differs") == std::string::npos);
}

TEST_CASE("solve: files that hold no problem", "[app][solve][bad-input]") {
  Workplace place;
  place.write("empty.problem", "");
  CHECK(place.run({"solve", "empty.problem"}).err ==
        "empty.problem:1:1: there is no problem in this file, expected a line such as: problem my-problem\n");
  place.write("bytes.problem", "problem \xFF\n");
  auto const bytes = place.run({"solve", "bytes.problem"});
  CHECK(bytes.status == 1);
  CHECK(lines_of(bytes.err).at(0) == "bytes.problem:1:9: these bytes are not UTF-8 text, expected UTF-8");
  auto const folder = place.run({"solve", "."});
  CHECK(folder.status == 1);
  CHECK(folder.err == ".:1:1: this is a folder, not a file, expected a file\n");
  place.write("deep.problem",
              "problem a\ngiven m(" + std::string(400, '(') + "H" + std::string(400, ')') + ") = 1 g\nfind n(H)\n");
  CHECK(place.run({"solve", "deep.problem"}).status == 1);
}
