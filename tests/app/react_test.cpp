// `molewright react`, as a person or a script calls it.
#include "tests/app/program.h"

using namespace molewright;

TEST_CASE("react: JSON of the contract", "[app][react]") {
  Workplace place;
  auto const said = place.run({"react", "--json", "BaCl2 + AgNO3", "NaNO3 + KCl", "Ba(OH)2 + H2SO4", "AgNO3 + Xy"});
  CHECK(said.status == 1);
  auto const out = lines_of(said.out);
  REQUIRE(out.size() == 4);
  auto const silver = Json::parse(out[0]);
  CHECK(keys_of(silver) == std::vector<std::string>{"reacts", "molecular", "ionic", "net_ionic", "spectators", "kind",
                                                    "conditions", "observations", "because", "borderline", "warnings",
                                                    "cautions"});
  CHECK(silver["reacts"] == true);
  CHECK(silver["molecular"] == "BaCl2(aq) + 2AgNO3(aq) -> 2AgCl(s) + Ba(NO3)2(aq)");
  CHECK(silver["ionic"] == "Ba^2+(aq) + 2Cl^-(aq) + 2Ag^+(aq) + 2NO3^-(aq) -> 2AgCl(s) + Ba^2+(aq) + 2NO3^-(aq)");
  CHECK(silver["net_ionic"] == "Cl^-(aq) + Ag^+(aq) -> AgCl(s)");
  CHECK(silver["spectators"] == Json::parse(R"(["Ba^2+","NO3^-"])"));
  CHECK(silver["kind"] == "precipitation");
  CHECK(silver["because"] == "AgCl does not dissolve, by the solubility table");
  CHECK(silver["borderline"] == false);
  // What the page for people says, line by line.
  std::vector<std::string> printed;
  for (auto const& line : lines_of(place.run({"react", "BaCl2 + AgNO3"}).out))
    if (line.rfind("  caution", 0) == 0) printed.push_back(line.substr(14));
  CHECK(printed.size() > 2);
  CHECK(silver["cautions"] == Json(printed));
  auto const none = Json::parse(out[1]);
  CHECK(keys_of(none) == std::vector<std::string>{"reacts", "reason", "dissolved", "borderline", "warnings", "cautions"});
  CHECK(none["reacts"] == false);
  CHECK(none["reason"] == "both salts stay dissolved: KNO3 and NaCl are soluble, by the solubility table");
  CHECK(none["dissolved"] == Json::parse(R"([{"formula":"KNO3","by":"the solubility table"},
                                            {"formula":"NaCl","by":"the solubility table"}])"));
  CHECK(Json::parse(out[2])["spectators"].empty());
  auto const bad = Json::parse(out[3]);
  CHECK(keys_of(bad) == std::vector<std::string>{"error", "message", "column", "input"});
  CHECK(bad["error"] == "unknown-element");
  CHECK(bad["column"] == 9);
}

TEST_CASE("react: as people read it, with cautions that defer to the data sheet", "[app][react]") {
  Workplace place;
  auto const said = place.run({"react", "silver nitrate + NaCl"});
  CHECK(said.status == 0);
  auto const out = lines_of(said.out);
  REQUIRE(out.size() >= 7);
  CHECK(out[0] == "precipitation");
  CHECK(out[1] == "  molecular   AgNO₃(aq) + NaCl(aq) → AgCl(s) + NaNO₃(aq)");
  CHECK(out[2] == "  ionic       Ag⁺(aq) + NO₃⁻(aq) + Na⁺(aq) + Cl⁻(aq) → AgCl(s) + Na⁺(aq) + NO₃⁻(aq)");
  CHECK(out[3] == "  net ionic   Ag⁺(aq) + Cl⁻(aq) → AgCl(s)");
  CHECK(out[4] == "  spectators  NO₃⁻, Na⁺");
  CHECK(out.back() == "  caution     Check the safety data sheet. The school's risk assessment and local rules come first.");

  auto const no = place.run({"react", "Cu + HCl"});
  CHECK(no.status == 0);  // an answer, not a fault
  CHECK(lines_of(no.out).at(0) ==
        "no reaction: Cu stands below hydrogen in the activity series, so it does not displace hydrogen from acids");
}

TEST_CASE("react: a poisonous ion has its caution, and what has none is said to have none", "[app][react][cautions]") {
  struct Case {
    std::string mixture, substance, says;
  };
  // CLP Regulation (EC) 1272/2008, Annex VI, and school practice, from memory.
  auto const c = GENERATE(values<Case>({
      {"PbCl2 + NaI", "PbI₂", "builds up in the body"},
      {"HF + NaOH", "HF", "kills through the skin"},
      {"Hg(NO3)2 + NaOH", "Hg(NO₃)₂", "Mercury: very poisonous"},
      {"Cd(NO3)2 + Na2S", "Cd(NO₃)₂", "may cause cancer"},
      {"TlNO3 + NaCl", "TlCl", "Thallium: deadly"},
      {"CO + O2", "CO", "without smell"},
      {"CsCl + AgNO3", "CsCl", "no caution is in our tables: see the safety data sheet"},
      {"NaCl + AgNO3", "NaCl", "Little hazard"},
  }));
  CAPTURE(c.mixture);
  Workplace place;
  bool found = false;
  for (auto const& line : lines_of(place.run({"react", c.mixture}).out))
    found = found || (line.rfind("  caution     " + c.substance + ": ", 0) == 0 && line.find(c.says) != std::string::npos);
  CHECK(found);
}

TEST_CASE("react: a list, a line each", "[app][react]") {
  Workplace place;
  auto const said = place.run({"react", "-"}, "HCl + NaOH\nNaCl + KNO3\nCaCl2 + NaCl2\n[Cu(NH3)4]SO4 + BaCl2\n");
  CHECK(said.status == 1);
  CHECK(said.out ==
        "neutralisation: HCl(aq) + NaOH(aq) → NaCl(aq) + H₂O(l); net ionic: H⁺(aq) + OH⁻(aq) → H₂O(l)\n"
        "no reaction: both salts stay dissolved: KCl and NaNO3 are soluble, by the solubility table\n"
        "error: the charges in NaCl₂ do not add up: Na^+ and 2 Cl^- leave 1-, expected NaCl\n"
        "precipitation: [Cu(NH₃)₄]SO₄(aq) + BaCl₂(aq) → BaSO₄(s) + [Cu(NH₃)₄]Cl₂(aq); net ionic: SO₄²⁻(aq) + Ba²⁺(aq) → "
        "BaSO₄(s)\n");
  CHECK(said.err.rfind("-:3:9: the charges in NaCl₂ do not add up", 0) == 0);
}

TEST_CASE("react: bad input, the exact text", "[app][react][bad-input]") {
  struct Case {
    std::string mixture, said;
  };
  auto const c = GENERATE(values<Case>({
      {"AgNO3 + ", "argument 1:1:8: a formula is missing, expected a formula on each side of +\n  AgNO3 + \n         ^\n"},
      {"barium chlorid + AgNO3",
       "argument 1:1:1: \"barium chlorid\" is no name that is known here, expected barium chloride, barium chlorite or barium "
       "chlorate\n  barium chlorid + AgNO3\n  ^\n"},
      {"unobtainium + HCl",
       "argument 1:1:1: \"unobtainium\" is no name that is known here, expected potassium, titanium or actinium\n  unobtainium + "
       "HCl\n  ^\n"},
      {"BaCl2 + AgNO3 + Na2SO4",
       "argument 1:1:1: more than one reaction can happen here: BaCl2 with AgNO3, and BaCl2 with Na2SO4, expected the reactants "
       "of "
       "one reaction at a time\n  BaCl2 + AgNO3 + Na2SO4\n  ^\n"},
  }));
  CAPTURE(c.mixture);
  Workplace place;
  auto const said = place.run({"react", c.mixture});
  CHECK(said.status == 1);
  CHECK(said.out.empty());
  CHECK(said.err == c.said);
  auto const nothing = place.run({"react"});
  CHECK(nothing.status == 2);
  CHECK(nothing.err == "molewright: react needs REACTANTS, such as \"BaCl2 + AgNO3\"\nTry: molewright react --help\n");
}
