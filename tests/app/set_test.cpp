// set: what it makes, that it makes it again, and what is wrong with an order.
#include <set>

#include "app/set_file.h"
#include "tests/app/program.h"

using namespace molewright;

namespace {
std::string const twelve =
    "student,level,print\n\"Reed, Ann\",,\nBo Sedge,plain,\nCleo Rush,,large\nDov Mallow,,\nEli Teasel,,\nFay Sorrel,,\nGus "
    "Bracken,,\n"
    "Hal Yarrow,,\nIda Comfrey,,\nJo Tansy,,\nKit Burdock,,\nLu Vetch,,\n";
std::string const two_kinds = "[[question]]\nkind = \"dilution\"\n[[question]]\nkind = \"limiting reactant\"\n";

std::vector<Json> questions_of(Workplace const& place, std::string const& folder) {
  std::vector<Json> out;
  for (auto const& line : lines_of(place.read(folder + "/set.jsonl"))) out.push_back(Json::parse(line));
  out.erase(out.begin());
  return out;
}
}  // namespace

TEST_CASE("set: a paper each, every file, and the same bytes again", "[app][set]") {
  Workplace place;
  place.write("class.csv", twelve);
  place.write("set.toml", "title = \"Feed\"\nclass = \"class.csv\"\nversions = \"each\"\nseed = \"s\"\n" + two_kinds);
  auto const said = place.run({"set", "set.toml", "--out", "new/a"});
  CHECK(said.status == 0);
  CHECK(said.err.empty());
  CHECK(lines_of(said.out).at(0) == "Feed: 12 papers, 24 questions.");
  auto const files = place.all("new/a");
  std::set<std::string> names;
  for (auto const& [name, bytes] : files) {
    names.insert(name);
    CHECK_FALSE(bytes.empty());
    CHECK(said.out.find("  " + name + ' ') != std::string::npos);
  }
  CHECK(names == std::set<std::string>{"answers-to-fill.csv", "answers-to-fill.xlsx", "answers.pdf", "answers.txt",
                                       "marking-card.pdf", "marking-card.txt", "set.jsonl", "sheets.pdf", "sheets.txt"});
  CHECK(place.run({"set", "set.toml", "--out", "b"}).status == 0);
  CHECK(place.all("b") == files);
  CHECK(place.run({"set", "set.toml", "--out", "b", "--seed", "t"}).status == 0);
  CHECK(place.all("b").at("set.jsonl") != files.at("set.jsonl"));
  CHECK(place.run({"set", "set.toml", "--out", "b", "--page", "Letter"}).status == 0);
  CHECK(place.all("b").at("set.jsonl") == files.at("set.jsonl"));
  CHECK(place.all("b").at("sheets.pdf") != files.at("sheets.pdf"));

  // The file to fill: names in class order, a column a part, a mark that it is UTF-8.
  CHECK(files.at("answers-to-fill.csv").rfind("\xEF\xBB\xBFstudent,1,2", 0) == 0);
  CHECK(lines_of(files.at("answers-to-fill.csv")).at(1).rfind("\"Reed, Ann\",", 0) == 0);
  CHECK(lines_of(files.at("answers-to-fill.csv")).size() == 13);
  // Nobody has another's numbers, and nobody a code twice.
  std::set<std::string> codes, students;
  for (auto const& question : questions_of(place, "new/a")) {
    codes.insert(question["code"].get<std::string>());
    students.insert(question["student"].get<std::string>());
  }
  CHECK(codes.size() == 24);
  CHECK(students.size() == 12);
}

TEST_CASE("set: set.jsonl has the contract's keys", "[app][set]") {
  Workplace place;
  place.write("course.toml", "ties = \"half to even\"\nfollow_through = false\n");
  place.write("set.toml",
              "title = \"Feed\"\nversions = 1\nseed = 7\ncourse = \"course.toml\"\n[[question]]\nkind = \"precipitate\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "o"}).status == 0);
  auto const lines = lines_of(place.read("o/set.jsonl"));
  REQUIRE(lines.size() == 2);
  auto const header = Json::parse(lines[0]);
  CHECK(keys_of(header).at(0) == "format");
  CHECK(header["format"] == "molewright-set/1");
  CHECK(header["title"] == "Feed");
  CHECK(header["seed"] == "7");
  CHECK(header["course"]["ties"] == "half to even");
  CHECK(header["course"]["follow_through"] == false);
  auto const question = Json::parse(lines[1]);
  auto const keys = keys_of(question);
  std::vector<std::string> const promised{"code", "version",   "student", "number", "kind",  "template",
                                          "text", "reactions", "excess",  "given",  "parts", "working"};
  std::vector<std::string> found;
  for (auto const& key : keys)
    if (std::find(promised.begin(), promised.end(), key) != promised.end()) found.push_back(key);
  CHECK(found == promised);
  CHECK(question["kind"] == "precipitate");
  CHECK(question["reactions"].at(0).get<std::string>().find(" -> ") != std::string::npos);
  for (auto const& given : question["given"]) CHECK(keys_of(given) == std::vector<std::string>{"quantity", "value", "unit"});
  for (auto const& part : question["parts"])
    CHECK(keys_of(part) ==
          std::vector<std::string>{"find", "answer", "unit", "significant_figures", "unrounded", "marks", "slip_key"});
}

TEST_CASE("set: one paper for all, and A and B in turn", "[app][set]") {
  Workplace place;
  place.write("class.csv", twelve);
  for (bool const one : {true, false}) {
    place.write("set.toml",
                "title = \"Feed\"\nclass = \"class.csv\"\nversions = \"" + std::string(one ? "one" : "A/B") + "\"\n" + two_kinds);
    auto const said = place.run({"set", "set.toml", "--out", "o"});
    CHECK(said.status == 0);
    CHECK(lines_of(said.out).at(0) == (one ? "Feed: 1 paper, 2 questions." : "Feed: 2 papers, 4 questions."));
    auto const header = Json::parse(lines_of(place.read("o/set.jsonl")).at(0));
    REQUIRE(header["students"].size() == 12);
    CHECK(header["students"][0]["version"] == (one ? "1" : "A"));
    CHECK(header["students"][1]["version"] == (one ? "1" : "B"));
    CHECK(lines_of(place.read("o/answers-to-fill.csv")).size() == 13);
  }
  auto const questions = questions_of(place, "o");
  CHECK(questions[0]["version"] == "A");
  CHECK(questions[0]["text"] != questions[2]["text"]);
}

TEST_CASE("set: a teacher's own problem, its marks, a count, a level", "[app][set]") {
  Workplace place;
  place.write(
      "mine/own.problem",
      "problem rinse\ngiven V(HCl) = 20.0 mL\ngiven c(HCl) = 0.100 mol/L\nfind n(HCl) in mmol\ntext\n  What amount, in mmol, "
      "is in {V(HCl)} of it?\nend\n");
  place.write(
      "mine/set.toml",
      "title = \"Own\"\nversions = 2\n[[question]]\nproblem = \"own.problem\"\nmarks = 4\nvary = false\n[[question]]\nkind = "
      "\"n-cV\"\nlevel = \"plain\"\ncount = 2\n");
  auto const said = place.run({"set", "mine/set.toml", "--out", "o", "--json"});
  CHECK(said.status == 0);
  auto const json = Json::parse(said.out);
  CHECK(keys_of(json) == std::vector<std::string>{"title", "papers", "questions", "files", "notes"});
  CHECK(json["papers"] == 2);
  CHECK(json["questions"] == 6);
  CHECK(json["files"].size() == 9);
  auto const questions = questions_of(place, "o");
  CHECK(questions[0]["parts"][0]["answer"] == "2.00");
  CHECK(questions[0]["parts"][0]["marks"] == 4);
  CHECK(questions[0]["text"] == "What amount, in mmol, is in 20.0\u00A0mL of it?");  // never broken before its unit
  CHECK(questions[3]["text"] == questions[0]["text"]);
  CHECK(questions[4]["text"] != questions[1]["text"]);
}

TEST_CASE("set: the course named on the command line goes before the set's", "[app][set]") {
  Workplace place;
  place.write("soft.toml", "figures = \"not judged\"\n");
  place.write("hard.toml", "figures = \"exact\"\n");
  place.write("set.toml", "title = \"Feed\"\nversions = 1\ncourse = \"soft.toml\"\n[[question]]\nkind = \"n-cV\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "a"}).status == 0);
  REQUIRE(place.run({"set", "set.toml", "--out", "b", "--course", "hard.toml"}).status == 0);
  CHECK(Json::parse(lines_of(place.read("a/set.jsonl")).at(0))["course"]["figures"] == "not judged");
  CHECK(Json::parse(lines_of(place.read("b/set.jsonl")).at(0))["course"]["figures"] == "exact");
}

TEST_CASE("set: bad orders, the exact text, and nothing is made", "[app][set][bad-input]") {
  struct Case {
    std::string order, said;
  };
  std::string const head = "title = \"x\"\nversions = 2\n";
  std::string const kind = "[[question]]\nkind = \"dilution\"\n";
  auto const c = GENERATE_COPY(values<Case>({
      {"title = \"x\"\nversions = 0\n" + kind,
       "set.toml:2:12: there cannot be 0 versions, expected 1 to 100000\n  versions = 0\n             ^\n"},
      {"title = \"x\"\nversions = \"A/C\"\n" + kind,
       "set.toml:2:12: versions cannot be \"A/C\", expected \"each\", \"one\", \"A/B\" or a number of papers\n  versions = "
       "\"A/C\"\n             ^\n"},
      {"title = \"x\"\n" + kind, "set.toml:1:1: the class has no students, expected a class list, or a number of versions\n"},
      {head + kind + "[[question]]\nkind = \"dilusion\"\n",
       "set.toml:5:1: unknown kind \"dilusion\", expected dilution\n  [[question]]\n  ^\n"},
      {head + kind + "[[question]]\ntemplate = \"water-aded\"\n",
       "set.toml:5:1: unknown template \"water-aded\", expected water-added\n  [[question]]\n  ^\n"},
      {head + "clas = \"c\"\n[[question]]\nknd = \"dilution\"\n",
       "set.toml:3:8: unknown key clas, expected \"class\"\n  clas = \"c\"\n         ^\n"
       "set.toml:4:1: this question says nothing of what it is, expected one of kind, template and problem\n  [[question]]\n  ^\n"
       "set.toml:5:7: unknown key knd, expected \"kind\"\n  knd = \"dilution\"\n        ^\n"},
      {head + "[[question]]\nkind = \"dilution\"\ntemplate = \"water-added\"\n",
       "set.toml:3:1: this question says more than one thing, expected one of kind, template and problem\n  [[question]]\n  ^\n"},
      {head + kind + "count = 0\n",
       "set.toml:5:9: count has the wrong value, expected a whole number from 1 to 100\n  count = 0\n          ^\n"},
      {head + kind + "vary = true\n",
       "set.toml:5:8: only a problem of your own can be varied, expected problem = FILE beside vary\n  vary = "
       "true\n         ^\n"},
      {head + "[[question]]\nproblem = \"measured.problem\"\nvary = \"colours\"\n",
       "set.toml:5:8: vary has the wrong value, expected true, false or \"chemistry\"\n  vary = \"colours\"\n         ^\n"},
      {head + "[[question]]\nproblem = \"white.problem\"\nvary = \"chemistry\"\n",
       "white.problem:5:30: the substances cannot be moved to others: the text says \"white\", which would not be so of another "
       "substance, expected other words there, or vary = true\n    What amount is {m(KCl)} of white {name KCl}?\n                "
       "               ^\n"},
      {head, "set.toml:1:1: this set has no questions, expected a [[question]] with a kind\n  title = \"x\"\n  ^\n"},
      {"title = \"x\nversions = 2\n",
       "set.toml:1:11: the quotes are not closed on this line, or hold a character that may not stand there, expected "
       "\"text\"\n  title = \"x\n            ^\n"},
      {head + head + kind,
       "set.toml:3:9: this key stands here for the second time, expected each key once\n  title = \"x\"\n          ^\n"},
      {head + "# caf\xE9\n" + kind,
       "set.toml:3:6: these bytes are not UTF-8 text, expected UTF-8\n  # caf\xEF\xBF\xBD\n       ^\n"},
      {head + "[[question]]\nproblem = \"none.problem\"\n", "none.problem:1:1: cannot be read: No such file or directory\n"},
      {head + "course = \"none.toml\"\n" + kind, "none.toml:1:1: cannot be read: No such file or directory\n"},
      {head + "class = \"none.csv\"\n" + kind, "none.csv:1:1: cannot be read: No such file or directory\n"},
      {head + "class = \"twins.csv\"\n" + kind,
       "twins.csv:4:1: the student \"Ann Reed\" stands twice, expected each name once; the first is kept\n  Ann Reed\n  ^\n"},
      {head + "class = \"alike.csv\"\n" + kind,
       "alike.csv:4:1: the students \"Ada\" and \"ada\" have one name, expected each name once; the first is kept\n  ada \n  "
       "^\n"},
      {head + "class = \"column.csv\"\n" + kind,
       "column.csv:1:9: unknown column \"prnt\", expected print\n  student,prnt\n          ^\n"},
      {head + "course = \"odd.toml\"\n" + kind,
       "odd.toml:1:9: unknown key tiess, expected \"ties\"\n  tiess = \"half up\"\n          ^\n"},
      {"title = \"x\"\nversions = 0\n" + kind,
       "set.toml:2:12: there cannot be 0 versions, expected 1 to 100000\n  versions = 0\n             ^\n"},
      {"title = \"x\"\nversions = 10000000\n" + kind,
       "set.toml:2:12: there cannot be 10000000 versions, expected 1 to 100000\n  versions = 10000000\n             ^\n"},
      {head + "[[question]]\nproblem = \"cloudy.problem\"\nvary = true\n",
       "set.toml:3:1: AgCl does not dissolve well, expected substances that behave so"},
      {head + "class = \"bytes.csv\"\n" + kind, "bytes.csv:2:3: a byte that is not UTF-8"},  // the table's reader words the rest
      {head + "[[question]]\nproblem = \"three.problem\"\n",
       "three.problem:1:1: this file holds 2 problems, expected one problem a file\n"},
      {head + "[[question]]\nproblem = \"misspelt.problem\"\n",
       "misspelt.problem:2:7: \"soduim chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or "
       "barium "
       "chloride\n  given m(soduim chloride) = 5.0 g\n        ^\n"},
      {head + "[[question]]\nproblem = \"brace.problem\"\n",
       "brace.problem:5:10: \"sodum chloride\" is no name that is known here, expected sodium chloride, sodium chlorate or "
       "barium "
       "chloride\n  Of {name sodum chloride} {m(NaCl)} is taken. What amount is it?\n           ^\n"},
      {head + "[[question]]\nproblem = \"measured.problem\"\n",
       "measured.problem:2:7: n(HCl) is the student's own reading, expected a value for it, or an example for the key as in: "
       "measured about 24.60 mL\n  given n(HCl) = measured mol\n        ^\n"},
  }));
  CAPTURE(c.order);
  Workplace place;
  place.write("set.toml", c.order);
  place.write("twins.csv", "student\nAnn Reed\nBo Sedge\nAnn Reed\n");
  place.write("alike.csv", "student\nAda\nBo Sedge\nada \n");
  place.write("column.csv", "student,prnt\nAda,large\n");
  place.write("odd.toml", "tiess = \"half up\"\n");
  place.write("cloudy.problem", "problem a\ngiven V(AgCl) = 50.0 mL\ngiven c(AgCl) = 0.100 mol/L\nfind n(AgCl) in mol\n");
  place.write("bytes.csv", "student\nZo\xEB\n");
  std::string const solvable = "problem a\ngiven V(HCl) = 20.0 mL\ngiven c(HCl) = 0.100 mol/L\nfind n(HCl)\n";
  place.write("three.problem", solvable + solvable);
  place.write("misspelt.problem", "problem a\ngiven m(soduim chloride) = 5.0 g\nfind n(NaCl)\n");
  place.write(
      "brace.problem",
      "problem a\ngiven m(NaCl) = 5.00 g\nfind n(NaCl)\ntext\nOf {name sodum chloride} {m(NaCl)} is taken. What amount is "
      "it?\nend\n");
  place.write("measured.problem", "problem a\ngiven n(HCl) = measured mol\ngiven V(HCl) = 10.0 mL\nfind c(HCl)\n");
  place.write(
      "white.problem",
      "problem a\ngiven m(KCl) = 2.05 g\nfind n(KCl) in mol\ntext\n  What amount is {m(KCl)} of white {name KCl}?\nend\n");
  auto const said = place.run({"set", "set.toml", "--out", "o"});
  CHECK(said.status == 1);
  CHECK(said.out.empty());
  if (c.said.back() == '\n')
    CHECK(said.err == c.said);
  else
    CHECK(said.err.substr(0, c.said.size()) == c.said);
  CHECK_FALSE(place.there("o"));
}

TEST_CASE("set: a folder that cannot be written to stays as it was", "[app][set][bad-input]") {
  Workplace place;
  place.write("set.toml", "title = \"x\"\nversions = 1\n[[question]]\nkind = \"dilution\"\n");
  place.write("plain", "a file");
  auto const under_a_file = place.run({"set", "set.toml", "--out", "plain/o"});
  CHECK(under_a_file.status == 1);
  CHECK(under_a_file.err ==
        "plain/o:1:1: the folder plain/o cannot be made: Not a directory, expected a folder that can be written to\n");
  CHECK(place.read("plain") == "a file");

  // An older set in the folder, and a folder in the way of one of its files.
  REQUIRE(place.run({"set", "set.toml", "--out", "o"}).status == 0);
  std::filesystem::remove(place.at("o/set.jsonl"));
  std::filesystem::create_directory(place.at("o/set.jsonl"));
  auto const before = place.all("o");
  auto const in_the_way = place.run({"set", "set.toml", "--out", "o", "--seed", "other"});
  CHECK(in_the_way.status == 1);
  CHECK(in_the_way.err == "o:1:1: o/set.jsonl is a folder, expected a folder that can be written to\n");
  CHECK(place.all("o") == before);

  // A failing order leaves an older set alone, too.
  place.write("bad.toml", "title = \"x\"\nversions = 1\n[[question]]\nkind = \"dilusion\"\n");
  CHECK(place.run({"set", "bad.toml", "--out", "o"}).status == 1);
  CHECK(place.all("o") == before);
  CHECK(place.run({"set", "none.toml", "--out", "o"}).err == "none.toml:1:1: cannot be read: No such file or directory\n");
}

TEST_CASE("set: the order as it is read", "[app][set]") {
  auto const read = read_set_file(
      "title = \"Feed\"\nclass = \"c.csv\"\ncourse = \"k.toml\"\nversions = \"A/B\"\nseed = 12\n[[question]]\nkind = "
      "\"n-cV\"\ncount = 3\n"
      "[[question]]\nproblem = \"own.problem\"\nmarks = 5\nlevel = \"standard\"\n");
  CHECK(read.faults.empty());
  CHECK(read.plan.title == "Feed");
  CHECK(read.plan.versions == SetPlan::Versions::ab);
  CHECK(read.class_file == "c.csv");
  CHECK(read.course_file == "k.toml");
  CHECK(read.seed == "12");
  REQUIRE(read.plan.items.size() == 2);
  CHECK(read.plan.items[0].count == 3);
  CHECK(read.plan.items[1].marks == 5);
  CHECK(read.plan.items[1].level == "standard");
  REQUIRE(read.problems.size() == 1);
  CHECK(read.problems[0].item == 1);
  CHECK(read.problems[0].file == "own.problem");
  REQUIRE(read.places.size() == 2);
  CHECK(read.places[1].line == 9);
}

TEST_CASE("set: several processors, the same bytes", "[app][set]") {
  Workplace place;
  place.write("set.toml", "title = \"Feed\"\nversions = 30\nseed = \"s\"\n" + two_kinds);
  REQUIRE(place.run({"set", "set.toml", "--out", "one"}).status == 0);
  REQUIRE(place.run({"set", "set.toml", "--out", "two", "--jobs", "2"}).status == 0);
  CHECK(place.all("one") == place.all("two"));
  CHECK(place.run({"set", "set.toml", "--out", "x", "--jobs", "0"}).status == 2);
}

TEST_CASE("set: nothing that was set before, and a re-sit", "[app][set]") {
  Workplace place;
  place.write("set.toml", "title = \"Feed\"\nversions = 8\nseed = \"s\"\n" + two_kinds);
  REQUIRE(place.run({"set", "set.toml", "--out", "first"}).status == 0);
  REQUIRE(place.run({"set", "set.toml", "--out", "next", "--avoid", "first/set.jsonl"}).status == 0);
  place.write("resit.toml", "title = \"Again\"\nversions = 8\nresit_of = \"first/set.jsonl\"\n");
  REQUIRE(place.run({"set", "resit.toml", "--out", "resit", "--avoid", "next/set.jsonl"}).status == 0);
  std::map<std::string, std::string> texts;
  std::vector<std::string> templates;
  for (std::string const folder : {"first", "next", "resit"}) {
    std::size_t at = 0;
    for (auto const& line : lines_of(place.read(folder + "/set.jsonl"))) {
      auto const question = Json::parse(line);
      if (!question.contains("text")) continue;
      CAPTURE(folder);
      CHECK(texts.emplace(question["text"], folder).second);
      if (folder == "first") templates.push_back(question["template"]);
      if (folder == "resit") CHECK(templates.at(at) == question["template"]);
      ++at;
    }
  }
  CHECK(texts.size() == 3 * templates.size());
  auto const none = place.run({"set", "set.toml", "--out", "x", "--avoid", "gone.jsonl"});
  CHECK(none.status == 1);
  CHECK(none.err == "gone.jsonl:1:1: cannot be read: No such file or directory\n");
  CHECK_FALSE(place.there("x"));
}

TEST_CASE("set: the kinds are listed", "[app][set]") {
  Workplace place;
  auto const said = place.run({"set", "--kinds"});
  CHECK(said.status == 0);
  CHECK(said.out.find("dilution                 dilution\n") != std::string::npos);
  CHECK(said.out.find("    stretching  two-dilutions") != std::string::npos);
  auto const first = Json::parse(lines_of(place.run({"set", "--kinds", "--json"}).out).at(0));
  CHECK(keys_of(first) == std::vector<std::string>{"kind", "words", "templates"});
  CHECK(first["templates"][0]["questions"].get<double>() > 100);
}

TEST_CASE("set: thirty variants of an own problem, all different", "[app][set][variant]") {
  Workplace place;
  place.write("own.problem",
              "problem feed\ngiven m(KNO3) = 5.05 g\ngiven V(KNO3) = 250.0 mL\nfind c(KNO3) in mol/L\ntext\n"
              "  For the lettuce 5.05 g of {name KNO3} is made up to {V(KNO3)}. Calculate the concentration.\nend\n");
  place.write("set.toml", "title = \"Own\"\nversions = 30\n[[question]]\nproblem = \"own.problem\"\nvary = true\n");
  auto const said = place.run({"set", "set.toml", "--out", "out"});
  CAPTURE(said.err, said.out);
  REQUIRE(said.status == 0);
  auto const lines = lines_of(place.read("out/set.jsonl"));
  std::set<std::string> texts;
  for (auto const& line : lines) {
    auto const json = Json::parse(line);
    if (json.contains("text")) texts.insert(json["text"].get<std::string>());
  }
  CHECK(texts.size() == 30);
}

TEST_CASE("set: practice without an order is as long as the set that was marked, and of each student's level",
          "[app][set][practice]") {
  Workplace place;
  place.write("class.csv", "student,level\nAnn Reed,plain\nBo Sedge,standard\nCy Moss,stretching\n");
  place.write("set.toml",
              "title = \"Feed\"\nclass = \"class.csv\"\nseed = \"p\"\n[[question]]\nkind = \"n-cV\"\n[[question]]\nkind = "
              "\"ions\"\n[[question]]\ntemplate = \"mass-for-a-solution\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "set"}).status == 0);
  place.write("a.csv",
              "student,1,2,3\nAnn Reed,absent,absent,absent\nBo Sedge,absent,absent,absent\nCy Moss,absent,absent,absent\n");
  place.run({"mark", "set/set.jsonl", "a.csv", "--out", "marked"});
  place.write("next.toml", "title = \"Again\"\nclass = \"class.csv\"\nseed = \"q\"\n");
  auto const said = place.run({"set", "next.toml", "--practise-from", "marked", "--out", "next"});
  CAPTURE(said.err);
  REQUIRE(said.status == 0);
  auto const was = lines_of(place.read("set/set.jsonl")), is = lines_of(place.read("next/set.jsonl"));
  REQUIRE(is.size() == was.size());
  for (std::size_t i = 1; i < is.size(); ++i) {
    auto const before = Json::parse(was[i]), now = Json::parse(is[i]);
    CHECK(now["student"] == before["student"]);
    CHECK(now["number"] == before["number"]);
    CHECK(now["kind"] == before["kind"]);
    CHECK(now["code"] != before["code"]);
  }
}

TEST_CASE("set: practice from marks, each student's own slips first", "[app][set][practice]") {
  Workplace place;
  place.write("class.csv", "student\nAnn Reed\nBo Sedge\nCy Moss\nDov Hart\n");
  place.write("set.toml",
              "title = \"Feed\"\nclass = \"class.csv\"\nversions = \"one\"\nseed = \"p\"\n[[question]]\ntemplate = "
              "\"sulfate-in-feed-water\"\n[[question]]\ntemplate = \"volume-for-an-amount\"\n[[question]]\ntemplate = "
              "\"mass-for-a-solution\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "set"}).status == 0);
  auto const first = Json::parse(lines_of(place.read("set/set.jsonl")).at(1));
  auto const key = first["parts"][0]["slip_key"];
  REQUIRE(key.size() >= 2);
  std::string const slip = key[0]["ids"][0];
  // Ann makes a slip, Bo has all right, Cy leaves one out, Dov is absent.
  place.write("a.csv", "student,1,2,3\nAnn Reed," + key[0]["letter"].get<std::string>() +
                           ",right,right\nBo Sedge,right,right,right\nCy Moss,right,,right\nDov Hart,absent,absent,absent\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "marked"}).status == 0);
  place.write("next.toml", "title = \"Again\"\nseed = \"q\"\navoid = \"set/set.jsonl\"\n");
  auto const said = place.run({"set", "next.toml", "--practise-from", "marked", "--out", "next"});
  CAPTURE(said.err);
  REQUIRE(said.status == 0);
  CHECK(said.out.find("4 papers, 12 questions") != std::string::npos);
  CHECK(said.out.find("4 questions on the slips of 2 students") != std::string::npos);
  std::map<std::string, std::vector<Json>> papers;
  auto const lines = lines_of(place.read("next/set.jsonl"));
  for (std::size_t i = 1; i < lines.size(); ++i) papers[Json::parse(lines[i])["student"]].push_back(Json::parse(lines[i]));
  REQUIRE(papers.size() == 4);
  std::set<std::string> codes;
  for (auto const& [student, questions] : papers) {
    CAPTURE(student);
    REQUIRE(questions.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
      CHECK(questions[i]["number"] == std::to_string(i + 1));
      codes.insert(questions[i]["code"].get<std::string>());
    }
  }
  CHECK(codes.size() == 12);
  for (std::size_t i = 0; i < 2; ++i) {  // two on the slip, and its wrong answer is expected there
    bool found = false;
    for (auto const& part : papers["Ann Reed"][i]["parts"])
      for (auto const& entry : part["slip_key"]) found = found || entry["ids"][0] == slip;
    CHECK(found);
  }
  CHECK(papers["Ann Reed"][0]["template"] == first["template"]);
  CHECK(papers["Ann Reed"][0]["text"] != first["text"]);
  auto const second = Json::parse(lines_of(place.read("set/set.jsonl")).at(2));
  CHECK(papers["Cy Moss"][0]["template"] == second["template"]);
  // The set can be marked as any other.
  place.write("b.csv", "student,1,2,3\nAnn Reed," + papers["Ann Reed"][0]["parts"][0]["answer"].get<std::string>() + ",,\n");
  CHECK(place.run({"mark", "next/set.jsonl", "b.csv"}).status == 0);
}

TEST_CASE("set: practice by the same order holds no question that was set, nor one of a student's feedback",
          "[app][set][practice]") {
  Workplace place;
  place.write("class.csv", "student\nAnn Reed\nBo Sedge\nCy Moss\nDov Hart\n");
  place.write("set.toml",
              "title = \"Feed\"\nclass = \"class.csv\"\nseed = \"p\"\n[[question]]\ntemplate = \"sulfate-in-feed-water\"\n"
              "[[question]]\ntemplate = \"volume-for-an-amount\"\n[[question]]\ntemplate = \"mass-for-a-solution\"\n");
  REQUIRE(place.run({"set", "set.toml", "--out", "set"}).status == 0);
  place.write("a.csv", "student,1,2,3\nAnn Reed,A,A,A\nBo Sedge,B,,B\nCy Moss,right,A,right\n");
  REQUIRE(place.run({"mark", "set/set.jsonl", "a.csv", "--out", "marked"}).status == 0);
  std::set<std::string> set, fresh;
  for (auto const& line : lines_of(place.read("set/set.jsonl")))
    if (auto const json = Json::parse(line); json.contains("code")) set.insert(json["code"]);
  for (auto const& line : lines_of(place.read("marked/marks.jsonl")))
    if (auto const json = Json::parse(line); json.contains("new_question")) fresh.insert(json["new_question"]);
  REQUIRE(fresh.size() >= 2);
  auto const feedback = place.read("marked/feedback.txt");
  for (auto const& code : fresh) CHECK(feedback.find(code) != std::string::npos);
  auto const said = place.run({"set", "set.toml", "--practise-from", "marked", "--out", "next"});
  CAPTURE(said.err);
  REQUIRE(said.status == 0);
  for (auto const& line : lines_of(place.read("next/set.jsonl"))) {
    auto const json = Json::parse(line);
    if (!json.contains("code")) continue;
    CAPTURE(json["student"], json["number"]);
    CHECK(set.count(json["code"]) == 0);
    CHECK(fresh.count(json["code"]) == 0);
  }
}

TEST_CASE("set: results that cannot be read, the exact text", "[app][set][practice][bad-input]") {
  Workplace place;
  place.write("set.toml", "title = \"Feed\"\nversions = 2\n[[question]]\nkind = \"dilution\"\n");
  place.write("newer.jsonl", "{\"format\": \"molewright-marks/2\"}\n");
  place.write("other.jsonl", "student,1\n");
  place.write("cut.jsonl", "{\"format\": \"molewright-marks/1\"}\n{\"student\": \"Ann\"\n");
  struct Case {
    std::string file, said;
  };
  auto const c = GENERATE(values<Case>({
      {"none.jsonl", "none.jsonl:1:1: cannot be read: No such file or directory\n"},
      {"newer.jsonl", "newer.jsonl:1:1: these marks have the format molewright-marks/2, expected molewright-marks/1\n"},
      {"other.jsonl", "other.jsonl:1:1: these are no marks, expected the marks.jsonl of a class, or the folder that holds it\n"},
      {"cut.jsonl", "cut.jsonl:2:1: this line is no judgement, expected a line as this program writes it\n"},
  }));
  auto const said = place.run({"set", "set.toml", "--practise-from", c.file, "--out", "o"});
  CHECK(said.status == 1);
  CHECK(said.err == c.said);
  CHECK_FALSE(place.there("o"));
}
