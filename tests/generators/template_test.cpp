// Templates: what can be read, what is refused and where.
#include "generators/template.h"

#include <catch2/catch.hpp>
#include <string>

#include "generators/question_maker.h"

using namespace molewright;

namespace {
std::string const good =
    "template jar\n"
    "kind n-cV\n"
    "level plain\n"
    "let salt, use = one of KNO3, peas | KCl, beans   # two in one\n"
    "given V({salt}) = 20.0 to 50.0 by 0.5 mL\n"
    "given c({salt}) = one of 0.105 | 0.155 mol/L\n"
    "require n({salt}) >= 0.002 mol\n"
    "find n({salt}) in mol\n"
    "text\n"
    "  For {use}: what amount is in {V({salt})} of {c({salt})} {name {salt}}?\n"
    "end\n";

std::string with(std::string const& what, std::string const& instead) {
  std::string text = good;
  text.replace(text.find(what), what.size(), instead);
  return text;
}
}  // namespace

TEST_CASE("template: the parts of a template", "[generators][template]") {
  auto const read = parse_template(good);
  for (auto const& fault : read.faults) UNSCOPED_INFO(show(fault, "jar"));
  REQUIRE(read.read);
  Template const& made = *read.read;
  CHECK(made.name == "jar");
  CHECK(made.kind == "n-cV");
  CHECK(made.level == "plain");
  REQUIRE(made.lets.size() == 3);
  CHECK(made.lets[0].names == std::vector<std::string>{"salt", "use"});
  CHECK(made.lets[0].pick.options[1] == std::vector<std::string>{"KCl", "beans"});
  CHECK_FALSE(made.lets[0].number);
  CHECK(made.lets[1].number);
  CHECK(made.lets[1].pick.size() == 61);  // 20.0, 20.5 ... 50.0
  CHECK(range_text(made.lets[1].pick, 0) == "20.0");
  CHECK(range_text(made.lets[1].pick, 60) == "50.0");
  CHECK(made.requirements.size() == 1);
  CHECK(made.wordings.size() == 1);
  CHECK(filled("{V({salt})} of {name {salt}} {{salt}", {{"salt", "KCl"}}) == "{V(KCl)} of {name KCl} {{salt}");
}

TEST_CASE("template: a product follows from what was drawn", "[generators][template]") {
  std::string const text = with("given c({salt}) = one of 0.105 | 0.155 mol/L",
                                "let n = 1.50 to 4.00 by 0.01\ngiven m({salt}) = product of 0.1 | {n} | M({salt}) by 0.001 g");
  auto const read = parse_template(text);
  for (auto const& fault : read.faults) UNSCOPED_INFO(show(fault, "jar"));
  REQUIRE(read.read);
  Let const& mass = read.read->lets.back();
  CHECK(mass.number);
  CHECK(mass.pick.size() == 1);
  // 0.1 x 2.00 x 101.102 = 20.2204; 0.1 x 1.55 x 74.548 = 11.55494, by the abridged weights.
  CHECK(product_text(mass.pick, {{"salt", "KNO3"}, {"n", "2.00"}}) == "20.220");
  CHECK(product_text(mass.pick, {{"salt", "KCl"}, {"n", "1.55"}}) == "11.555");
  CHECK_FALSE(product_text(mass.pick, {{"salt", "Qq"}, {"n", "1.55"}}));

  struct Case {
    std::string product, id;
  };
  auto const c = GENERATE(values<Case>({
      {"product of {later} | 2 by 0.01 g", "unknown-variable"},
      {"product of 2 | M(Qq) by 0.01 g", "bad-given"},
      {"product of 2 | 3 by 0.05 g", "empty-range"},
      {"product of 2 | by 0.01 g", "bad-given"},
      {"product of 2 g", "bad-given"},
  }));
  CAPTURE(c.product);
  auto const bad = parse_template(with("given c({salt}) = one of 0.105 | 0.155 mol/L", "given m({salt}) = " + c.product));
  REQUIRE_FALSE(bad.faults.empty());
  CHECK(bad.faults.front().fault.id == c.id);
  CHECK(bad.faults.front().line == 6);
}

TEST_CASE("template: a given from a row of several values, and data that fit together", "[generators][template]") {
  auto const read = read_templates(
      {{"oven",
        "template oven\nkind hydrate\nlevel plain\nlet salt, waters = one of CuSO4, 5 | MgSO4, 7\nlet part = 8.2 to 19.8 by 0.1\n"
        "given m({salt}) = product of {part} | 0.001 | M({salt}) by 0.01 g\n"
        "given m(H2O) = product of {part} | 0.001 | {waters} | M(H2O) by 0.01 g\nfind formula of the hydrate\n"
        "text\nFrom {m({salt})} and {m(H2O)}: which formula?\nend\n"},
       {"bottle",
        "template bottle\nkind commercial-acid\nlevel plain\nlet acid, percent, density = one of HCl, 37.0, 1.18 | HNO3, 65.0, "
        "1.39\n"
        "given w({acid}) = {percent} %\ngiven rho(solution) = {density} g/mL\nfind c({acid}) in mol/L\n"
        "text\nWhat is the concentration of {w({acid})} {formula {acid}} of {rho(solution)}?\nend\n"}});
  for (auto const& named : read.faults) UNSCOPED_INFO(show(named.fault, named.name));
  REQUIRE(read.templates.size() == 2);
  QuestionMaker maker(read.templates, Course{});
  int copper = 0, chloride = 0;
  for (std::uint32_t seed = 0; seed < 20; ++seed) {
    auto const heated = maker.make(maker.templates()[0], seed);
    REQUIRE(ok(heated));
    bool const is_copper = value(heated).worked.problem.givens.front().quantity.substance == "CuSO4";
    CHECK(value(heated).worked.accepted.front().finds.front().text == (is_copper ? "CuSO4·5H2O" : "MgSO4·7H2O"));
    auto const again = maker.remake(value(heated).code);
    REQUIRE(ok(again));
    CHECK(value(again).text == value(heated).text);
    auto const bottle = maker.make(maker.templates()[1], seed);
    REQUIRE(ok(bottle));
    bool const is_chloride = value(bottle).text.find("HCl") != std::string::npos;
    // 10 x 37.0 x 1.18 / 36.458 = 11.98; 10 x 65.0 x 1.39 / 63.012 = 14.34
    CHECK(value(bottle).worked.accepted.front().finds.front().text == (is_chloride ? "12.0" : "14.3"));
    copper += is_copper ? 1 : 0;
    chloride += is_chloride ? 1 : 0;
  }
  CHECK(copper > 0);
  CHECK(copper < 20);
  CHECK(chloride > 0);
  CHECK(chloride < 20);
}

TEST_CASE("template: numbers keep the digits of their range", "[generators][template]") {
  struct Case {
    std::string range;
    std::uint32_t k, size;
    std::string text;
  };
  auto const c = GENERATE(values<Case>({
      {"20.0 to 50.0 by 0.5", 1, 61, "20.5"},
      {"0.0125 to 0.0895 by 0.0005", 3, 155, "0.0140"},
      {"1 to 9 by 2", 4, 5, "9"},
      {"1.0 to 2.0 by 0.25", 1, 5, "1.25"},    // the step is written finer than the ends
      {"0.10 to 0.15 by 0.02", 2, 3, "0.14"},  // the last is not reached
  }));
  CAPTURE(c.range);
  auto const read = parse_template(with("20.0 to 50.0 by 0.5", c.range));
  REQUIRE(read.read);
  Pick const& pick = read.read->lets[1].pick;
  CHECK(pick.size() == c.size);
  CHECK(range_text(pick, c.k) == c.text);
}

TEST_CASE("template: a limit may be a name, and a number that is put together makes another plan", "[generators][template]") {
  auto const read = parse_template(
      "template t\nkind solubility-product\nlet salt, lead, power, most = one of CaF2, 4., e-11, 3.0e-4 | Ag2CO3, 8., e-12, "
      "2e-4\nlet tail = 1 to 9 by 1\ngiven Ksp({salt}) = {lead}{tail}{power}\nrequire s({salt}) <= {most} mol/L\nfind s({salt}) "
      "in mol/L\ntext\nWhat is s, if Ksp is {Ksp({salt})}?\nend\n");
  for (auto const& fault : read.faults) UNSCOPED_INFO(show(fault, "t"));
  REQUIRE(read.read);
  CHECK_FALSE(read.read->lets[1].number);
  REQUIRE(read.read->requirements.size() == 1);
  CHECK(read.read->requirements[0].bound == "{most}");
  CHECK(parse_template(with("n({salt}) >= 0.002 mol", "n({salt}) >= -0.002 mol")).read);
  auto const unbound = parse_template(with("n({salt}) >= 0.002 mol", "n({salt}) >= {leest} mol"));
  REQUIRE_FALSE(unbound.faults.empty());
  CHECK(unbound.faults.front().fault.id == "unknown-variable");
}

TEST_CASE("template: a quantity of small letters is no name of a let", "[generators][template]") {
  auto const read = parse_template(
      "template t\nkind calorimetry\ngiven m(H2O) = 0.250 kg\ngiven cp = 4.18 J/(g K)\ngiven dT = 11.5 to 24.5 by 0.1 K\nfind q "
      "in "
      "kJ\ntext\nWhat heat warms {m(H2O)} ({cp}) by {dT}?\nend\n");
  for (auto const& fault : read.faults) UNSCOPED_INFO(show(fault, "t"));
  CHECK(read.read);
}

TEST_CASE("template: glassware is what a school has", "[generators][template]") {
  auto const read = parse_template(with("20.0 to 50.0 by 0.5", "any pipette from 5.00 to 50.00"));
  REQUIRE(read.read);
  std::vector<std::vector<std::string>> const sizes{
      {"5.00"}, {"10.00"}, {"20.00"}, {"25.00"}, {"50.00"}};  // ISO 648 nominal volumes
  CHECK(read.read->lets[1].pick.options == sizes);
  auto const flasks = parse_template(with("20.0 to 50.0 by 0.5", "any flask from 100.0 to 500.0"));
  REQUIRE(flasks.read);
  std::vector<std::vector<std::string>> const nominal{{"100.0"}, {"200.0"}, {"250.0"}, {"500.0"}};  // ISO 1042
  CHECK(flasks.read->lets[1].pick.options == nominal);
}

TEST_CASE("template: a set binds its own names", "[generators][template]") {
  auto const read = parse_template(
      "template t\nkind precipitate\nlet reaction = any precipitation\nreaction {reaction}\ngiven n({first}) = 0.10 mol\nexcess "
      "{second}\nfind m({solid}) in g\ntext\nWhat mass of "
      "{name {solid}}?\nend\n");
  for (auto const& fault : read.faults) UNSCOPED_INFO(show(fault, "t"));
  REQUIRE(read.read);
  CHECK(read.read->lets[0].names == std::vector<std::string>{"reaction", "first", "second", "solid", "other"});
}

TEST_CASE("template: faults with their place", "[generators][template]") {
  struct Case {
    std::string what, instead, id, message;
    std::size_t line, column;
  };
  auto const c = GENERATE(values<Case>({
      {"level plain", "level easy", "unknown-level", "unknown level \"easy\", expected plain, standard or stretching", 3, 7},
      {"template jar\n", "", "no-name", "the template has no name, expected template NAME", 1, 1},
      {"kind n-cV\n", "", "no-kind", "the template has no kind, expected kind KIND", 1, 1},
      {"find n({salt}) in mol\n", "", "no-find", "the template asks for nothing, expected find Q in UNIT", 1, 1},
      {"let salt, use = one of KNO3, peas | KCl, beans", "let salt, use = one of KNO3, peas | KCl", "unequal-choices",
       "the choice \"KCl\" does not have one value for each of salt, use, expected 2 values with commas between", 4, 17},
      {"let salt, use = one of", "let salt, use one of", "bad-let", "this let cannot be read, expected '='", 4, 15},
      {"let salt, use = one of KNO3, peas | KCl, beans", "let salt, use = any slat", "unequal-choices", "", 0, 0},
      {"20.0 to 50.0 by 0.5", "20.0 to 50.0", "bad-given", "this given cannot be read, expected \"by\"", 5, 32},
      {"20.0 to 50.0 by 0.5", "50.0 to 20.0 by 0.5", "empty-range",
       "this range holds no number, or more than a million, expected first to last by step", 5, 19},
      {"20.0 to 50.0 by 0.5", "any flask from 3 to 4", "empty-range", "there is no flask of such a size, expected a wider range",
       5, 19},
      {"20.0 to 50.0 by 0.5", "any flsk from 3 to 4", "unknown-set", "unknown set \"flsk\", expected flask", 5, 19},
      {"require n({salt}) >= 0.002", "require n({salt}) = 0.002", "bad-require",
       "this require cannot be read, expected >= or <=", 7, 19},
      {"kind n-cV", "kind n-cV\nwaive school-limit", "", "", 0, 0},
      {"kind n-cV", "kind n-cV\nwaive schol-limit", "unknown-limit",
       "no limit \"schol-limit\" can be waived, expected school-limit", 3, 7},
      {"kind n-cV", "kind n-cV\nwaive rounding-tie", "unknown-limit", "", 3, 7},
      {"0.002 mol", "0.002 mil", "unknown-unit", "", 7, 28},
      {"name {salt}", "name {slat}", "unknown-variable", "{slat} is bound by no let, expected salt", 9, 1},
      {"For {use}: what", "What", "", "", 0, 0},
      {"{V({salt})} of {c({salt})} {name {salt}}?", "{V({salt})}.", "no-question",
       "the text asks no question, expected a question mark, or a word such as Calculate", 9, 1},
      {"end\n", "", "text-not-closed", "the text has no end, expected a line 'end'", 11, 1},
      {"find n(", "fnd n(", "unknown-statement", "unknown statement \"fnd\", expected find", 8, 1},
      {"find n({salt}) in mol", "find n({salt}) in g", "wrong-unit", "", 8, 6},
      {"let salt, use", "let Salt, use", "bad-let", "this let cannot be read, expected a name of small letters", 4, 5},
      {"given c({salt})", "let salt = one of NaCl\ngiven c({salt})", "bound-twice",
       "the name salt is bound twice, expected another name", 6, 5},
      {"kind n-cV", "kind n-cV\nlet spare = one of A | B", "unused-variable", "nothing uses spare", 3, 1},
  }));
  CAPTURE(c.what, c.instead);
  auto const read = parse_template(with(c.what, c.instead));
  if (c.id.empty()) {  // allowed: one name of two may stay unused
    CHECK(read.read);
    return;
  }
  CHECK_FALSE(read.read);
  REQUIRE_FALSE(read.faults.empty());
  PlacedFault const& found = read.faults.front();
  if (c.line == 0) {
    CHECK((found.fault.id == "unknown-set" || found.fault.id == "unequal-choices"));
    return;
  }
  CHECK(found.fault.id == c.id);
  if (!c.message.empty()) CHECK(sentence(found.fault) == c.message);
  CHECK(found.line == c.line);
  CHECK(found.column == c.column);
}

TEST_CASE("template: any bytes are refused without harm", "[generators][template]") {
  for (std::string const& text :
       {std::string(), std::string("\n\n"), std::string("let"), std::string("let x ="), std::string("given"),
        std::string("require /"), std::string("\xff\xfe"), std::string("text\n{{{{"), "let a = one of " + std::string(5000, '|'),
        std::string("given V(" + std::string(400, '(')), std::string("require V") + std::string(2000, '(') + " >= 1"}) {
    auto const read = parse_template(text);
    CHECK_FALSE(read.read);
    CHECK_FALSE(read.faults.empty());
  }
}
