// mark: answers in the wrong columns or the wrong row, codes that do not fit, and files that are no good at all.
#include "tests/app/marked.h"

using namespace molewright;

namespace {
std::string const wide_set =
    "title = \"Wide\"\nclass = \"class.csv\"\nseed = \"w\"\n"
    "[[question]]\ntemplate = \"sulfate-in-feed-water\"\n[[question]]\ntemplate = \"volume-for-an-amount\"\n"
    "[[question]]\ntemplate = \"mass-for-a-solution\"\n[[question]]\ntemplate = \"pipette-into-a-flask\"\n";

/// Three students with four questions of one part each.
struct Wide : Workplace {
  Wide() {
    write("class.csv", "student\nAnn Reed\nBo Sedge\nCy Moss\n");
    write("set.toml", wide_set);
    REQUIRE(run({"set", "set.toml", "--out", "set"}).status == 0);
    auto const all = lines_of(read("set/set.jsonl"));
    for (std::size_t i = 1; i < all.size(); ++i) {
      auto const question = Json::parse(all[i]);
      REQUIRE(question["parts"].size() == 1);
      auto const& part = question["parts"][0];
      right[question["student"]].push_back(part["answer"].get<std::string>() + " " + part["unit"].get<std::string>());
      code[question["student"]].push_back(question["code"]);
    }
  }
  /// A row with four cells.
  static std::string row(std::string const& student, std::vector<std::string> const& cells) {
    std::string out = student;
    for (auto const& cell : cells) out += ',' + cell;
    return out + "\n";
  }
  std::vector<Json> marked() const {
    std::vector<Json> out;
    for (auto const& line : lines_of(run({"mark", "set/set.jsonl", "a.csv", "--json"}).out)) out.push_back(Json::parse(line));
    return out;
  }
  std::map<std::string, std::vector<std::string>> right, code;
};
}  // namespace

TEST_CASE("mark: shifted columns and rows are seen, said and not marked", "[app][mark][bad-input]") {
  Wide place;
  auto const ann = place.right["Ann Reed"], bo = place.right["Bo Sedge"], cy = place.right["Cy Moss"];
  std::string const head = "student,1,2,3,4\n";
  struct Case {
    std::string bo_row, said;
  };
  auto const c = GENERATE_COPY(values<Case>({
      {Wide::row("Bo Sedge", {"", bo[0], bo[1], bo[2]}),
       "a.csv:3:1: the answers of \"Bo Sedge\" stand one column too far to the right: 3 of 3 numbers are right in the column "
       "beside "
       "theirs, expected each answer in its own column\n"},
      {Wide::row("Bo Sedge", {bo[1], bo[2], bo[3], ""}),
       "a.csv:3:1: the answers of \"Bo Sedge\" stand one column too far to the left: 3 of 3 numbers are right in the column "
       "beside "
       "theirs, expected each answer in its own column\n"},
      {Wide::row("Bo Sedge", cy),
       "a.csv:3:1: the answers in the row of \"Bo Sedge\" are to the paper of \"Cy Moss\": 4 of 4 numbers are right there, "
       "expected each "
       "student's answers in their own row\n"},
  }));
  place.write("a.csv", head + Wide::row("Ann Reed", ann) + c.bo_row);
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv"});
  CHECK(said.status == 1);
  CHECK(said.err.find(c.said) == 0);
  CHECK(said.err.find("\n1 row or cell could not be marked.\n1 not marked: row out of place or not usable.\n") !=
        std::string::npos);
  CHECK(said.out.find("1 present, 1 absent, 1 not marked: row out of place or not usable; out of ") != std::string::npos);
  for (auto const& one : place.marked()) {
    if (one["student"] == "Ann Reed") CHECK(one["value"] == "right");
    if (one["student"] == "Bo Sedge") CHECK(one["value"] == "unreadable");
  }
  // Neither a page nor marks, and the averages are Ann's alone.
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 1);
  for (char const* page : {"o/feedback.txt", "o/corrections.txt"}) {
    CAPTURE(page);
    CHECK(place.read(page).find("Bo Sedge") == std::string::npos);
  }
  CHECK(place.read("o/feedback.txt").find("Ann Reed") != std::string::npos);
  CHECK(place.read("o/marks.csv").find("Bo Sedge,not marked,not marked,not marked,not marked,not marked,,\r\n") !=
        std::string::npos);
  auto const report = place.read("o/report.txt");
  CHECK(report.find("100 %") != std::string::npos);
  CHECK(report.find("could not be read") == std::string::npos);
  // Marks given by hand bring the student back.
  place.write("b.csv", "student,question,answer,marks\nBo Sedge,1,,1\n");
  auto const by_hand = place.run({"mark", "set/set.jsonl", "a.csv", "b.csv", "--out", "o"});
  CHECK(by_hand.out.find("2 present, 1 absent; out of ") != std::string::npos);
  CHECK(by_hand.out.find("Bo Sedge: not marked before, ") != std::string::npos);
}

TEST_CASE("mark: of two rows that changed places both are held back, whatever was right in them", "[app][mark][bad-input]") {
  Wide place;
  auto const ann = place.right["Ann Reed"], bo = place.right["Bo Sedge"], cy = place.right["Cy Moss"];
  std::vector<std::string> const poor{bo[0], "7 mL", "8 g", "9 mL"};  // Bo's, with one right: too few to know whose they are
  bool const ann_first = GENERATE(true, false);
  auto const rows = ann_first ? Wide::row("Ann Reed", poor) + Wide::row("Bo Sedge", ann)
                              : Wide::row("Bo Sedge", ann) + Wide::row("Ann Reed", poor);
  place.write("a.csv", "student,1,2,3,4\n" + rows + Wide::row("Cy Moss", cy));
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.status == 1);
  CHECK(said.err.find("the answers in the row of \"Bo Sedge\" are to the paper of \"Ann Reed\": 4 of 4 numbers are right there, "
                      "expected each student's answers in their own row\n") != std::string::npos);
  CHECK(said.err.find(
            "the answers to the paper of \"Ann Reed\" stand in the row of \"Bo Sedge\", and no number in the own row is right, "
            "expected each student's answers in their own row\n") != std::string::npos);
  CHECK(said.err.find("2 rows or cells could not be marked.\n2 not marked: row out of place or not usable.\n") !=
        std::string::npos);
  CHECK(said.out.find("1 present, 0 absent, 2 not marked: row out of place or not usable; out of ") != std::string::npos);
  CHECK(place.read("o/marks.csv").find("Ann Reed,not marked,") != std::string::npos);
  // Whoever has something right in their own row is marked, though another hands in the same answers.
  place.write("b.csv", "student,1,2,3,4\n" + Wide::row("Ann Reed", ann) + Wide::row("Bo Sedge", ann));
  auto const copied = place.run({"mark", "set/set.jsonl", "b.csv"});
  CHECK(copied.out.find("1 present, 1 absent, 1 not marked: row out of place or not usable; out of ") != std::string::npos);
}

TEST_CASE("mark: what could not be read is listed, and is out of the averages until it has marks by hand", "[app][mark]") {
  Wide place;
  auto const ann = place.right["Ann Reed"], bo = place.right["Bo Sedge"];
  place.write("a.csv",
              "student,1,2,3,4\n" + Wide::row("Ann Reed", ann) + Wide::row("Bo Sedge", {bo[0], "3.5.3 mg/L", bo[2], bo[3]}));
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv"});
  CHECK(said.out.find("Answers that could not be read") != std::string::npos);
  // What is expected may be broken over two lines; the table's columns count from 1: "Bo Sedge" is 8 long.
  std::string flowed = said.out;
  std::replace(flowed.begin(), flowed.end(), '\n', ' ');
  CHECK(flowed.find("* Bo Sedge, 2: \"3.5.3 mg/L\"; the right answer is ") != std::string::npos);
  CHECK(said.out.find("(a.csv:3:" + std::to_string(11 + bo[0].size()) + ")") != std::string::npos);
  CHECK(flowed.find("1 student has answers that are still to be read by hand") != std::string::npos);
  auto const share = [&](std::string const& out) {  // of the marks for part 2
    for (auto const& line : lines_of(out.substr(out.find("How hard each part was"))))
      if (line.rfind("2 ", 0) == 0) return line;
    return std::string("no part 2");
  };
  CHECK(share(said.out).find("100 %") != std::string::npos);
  place.write("b.csv", "student,question,answer,marks\nBo Sedge,2,,0\n");
  auto const by_hand = place.run({"mark", "set/set.jsonl", "a.csv", "b.csv"});
  CHECK(by_hand.out.find("could not be read:") == std::string::npos);
  CHECK(by_hand.out.find("still to be read") == std::string::npos);
  CHECK(share(by_hand.out).find("50 %") != std::string::npos);
}

TEST_CASE("mark: an answer that is yet to be read loses no marks, and its hand-given ones are said", "[app][mark]") {
  Wide place;
  auto const ann = place.right["Ann Reed"], bo = place.right["Bo Sedge"];
  place.write("a.csv",
              "student,1,2,3,4\n" + Wide::row("Ann Reed", ann) + Wide::row("Bo Sedge", {bo[0], "3.5.3 mg/L", bo[2], bo[3]}));
  place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(place.read("o/corrections.txt").find("Bo Sedge") == std::string::npos);
  auto const page = place.read("o/feedback.txt");
  auto const bos = page.substr(page.find("Bo Sedge"));
  CHECK(bos.find("not marked yet") != std::string::npos);
  CHECK(bos.find("not given yet") != std::string::npos);
  // marks.csv: neither a zero, nor out of more than is marked; a zero put there is one by hand.
  auto table = place.read("o/marks.csv");
  auto const row = table.find("Bo Sedge,");
  auto const cells = table.substr(row, table.find('\r', row) - row);
  auto const here = cells.find("not marked");
  REQUIRE(here != std::string::npos);
  table.replace(row + here, std::string("not marked").size(), "0");
  place.write("o/marks.csv", table);
  auto const zero = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(zero.out.find("Bo Sedge, 2: not marked before, 0 now (by hand)") != std::string::npos);
  place.write("b.csv", "student,question,answer,marks\nBo Sedge,2,,1\n");
  place.run({"mark", "set/set.jsonl", "a.csv", "b.csv", "--out", "p"});
  auto const feedback = place.read("p/feedback.txt");
  CHECK(feedback.find("Your teacher looked at this and gave 1 of ") != std::string::npos);
  CHECK(feedback.find("Your teacher will look at it") == std::string::npos);
}

TEST_CASE("mark: a mark that is none is told where it stands", "[app][mark]") {
  Wide place;
  place.write("a.csv", "student,1,2,3,4\n" + Wide::row("Bo Sedge", place.right["Bo Sedge"]));
  auto const mark = GENERATE(values<std::string>({"half", "99", "-1"}));
  place.write("b.csv", "student,question,answer,marks\nAnn Reed,1,,0\nBo Sedge,2,," + mark + "\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "b.csv"});
  CHECK(said.status == 1);
  CHECK(said.err.find("b.csv:3:13: \"" + mark + "\" is not a mark for part 2") != std::string::npos);
}

TEST_CASE("mark: a lost column and a spreadsheet's formula are said", "[app][mark]") {
  Wide place;
  auto const bo = place.right["Bo Sedge"];
  place.write("a.csv", "student,2,3,4\nBo Sedge,=1+1," + bo[2] + ',' + bo[3] + "\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv"});
  CHECK(said.err.find("No file has a column for 1.") != std::string::npos);
  CHECK(said.err.find("a.csv:2:10: \"=1+1\" is a formula of a spreadsheet") != std::string::npos);
}

TEST_CASE("mark: a wrong script is not taken for a shifted one", "[app][mark]") {
  Wide place;
  auto const bo = place.right["Bo Sedge"];
  auto const c = GENERATE_COPY(values<std::vector<std::string>>({
      {bo[0], bo[0], bo[0], bo[0]},
      {"7 g", "8 mL", "9 g", "1 mol/L"},
      {"", bo[0], "", ""},
      {bo[3], bo[2], bo[1], bo[0]},
  }));
  place.write("a.csv", "student,1,2,3,4\n" + Wide::row("Bo Sedge", c));
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv"});
  CHECK(said.status == 0);
  CHECK(said.err.empty());
}

TEST_CASE("mark: codes beside the answers show that a row has slipped", "[app][mark][bad-input]") {
  Wide place;
  auto const bo = place.right["Bo Sedge"];
  auto const code = place.code;
  // Wide: any code of the paper will do.
  place.write("a.csv", "student,1,2,3,4,code\n" + Wide::row("Bo Sedge", {bo[0], "right", "", "", code.at("Bo Sedge")[2]}) +
                           Wide::row("Ann Reed", {"right", "right", "right", "right", code.at("Cy Moss")[0]}));
  auto said = place.run({"mark", "set/set.jsonl", "a.csv"});
  CHECK(said.status == 1);
  CHECK(said.err.find("a.csv:3:1: the code " + code.at("Cy Moss")[0] +
                      " is that of question 1 of \"Cy Moss\", expected the code " + code.at("Ann Reed")[0] + "\n") == 0);
  CHECK(said.err.find("\n1 row or cell could not be marked.\n") != std::string::npos);
  for (auto const& one : place.marked()) {
    if (one["student"] == "Bo Sedge" && one["question"] == "1") CHECK(one["value"] == "right");
    if (one["student"] == "Ann Reed") CHECK(one["value"] == "unreadable");
  }
  CHECK(said.err.find("\n1 not marked: row out of place or not usable.\n") !=
        std::string::npos);  // Bo's code is one of the paper
  // Long: the code of the very question.
  place.write("a.csv", "student,question,answer,code\nBo Sedge,1," + bo[0] + "," + code.at("Bo Sedge")[0] + "\nBo Sedge,2," +
                           bo[1] + "," + code.at("Bo Sedge")[2] + "\nBo Sedge,3,right,BBBBBBBBBBBB\n");
  said = place.run({"mark", "set/set.jsonl", "a.csv"});
  CHECK(said.status == 1);
  auto const lines = lines_of(said.err);
  CHECK(lines.at(0) == "a.csv:3:1: the code " + code.at("Bo Sedge")[2] +
                           " is that of question 3 of \"Bo Sedge\", expected the code " + code.at("Bo Sedge")[1]);
  CHECK(lines.at(3) ==
        "a.csv:4:1: the code BBBBBBBBBBBB is of no question of this set, expected the code " + code.at("Bo Sedge")[2]);
}

TEST_CASE("mark: cells that no answers file should hold, the rest is marked and counted", "[app][mark][bad-input]") {
  struct Case {
    std::string name, cell, id;
  };
  auto const c = GENERATE(values<Case>({
      {"a cell of a megabyte", std::string(1 << 20, '7'), "a cell is longer than 64 kB"},
      {"a NUL byte", std::string("1.2\0g", 5), "a NUL byte"},
      {"half a sign", "1.2 \xC2", "a byte that is not UTF-8"},
      {"half a sign of three bytes", "\xE2\x82", "a byte that is not UTF-8"},
      {"a quotation mark that is never closed", "\"1.2 g", "a quotation mark is opened and never closed"},
  }));
  CAPTURE(c.name);
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,right,right\n\"Reed, Ann\"," + c.cell + ",,\n'@Dov,right,right,right\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--json"});
  CHECK(said.status == 1);
  CHECK(said.err.find("a.csv:3:") == 0);
  CHECK(said.err.find(c.id) != std::string::npos);
  CHECK(said.err.size() < 2000);
  CHECK(said.err.find("\n1 row or cell could not be marked.\n") != std::string::npos);
  std::vector<Json> all;
  for (auto const& line : lines_of(said.out)) all.push_back(Json::parse(line));
  CHECK(of(all, "Bo Sedge", "1")["value"] == "right");
  CHECK(of(all, "@Dov", "1")["value"] == "right");
}

TEST_CASE("mark: what cannot be written leaves the old results whole", "[app][mark][bad-input]") {
  Marked place;
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,right,right,right\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"}).status == 0);
  std::filesystem::remove(place.at("o/next-morning.pdf"));
  std::filesystem::create_directory(place.at("o/next-morning.pdf"));
  auto const before = place.all("o");
  place.write("a.csv", "student,1,2a,2b\nBo Sedge,7 g,,\n");
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.status == 1);
  CHECK(said.err.find("o:1:1: o/next-morning.pdf is a folder") == 0);
  CHECK(place.all("o") == before);
}

TEST_CASE("mark: whose row could not be used is not marked, and nobody else becomes so", "[app][mark][bad-input]") {
  Wide place;
  auto const ann = place.right["Ann Reed"], bo = place.right["Bo Sedge"];
  std::string const head = "student,1,2,3,4\n";
  auto const row = GENERATE_COPY(values<std::string>({
      "Bo Sedge,\"1,2,3\n",      // a quotation mark is not closed
      "Bo Sedge,1,2,3,4,5\n",    // one cell too many
      Wide::row("Bo Sedg", bo),  // the name misspelt
  }));
  place.write("a.csv", head + Wide::row("Ann Reed", ann) + row);
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.status == 1);
  CHECK(said.out.find("1 present, 1 absent, 1 not marked") != std::string::npos);
  CHECK(place.read("o/marks.csv").find("Bo Sedge,not marked,") != std::string::npos);
  CHECK(place.read("o/marks.csv").find("Cy Moss,absent,") != std::string::npos);
  CHECK(place.read("o/feedback.txt").find("Bo Sedge") == std::string::npos);
  // Another file with the row as it should be settles it.
  place.write("b.csv", head + Wide::row("Bo Sedge", bo));
  CHECK(place.run({"mark", "set/set.jsonl", "a.csv", "b.csv"}).out.find("2 present, 1 absent; out of ") != std::string::npos);
}

TEST_CASE("mark: a tick beside an answer is told to the teacher", "[app][mark]") {
  Wide place;
  auto const bo = place.right["Bo Sedge"];
  place.write("a.csv", "student,1,2,3,4\n" + Wide::row("Bo Sedge", {bo[0] + " ✓", bo[1], bo[2], bo[3]}));
  auto const out = place.run({"mark", "set/set.jsonl", "a.csv"}).out;
  CHECK(out.find("A tick beside an answer") != std::string::npos);
  CHECK(out.find("(a.csv:2:10)") != std::string::npos);
}
