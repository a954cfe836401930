// What is done with marks afterwards: corrections, and the page for the next morning.
#include "tests/app/marked.h"
#include "tests/templates/pdf_reading.h"

using namespace molewright;

namespace {
/// Bo makes a slip in question 1, Ann has all right, Cleo leaves everything out, Dov is absent.
struct Slipped : Marked {
  Slipped() : Marked("one") {
    auto const key = part("Bo Sedge", "1")["slip_key"];
    REQUIRE_FALSE(key.empty());
    entry = key[0];
    write("a.csv", "student,1,2a,2b\n\"Reed, Ann\",right,right,right\nBo Sedge," + entry["answer"].get<std::string>() + ' ' +
                       part("Bo Sedge", "1")["unit"].get<std::string>() + ",right,right\n'=Cleo Rush,,,\n");
    said = run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
    CAPTURE(said.err);
    REQUIRE(said.status == 0);
  }
  Json entry;
  Said said;
};
}  // namespace

TEST_CASE("corrections: the step to do again, with the student's own question and without the answer", "[app][corrections]") {
  Slipped const place;
  auto const text = place.read("o/corrections.txt");
  auto const all = place.marked({"set/set.jsonl", "a.csv"});
  auto const judged = of(all, "Bo Sedge", "1");
  REQUIRE(judged["value"] == "wrong");
  CHECK(text.find("Reed, Ann") == std::string::npos);  // nothing to correct
  CHECK(text.find("@Dov") == std::string::npos);       // absent
  auto const bo = text.substr(text.find("Bo Sedge"), text.find("=Cleo Rush") - text.find("Bo Sedge"));
  CHECK(bo.find("You wrote: " + judged["given"].get<std::string>()) != std::string::npos);
  CHECK(bo.find("Do again: ") != std::string::npos);
  CHECK(bo.find(judged["code"].get<std::string>()) != std::string::npos);
  CHECK(bo.find("marks lost") != std::string::npos);
  CHECK(bo.find(place.part("Bo Sedge", "1")["answer"].get<std::string>()) == std::string::npos);
  auto const cleo = text.substr(text.find("=Cleo Rush"));
  CHECK(cleo.find("You wrote: (nothing)") != std::string::npos);
  CHECK(cleo.find("A good first step") != std::string::npos);
  CHECK(reading::pages_of(reading::PdfFile(place.read("o/corrections.pdf"))).size() >= 2);
}

TEST_CASE("corrections: a formula is asked for as one, and a table stays a table", "[app][corrections]") {
  Workplace place;
  place.write("class.csv", "student\nAnn Reed\n");
  place.write("set.toml",
              "title = \"Feed\"\nclass = \"class.csv\"\nseed = \"m\"\n[[question]]\ntemplate = \"formula-from-three-masses\"\n"
              "[[question]]\ntemplate = \"titre-table\"\n[[question]]\ntemplate = \"three-titres-two-to-one\"\n");
  auto const made = place.run({"set", "set.toml", "--out", "set"});
  CAPTURE(made.err);
  REQUIRE(made.status == 0);
  place.write("a.csv", "student,1,2a,2b,3a,3b\nAnn Reed,NaCl,7.777 mmol,7.777 mol/L,7.777 mL,?!?\n");
  place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  auto const text = place.read("o/corrections.txt");
  CAPTURE(text);
  auto const first = text.substr(0, text.find("Question 2a"));
  CHECK(first.find("answer, with its unit") == std::string::npos);
  CHECK(first.find("Then the answer:\n") != std::string::npos);
  auto const third = text.substr(text.find("Question 3a"));
  CHECK(third.find("Question 3b") == std::string::npos);  // it is still to be read, and nothing is lost yet
  CHECK(third.find("Then the answer, with its unit:\n") != std::string::npos);
  CHECK(text.find('\t') == std::string::npos);
}

TEST_CASE("feedback: new questions on just the slip, with answers that are right", "[app][feedback]") {
  Slipped const place;
  auto const text = place.read("o/feedback.txt");
  std::string const heading = "New questions to practise on\n\nA  ";
  auto const page = text.find("Bo Sedge"), at = text.find(heading, page);
  REQUIRE(at != std::string::npos);
  CHECK(at < text.find("=Cleo Rush"));
  CHECK(text.find(heading) == at);                 // Ann slipped on nothing
  CHECK(text.find(heading, at + 1) == text.npos);  // nothing is known of Cleo, and Dov was not there
  auto const practise = text.find("To practise: ", page);
  CHECK(practise < at);
  CHECK(text.substr(practise, at - practise).find("question A") != std::string::npos);
  auto const begin = at + heading.size();
  auto const code = text.substr(begin, text.find('\n', begin) - begin);
  auto const answers = text.find("Answers, for when you have finished: A: ", begin), equals = text.find(" = ", answers) + 3;
  REQUIRE(answers != std::string::npos);
  auto const answer = text.substr(equals, text.find('\n', equals) - equals);
  auto const said = place.run({"explain", code, answer, "--json"});
  CAPTURE(code, answer, said.out, said.err);
  CHECK(Json::parse(said.out)["value"] == "right");
}

TEST_CASE("next morning: one page, wrong workings without a name, pairs and a starter", "[app][morning]") {
  Slipped const place;
  auto const text = place.read("o/next-morning.txt");
  auto const pairs = text.find("Who might sit with whom");
  REQUIRE(pairs != std::string::npos);
  auto const above = text.substr(0, pairs);
  for (char const* name : {"Reed, Ann", "Bo Sedge", "Cleo", "Dov"}) {
    CAPTURE(name);
    CHECK(above.find(name) == std::string::npos);
  }
  CHECK(above.find("(1 of 3)") != std::string::npos);
  CHECK(above.find("wrong: ") != std::string::npos);
  CHECK(text.find("* Bo Sedge with Reed, Ann (") != std::string::npos);
  CHECK(text.find("Free to help or to work on: =Cleo Rush.") != std::string::npos);
  CHECK(text.find("Ten-minute starter") != std::string::npos);
  CHECK(text.find("Answers: 1: ") != std::string::npos);
  CHECK(reading::pages_of(reading::PdfFile(place.read("o/next-morning.pdf"))).size() == 1);
}

TEST_CASE("next morning: nothing went wrong", "[app][morning]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,right,right\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
  CHECK(place.read("o/next-morning.txt").find("No slip was found") != std::string::npos);
  CHECK(place.read("o/corrections.txt") == "Nobody lost a mark: there is nothing to correct.\n");
  CHECK(reading::pages_of(reading::PdfFile(place.read("o/corrections.pdf"))).size() == 1);
}
