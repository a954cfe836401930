// explain: an answer to a question by its code, or to a problem of one's own.
#include "tests/app/program.h"

using namespace molewright;

namespace {
std::string const two_problems =
    "problem stock\ngiven c(MgSO4) = 0.150 mol/L\ngiven V(MgSO4) = 500.0 mL\nfind m(MgSO4·7H2O) in g marks 3\ntext\n  Weigh "
    "{name "
    "MgSO4·7H2O} for {V(MgSO4)}.\nend\n"
    "problem feed\nreaction NaCl(aq) + AgNO3(aq) -> AgCl(s) + NaNO3(aq)\ngiven V(NaCl) = 250.0 mL\ngiven c(NaCl) = 4.20 mmol/L\n"
    "excess AgNO3\nfind n(NaCl) in mol\nfind m(AgCl) in g\n";

struct Tutor : Workplace {
  Tutor() {
    write("own.problem", two_problems);
    write("set.toml",
          "title = \"x\"\nversions = 1\nseed = \"e\"\n[[question]]\nkind = \"mass-from-amount\"\n[[question]]\nproblem = "
          "\"one.problem\"\n");
    write("one.problem", "problem a\ngiven V(HCl) = 20.0 mL\ngiven c(HCl) = 0.100 mol/L\nfind n(HCl) in mol\n");
    REQUIRE(run({"set", "set.toml", "--out", "set"}).status == 0);
    auto const lines = lines_of(read("set/set.jsonl"));
    question = Json::parse(lines.at(1));
    own = Json::parse(lines.at(2));
  }
  Json question, own;
};
}  // namespace

TEST_CASE("explain: a code and an answer, JSON of the contract", "[app][explain]") {
  Tutor place;
  auto const part = place.question["parts"][0];
  auto const code = place.question["code"].get<std::string>();
  auto const right = part["answer"].get<std::string>() + ' ' + part["unit"].get<std::string>();
  auto const said = place.run({"explain", code, right, "--json"});
  CHECK(said.status == 0);
  CHECK(said.err.empty());
  auto const json = Json::parse(said.out);
  CHECK(keys_of(json) == std::vector<std::string>{"student", "question", "part", "code", "given", "correct", "marks", "out_of",
                                                  "value", "unit", "significant_figures", "candidates", "feedback",
                                                  "marks_given"});
  CHECK(json["code"] == code);
  CHECK(json["value"] == "right");
  CHECK(json["unit"] == "right");
  CHECK(json["given"] == right);
  CHECK(json["candidates"].empty());

  // The code as a person types it, and an answer that a slip gives.
  REQUIRE_FALSE(part["slip_key"].empty());
  std::string typed = code.substr(0, 4) + '-' + code.substr(4, 4) + ' ' + code.substr(8);
  for (char& c : typed) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  auto const wrong = place.run(
      {"explain", typed, part["slip_key"][0]["answer"].get<std::string>() + ' ' + part["unit"].get<std::string>(), "--json"});
  auto const slip = Json::parse(wrong.out);
  CHECK(slip["value"] == "wrong");
  REQUIRE_FALSE(slip["candidates"].empty());
  CHECK(slip["candidates"][0]["slips"][0]["id"] == part["slip_key"][0]["ids"][0]);
}

TEST_CASE("explain: text that is read aloud, whole", "[app][explain]") {
  Tutor place;
  auto const said = place.run({"explain", "--problem", "own.problem", "9.03 g"});
  CHECK(said.status == 0);
  // 0.0750 mol × 120.361 g/mol = 9.03 g: the salt without its water, by hand.
  std::string const expected =
      "Weigh magnesium sulfate heptahydrate for 500.0 mL.\n"
      "\n"
      "Answer: 9.03 g\n"
      "Right answer: 18.5 g\n"
      "The answer is not right. Marks: 0 of 3 (2 if you accept the working up to the slip).\n"
      "\n"
      "Working:\n"
      "    V(MgSO₄) = 500.0 mL = 0.5000 L\n"
      "    n(MgSO₄) = c(MgSO₄) × V(MgSO₄) = 0.150 mol/L × 0.5000 L = 0.0750 mol [mol/L × L = mol: L cancels]\n"
      "    n(MgSO₄·7H₂O) = n(MgSO₄) = 0.0750 mol: each formula unit of MgSO₄·7H₂O holds one of MgSO₄.\n"
      " >> M(MgSO₄·7H₂O) = 24.305 + 32.06 + 4 × 15.999 + 7 × (2 × 1.0080 + 15.999) = 246.466 g/mol\n"
      "    m(MgSO₄·7H₂O) = n(MgSO₄·7H₂O) × M(MgSO₄·7H₂O) = 0.0750 mol × 246.466 g/mol = 18.485 g [mol × g/mol = g: mol cancels]\n"
      "    m(MgSO₄·7H₂O) = 18.5 g\n"
      " >> is the step where the likeliest cause below lies.\n"
      "\n"
      "What may have happened, likeliest first:\n"
      " >99 %  water of crystallisation left out: 120.361 g/mol for 246.466 g/mol (M(MgSO₄·7H₂O))\n"
      "\n"
      "To the student: ";
  auto plain = said.out;  // a number is never parted from its unit: no-break blanks
  for (auto at = plain.find("\u00A0"); at != std::string::npos; at = plain.find("\u00A0")) plain.replace(at, 2, " ");
  CHECK(plain.substr(0, expected.size()) == expected);
}

TEST_CASE("explain: a line that is a step of another accepted working earns its mark", "[app][explain]") {
  // By the amount: n = 0.295 x 0.0775 = 0.02286 mol, in 367.5 mL, 0.0622 mol/L; printed is c1V1 = c2V2.
  Workplace place;
  place.write("mixed.problem",
              "problem mixed\ngiven c1(Na2SO4) = 0.295 mol/L\ngiven V1(Na2SO4) = 77.5 mL\ngiven V(H2O, added) = 290.0 mL\n"
              "find c2(Na2SO4) in mol/L\n");
  for (std::string const lines :
       {"n = 0.295 × 0.0775 = 0.02286 mol", "n = 0.295 × 0.0775 = 0.02286 mol; c2 = 0.02286/0.290 = 0.0788 mol/L"}) {
    auto const said = place.run({"explain", "--problem", "mixed.problem", "0.0789 mol/L", "--working", lines, "--json"});
    CAPTURE(said.out, said.err);
    auto const json = Json::parse(said.out);
    CHECK(json["lines"][0]["value"] == "right");
    CHECK(json["out_of"] == 2);
    CHECK(json["marks"] == 1);
  }
}

TEST_CASE("explain: lines of working are judged and earn marks", "[app][explain]") {
  // n(NaCl) = 0.00420 x 0.2500 = 0.00105 mol, m(AgCl) = 0.150 g; 0.00210 mol would be twice that, m = 0.301 g.
  Tutor place;
  std::vector<std::string> const asked{
      "explain", "--problem", "own.problem", "--id",      "feed",
      "--part",  "b",         "0.301 g",     "--working", "n(AgCl) = 0.00210 mol; m(AgCl) = 0.301 g"};
  auto arguments = asked;
  arguments.push_back("--json");
  auto const json = Json::parse(place.run(arguments).out);
  REQUIRE(json["lines"].size() == 2);
  CHECK(json["lines"][0] == Json{{"text", "n(AgCl) = 0.00210 mol"}, {"value", "departs"}, {"node", "n(AgCl)"}});
  CHECK(json["lines"][1]["value"] == "follow-through");
  int sum = 0;
  for (auto const& one : json["marks_given"]) sum += one["marks"].get<int>();
  CHECK(sum == json["marks"]);
  CHECK(sum > 0);
  CHECK(json["marks_given"].back()["why"] == "follow-through");
  auto const text = place.run(asked).out;
  CAPTURE(text);
  CHECK(text.find(
            "The lines handed in:\n    n(AgCl) = 0.00210 mol  (here it departs)\n    m(AgCl) = 0.301 g  (follows from the line "
            "that went astray)\n") != std::string::npos);
  CHECK(text.find("    0 of 1 for n(AgCl)  (not right)\n") != std::string::npos);
}

TEST_CASE("explain: a step of an earlier part is printed and marked where the likeliest cause lies there", "[app][explain]") {
  Tutor place;
  auto const explained = [&](char const* answer) {
    return place.run({"explain", "--problem", "own.problem", "--id", "feed", answer, "--part", "b"}).out;
  };
  // n = 4.20 mmol/L × 0.2500 L = 0.00105 mol, m = 0.00105 × 143.32 = 0.1505 g; a change of unit left out makes it 150.5 g.
  auto const earlier = explained("150.5 g");
  INFO(earlier);
  CHECK(earlier.find("Working:\n >> in part (a): ") != std::string::npos);
  CHECK(earlier.find(" >> is the step where the likeliest cause below lies.") != std::string::npos);
  // Divided by the molar mass, 7.326e-6 g: the step is one of this part.
  auto const own = explained("0.000007326 g");
  INFO(own);
  CHECK(own.find("in part (a)") == std::string::npos);
  CHECK(own.find(" >> m(AgCl) = ") != std::string::npos);
}

TEST_CASE("explain: what to ask the student, and a fresh question that says it", "[app][explain]") {
  Tutor place;
  auto const own = [&](std::vector<std::string> more) {
    std::vector<std::string> arguments{"explain", "--problem", "own.problem", "9.03 g"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return place.run(arguments);
  };
  // Without its water the salt has 120.361 g/mol; with it 246.466 g/mol.
  auto said = own({}).out;
  for (auto at = said.find("\u00A0"); at != std::string::npos; at = said.find("\u00A0")) said.replace(at, 2, " ");
  INFO(said);
  auto const asked = said.find("\nTo be surer, ask: What did you get for M(MgSO₄·7H₂O)?\n");
  REQUIRE(asked != std::string::npos);
  CHECK(said.find("    246.47 g/mol, which is right: it went astray after this step\n"
                  "    120.36 g/mol: water of crystallisation left out\n"
                  "    anything else: it went astray here or before\n",
                  asked) != std::string::npos);
  CHECK(said.find("fresh question") == std::string::npos);

  auto const next = own({"--next"});
  CHECK(next.status == 0);
  CHECK(next.out.find("\nA fresh question that shows which it was:\n") != std::string::npos);
  CHECK(next.out.find("water of crystallisation left out\n", next.out.find("fresh question")) != std::string::npos);

  auto const json = Json::parse(own({"--next", "--json"}).out);
  CHECK(json["ask"]["node"] == "M(MgSO4·7H2O)");
  CHECK(json["ask"]["replies"][1]["slips"][0][0] == "hydrate-water-forgotten");
  CHECK(json["next"]["all_apart"] == true);
  CHECK(json["next"]["wrong"][0]["slips"][0] == "hydrate-water-forgotten");
  CHECK_FALSE(json["next"].contains("code"));  // it could not be made again

  auto const by_code = Json::parse(place.run({"explain", place.question["code"], "7.7777", "--next", "--json"}).out);
  CHECK(by_code["next"]["code"] != place.question["code"]);
  CHECK(Json::parse(own({"--json"}).out).contains("next") == false);
  auto const right = Json::parse(place.run({"explain", "--problem", "own.problem", "18.5 g", "--json"}).out);
  CHECK_FALSE(right.contains("ask"));
}

TEST_CASE("explain: a fresh question where no cause stands out, and where the problem is stronger than schools keep to",
          "[app][explain]") {
  Workplace place;
  place.write("silver.problem",
              "problem silver\nreaction AgNO3 + NaCl -> AgCl + NaNO3\ngiven c(AgNO3) = 0.150 mol/L\ngiven V(AgNO3) = 25.0 mL\n"
              "excess NaCl\nfind m(AgCl) in g\n");
  auto const as_mass = place.run({"explain", "--problem", "silver.problem", "0.00375 g", "--next"});
  INFO(as_mass.out << as_mass.err);
  CHECK(as_mass.out.find("\nA fresh question that shows which it was:\n") != std::string::npos);
  CHECK(as_mass.out.find("amount in mol given as the mass\n", as_mass.out.find("What they hand in says it:")) !=
        std::string::npos);
  auto const senseless = place.run({"explain", "--problem", "silver.problem", "77.1 g", "--next"}).out;
  CHECK(senseless.find("\nA fresh question of the same kind:\n") != std::string::npos);
  CHECK(senseless.find("says it") == std::string::npos);
}

TEST_CASE("explain: a problem without words begins with its title, or with the answer", "[app][explain]") {
  Workplace place;
  std::string const given = "given V(HCl) = 20.0 mL\ngiven c(HCl) = 0.100 mol/L\nfind n(HCl) in mol\n";
  place.write("titled.problem", "problem a\ntitle Rinse\n" + given);
  place.write("bare.problem", "problem a\n" + given);
  CHECK(place.run({"explain", "--problem", "titled.problem", "0.00200 mol"}).out.rfind("Rinse\n\nAnswer: 0.00200 mol\n", 0) == 0);
  CHECK(place.run({"explain", "--problem", "bare.problem", "0.00200 mol"}).out.rfind("Answer: 0.00200 mol\n", 0) == 0);
}

TEST_CASE("explain: which problem, which part", "[app][explain]") {
  Tutor place;
  auto const part_of = [&](std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), {"explain", "--problem", "own.problem", "--id", "feed", "--json"});
    return Json::parse(place.run(arguments).out)["part"].get<std::string>();
  };
  CHECK(part_of({"0.00105 mol"}) == "a");
  CHECK(part_of({"0.150 g"}) == "b");  // the part of which it is right
  CHECK(part_of({"0.150"}) == "b");
  CHECK(part_of({"1720 g"}) == "b");  // the part in whose unit it could stand
  CHECK(part_of({"1720"}) == "a");    // nothing says: the first
  CHECK(part_of({"1720 g", "--part", "a"}) == "a");
  CHECK(part_of({""}) == "a");
}

TEST_CASE("explain: codes and answers at fault, the exact text", "[app][explain][bad-input]") {
  Tutor place;
  auto const code = place.question["code"].get<std::string>();
  auto mistyped = code;
  mistyped[5] = mistyped[5] == 'B' ? 'C' : 'B';
  auto const typo = place.run({"explain", mistyped, "1 g"});
  CHECK(typo.status == 1);
  CHECK(typo.out.empty());
  CHECK(typo.err.rfind("argument 1:1:1: the code is mistyped: its last character does not fit the others", 0) == 0);
  CHECK(lines_of(typo.err).at(0).find(code) != std::string::npos);  // what was meant

  auto const short_one = place.run({"explain", "H97ZC", "1 g"});
  CHECK(short_one.status == 1);
  CHECK(short_one.err ==
        "argument 1:1:6: not a question code, expected 12 characters out of BCDFGHJKMNPQRTVWXYZ3479\n  H97ZC\n       ^\n");

  place.write("whole.toml", "atomic_weights = \"whole\"\n");
  auto const other_course = place.run({"explain", code, "1 g", "--course", "whole.toml"});
  CHECK(other_course.status == 1);
  CHECK(other_course.err ==
        "argument 1:1:1: the code was given out under another course setting, expected atomic_weights = \"abridged\"\n  " + code +
            "\n  ^\n");

  auto const letter = place.run({"explain", code, "A"});
  CHECK(letter.status == 1);
  CHECK(
      letter.err ==
      "argument 2:1:1: a letter has a meaning on the marking card of its set only, expected the answer that the student wrote\n  "
      "A\n  ^\n");
  auto const part = place.run({"explain", code, "1 g", "--part", "c"});
  CHECK(part.status == 1);
  CHECK(part.err == "--part:1:1: this question has no part \"c\", expected no --part: it has one answer\n  c\n  ^\n");
  auto const parts = place.run({"explain", "--problem", "own.problem", "--id", "feed", "--part", "c", "1 g"});
  CHECK(parts.err == "--part:1:1: this question has no part \"c\", expected a or b\n  c\n  ^\n");

  CHECK(place.run({"explain", "--problem", "none.problem", "1 g"}).err ==
        "none.problem:1:1: cannot be read: No such file or directory\n");
  auto const id = place.run({"explain", "--problem", "own.problem", "--id", "fed", "1 g"});
  CHECK(id.err == "own.problem:1:1: there is no problem \"fed\" in this file, expected feed\n");
  CHECK(id.status == 1);

  // A code of a teacher's own problem cannot be made again.
  auto const own = place.run({"explain", place.own["code"].get<std::string>(), "1 g"});
  CHECK(own.status == 1);
  CHECK(own.out.empty());
}
