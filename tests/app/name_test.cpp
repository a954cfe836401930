// name as it stands in the contract.
#include "tests/app/program.h"

using namespace molewright;

TEST_CASE("name: JSON of the contract, either direction", "[app][name]") {
  Workplace place;
  auto const said = place.run({"name", "--json", "Fe2(SO4)3", "iron (III) sulphate", "HCl(g)"});
  CHECK(said.status == 0);
  CHECK(said.err.empty());
  auto const out = lines_of(said.out);
  REQUIRE(out.size() == 3);
  CHECK(out[0] ==
        R"({"formula":"Fe2(SO4)3","name":"iron(III) sulfate","other_names":["ferric sulfate"]})");  // the contract's example
  CHECK(out[1] == out[0]);
  auto const gas = Json::parse(out[2]);
  CHECK(keys_of(gas) == std::vector<std::string>{"formula", "name", "other_names"});
  CHECK(gas["formula"] == "HCl");
  CHECK(gas["name"] == "hydrogen chloride");
  CHECK(Json::parse(place.run({"name", "--json", "NaF"}).out)["other_names"] == Json::array());
}

TEST_CASE("name: text, and a fault leaves the others", "[app][name]") {
  Workplace place;
  auto const said = place.run({"name", "Fe2(SO4)3", "copper chloride", "sodium chloride", "[Ag(NH3)2]^+", "NaCl2"});
  CHECK(said.status == 1);
  CHECK(said.out ==
        "Fe₂(SO₄)₃  iron(III) sulfate  (also: ferric sulfate)\n"
        "NaCl  sodium chloride  (also: table salt; common salt; rock salt; halite; salt)\n"
        "[Ag(NH₃)₂]⁺  diamminesilver(I) ion  (also: diamminesilver(1+) ion)\n");
  CHECK(said.err ==
        "argument 2:1:1: \"copper chloride\" fits more than one substance: CuCl (copper(I) chloride) and CuCl2 (copper(II) "
        "chloride), expected copper(I) chloride or copper(II) chloride\n  copper chloride\n  ^\n"
        "argument 5:1:1: the charges in NaCl₂ do not add up: Na^+ and 2 Cl^- leave 1-, expected NaCl\n  NaCl2\n  ^\n");
}

TEST_CASE("name: standard input is answered a line each, in its order", "[app][name]") {
  Workplace place;
  std::string const input =
      "\xEF\xBB\xBF"
      "baking soda\r\n\nsodim chloride\nK2Cr2O7\n";
  auto const text = place.run({"name", "-"}, input);
  CHECK(text.status == 1);
  CHECK(text.out ==
        "NaHCO₃  sodium hydrogencarbonate  (also: sodium hydrogen carbonate; sodium bicarbonate; baking soda; bicarbonate of "
        "soda)\n"
        "error: there is no formula here, expected a formula, such as NaCl or SO4^2-\n"
        "error: \"sodim chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or barium chloride\n"
        "K₂Cr₂O₇  potassium dichromate  (also: potassium bichromate; potassium dichromate(VI))\n");
  auto const json = place.run({"name", "--json", "-"}, input);
  CHECK(json.status == 1);
  auto const out = lines_of(json.out);
  REQUIRE(out.size() == 4);
  CHECK(Json::parse(out[0])["formula"] == "NaHCO3");
  auto const fault = Json::parse(out[2]);
  CHECK(keys_of(fault) == std::vector<std::string>{"error", "message", "column", "input"});
  CHECK(fault["error"] == "unknown-name");
  CHECK(fault["input"] == "sodim chloride");
}

TEST_CASE("name: the course's spelling", "[app][name]") {
  Workplace place;
  place.write("course.toml", "spelling = \"sulphur\"\n");
  auto const said = place.run({"name", "--json", "CuSO4.5H2O", "aluminum sulfate", "--course", "course.toml"});
  CHECK(said.status == 0);
  auto const out = lines_of(said.out);
  REQUIRE(out.size() == 2);
  CHECK(Json::parse(out[0])["name"] == "copper(II) sulphate pentahydrate");
  CHECK(Json::parse(out[0])["formula"] == "CuSO4·5H2O");
  CHECK(Json::parse(out[1])["name"] == "aluminium sulphate");
}

TEST_CASE("name: the course's choice among names of the trade", "[app][name]") {
  Workplace place;
  place.write("course.toml", "aluminium = \"aluminum\"\nacetic_acid = \"ethanoic acid\"\nhydrogencarbonate = \"bicarbonate\"\n");
  struct Case {
    std::string asked, name;
  };
  auto const c = GENERATE(values<Case>({{"Al2(SO4)3", "aluminum sulfate"},
                                        {"aluminium sulfate", "aluminum sulfate"},
                                        {"CsCl", "cesium chloride"},
                                        {"acetic acid", "ethanoic acid"},
                                        {"Cu(CH3COO)2·H2O", "copper(II) ethanoate monohydrate"},
                                        {"HCOOH", "methanoic acid"},
                                        {"Na2C10H14N2O8·2H2O", "disodium EDTA dihydrate"},
                                        {"sodium hydrogencarbonate", "sodium bicarbonate"},
                                        {"HCO3^-", "bicarbonate ion"}}));
  CAPTURE(c.asked);
  auto const said = place.run({"name", "--json", c.asked, "--course", "course.toml"});
  CHECK(said.status == 0);
  CHECK(Json::parse(lines_of(said.out).at(0))["name"] == c.name);
}

TEST_CASE("name: an unknown word offers the three nearest names", "[app][name][bad-input]") {
  Workplace place;
  auto const said = place.run({"name", "xyzzy", "unobtainium", "nacl"});
  auto const lines = lines_of(said.err);
  REQUIRE(lines.size() == 9);
  for (std::size_t i : {0U, 3U}) {
    CAPTURE(lines[i]);
    auto const at = lines[i].find("is no name that is known here, expected ");
    REQUIRE(at != std::string::npos);
    CHECK(lines[i].find(", ", at + 32) != std::string::npos);
    CHECK(lines[i].find(" or ", at) != std::string::npos);
  }
  CHECK(lines[6].find("an element symbol begins with a capital letter") != std::string::npos);
}

TEST_CASE("name: nothing to name is a fault of the command line", "[app][name][bad-input]") {
  Workplace place;
  auto const said = place.run({"name"});
  CHECK(said.status == 2);
  CHECK(said.err ==
        "molewright: name needs a FORMULA or a NAME, such as Fe2(SO4)3 or \"iron(III) sulfate\"\nTry: molewright name --help\n");
}
