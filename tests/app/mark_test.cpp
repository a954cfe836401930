// mark: wide and long files, letters, ticks, marks by hand, rows that fit nobody, and what is written at the end.
#include <set>

#include "tests/app/marked.h"
#include "tests/templates/workbook_reading.h"

using namespace molewright;

TEST_CASE("mark: a wide file with answers, letters, ticks, absent and nothing", "[app][mark]") {
  Marked place;
  auto const key = place.part("Bo Sedge", "1")["slip_key"];
  REQUIRE_FALSE(key.empty());
  auto const letter = key[0]["letter"].get<std::string>();
  place.write("a.csv", "\xEF\xBB\xBFstudent;1;2a;2b\r\nReed, Ann;" + place.right("Reed, Ann", "1") + ";right;✓\r\nBo Sedge;" +
                           letter + ";;nonsense here\r\n'=Cleo Rush;absent;absent;absent\r\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--json"});
  CHECK(said.status == 0);
  CHECK(said.err.empty());
  auto const all = place.marked({"set/set.jsonl", "a.csv"});
  CHECK(all.size() == 12);
  std::vector<std::string> const promised{
      "student",    "question", "part", "code", "given", "correct", "marks", "out_of", "value", "unit", "significant_figures",
      "candidates", "feedback"};
  for (auto const& one : all) {
    auto keys = keys_of(one);
    REQUIRE(keys.size() >= promised.size());
    keys.resize(promised.size());
    CHECK(keys == promised);
  }
  auto const& right = of(all, "Reed, Ann", "1");
  CHECK(right["value"] == "right");
  CHECK(right["unit"] == "right");
  CHECK(right["marks"] == right["out_of"]);
  CHECK(of(all, "Reed, Ann", "2a")["value"] == "right");
  CHECK(of(all, "Reed, Ann", "2b")["value"] == "right");
  auto const& slip = of(all, "Bo Sedge", "1");
  CHECK(slip["value"] == "wrong");
  REQUIRE_FALSE(slip["candidates"].empty());
  CHECK(slip["candidates"][0]["slips"][0]["id"] == key[0]["ids"][0]);
  CHECK(keys_of(slip["candidates"][0]) == std::vector<std::string>{"slips", "probability", "text"});
  CHECK(keys_of(slip["candidates"][0]["slips"][0]) == std::vector<std::string>{"id", "node"});
  CHECK(of(all, "Bo Sedge", "2a")["value"] == "blank");
  CHECK(of(all, "Bo Sedge", "2b")["value"] == "unreadable");
  CHECK(of(all, "=Cleo Rush", "1")["value"] == "absent");
  CHECK(of(all, "@Dov", "1")["value"] == "absent");  // no row at all
}

TEST_CASE("mark: absent once in an empty row is absent throughout; beside an answer it is of that part alone", "[app][mark]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,absent,,\n\"Reed, Ann\",absent," + place.right("Reed, Ann", "2a") + ",\n");
  auto const all = place.marked({"set/set.jsonl", "a.csv"});
  CHECK(of(all, "Bo Sedge", "2a")["value"] == "absent");
  CHECK(of(all, "Bo Sedge", "2b")["value"] == "absent");
  CHECK(of(all, "Reed, Ann", "1")["value"] == "absent");
  CHECK(of(all, "Reed, Ann", "2a")["value"] == "right");
  CHECK(of(all, "Reed, Ann", "2b")["value"] == "blank");
}

TEST_CASE("mark: a long file, and marks given by hand are kept", "[app][mark]") {
  Marked place;
  auto const out_of = place.part("Bo Sedge", "2b")["marks"].get<int>();
  place.write("a.csv", "Student,Question,Answer,Marks\nBo Sedge,1," + place.right("Bo Sedge", "1") + ",\nBo Sedge,2b,no idea," +
                           std::to_string(out_of) + "\n\"Reed, Ann\",1," + place.right("Reed, Ann", "1") +
                           ",0\n\"Reed, Ann\",2a,x,99\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.status == 1);
  auto const most = std::to_string(place.part("Reed, Ann", "2a")["marks"].get<int>());
  CHECK(said.err == "a.csv:5:18: \"99\" is not a mark for part 2a, expected a whole number from 0 to " + most +
                        "\n  \"Reed, Ann\",2a,x,99\n                   ^\n1 row or cell could not be marked.\n");
  auto const all = place.marked({"set/set.jsonl", "a.csv"});
  CHECK(of(all, "Bo Sedge", "2b")["marks"] == out_of);
  CHECK(of(all, "Bo Sedge", "2b")["by_hand"] == true);
  CHECK(of(all, "Bo Sedge", "1")["value"] == "right");
  CHECK(of(all, "Bo Sedge", "2a")["value"] == "blank");
  CHECK(of(all, "Reed, Ann", "1")["value"] == "right");
  CHECK(of(all, "Reed, Ann", "1")["marks"] == 0);
}

TEST_CASE("mark: rows of nobody are named with the nearest, the rest is marked and counted", "[app][mark]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedg,1,2,3\nBo Sedge," + place.right("Bo Sedge", "1") +
                           ",right,right\nBo Sedge,4,5,6\n\"Reed, Ann\"x,1,2,3\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.status == 1);
  CHECK(
      said.err ==
      "a.csv:2:1: \"Bo Sedg\" has no paper in this set, expected Bo Sedge\n  Bo Sedg,1,2,3\n  ^\n"
      "a.csv:4:1: the student \"Bo Sedge\" stands twice, expected one row a student; the first is marked\n  Bo Sedge,4,5,6\n  ^\n"
      "a.csv:5:11: text follows a closing quotation mark, expected a separator; inside a quoted cell a quotation mark is written "
      "twice\n  \"Reed, Ann\"x,1,2,3\n            ^\n"
      "3 rows or cells could not be marked.\n");
  auto const all = place.marked({"set/set.jsonl", "a.csv"});
  CHECK(of(all, "Bo Sedge", "1")["value"] == "right");
  CHECK(said.out.find("Class report: Feed") == 0);
  auto const files = place.all("o");
  CHECK(files.size() == 11);
  for (char const* name : {"marks.csv", "marks.jsonl", "report.txt", "report.pdf", "report.xlsx", "corrections.txt",
                           "corrections.pdf", "next-morning.txt", "next-morning.pdf", "feedback.txt", "feedback.pdf"}) {
    CAPTURE(name);
    REQUIRE(files.count(name) == 1);
    CHECK_FALSE(files.at(name).empty());
  }
  CHECK(lines_of(files.at("marks.jsonl")).at(0) == R"({"format":"molewright-marks/1","title":"Feed"})");
  CHECK(lines_of(files.at("marks.jsonl")).size() == 13);
}

TEST_CASE("mark: marks.csv is safe to open in a spreadsheet", "[app][mark]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\n'=Cleo Rush,right,right,right\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
  auto const total = place.part("=Cleo Rush", "1")["marks"].get<int>() + place.part("=Cleo Rush", "2a")["marks"].get<int>() +
                     place.part("=Cleo Rush", "2b")["marks"].get<int>();
  auto const of_part = [&](char const* column) { return std::to_string(place.part("=Cleo Rush", column)["marks"].get<int>()); };
  auto const all = std::to_string(total);
  CHECK(place.read("o/marks.csv") ==
        "\xEF\xBB\xBFstudent,1,2a,2b,total,out of,with suggested marks\r\n"
        "\"Reed, Ann\",absent,absent,absent,absent,,\r\n"
        "Bo Sedge,absent,absent,absent,absent,,\r\n"
        "'=Cleo Rush," +
            of_part("1") + ',' + of_part("2a") + ',' + of_part("2b") + ',' + all + ',' + all + ',' + all +
            "\r\n'@Dov,absent,absent,absent,absent,,\r\n");
}

TEST_CASE("mark: shared papers, one for all and A and B", "[app][mark]") {
  auto const versions = GENERATE(as<std::string>{}, "one", "A/B");
  CAPTURE(versions);
  Marked place(versions);
  std::string csv = "student,1,2a,2b\n";
  for (std::string const student : {"\"Reed, Ann\"", "Bo Sedge", "'=Cleo Rush", "'@Dov"}) {
    auto name = student;
    if (name[0] == '"') name = "Reed, Ann";
    if (name[0] == '\'') name.erase(0, 1);
    csv += student + ',' + place.right(name, "1") + ',' + place.right(name, "2a") + ',' + place.right(name, "2b") + '\n';
  }
  place.write("a.csv", csv);
  auto const all = place.marked({"set/set.jsonl", "a.csv"});
  CHECK(all.size() == 12);
  for (auto const& one : all) CHECK(one["value"] == "right");
  // The other version's answers are wrong on this one.
  if (versions == "A/B") {
    place.write("a.csv", "student,1,2a,2b\nBo Sedge," + place.right("Reed, Ann", "1") + ",,\n");
    CHECK(of(place.marked({"set/set.jsonl", "a.csv"}), "Bo Sedge", "1")["value"] == "wrong");
  }
}

TEST_CASE("mark: a course on the command line says how strictly, not what was printed", "[app][mark]") {
  Marked place;
  auto const answer = place.part("Bo Sedge", "1")["answer"].get<std::string>();  // without its unit
  place.write("a.csv", "student,1,2a,2b\nBo Sedge," + answer + ",right,right\n");
  auto const strict = of(place.marked({"set/set.jsonl", "a.csv"}), "Bo Sedge", "1");
  CHECK(strict["unit"] == "missing");
  place.write("soft.toml", "units = \"not judged\"\natomic_weights = \"whole\"\n");
  auto const soft = of(place.marked({"set/set.jsonl", "a.csv", "--course", "soft.toml"}), "Bo Sedge", "1");
  CHECK(soft["value"] == "right");
  CHECK(soft["marks"] == soft["out_of"]);
  CHECK(soft["correct"] == strict["correct"]);
}

TEST_CASE("mark: papers for nobody by name are marked under their version", "[app][mark]") {
  Workplace place;
  place.write("set.toml", "title = \"Feed\"\nversions = 3\n[[question]]\nkind = \"dilution\"\nlevel = \"plain\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "set"}).status == 0);
  CHECK(lines_of(place.read("set/answers-to-fill.csv")).at(2).rfind("version 2,,", 0) == 0);
  place.write("a.csv", "student,1\nversion 1,right\nversion 3,\n");
  auto const marked = place.run({"mark", "set/set.jsonl", "a.csv", "--json"});
  CHECK(marked.status == 0);
  auto const lines = lines_of(marked.out);
  REQUIRE(lines.size() >= 3);
  CHECK(Json::parse(lines[0])["student"] == "version 1");
  CHECK(Json::parse(lines[0])["value"] == "right");
  CHECK(Json::parse(lines[1])["value"] == "absent");
  CHECK(Json::parse(lines[2])["value"] == "blank");
}

TEST_CASE("mark: choices by their letter, workings with a mistake by their line", "[app][mark]") {
  Workplace place;
  place.write("class.csv", "student\nBo Sedge\nAnn Reed\n");
  place.write("set.toml",
              "title = \"Feed\"\nclass = \"class.csv\"\n[[question]]\ntemplate = \"sulfate-in-feed-water\"\nform = "
              "\"choice\"\n[[question]]\n"
              "template = \"sulfate-in-feed-water\"\nform = \"mistake\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "set"}).status == 0);
  std::string right, wrong, line, number;
  for (auto const& text : lines_of(place.read("set/set.jsonl"))) {
    auto const question = Json::parse(text);
    if (question.value("student", "") != "Bo Sedge") continue;
    if (question["form"] == "choice")
      for (auto const& option : question["options"]) (option["right"].get<bool>() ? right : wrong) = option["letter"];
    if (question["form"] == "mistake") {
      line = question["parts"][0]["answer"];
      number = question["parts"][1]["answer"].get<std::string>() + " " + question["parts"][1]["unit"].get<std::string>();
      CHECK_FALSE(question["planted"].get<std::string>().empty());
    }
  }
  auto const marks = [&](std::string const& letter, std::string const& where, std::string const& what) {
    place.write("a.csv", "student,1,2a,2b\nBo Sedge," + letter + "," + where + "," + what + "\nAnn Reed,absent,absent,absent\n");
    auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--json"});
    CHECK(said.status == 0);
    std::string all;
    for (auto const& text : lines_of(said.out)) {
      auto const judged = Json::parse(text);
      if (judged.value("student", "") == "Bo Sedge" && judged.contains("part"))
        all += std::to_string(judged["marks"].get<int>()) + '/' + std::to_string(judged["out_of"].get<int>()) + ' ';
    }
    return all;
  };
  CHECK(marks(right, line, number) == "1/1 1/1 1/1 ");
  CHECK(marks(wrong, "line " + line, number) == "0/1 1/1 1/1 ");
  CHECK(marks(right, "7", "0.0001 mg") == "1/1 0/1 0/1 ");
}

namespace {
/// A set of one question with a reading of each student's own: c(NaOH) = 0.1000 V(HCl) / 25.00 mL, by hand.
struct Titrated : Workplace {
  explicit Titrated(std::string const& course = "") {
    write("class.csv", "student\nAda\nBo\nCleo\nDov\n");
    write("course.toml", course);
    write(
        "feed.problem",
        "problem feed\nreaction NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(l)\ngiven V(NaOH) = 25.00 mL\ngiven c(HCl) = 0.1000 mol/L\n"
        "given V(HCl) = measured about 24.60 mL\nfind n(HCl) in mmol\nfind c(NaOH) in mol/L\nfind m(NaOH) in g to 3 "
        "figures\ntext\n"
        "Your titration of {V(NaOH)} of feed took {V(HCl)} of acid. What is n(HCl), what is c(NaOH), and what is "
        "m(NaOH)?\nend\n");
    write("set.toml",
          "title = \"Feed\"\nclass = \"class.csv\"\ncourse = \"course.toml\"\nversions = \"one\"\n[[question]]\nproblem = "
          "\"feed.problem\"\n");
    auto const said = run({"set", "set.toml", "--out", "set"});
    CAPTURE(said.err);
    REQUIRE(said.status == 0);
  }
  std::vector<Json> marked(std::string const& answers) const {
    write("a.csv", answers);
    run({"mark", "set/set.jsonl", "a.csv", "--out", "marks"});
    std::vector<Json> out;
    auto const lines = lines_of(read("marks/marks.jsonl"));
    for (std::size_t i = 1; i < lines.size(); ++i) out.push_back(Json::parse(lines[i]));
    return out;
  }
};
}  // namespace

TEST_CASE("mark: each student's own reading, and a place for it everywhere", "[app][mark][measured]") {
  Titrated place;
  CHECK(place.read("set/answers-to-fill.csv").find("student,1 measured,1a,1b,1c\r\n") != std::string::npos);
  auto const sheet = place.read("set/sheets.txt");
  CHECK(sheet.find("took ______ mL of acid") != std::string::npos);
  CHECK(sheet.find("Your own reading: V(HCl) = ________ mL") != std::string::npos);
  CHECK(sheet.find("24.60") == std::string::npos);
  auto const key = place.read("set/answers.txt");
  CHECK(key.find("With each student’s own reading. For example at V(HCl) = 24.60") != std::string::npos);
  CHECK(key.find("0.09840") != std::string::npos);

  for (std::string const answers :
       {"student,1 measured,1a,1b,1c\nAda,24.65 mL,2.465 mmol,0.09860 mol/L,\nBo,V(HCl) = 22.50,2.250 mmol,0.09840 mol/L,\n"
        "Cleo,0.02250 L,22.50 mmol,0.9000 mol/L,\nDov,,2.460 mmol,,\n",
        "student,question,answer,measured,working\nAda,1a,2.465 mmol,24.65 mL,\"n = cV\nand so on\"\nAda,1b,0.09860 mol/L,,\n"
        "Bo,1a,2.250 mmol,,\nBo,1b,0.09840 mol/L,V(HCl) = 23.60 - 1.10 mL,\nCleo,1a,22.50 mmol,0.02250 L,\nCleo,1b,0.9000 "
        "mol/L,,\nDov,1a,2.460 mmol,,\n"}) {
    CAPTURE(answers);
    auto const all = place.marked(answers);
    auto const value = [&](char const* student, char const* column) {
      return of(all, student, column)["value"].get<std::string>();
    };
    CHECK(value("Ada", "1a") == "right");
    CHECK(value("Ada", "1b") == "right");
    CHECK(of(all, "Ada", "1b")["correct"] == "0.09860 mol/L");
    CHECK(value("Bo", "1a") == "right");
    CHECK(value("Bo", "1b") == "wrong");  // the example's answer is not theirs
    CHECK(of(all, "Bo", "1b")["correct"] == "0.09000 mol/L");
    CHECK(value("Cleo", "1a") == "wrong");
    CHECK(value("Cleo", "1b") == "follow-through");
    // Without a reading nothing can be said of an answer, and nothing is: what was left blank is blank.
    auto const missing = of(all, "Dov", "1a");
    CHECK(missing["value"] == "unreadable");
    CHECK(missing["notes"] == Json::array({"no-reading"}));
    CHECK(missing["correct"] == "");
    CHECK(missing["marks"] == 0);
    CHECK(missing["feedback"] == "This is not marked yet: your own reading is missing. Give it to your teacher.");
    CHECK(value("Dov", "1b") == "blank");
    CHECK(of(place.marked("student,1a\nAda,right\n"), "Ada", "1a")["value"] == "right");
    if (answers.find("working") != std::string::npos) CHECK(of(all, "Ada", "1a")["working"] == "n = cV\nand so on");
  }
}

TEST_CASE("mark: readings that cannot be used are told, and the rest marked", "[app][mark][measured][bad-input]") {
  Titrated place;
  struct Row {
    std::string reading, what;
  };
  for (auto const& row : std::vector<Row>{
           {"", "the student's own reading of V(HCl) is missing"},
           {"twenty", "\"twenty\" is no reading"},
           {"24.65 g", "V(HCl) cannot be in g"},
           {"-24.65 mL", "V(HCl) is negative"},
           {"V(NaOH) = 24.65 mL", "\"24.65 mL\" is no reading that is asked for"},
           {"24.65 mL; 24.70 mL", "V(HCl) is given twice"},
       }) {
    CAPTURE(row.reading);
    place.write("a.csv", "student,1 measured,1a\nAda," + row.reading + ",2.465 mmol\nBo,24.65,2.465 mmol\n");
    auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "marks"});
    CHECK(said.status == 1);
    CHECK(said.err.find("a.csv:2:1: question 1 of \"Ada\" is not marked: ") != std::string::npos);
    CHECK(said.err.find(row.what) != std::string::npos);
    CHECK(place.read("marks/marks.csv").find("Bo,1,") != std::string::npos);
  }
}

TEST_CASE("mark: the molar volume of the set's course holds when it is marked", "[app][mark][gas]") {
  // n(O2) = 1.5 x 0.0500 mol; 24.0 dm3/mol: 1.80 dm3; with 22.4 it would be 1.68.
  Workplace place;
  place.write("class.csv", "student\nAda\nBo\n");
  place.write("course.toml", "molar_gas_volume = \"24.0 dm3/mol\"\n");
  place.write("gas.problem",
              "problem gas\nreaction KClO3(s) -> KCl(s) + O2(g)\ngiven n(KClO3) = 0.0500 mol\nfind V(O2) in dm3\ntext\n"
              "What volume of oxygen forms from {n(KClO3)}?\nend\n");
  place.write("set.toml",
              "title = \"Gas\"\nclass = \"class.csv\"\ncourse = \"course.toml\"\nversions = \"one\"\n[[question]]\nproblem = "
              "\"gas.problem\"\n");
  auto const made = place.run({"set", "set.toml", "--out", "set"});
  CAPTURE(made.err);
  REQUIRE(made.status == 0);
  auto const set = lines_of(place.read("set/set.jsonl"));
  CHECK(Json::parse(set[0])["course"]["molar_gas_volume"] == "24.0 dm3/mol");
  CHECK(Json::parse(set[1])["parts"][0]["answer"] == "1.80");
  CHECK(place.read("set/answers.txt").find("the molar volume of a gas in this course") != std::string::npos);
  place.write("a.csv", "student,1\nAda,1.80 dm3\nBo,1.68 dm3\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--json"});
  auto const marks = lines_of(said.out);
  REQUIRE(marks.size() == 2);
  CHECK(Json::parse(marks[0])["value"] == "right");
  CHECK(Json::parse(marks[1])["value"] == "wrong");
}

TEST_CASE("mark: zeros that a spreadsheet dropped cost nothing, those that a student left out do", "[app][mark][spreadsheet]") {
  // A mean reading of 12.00 mL at 0.0500 mol/L in 1 : 1: 6.00 x 10^-4 mol, to three figures; worked by hand.
  Workplace place;
  place.write(
      "p.problem",
      "problem zeros\nreaction NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(l)\ngiven V(HCl) = 12.00 mL\ngiven c(HCl) = 0.0500 mol/L\n"
      "find n(HCl) in mmol marks 3\nfind n(NaOH) in mmol marks 3\n");
  place.write("class.csv", "student\nAnn Reed\nBo Sedge\n");
  place.write("exact.toml", "figures = \"exact\"\nunits = \"not judged\"\n");
  place.write("set.toml",
              "title = \"Zeros\"\nclass = \"class.csv\"\nversions = \"one\"\n[[question]]\nproblem = \"p.problem\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "set"}).status == 0);
  struct Case {
    std::string cells, figures, said;
    int marks;
  };
  std::string const dropped =
      "No number that stands alone ends in a zero: a spreadsheet may have dropped them. In 1 answer the figures were not "
      "judged.\n";
  auto const c = GENERATE_COPY(values<Case>({
      {"0.6,right", "not-judged", dropped, 3},
      {"0.6 mmol,right", "too-few", "", 2},  // its unit keeps a spreadsheet from it
      {"0.6,0.600", "too-few", "", 2},       // another cell kept its zeros
      {"0.600,right", "right", "", 3},
  }));
  CAPTURE(c.cells);
  place.write("a.csv", "student,1a,1b\nAnn Reed," + c.cells + "\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--course", "exact.toml", "--json"});
  CHECK(said.status == 0);
  CHECK(said.err == c.said);
  auto const first = Json::parse(lines_of(said.out).at(0));
  CHECK(first["value"] == "right");
  CHECK(first["significant_figures"] == c.figures);
  CHECK(first["marks"] == c.marks);
}

TEST_CASE("mark: a cell that became a date is listed, the rest is marked", "[app][mark][spreadsheet]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,03-Apr,right," + place.right("Bo Sedge", "2b") + "\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.status == 1);
  CHECK(said.err ==
        "a.csv:2:10: \"03-Apr\" looks like a date that a spreadsheet made of an answer, expected the answer as it stands on the "
        "paper, in "
        "a cell of text\n  Bo Sedge,03-Apr,right," +
            place.right("Bo Sedge", "2b") + "\n           ^\n1 row or cell could not be marked.\n");
  auto const all = place.marked({"set/set.jsonl", "a.csv"});
  CHECK(of(all, "Bo Sedge", "1")["value"] == "unreadable");
  CHECK(of(all, "Bo Sedge", "1")["notes"] == Json::array({"looks-like-a-date"}));
  CHECK(of(all, "Bo Sedge", "2b")["value"] == "right");
}

TEST_CASE("set: the workbook to fill has the CSV's cells, as text", "[app][set]") {
  Marked place;
  auto const cells = reading::cells_of(place.read("set/answers-to-fill.xlsx"));
  CHECK(cells.at("Answers!A1") == "s@ student");
  CHECK(cells.at("Answers!C1") == "s@ 2a");
  CHECK(cells.at("Answers!A2") == "s@ Reed, Ann");
  CHECK(cells.at("Answers!A4") == "s@ '=Cleo Rush");
  CHECK(cells.at("Answers!D5") == "blank@");
  CHECK(cells.at("Answers!E1") == "s@ code");
  CHECK(cells.at("Answers!E3") == "s@ " + place.lines.at(3)["code"].get<std::string>());
  CHECK(cells.at("What to write!A1").rfind("s ", 0) == 0);
}

TEST_CASE("mark: the record says of every mark what it is for", "[app][mark]") {
  Marked place;
  auto const bare = place.part("Bo Sedge", "1")["answer"].get<std::string>();
  place.write("class-answers.csv", "student,1,2a,2b\nBo Sedge," + bare + ",no idea,right\n\"Reed, Ann\",7.77 g,,B\n'=Cleo Rush," +
                                       place.right("=Cleo Rush", "1") + ",absent," + place.right("=Cleo Rush", "2b") + "\n");
  place.write("by-hand.csv", "student,question,answer,marks\n@Dov,1,no idea,\n@Dov,2a,,1\n");
  std::set<std::string> reasons;
  for (char const* course : {"units = \"required\"\n", "units = \"once a paper\"\n", "marks_for_a_slip = \"given\"\n"}) {
    place.write("own.toml", course);
    auto const all = place.marked({"set/set.jsonl", "class-answers.csv", "by-hand.csv", "--course", "own.toml"});
    REQUIRE(all.size() == 12);
    for (auto const& one : all) {
      CAPTURE(course, one.dump());
      int marks = 0, out_of = 0;
      for (auto const& entry : one["marks_given"]) {
        marks += entry["marks"].get<int>();
        out_of += entry["out_of"].get<int>();
        reasons.insert(entry["why"].get<std::string>());
      }
      CHECK(marks == one["marks"]);
      CHECK(out_of == one["out_of"]);
    }
  }
  for (char const* reason : {"right", "unit", "wrong", "unreadable", "blank", "absent", "by-hand", "slip", "slip-to-accept"}) {
    CAPTURE(reason);
    CHECK(reasons.count(reason) == 1);
  }
}

TEST_CASE("mark: a slip seen in an earlier set makes a cause that was open likelier", "[app][mark]") {
  // 3.00 = 0.0750 x 40.0 is the volume left in mL or, for the same number, a power of ten; what Bo did before decides between
  // causes, and changes no mark.
  Workplace place;
  place.write("class.csv", "student\nBo Sedge\nAda Marsh\n");
  place.write("own.problem",
              "problem feed\ngiven c(KNO3) = 0.0750 mol/L\ngiven V(KNO3) = 40.0 mL\nfind n(KNO3) in mol\ntext\n"
              "  How much potassium nitrate is in {V(KNO3)} of a {c(KNO3)} solution?\nend\n");
  place.write("set.toml", "title = \"Feed\"\nclass = \"class.csv\"\nversions = 1\n[[question]]\nproblem = \"own.problem\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "set"}).status == 0);
  auto const probability = [&](std::vector<std::string> const& more, std::string const& student) {
    std::vector<std::string> arguments{"mark", "set/set.jsonl", "a.csv", "--json"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    for (auto const& line : lines_of(place.run(arguments).out)) {
      auto const one = Json::parse(line);
      if (one["student"] != student) continue;
      for (auto const& candidate : one["candidates"])
        if (candidate["slips"][0]["id"] == "volume-converted-by-100") return candidate["probability"].get<double>();
    }
    return 0.0;
  };
  place.write("a.csv", "student,1\nBo Sedge,0.03 mol\nAda Marsh,0.03 mol\n");
  Json const earlier{
      {"student", "Bo Sedge"},
      {"question", "1"},
      {"part", ""},
      {"code", ""},
      {"given", ""},
      {"correct", ""},
      {"marks", 0},
      {"out_of", 1},
      {"value", "wrong"},
      {"unit", "not-judged"},
      {"significant_figures", "not-judged"},
      {"candidates", {{{"slips", {{{"id", "volume-converted-by-100"}, {"node", "V"}}}}, {"probability", 0.97}, {"text", ""}}}},
      {"feedback", ""}};
  place.write("before/marks.jsonl", "{\"format\":\"molewright-marks/1\",\"title\":\"Earlier\"}\n" + earlier.dump() + "\n");
  auto const without = probability({}, "Bo Sedge"), with = probability({"--earlier", "before"}, "Bo Sedge");
  CAPTURE(without, with);
  CHECK(without > 0);
  CHECK(without < 0.99);
  CHECK(with > without);
  CHECK(probability({"--earlier", "before"}, "Ada Marsh") == without);
  CHECK(place.run({"mark", "set/set.jsonl", "a.csv", "--earlier", "nowhere"}).status == 1);
}
