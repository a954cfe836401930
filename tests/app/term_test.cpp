// term: a page a student across several sets.
#include "tests/app/marked.h"
#include "tests/templates/pdf_reading.h"

using namespace molewright;

TEST_CASE("term: pages from the folders of two sets", "[app][term]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,right,right\n\"Reed, Ann\",,,\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "m1"}).status == 0);
  place.write("b.csv", "student,1,2a,2b\nBo Sedge,absent,absent,absent\n\"Reed, Ann\",right,right,\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "b.csv", "--out", "m2"}).status == 0);
  auto const said = place.run({"term", "m1", "m2/marks.jsonl", "--out", "t"});
  CHECK(said.status == 0);
  CHECK(said.out == "A page each for 4 students: t/term.pdf\n");
  auto const text = place.read("t/term.txt");
  auto const bo = text.substr(text.find("Bo Sedge"), text.find("=Cleo Rush") - text.find("Bo Sedge"));
  CHECK(bo.find("(100 %)") != std::string::npos);
  CHECK(bo.find("* Feed: not there") != std::string::npos);
  CHECK(reading::pages_of(reading::PdfFile(place.read("t/term.pdf"))).size() == 4);
  auto const lines = lines_of(place.run({"term", "m1", "m2", "--json"}).out);
  REQUIRE(lines.size() == 4);
  auto const ann = Json::parse(lines[0]);
  CHECK(ann["student"] == "Reed, Ann");
  CHECK(ann["sets"].size() == 2);
  CHECK(ann["sets"][0]["marks"] == 0);
}

TEST_CASE("term: files that are no marks are named, the rest is done", "[app][term][bad-input]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,right,right\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "m"}).status == 0);
  auto const said = place.run({"term", "set/set.jsonl", "m", "none"});
  CHECK(said.status == 1);
  CHECK(said.err ==
        "set/set.jsonl:1:1: these are no marks, expected the marks.jsonl of a class, or the folder that holds it\n"
        "none:1:1: cannot be read: No such file or directory\n");
  CHECK(said.out.find("Bo Sedge") != std::string::npos);
  CHECK(place.run({"term"}).status == 2);
}
