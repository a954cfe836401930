// mark, again and with more: what changed is said, marks given by hand are kept, late scripts join, codes stand for names.
#include "tests/app/marked.h"
#include "tests/templates/pdf_reading.h"
#include "tests/templates/workbook_reading.h"

using namespace molewright;

namespace {
std::vector<Json> judgements(Workplace const& place, std::string const& folder) {
  std::vector<Json> out;
  auto const lines = lines_of(place.read(folder + "/marks.jsonl"));
  for (std::size_t i = 1; i < lines.size(); ++i) out.push_back(Json::parse(lines[i]));
  return out;
}
bool has(std::string const& text, std::string const& part) { return text.find(part) != std::string::npos; }
}  // namespace

TEST_CASE("mark again: a changed course says whose marks changed", "[app][mark][again]") {
  Marked place;
  auto const bare = place.part("Bo Sedge", "1")["answer"].get<std::string>();
  auto const all = place.part("Bo Sedge", "1")["marks"].get<int>();
  REQUIRE(all > 1);
  place.write("a.csv", "student,1,2a,2b\nBo Sedge," + bare + ",right,right\n\"Reed, Ann\",right,right,right\n");
  auto const first = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK_FALSE(has(first.out, "since the last marking"));
  auto const same = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(has(same.out, "\nNo mark has changed since the last marking.\n"));
  place.write("soft.toml", "units = \"not judged\"\nfigures = \"not judged\"\n");
  auto const soft = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o", "--course", "soft.toml"});
  CHECK(soft.status == 0);
  CHECK(has(soft.out, "\nChanged since the last marking:\n  Bo Sedge, 1: " + std::to_string(all - 1) + " before, " +
                          std::to_string(all) + " now\n"));
  CHECK_FALSE(has(soft.out, "Reed, Ann, "));
  CHECK(of(judgements(place, "o"), "Bo Sedge", "1")["marks_before"] == all - 1);
  CHECK_FALSE(of(judgements(place, "o"), "Reed, Ann", "1").contains("marks_before"));
}

TEST_CASE("mark again: marks given by hand are kept, in whichever way they were given", "[app][mark][again]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,no idea,right\n");
  auto const table = GENERATE(true, false);
  CAPTURE(table);
  auto const most = place.part("Bo Sedge", "2a")["marks"].get<int>();
  if (table) {  // altered in marks.csv
    REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
    auto marks = place.read("o/marks.csv");
    auto const at = marks.find("Bo Sedge,") + 9;
    std::string const not_marked = "not marked";
    marks.replace(marks.find(not_marked, at), not_marked.size(), std::to_string(most));
    place.write("o/marks.csv", marks);
  } else {  // in a file of marks beside the answers
    place.write("b.csv", "student,question,answer,marks\nBo Sedge,2a,," + std::to_string(most) + "\n");
    REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "b.csv", "--out", "o"}).status == 0);
  }
  for (int round = 0; round < 2; ++round) {  // and once more from what was kept
    auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
    CHECK(said.status == 0);
    auto const kept = of(judgements(place, "o"), "Bo Sedge", "2a");
    CHECK(kept["marks"] == most);
    CHECK(kept["by_hand"] == true);
    if (table && round == 0)
      CHECK(has(said.out, "  Bo Sedge, 2a: not marked before, " + std::to_string(most) + " now (by hand)\n"));
    else
      CHECK(has(said.out, "No mark has changed"));
  }
}

TEST_CASE("mark again: a cell of marks.csv that is no mark is named", "[app][mark][again][bad-input]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,no idea,right\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
  place.write("o/marks.csv", "student,1,2a,2b\nBo Sedge,,99,\n");
  auto const most = std::to_string(place.part("Bo Sedge", "2a")["marks"].get<int>());
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.status == 1);
  CHECK(said.err == "o/marks.csv:2:11: \"99\" is not a mark for part 2a, expected a whole number from 0 to " + most +
                        "\n  Bo Sedge,,99,\n            ^\n");
  CHECK(of(judgements(place, "o"), "Bo Sedge", "2a")["marks"] == 0);
}

TEST_CASE("mark again: the marks of another set in the folder are left alone", "[app][mark][again]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,right,right\n");
  place.write("o/marks.jsonl", "{\"format\":\"molewright-marks/1\",\"title\":\"Another\"}\n" +
                                   Json{{"student", "Bo Sedge"},
                                        {"question", "1"},
                                        {"part", ""},
                                        {"code", ""},
                                        {"given", ""},
                                        {"correct", ""},
                                        {"marks", 0},
                                        {"out_of", 1},
                                        {"value", "blank"},
                                        {"unit", "not-judged"},
                                        {"significant_figures", "not-judged"},
                                        {"candidates", Json::array()},
                                        {"feedback", ""},
                                        {"by_hand", true}}
                                       .dump() +
                                   "\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.status == 0);
  CHECK_FALSE(has(said.out, "since the last marking"));
  CHECK_FALSE(of(judgements(place, "o"), "Bo Sedge", "1").contains("by_hand"));
}

TEST_CASE("mark: a late script joins, and the others' judgements stay byte for byte", "[app][mark][again]") {
  Marked place;
  place.write("a.csv",
              "student,1,2a,2b\nBo Sedge," + place.right("Bo Sedge", "1") + ",no idea,7 g\n\"Reed, Ann\",absent,absent,absent\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
  auto const before = lines_of(place.read("o/marks.jsonl"));
  place.write("late.csv", "student;1;2a;2b\nReed, Ann;right;right;\nBo Sedge;;;\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "late.csv", "--out", "o"});
  CHECK(said.status == 0);
  CHECK(has(said.out, "Changed since the last marking:\n  Reed, Ann: not marked before, "));
  auto const after = lines_of(place.read("o/marks.jsonl"));
  REQUIRE(after.size() == before.size());
  for (std::size_t i = 0; i < after.size(); ++i)
    if (!has(after[i], "Reed, Ann")) CHECK(after[i] == before[i]);
  CHECK(of(judgements(place, "o"), "Reed, Ann", "1")["value"] == "right");
  CHECK(of(judgements(place, "o"), "Reed, Ann", "2b")["value"] == "blank");
}

TEST_CASE("mark: a late script by itself joins what was marked before, and nothing is lost", "[app][mark][again]") {
  Marked place;
  auto const bo = place.right("Bo Sedge", "1"), cleo = place.right("=Cleo Rush", "1");
  struct Case {
    std::string late, said, bo, cleo, ann;  ///< and what part 1 of each is worth then
  };
  std::string const
      kept = "The answers of 2 students that were marked before stand in none of these files: they are kept as they were.\n",
      kept_one = "The answers of 1 student that were marked before stand in none of these files: they are kept as they were.\n";
  auto const c = GENERATE_COPY(values<Case>({
      {"student,1,2a,2b\n\"Reed, Ann\",right,right,\n", kept, "right", "right", "right"},
      {"student,1,2a,2b\n\"Reed, Ann\",right,right,\nBo Sedge,,,\n=Cleo Rush,,,\n", kept, "right", "right",
       "right"},                                                                                         // all to fill
      {"student,2a,2b\n\"Reed, Ann\",right,right\nBo Sedge,right,\n", kept, "right", "right", "blank"},  // without a column
      {"student,question,answer\nBo Sedge,1,7 g\nBo Sedge,2a,\nBo Sedge,2b,\n", kept_one, "wrong", "right",
       "absent"},  // put right
      {"student,1,2a,2b\nBo Sedge,absent,absent,absent\n", kept_one, "absent", "right", "absent"},
      {"student,1,2a,2b\nBo Sedge,,right,\n=Cleo Rush,7 g,,\n", "", "blank", "wrong", "absent"},
      {"student,question,answer,marks\nBo Sedge,2a,,1\n", kept, "right", "right", "absent"},  // a mark given by hand
  }));
  CAPTURE(c.late);
  place.write("a.csv", "student,1,2a,2b\nBo Sedge," + bo + ",\"no idea, \"\"sorry\"\"\",7 g\n=Cleo Rush," + cleo +
                           ",right,\n@Dov,absent,,\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
  auto const before = judgements(place, "o");
  place.write("late.csv", c.late);
  auto const said = place.run({"mark", "set/set.jsonl", "late.csv", "--out", "o"});
  CHECK(said.status == 0);
  CHECK(said.err.find(c.said) != std::string::npos);
  CHECK(has(said.err, "kept as they were") == !c.said.empty());
  auto const after = judgements(place, "o");
  CHECK(of(after, "Bo Sedge", "1")["value"] == c.bo);
  CHECK(of(after, "=Cleo Rush", "1")["value"] == c.cleo);
  CHECK(of(after, "Reed, Ann", "1")["value"] == c.ann);
  CHECK(of(after, "@Dov", "1")["value"] == "absent");
  if (c.said == kept)
    for (auto const* column : {"1", "2a", "2b"}) CHECK(of(after, "=Cleo Rush", column) == of(before, "=Cleo Rush", column));
}

TEST_CASE("mark: what stands beside a kept answer is kept with it", "[app][mark][again]") {
  Workplace place;
  place.write("class.csv", "student\nAnn Reed\nBo Sedge\n");
  place.write(
      "own.problem",
      "problem own\nreaction HCl + NaOH -> NaCl + H2O\ngiven V(NaOH) = 25.00 mL\ngiven c(HCl) = 0.1000 mol/L\ngiven V(HCl) "
      "= measured about 24.60 mL\nfind c(NaOH) in mol/L marks 3\ntext\nTitrate {V(NaOH)} with {c(HCl)} HCl. Find "
      "c(NaOH).\nend\n");
  place.write("set.toml", "title = \"T\"\nclass = \"class.csv\"\n[[question]]\nproblem = \"own.problem\"\n");
  auto const made = place.run({"set", "set.toml", "--out", "set"});
  CAPTURE(made.err);
  REQUIRE(made.status == 0);
  place.write(
      "a.csv",
      "student,question,answer,working,measured\nAnn Reed,1,0.0992 mol/L,\"n = 0.00248 mol\nn(NaOH) = 0.00248 mol\",24.80 mL\n");
  place.write("b.csv", "student,question,answer,measured\nBo Sedge,1,0.1000 mol/L,25.00 mL\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
  CHECK(of(judgements(place, "o"), "Ann Reed", "1")["value"] == "right");
  REQUIRE(place.run({"mark", "set/set.jsonl", "b.csv", "--out", "o"}).status == 0);
  auto const ann = of(judgements(place, "o"), "Ann Reed", "1");
  CHECK(ann["value"] == "right");
  CHECK(ann["measured"] == "24.80 mL");
  CHECK(ann["working"] == "n = 0.00248 mol;n(NaOH) = 0.00248 mol");
}

TEST_CASE("mark: a long cell is kept whole", "[app][mark][again]") {
  Marked place;
  auto const bo = place.right("Bo Sedge", "1");
  std::string const lines(300, ' ');
  place.write("a.csv", "student,question,answer\nBo Sedge,1,\"" + bo + lines + "I am not sure of it\"\n");
  place.write("late.csv", "student,question,answer\n\"Reed, Ann\",1,right\n");
  place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  auto const before = of(judgements(place, "o"), "Bo Sedge", "1");
  place.run({"mark", "set/set.jsonl", "late.csv", "--out", "o"});
  CHECK(of(judgements(place, "o"), "Bo Sedge", "1") == before);
  CHECK(before["cell"].get<std::string>().size() > 300);
}

TEST_CASE("mark: two files that say different things", "[app][mark][again][bad-input]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,,\n");
  place.write("b.csv", "student,1,2a,2b\n\nBo Sedge,7 g,right,right\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "b.csv", "--json"});
  CHECK(said.status == 1);
  CHECK(said.err ==
        "b.csv:3:10: question 1 of \"Bo Sedge\" has another answer in another file, expected one answer; the first is marked\n"
        "  Bo Sedge,7 g,right,right\n           ^\n1 row or cell could not be marked.\n");
  CHECK(Json::parse(lines_of(said.out).at(3))["given"] == "right");
}

TEST_CASE("mark: a folder of single students' files", "[app][mark]") {
  Marked place;
  place.write("in/Bo Sedge.csv", "question,answer\n1," + place.right("Bo Sedge", "1") + "\n2a,right\n");
  place.write("in/other.csv", "student,question,answer\n\"Reed, Ann\",1,right\n");
  place.write("in/Una Sallow.csv", "question,answer\n1,right\n");
  place.write("in/.hidden.csv", "nonsense");
  place.write("in/picture.png", "nonsense");
  auto const said = place.run({"mark", "set/set.jsonl", "in", "--out", "o"});
  CHECK(said.status == 1);
  CHECK(said.err ==
        "in/Una Sallow.csv:2:1: \"Una Sallow\" has no paper in this set, expected a name of the class\n  1,right\n  ^\n"
        "1 row or cell could not be marked.\n");
  auto const all = judgements(place, "o");
  CHECK(of(all, "Bo Sedge", "1")["value"] == "right");
  CHECK(of(all, "Bo Sedge", "2b")["value"] == "blank");
  CHECK(of(all, "Reed, Ann", "1")["value"] == "right");
  place.write("empty/readme.md", "");
  auto const none = place.run({"mark", "set/set.jsonl", "empty"});
  CHECK(none.status == 1);
  CHECK(none.err == "empty:1:1: no answers are in this folder, expected files that end in .csv, .tsv or .txt\n");
}

TEST_CASE("mark: with --anonymous no name stands in anything that is written", "[app][mark][anonymous]") {
  auto const versions = GENERATE(as<std::string>{}, "each", "one");
  CAPTURE(versions);
  Marked place(versions);
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,7 g,\n\"Reed, Ann\",right,right,right\nUna Sallow,right,right,right\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o", "--anonymous"});
  CHECK(said.status == 1);  // Una is of another class
  std::string all = said.out;
  for (auto const& [name, bytes] : place.all("o")) {
    if (has(name, ".pdf"))
      all += reading::output_of("pdftotext " + reading::PdfFile(bytes).quoted() + " -");
    else if (has(name, ".xlsx"))
      for (auto const& [cell, holds] : reading::cells_of(bytes)) all += holds;
    else
      all += bytes;
  }
  for (char const* name : {"Sedge", "Reed", "Cleo", "Dov", "Sallow"}) {
    CAPTURE(name);
    CHECK_FALSE(has(all, name));
  }
  CHECK(has(all, "a.csv:4: unknown-student"));
  auto const judged = judgements(place, "o");
  CHECK(judged.size() == 12);
  if (versions == "each") {  // the code of the first question on the own sheet
    auto const own = place.lines.at(3)["code"].get<std::string>();
    CHECK(place.lines.at(3)["student"] == "Bo Sedge");
    CHECK(of(judged, own, "1")["value"] == "right");
  }
  auto const again = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o", "--anonymous"});
  CHECK(has(again.out, "No mark has changed"));
}

namespace {
/// A problem of the teacher's own, put to three students as two versions, with a given that is to be corrected.
struct Corrected : Workplace {
  static std::string problem(std::string const& concentration) {
    return "problem feed\nreaction NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(l)\ngiven c(NaOH) = " + concentration +
           "\ngiven V(NaOH) = 25.00 mL\ngiven V(HCl) = 20.00 mL\nfind c(HCl) in mol/L\ntext\n"
           "  25.00 mL of sodium hydroxide solution took 20.00 mL of acid. How concentrated is the acid?\nend\n";
  }
  Corrected() {
    write("class.csv", "student\nAda Marsh\nBo Sedge\nCleo Rush\nDov Hale\n");
    write("own.problem", problem("0.1000 mol/L"));
    write("set.toml",
          "title = \"Feed\"\nclass = \"class.csv\"\nversions = 1\n[[question]]\nproblem = \"own.problem\"\n[[question]]\nkind = "
          "\"dilution\"\n");
    REQUIRE(run({"set", "set.toml", "--out", "set"}).status == 0);
  }
  Json of_student(std::string const& student, std::string const& question = "1") const {
    return of(judgements(*this, "o"), student, question);
  }
};
}  // namespace

TEST_CASE("mark again: a corrected key is one command, and it says whose marks changed", "[app][mark][again][key]") {
  Corrected place;  // 0.1000 x 25.00/20.00 = 0.1250 on the card; the bottle held 0.0800 mol/L: 0.1000
  auto const letter = [&] {
    for (auto const& line : lines_of(place.read("set/set.jsonl")))
      if (auto const json = Json::parse(line); json.contains("parts") && json["number"] == "1")
        for (auto const& entry : json["parts"][0]["slip_key"])
          if (entry["answer"] == "0.0800") return entry["letter"].get<std::string>();
    return std::string("-");
  }();
  place.write("a.csv",
              "student,1,2\nAda Marsh,0.1000 mol/L,right\nBo Sedge,0.1250 mol/L,right\nCleo Rush,\xE2\x9C\x93,right\nDov Hale," +
                  letter + ",right\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
  CHECK(place.of_student("Ada Marsh")["value"] == "wrong");
  CHECK(place.of_student("Cleo Rush")["value"] == "right");

  auto const same = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o", "--key", "set.toml"});
  CHECK(same.status == 0);
  CHECK(has(same.err, "The order gives the printed key: nothing is corrected."));
  CHECK(has(same.out, "No mark has changed since the last marking."));

  place.write("own.problem", Corrected::problem("0.0800 mol/L"));
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o", "--key", "set.toml"});
  CAPTURE(said.out, said.err);
  CHECK(said.status == 0);
  CHECK(said.err.empty());
  CHECK(has(said.out, "  Ada Marsh, 1: "));
  CHECK(has(said.out, "  Bo Sedge, 1: "));
  CHECK(has(said.out, "  Cleo Rush, 1: "));
  CHECK(place.of_student("Ada Marsh")["value"] == "right");
  CHECK(place.of_student("Ada Marsh")["correct"] == "0.100 mol/L");
  CHECK(place.of_student("Bo Sedge")["value"] == "wrong");
  CHECK(place.of_student("Cleo Rush")["value"] == "wrong");  // the tick stood for 0.1250
  CHECK(place.of_student("Cleo Rush")["given"] == "0.1250 mol/L");
  for (auto const& one : judgements(place, "o"))
    if (one["question"] == "2") CHECK(one["value"] == "right");
}

TEST_CASE("mark again: an order that cannot correct the key is named", "[app][mark][again][key][bad-input]") {
  Corrected place;
  place.write("a.csv", "student,1,2\nAda Marsh,0.1250 mol/L,right\n");
  place.write("shorter.toml", "title = \"Feed\"\nclass = \"class.csv\"\nversions = 1\n[[question]]\nproblem = \"own.problem\"\n");
  auto const shorter = place.run({"mark", "set/set.jsonl", "a.csv", "--key", "shorter.toml"});
  CHECK(has(shorter.err, "the order has none in this place now; marked by the printed key"));
  place.write("own.problem", Corrected::problem("0.0800 mol/L") + "find n(HCl) in mol\n");
  CHECK(has(place.run({"mark", "set/set.jsonl", "a.csv", "--key", "set.toml"}).err,
            "other parts are asked now; marked by the printed key"));
  place.write("own.problem", Corrected::problem("0.0800 mol/furlong"));
  auto const broken = place.run({"mark", "set/set.jsonl", "a.csv", "--key", "set.toml", "--out", "o"});
  CHECK(broken.status == 1);
  CHECK(has(broken.err, "own.problem:"));
  auto const missing = place.run({"mark", "set/set.jsonl", "a.csv", "--key", "nowhere.toml", "--out", "o"});
  CHECK(missing.status == 1);
  CHECK(has(missing.err, "nowhere.toml"));
  CHECK(place.all("o").empty());
}

TEST_CASE("mark again: other weights work the printed numbers again, and never numbers that nobody was given",
          "[app][mark][again][key]") {
  Workplace place;
  auto const order = [](std::string const& course) {
    return "title = \"Weights\"\nclass = \"class.csv\"\ncourse = \"" + course +
           "\"\nseed = \"reader-1\"\n[[question]]\ntemplate = \"solution-from-a-hydrate\"\n[[question]]\n"
           "template = \"metal-and-too-little-acid\"\n[[question]]\ntemplate = \"antacid-by-back-titration\"\n";
  };
  place.write("class.csv", "student\nAda Marsh\nBo Sedge\nCleo Rush\nDov Hale\nEda Fenn\nFay Holm\n");
  place.write("fine.toml", "atomic_weights = \"abridged\"\n");
  place.write("rough.toml", "atomic_weights = \"whole\"\n");
  place.write("set.toml", order("fine.toml"));
  place.write("corrected.toml", order("rough.toml"));
  REQUIRE(place.run({"set", "set.toml", "--out", "set"}).status == 0);
  REQUIRE(place.run({"set", "corrected.toml", "--out", "again"}).status == 0);
  std::string answers = "student,question,answer\n";
  std::map<std::pair<std::string, std::string>, std::string> texts;
  for (auto const& line : lines_of(place.read("set/set.jsonl"))) {
    auto const json = Json::parse(line);
    if (!json.contains("parts")) continue;
    texts[{json["student"], json["number"]}] = json["text"];
    for (std::size_t p = 0; p < json["parts"].size(); ++p)
      answers += json["student"].get<std::string>() + "," + json["number"].get<std::string>() +
                 (json["parts"].size() > 1 ? std::string(1, static_cast<char>('a' + p)) : "") + "," +
                 json["parts"][p]["answer"].get<std::string>() + " " + json["parts"][p]["unit"].get<std::string>() + "\n";
  }
  int redrawn = 0;  // where the order made anew has another question: there is something to go wrong
  for (auto const& line : lines_of(place.read("again/set.jsonl")))
    if (auto const json = Json::parse(line); json.contains("parts"))
      redrawn += texts.at({json["student"], json["number"]}) != json["text"].get<std::string>() ? 1 : 0;
  REQUIRE(redrawn > 0);
  place.write("a.csv", answers);
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
  std::map<std::string, double> before;
  for (auto const& one : judgements(place, "o")) {
    CHECK(one["value"] == "right");
    before[one["code"].get<std::string>() + one["part"].get<std::string>()] = std::stod(one["correct"].get<std::string>());
  }
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--key", "corrected.toml", "--out", "o"});
  CAPTURE(said.err);
  CHECK(said.status == 0);
  CHECK(has(said.err, "The course works otherwise now than when the set was printed"));
  CHECK_FALSE(has(said.err, "marked by the printed key"));
  bool other = false;
  for (auto const& one : judgements(place, "o")) {  // whole weights are off by a few per cent at most
    auto const was = before.at(one["code"].get<std::string>() + one["part"].get<std::string>());
    auto const now = std::stod(one["correct"].get<std::string>());
    CAPTURE(one["student"], one["question"], was, now);
    CHECK(std::abs(now / was - 1) < 0.03);
    other = other || now != was;
  }
  CHECK(other);
}

TEST_CASE("mark again: a question whose numbers the order has no more keeps its printed key, and its number is said",
          "[app][mark][again][key]") {
  Corrected place;
  place.write("own.problem",
              "problem feed\nreaction NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(l)\ngiven c(NaOH) = 0.1000 mol/L\n"
              "given V(NaOH) = 15.00 mL\ngiven V(HCl) = 20.00 mL\nfind c(HCl) in mol/L\ntext\n"
              "  15.00 mL of sodium hydroxide solution took 20.00 mL of acid. How concentrated is the acid?\nend\n");
  place.write("a.csv", "student,1,2\nAda Marsh,0.1250 mol/L,right\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o", "--key", "set.toml"});
  CHECK(has(said.err, "question 1 ("));
  CHECK(has(said.err, "the order has other numbers or substances now than the paper; marked by the printed key"));
  CHECK(place.of_student("Ada Marsh")["value"] == "right");
}

TEST_CASE("mark again: the marking rules of a corrected course are applied, and that is said", "[app][mark][again][key]") {
  Workplace place;
  place.write("class.csv", "student\nAda Marsh\n");
  place.write("course.toml", "figures = \"not judged\"\n");
  place.write("set.toml",
              "title = \"Feed\"\nclass = \"class.csv\"\ncourse = \"course.toml\"\n[[question]]\nkind = \"dilution\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "set"}).status == 0);
  Json part;
  for (auto const& line : lines_of(place.read("set/set.jsonl")))
    if (auto const json = Json::parse(line); json.contains("parts")) part = json["parts"][0];
  place.write("a.csv", "student,question,answer\nAda Marsh,1," + part["answer"].get<std::string>() + "\n");
  place.write("course.toml", "figures = \"not judged\"\nunits = \"not judged\"\n");
  auto const strict = place.run({"mark", "set/set.jsonl", "a.csv", "--json"});
  auto const soft = place.run({"mark", "set/set.jsonl", "a.csv", "--json", "--key", "set.toml"});
  CHECK(has(soft.err, "The course has other marking rules now than when the set was printed: they are applied."));
  CHECK(has(strict.out, "\"unit\":\"missing\""));
  CHECK_FALSE(has(soft.out, "\"unit\":\"missing\""));
}
