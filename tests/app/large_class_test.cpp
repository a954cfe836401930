// mark: a class beyond a volume, however its answers are handed in, in memory that does not grow with it.
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "app/files.h"
#include "tests/app/marked.h"
#include "tests/sanitizers.h"
#include "tests/templates/pdf_reading.h"
#include "tests/templates/workbook_reading.h"

using namespace molewright;

namespace {
std::string name_of(std::size_t student) {
  auto const number = std::to_string(student);
  return "Student " + std::string(5 - number.size(), '0') + number;
}

/// A class with one paper for all: a precipitate and a limiting reagent (1, 2a, 2b). Of three answers one is right, one is what a
/// slip leads to and one is nobody else's; every seventh student was absent.
struct LargeClass : Workplace {
  explicit LargeClass(std::size_t size) : students(size) {
    std::string members = "student\n";
    for (std::size_t s = 0; s < students; ++s) members += name_of(s) + '\n';
    write("class.csv", members);
    write("set.toml",
          "title = \"Feed\"\nclass = \"class.csv\"\nversions = \"one\"\nseed = \"m\"\n[[question]]\nkind = \"precipitate\"\n"
          "[[question]]\nkind = \"limiting-reagent\"\n");
    REQUIRE(run({"set", "set.toml", "--out", "set"}).status == 0);
    for (auto const& line : lines_of(read("set/set.jsonl"))) {
      auto const question = Json::parse(line);
      for (std::size_t p = 0; question.contains("parts") && p < question["parts"].size(); ++p) {
        columns.push_back(question["number"].get<std::string>() +
                          (question["parts"].size() > 1 ? std::string(1, static_cast<char>('a' + p)) : ""));
        parts.push_back(question["parts"][p]);
      }
    }
  }
  std::string cell(std::size_t student, std::size_t part) const {
    if (student % 7 == 3) return "absent";
    auto const& of = parts[part];
    auto const unit = ' ' + of["unit"].get<std::string>();
    auto const what = (student + part) % 3;
    if (what == 0 || of["unit"] == "") return of["answer"].get<std::string>() + unit;
    if (what == 1 && !of["slip_key"].empty())
      return of["slip_key"][student % of["slip_key"].size()]["answer"].get<std::string>() + unit;
    return std::to_string(1000 + student) + "e-3" + unit;
  }
  /// A wide table of the students from `first` on, and a long one, a question after the other.
  std::string wide(std::size_t first, std::size_t last) const {
    std::string out = "student";
    for (auto const& column : columns) out += ',' + column;
    for (std::size_t s = first; s < last; ++s) {
      out += '\n' + name_of(s);
      for (std::size_t p = 0; p < parts.size(); ++p) out += ',' + cell(s, p);
    }
    return out + '\n';
  }
  std::string long_form(std::size_t first, std::size_t last) const {
    std::string out = "student,question,answer\n";
    for (std::size_t p = 0; p < parts.size(); ++p)
      for (std::size_t s = last; s-- > first;) out += name_of(s) + ',' + columns[p] + ',' + cell(s, p) + '\n';
    return out;
  }

  std::size_t students;
  std::vector<std::string> columns;
  std::vector<Json> parts;
};

std::size_t count_of(std::string const& text, std::string const& what) {
  std::size_t count = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++count;
  return count;
}

std::vector<std::string> cells_of_row(std::string row) {
  std::vector<std::string> cells;
  row += ',';
  for (std::size_t end = row.find(','); end != std::string::npos; end = row.find(',')) {
    cells.push_back(row.substr(0, end));
    row.erase(0, end + 1);
  }
  return cells;
}
}  // namespace

TEST_CASE("mark: a class beyond a volume has feedback and corrections in volumes, and nobody is lost between",
          "[app][mark][large]") {
  LargeClass const place(1050);
  place.write("a.csv", place.wide(0, place.students));
  auto const said = place.run({"mark", "set/set.jsonl", "a.csv", "--out", "o"});
  CHECK(said.err.empty());
  REQUIRE(said.status == 0);
  std::vector<std::string> names;
  for (auto const& [name, bytes] : place.all("o")) names.push_back(name);
  CHECK(names == std::vector<std::string>{"corrections-001.pdf", "corrections-002.pdf", "corrections-003.pdf", "corrections.txt",
                                          "feedback-001.pdf", "feedback-002.pdf", "feedback-003.pdf", "feedback.txt", "marks.csv",
                                          "marks.jsonl", "next-morning.pdf", "next-morning.txt", "report.pdf", "report.txt",
                                          "report.xlsx"});
  auto const rows = lines_of(place.read("o/marks.csv"));
  REQUIRE(rows.size() == place.students + 1);
  auto const judged = lines_of(place.read("o/marks.jsonl"));
  REQUIRE(judged.size() == place.students * place.columns.size() + 1);
  auto const feedback = place.read("o/feedback.txt"), corrections = place.read("o/corrections.txt");
  std::size_t at = 0;
  for (std::size_t s = 0; s < place.students; ++s) {
    CAPTURE(s);
    CHECK(rows[s + 1].rfind(name_of(s) + ',', 0) == 0);
    CHECK(Json::parse(judged[1 + s * place.columns.size()])["student"] == name_of(s));
    auto const heading = (s > 0 ? "\n\n" : "") + name_of(s) + "\n=============\n";
    auto const found = feedback.find(heading, at);
    REQUIRE(found != std::string::npos);
    at = found;
    auto const marks = cells_of_row(rows[s + 1]);  // ..., total, out of, with suggested marks
    bool const lost_any = marks.at(marks.size() - 3) != marks.at(marks.size() - 2);
    CHECK(count_of(corrections, name_of(s) + '\n') == (s % 7 != 3 && lost_any ? 1 : 0));
  }
  CHECK(count_of(feedback, "\n=============\n") == place.students);
  auto const second = reading::output_of("pdftotext " + reading::PdfFile(place.read("o/feedback-002.pdf")).quoted() + " -");
  for (std::size_t const s : {499U, 500U, 999U, 1000U}) {
    CAPTURE(s);
    CHECK((second.find(name_of(s)) != std::string::npos) == (s >= 500 && s < 1000));
  }
  CHECK(said.out.find("900 present, 150 absent") != std::string::npos);
  CHECK(said.out.find("Student 0") == std::string::npos);
  CHECK(place.read("o/next-morning.txt").find("sit with whom") == std::string::npos);
  auto const cells = reading::cells_of(place.read("o/report.xlsx"));
  CHECK(cells.at("Marks!A1052") == "s " + name_of(1049));
  CHECK(cells.at("Marks!A1053") == "s mean");
}

TEST_CASE("mark: the same marks for a wide file, a long one, several, and standard input", "[app][mark][large]") {
  LargeClass const place(620);
  place.write("wide.csv", place.wide(0, 620));
  place.write("long.csv", place.long_form(0, 620));
  place.write("first.csv", place.wide(0, 301));
  place.write("second.csv", place.long_form(300, 620));  // one student in both
  auto const marks = [&](std::vector<std::string> const& files, std::string const& input = "") {
    std::vector<std::string> arguments{"mark", "set/set.jsonl"};
    arguments.insert(arguments.end(), files.begin(), files.end());
    arguments.emplace_back("--json");
    auto const said = place.run(arguments, input);
    CHECK(said.err.empty());
    CHECK(said.status == 0);
    return said.out;
  };
  auto const expected = marks({"wide.csv"});
  CHECK(count_of(expected, "\n") == 620 * place.columns.size());
  CHECK(count_of(expected, "\"value\":\"wrong\"") > 300);
  CHECK(marks({"long.csv"}) == expected);
  CHECK(marks({"second.csv", "first.csv"}) == expected);
  CHECK(marks({"-"}, place.long_form(0, 620)) == expected);
  CHECK(marks({"first.csv", "-"}, place.wide(301, 620)) == expected);
}

TEST_CASE("files: more outputs at once than a system lets be open", "[app][files][large]") {
  Workplace const place;
  rlimit before{};
  REQUIRE(getrlimit(RLIMIT_NOFILE, &before) == 0);
  auto few = before;
  few.rlim_cur = 64;
  REQUIRE(setrlimit(RLIMIT_NOFILE, &few) == 0);
  std::size_t written = 0;
  {
    OutputFolder out(place.at("o"));
    for (char const* piece : {"one ", "two"})
      for (int i = 0; i < 100; ++i) out.add("part-" + std::to_string(i), piece);
    auto const result = out.write();
    if (ok(result)) written = value(result).size();
  }
  REQUIRE(setrlimit(RLIMIT_NOFILE, &before) == 0);
  CHECK(written == 100);
  CHECK(place.read("o/part-99") == "one two");
}

namespace {
/// The most memory, in kB, that the program took.
long memory_of(std::vector<std::string> arguments) {
  std::string program = MOLEWRIGHT_PROGRAM;
  std::vector<char*> pointers{program.data()};
  for (auto& argument : arguments) pointers.push_back(argument.data());
  pointers.push_back(nullptr);
  auto const child = fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    if (std::freopen("/dev/null", "w", stdout) != nullptr) execv(program.c_str(), pointers.data());
    _exit(127);
  }
  int status = 0;
  struct rusage used {};
  REQUIRE(wait4(child, &status, 0, &used) == child);
  REQUIRE(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
  return used.ru_maxrss;
}
}  // namespace

TEST_CASE("mark: memory does not grow with the class", "[app][mark][large]") {
  if (test::under_sanitizer) return;  // which holds on to what was let go
  auto const taken = [](std::size_t students) {
    LargeClass const place(students);
    place.write("a.csv", place.wide(0, students));
    return memory_of({"mark", place.at("set/set.jsonl"), place.at("a.csv"), "--out", place.at("o")});
  };
  // What many wrote is kept up to a bound, which the smaller class fills. Of 9,000 answers more their marks alone may stay: were
  // their judgements kept, it would be 40 MB.
  auto const few = taken(6000), many = taken(9000);
  CAPTURE(few, many);
  CHECK(many - few < 10000);
}
