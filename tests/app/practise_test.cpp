// Practice at the terminal: a conversation with scripted input, the record, and what happens when either breaks.
#include <sys/stat.h>

#include <algorithm>
#include <csignal>

#include "program.h"

using namespace molewright;

namespace {

/// What is said in answer to these lines, no-break blanks as blanks.
std::string talk(Workplace const& place, std::vector<std::string> arguments, std::vector<std::string> const& lines) {
  arguments.insert(arguments.begin(), "practise");
  std::string input;
  for (auto const& line : lines) input += line + '\n';
  auto said = place.run(arguments, input);
  CHECK(said.status == 0);
  CHECK(said.err.empty());
  for (std::size_t at; (at = said.out.find("\u00A0")) != std::string::npos;) said.out.replace(at, 2, " ");
  return said.out;
}

bool has(std::string const& text, std::string const& piece) { return text.find(piece) != std::string::npos; }

/// The answer to the first part of a question, found as a student would who asks for it.
std::string answer_shown(std::string const& said) {
  auto const at = said.find("The answer: ");
  REQUIRE(at != std::string::npos);
  auto const equals = said.find(" = ", at);
  return said.substr(equals + 3, said.find(".\n", equals) - equals - 3);
}

std::vector<Json> record(Workplace const& place, std::string const& name) {
  std::vector<Json> lines;
  for (auto const& line : lines_of(place.read(name))) lines.push_back(Json::parse(line));
  return lines;
}

/// The program with pipes to it, for what happens when it is stopped from outside.
class Running {
 public:
  Running(Workplace const& place, std::vector<std::string> arguments) {
    int in[2], out[2];
    REQUIRE(pipe(in) == 0);
    REQUIRE(pipe(out) == 0);
    child_ = fork();
    REQUIRE(child_ >= 0);
    if (child_ == 0) {
      std::vector<char*> words{const_cast<char*>(MOLEWRIGHT_PROGRAM)};
      for (auto& argument : arguments) words.push_back(argument.data());
      words.push_back(nullptr);
      bool const placed = chdir(place.at("").c_str()) == 0;
      dup2(in[0], STDIN_FILENO);
      dup2(out[1], STDOUT_FILENO);
      dup2(out[1], STDERR_FILENO);
      for (int end : {in[0], in[1], out[0], out[1]}) close(end);
      if (placed) execv(words.front(), words.data());
      _exit(127);
    }
    close(in[0]);
    close(out[1]);
    to_ = in[1];
    from_ = out[0];
  }
  ~Running() {
    close(to_);
    close(from_);
  }
  Running(Running const&) = delete;
  Running& operator=(Running const&) = delete;

  void write(std::string const& line) const { REQUIRE(::write(to_, (line + '\n').data(), line.size() + 1) > 0); }
  /// Reads until the program has said `text`; false when it ends without.
  bool says(std::string const& text) {
    char byte = 0;
    while (!has(said_, text)) {
      if (read(from_, &byte, 1) != 1) return false;
      said_ += byte;
    }
    return true;
  }
  int stop(int signal) const {
    int status = 0;
    REQUIRE(kill(child_, signal) == 0);
    REQUIRE(waitpid(child_, &status, 0) == child_);
    return WIFSIGNALED(status) ? WTERMSIG(status) : -1;
  }

 private:
  pid_t child_ = -1;
  int to_ = -1, from_ = -1;
  std::string said_;
};

/// Part a is an amount in solution, part b the mass of what it forms.
std::vector<std::string> const precipitate{"precipitate", "--level", "plain", "--seed", "a"};
std::vector<std::string> const amounts{"n-cV", "--level", "plain", "--seed", "1"};
std::vector<std::string> keeping(std::vector<std::string> arguments, char const* command = "") {
  arguments.insert(arguments.end(), {"--keep", "mine.jsonl"});
  if (*command != 0) arguments.insert(arguments.begin(), command);
  return arguments;
}
}  // namespace

TEST_CASE("practise: a whole conversation, as it is read aloud", "[app][practise]") {
  Workplace place;
  // What the working comes to, read off it: the conversation is then had with these numbers.
  auto const shown = talk(place, precipitate, {"answer", "answer"});
  auto const from = shown.find("Answer (a)");
  REQUIRE(from != std::string::npos);
  auto const asked = shown.substr(0, from);
  auto const first = answer_shown(shown);
  auto const second = answer_shown(shown.substr(shown.find("Answer (b)")));
  auto const in_b = lines_of(shown.substr(shown.find("Answer (b)")));
  auto const ratio = in_b.at(1), mass = in_b.at(2);
  auto const result = ratio.substr(ratio.rfind(" = ") + 3);

  auto const said = talk(place, precipitate, {"hint", "hint", "7.77777 g", first, "steps", result, "", second, "quit"});
  auto const prompt = [&](char const* part) {
    auto const at = shown.find(std::string("Answer ") + part);
    return shown.substr(at, shown.find('\n', at) - at + 1);
  };
  INFO(said);
  auto const lines = lines_of(said.substr(asked.size()));
  auto const first_prompt = prompt("(a)"), second_prompt = prompt("(b)");
  CHECK(said.rfind(asked, 0) == 0);
  CHECK(asked.rfind("Practice. Write an answer with its unit, or one of these words: hint, step, steps, answer, another, help, "
                    "quit.\n\n",
                    0) == 0);
  REQUIRE(lines.size() == 23);
  for (std::size_t const at : {0U, 2U, 4U, 7U}) CHECK(lines[at] + '\n' == first_prompt);
  CHECK(has(lines[1], "Next: "));
  CHECK(has(lines[3], "Work it out like this: "));
  CHECK(has(lines[5], "7.77777 g is not the answer yet."));
  CHECK(lines[6] == "Try again when you like; hint and steps are there too.");
  CHECK(lines[8] == "Right.");
  CHECK(lines[9] + '\n' == second_prompt);
  CHECK(lines[10] == "Step by step. Write what you get for each step, or press Enter to see it. Write back to leave.");
  CHECK(has(lines[11], "Next: find n("));
  CHECK(has(lines[11], "The numbers before the formulas in the equation give the mole ratio."));
  CHECK(lines[13] == "Right.");
  CHECK(has(lines[14], "Next: find M("));
  CHECK(lines[16] == mass);
  CHECK(has(lines[17], "Next: find m("));
  CHECK(lines[18] + '\n' == second_prompt);
  CHECK(lines[19] == "Right.");
  CHECK(lines[20] == "Press Enter for another question: ");
  CHECK(lines[22] == "Nothing was kept.");
}

TEST_CASE("practise: words and answers that are none", "[app][practise][bad-input]") {
  Workplace place;
  struct Row {
    std::string line, said;
  };
  for (auto const& row : std::vector<Row>{
           {"", "Write an answer, or hint, step, steps, answer, another, kinds, help or quit.\n"},
           {"hlep", "There is no word \"hlep\" here. Did you mean help?\n"},
           {"HINT", "Next: "},
           {"idk", "Next: "},
           {"?", "hint: which relation comes next."},
           {"no number at all", "That cannot be read as one number with its unit, such as 1.72 g.\n"},
           {"right", "That cannot be read as one number with its unit, such as 1.72 g.\n"},  // a teacher's tick, no answer
           {"B", "That cannot be read as one number with its unit, such as 1.72 g.\n"},      // a letter of a teacher's card
           {"absent", "That cannot be read as one number with its unit, such as 1.72 g.\n"},
           {"1 or 2 mol", "That cannot be read as one number with its unit, such as 1.72 g.\n"},
           {"7.77777 mol", "7.77777 mol is not the answer yet."},
           {std::string("\0\xff\x1b[2J", 6), "That cannot be read as one number with its unit, such as 1.72 g.\n"},
           {std::string(100000, '1'), "That cannot be read as one number with its unit, such as 1.72 g.\n"},
           {"back", "Answer"},
       }) {
    auto const said = talk(place, amounts, {row.line});
    INFO(row.line.substr(0, 40) << "\n" << said);
    auto const prompt = said.find("Answer, ");
    REQUIRE(prompt != std::string::npos);
    CHECK(has(said.substr(said.find('\n', prompt)), row.said));
    CHECK_FALSE(has(said, "Right."));
  }
}

TEST_CASE("practise: step, answer, another, kinds; the working again once it is done", "[app][practise]") {
  Workplace place;
  auto const shown = talk(place, amounts, {"answer", "working", ""});
  auto const right = answer_shown(shown);
  CHECK(std::count(shown.begin(), shown.end(), '=') > 2);
  auto const done = talk(place, amounts, {right, "quit"});
  CHECK(has(done, "Right.\nPress Enter for another question: \n"));
  // Each `step` shows one line more; the last one is the answer.
  auto const stepped = talk(place, amounts, {"step", "step", "step", "step", "quit"});
  CHECK(answer_shown(stepped) == right);
  auto const other = talk(place, amounts, {"another", "kinds", "dilution", "quit"});
  CHECK(has(other, "What would you like to practise?"));
  CHECK(has(other, "Kinds: \n\n"));
}

TEST_CASE("practise: kinds are asked for, by name or number", "[app][practise]") {
  Workplace place;
  auto const said = talk(place, {"--seed", "1"}, {"kinds", "dilutoin", "99", "Serial dilutions, 7", "quit"});
  CHECK(has(said, "\n7: amounts in solution\n"));
  CHECK(has(said, "There is no kind called dilutoin. Did you mean dilution? Write list to hear all kinds.\n"));
  CHECK(has(said, "There is no kind called 99. Write list to hear all kinds.\n"));
  CHECK(has(said, "Answer"));
  CHECK(has(talk(place, {"--seed", "1"}, {"", "quit"}), "Answer"));  // the program chooses
  CHECK(has(talk(place, {}, {}), "Kinds: \n\nNothing was kept.\n"));

  auto const unknown = place.run({"practise", "titrashun"}, "");
  CHECK(unknown.status == 1);
  CHECK(unknown.out.empty());
  CHECK(unknown.err == "argument 1:1:1: there is no kind called \"titrashun\", expected titration\n  titrashun\n  ^\n");
  auto const gas = place.run({"practise", "gas"}, "").err;
  CHECK(has(gas, "expected"));
  CHECK(has(gas, "gas-"));  // the kinds that hold the word
  CHECK(has(place.run({"practise", "knitting"}, "").err, "expected a kind; practise without one"));
  CHECK(place.run({"practise", "--level", "hard"}, "").status == 2);
  CHECK(place.run({"practise", "--json"}, "").status == 2);
}

TEST_CASE("practise: from the kinds there is a way back to the question", "[app][practise]") {
  Workplace place;
  auto const right = answer_shown(talk(place, amounts, {"answer", "quit"}));
  auto const said = talk(place, amounts, {"kinds", "list", "back", right, "quit"});
  auto const left = said.find("This is the question that you left:");
  CHECK(has(said, "Write back to return to your question.\n"));
  REQUIRE(left != std::string::npos);
  CHECK(said.find("Right.", left) != std::string::npos);
  // Once it is done there is none to go back to: another of the same kinds comes.
  auto const done = talk(place, amounts, {right, "kinds", "back", "quit"});
  CHECK_FALSE(has(done, "This is the question that you left:"));
  CHECK(has(done.substr(done.find("Kinds: ")), "Answer"));
  // At the beginning no question was left.
  auto const first = talk(place, {"--seed", "1"}, {"back", "", "quit"});
  CHECK_FALSE(has(first, "Write back"));
  CHECK(has(first, "There is no kind called back."));
}

TEST_CASE("practise: plain formulas for ears", "[app][practise]") {
  Workplace place;
  auto arguments = precipitate;
  arguments.push_back("--plain");
  auto const said = talk(place, arguments, {"hint", "steps", "", "", "quit"});
  CHECK(has(said, "NO3(aq)"));
  for (char const* mark : {"₂", "₃", "²", "⁻", "\u00A0", "\x1b"}) CHECK_FALSE(has(said, mark));
}

TEST_CASE("practise: a slip chooses the next question, and the record holds it", "[app][practise][record]") {
  Workplace place;
  auto const arguments = keeping(amounts);
  auto const right = answer_shown(talk(place, amounts, {"answer"}));
  auto const blank = right.find(' ');
  // What a volume left in millilitres gives: a thousand times as much, or a thousandth.
  auto const wrong = std::to_string(std::stod(right) * 1000) + right.substr(blank);
  auto const said = talk(place, arguments, {wrong, right, "", "quit"});
  INFO(said);
  auto const lines = record(place, "mine.jsonl");
  REQUIRE(lines.size() == 3);
  CHECK(lines[0] == Json::parse(R"({"format": "molewright-practice/1", "kinds": ["n-cV"], "level": "plain"})"));
  CHECK(keys_of(lines[1]) == std::vector<std::string>{"code", "kind", "template", "chosen_for", "left", "parts"});
  auto const part = lines[1]["parts"][0];
  CHECK(part["state"] == "right");
  CHECK(part["answers"][0]["given"] == wrong);
  CHECK(part["answers"][0]["value"] == "wrong");
  CHECK(part["answers"][1]["value"] == "right");
  REQUIRE(part["answers"][0]["slips"].size() == 1);
  CHECK(lines[2]["chosen_for"] == part["answers"][0]["slips"][0]);
  CHECK(has(said, "This one is about something that went wrong before: "));
  CHECK(has(said, "Kept in mine.jsonl. Start with the same file to go on from here.\n"));
}

TEST_CASE("practise: goes on where it was left", "[app][practise][record]") {
  Workplace place;
  auto const shown = talk(place, precipitate, {"answer", "answer"});
  auto const text = shown.substr(shown.find("\n\n"), shown.find("Answer (a)") - shown.find("\n\n"));
  auto const second_answer = answer_shown(shown.substr(shown.find("Answer (b)")));
  talk(place, keeping(precipitate), {answer_shown(shown)});
  auto const second = talk(place, {"--keep", "mine.jsonl"}, {second_answer});
  CHECK(has(second, "This is the question that you left:" + text));
  CHECK_FALSE(has(second, "Answer (a)"));
  CHECK(has(second, ": \nRight.\n"));
  CHECK(record(place, "mine.jsonl").size() == 2);
  // Once it is done, the same kinds go on without a word.
  auto const third = talk(place, {"--keep", "mine.jsonl"}, {"another", "quit"});
  CHECK_FALSE(has(third, "What would you like"));
  CHECK_FALSE(has(third, "that you left"));
  CHECK(record(place, "mine.jsonl").at(2)["kind"] == "precipitate");
  CHECK(record(place, "mine.jsonl").at(2)["left"] == true);

  // Under another course the question would be another one.
  place.write("whole.toml", "atomic_weights = \"whole\"\n");
  auto const other = talk(place, {"--keep", "mine.jsonl", "--course", "whole.toml"}, {"quit"});
  CHECK(has(other, "cannot be made again here"));
}

TEST_CASE("practise: stopped from outside, the record is whole", "[app][practise][record]") {
  for (int const signal : {SIGINT, SIGTERM, SIGKILL}) {
    Workplace place;
    auto const answer = answer_shown(talk(place, precipitate, {"answer"}));
    Running running(place, keeping(precipitate, "practise"));
    running.write(answer);
    REQUIRE(running.says("Right."));
    CHECK(running.stop(signal) == signal);
    CHECK(record(place, "mine.jsonl").at(1)["parts"][0]["state"] == "right");
    CHECK(has(talk(place, {"--keep", "mine.jsonl"}, {}), "Answer (b)"));
  }
}

TEST_CASE("practise: files that cannot keep a record", "[app][practise][record][bad-input]") {
  Workplace place;
  place.write("other.jsonl", "{\"format\": \"molewright-set/1\"}\n");
  place.write("newer.jsonl", "{\"format\": \"molewright-practice/9\"}\n");
  place.write("broken.jsonl", "{\"format\": \"molewright-practice/1\"}\n{\"code\": 7}\n");
  place.write("words.txt", "Dear diary\n");
  place.write("folder/x", "");
  struct Row {
    char const *file, *err;
  };
  for (auto const& row : std::vector<Row>{
           {"other.jsonl",
            "1:1: this file is no record of practice, expected a record, or the name of a file that is not there yet"},
           {"newer.jsonl", "1:1: this record is of the form molewright-practice/9, expected molewright-practice/1"},
           {"broken.jsonl", "2:1: this line is no question of a record, expected the record as the program left it"},
           {"words.txt",
            "1:1: this file is no record of practice, expected a record, or the name of a file that is not there yet"},
           {"folder", "1:1: a record needs a file of its own, expected the name of a file"},
           {"/dev/null", "1:1: a record needs a file of its own, expected the name of a file"},
           {"-", "1:1: a record needs a file of its own, expected the name of a file"},
       }) {
    auto const said = place.run({"practise", "dilution", "--keep", row.file}, "quit\n");
    INFO(row.file);
    CHECK(said.status == 1);
    CHECK(said.out.empty());
    CHECK(said.err == std::string(row.file) + ':' + row.err + '\n');
  }
  CHECK(place.read("other.jsonl") == "{\"format\": \"molewright-set/1\"}\n");
  CHECK(place.read("words.txt") == "Dear diary\n");
  // A folder in place of a folder's way: nothing can be written below a file.
  auto const below = place.run({"practise", "dilution", "--keep", "words.txt/mine.jsonl"}, "quit\n");
  CHECK(below.status == 1);
  CHECK(has(below.err, "cannot be made"));
}

TEST_CASE("practise: a record that can no longer be written is told once, and practice goes on", "[app][practise][record]") {
  Workplace place;
  auto const shown = talk(place, precipitate, {"answer", "answer"});
  Running running(place, {"practise", "precipitate", "--level", "plain", "--seed", "a", "--keep", "way/mine.jsonl"});
  REQUIRE(running.says("Answer (a)"));
  std::filesystem::remove_all(place.at("way"));
  place.write("way", "now a file");
  running.write(answer_shown(shown));
  CHECK(running.says("This session cannot be kept any more; you can go on all the same."));
  CHECK(running.says("Right."));
  running.write(answer_shown(shown.substr(shown.find("Answer (b)"))));
  running.write("quit");
  CHECK(running.says("Nothing was kept."));
}

TEST_CASE("practise: what is tried again and again is answered in other words each time", "[app][practise]") {
  Workplace place;
  // Steps of a longer working, and the only step of a part, which is its answer.
  auto const kind = GENERATE(as<std::string>(), "precipitate", "titration");
  auto const said = talk(place, {kind, "--seed", "s"}, {"steps", "7 kg", "8 kg", "9 kg", "11 kg", "", "quit"});
  CAPTURE(said);
  bool const steps = kind == "precipitate";
  CHECK(has(said, steps ? "This step goes like this: " : "8 kg is not the answer yet."));
  CHECK(has(said, steps ? "Press Enter to see this step, then go on from it."
                        : "Write step to see the next step worked, or answer for the whole"));
  std::size_t times = 0;
  for (auto at = said.find("The answer alone"); at != std::string::npos; at = said.find("The answer alone", at + 1)) ++times;
  CHECK(times <= 1);
}

TEST_CASE("practise: the only step is not given away unasked", "[app][practise]") {
  Workplace place;
  auto const said = talk(place, {"titration", "--seed", "s"}, {"step", "step", "quit"});  // two readings of a burette
  CAPTURE(said);
  auto const warned = said.find("There is one step only, and it gives the answer.");
  REQUIRE(warned != std::string::npos);
  CHECK(said.substr(0, warned).find("Next: find") != std::string::npos);
  auto const answer = said.find("The answer: ");
  REQUIRE(answer != std::string::npos);
  CHECK(answer > warned);
}
