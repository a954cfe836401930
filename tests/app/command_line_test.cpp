// What the program says of its own command line: help, and every way of getting it wrong.
#include "tests/app/program.h"

using namespace molewright;

TEST_CASE("command line: help of the program and of each command", "[app][command-line]") {
  Workplace place;
  auto const all = place.run({"--help"});
  CHECK(all.status == 0);
  CHECK(all.err.empty());
  for (std::string const command : {"mass", "balance", "solve", "set", "mark", "explain"}) {
    CAPTURE(command);
    CHECK(all.out.find("\n  " + command + ' ') != std::string::npos);
    auto const one = place.run({command, "--help"});
    CHECK(one.status == 0);
    CHECK(one.err.empty());
    CHECK(one.out.find("Usage: molewright " + command + " [options] ") != std::string::npos);
    for (char const* option : {"--help", "--json", "--course FILE"}) CHECK(one.out.find(option) != std::string::npos);
    CHECK(one.out.find("SUBCOMMAND") == std::string::npos);  // the option parser's own words
    CHECK(one.out.find("TEXT") == std::string::npos);
  }
}

TEST_CASE("command line: what is wrong with it, status 2 and nothing done", "[app][command-line]") {
  struct Case {
    std::vector<std::string> arguments;
    std::string said;
  };
  auto const c = GENERATE(values<Case>({
      {{},
       "a command is needed: mass, balance, react, name, solve, check, set, mark, term, explain or practise\nTry: molewright "
       "--help\n"},
      {{"frob"},
       "there is no command \"frob\"; the commands are mass, balance, react, name, solve, check, set, mark, term, explain or "
       "practise\nTry: "
       "molewright "
       "--help\n"},
      {{"balanc"}, "there is no command \"balanc\"; did you mean balance?\nTry: molewright --help\n"},
      {{"--json", "mass", "H2O"},
       "the command comes first: mass, balance, react, name, solve, check, set, mark, term, explain or practise\nTry: molewright "
       "--help\n"},
      {{"mass"}, "mass needs a FORMULA or a NAME, such as CuSO4.5H2O or \"washing soda\"\nTry: molewright mass --help\n"},
      {{"balance"}, "balance needs an EQUATION, such as \"Fe + O2 -> Fe2O3\"\nTry: molewright balance --help\n"},
      {{"solve"}, "solve needs a FILE of problems\nTry: molewright solve --help\n"},
      {{"mass", "H2O", "--jsn"}, "there is no option --jsn; did you mean --json?\nTry: molewright mass --help\n"},
      {{"mass", "-x", "H2O"}, "there is no option -x\nTry: molewright mass --help\n"},
      {{"mass", "H2O", "--out", "x"}, "there is no option --out\nTry: molewright mass --help\n"},
      {{"set"}, "set needs one SET.toml\nTry: molewright set --help\n"},
      {{"set", "a.toml"}, "set needs a folder to write to: --out DIR\nTry: molewright set --help\n"},
      {{"set", "a.toml", "b.toml", "--out", "x"},
       "set needs one SET.toml, not also \"b.toml\" (what holds a blank needs quotes round it)\nTry: molewright set --help\n"},
      {{"set", "a.toml", "--out", "x", "--page", "A5"},
       "there is no paper size \"A5\" here: A4 or Letter\nTry: molewright set --help\n"},
      {{"mark", "set.jsonl"}, "mark needs SET.jsonl and ANSWERS\nTry: molewright mark --help\n"},
      {{"mark", "a", "b", "--page", "letter"},
       "there is no paper size \"letter\" here: A4 or Letter\nTry: molewright mark --help\n"},
      {{"explain", "X"}, "explain needs the CODE of a question and an ANSWER\nTry: molewright explain --help\n"},
      {{"explain", "X", "1.72", "g"},
       "explain needs the CODE of a question and an ANSWER, not also \"g\" (what holds a blank needs quotes round it)\nTry: "
       "molewright explain --help\n"},
      {{"explain", "--problem", "a.problem"},
       "explain needs one ANSWER beside the problem file\nTry: molewright explain --help\n"},
  }));
  CAPTURE(c.arguments);
  Workplace place;
  auto const said = place.run(c.arguments);
  CHECK(said.status == 2);
  CHECK(said.out.empty());
  CHECK(said.err == "molewright: " + c.said);
  CHECK_FALSE(place.there("x"));
}

TEST_CASE("command line: a course file that is missing or at fault stops every command", "[app][command-line]") {
  Workplace place;
  auto const missing = place.run({"mass", "H2O", "--course", "none.toml"});
  CHECK(missing.status == 1);
  CHECK(missing.out.empty());
  CHECK(missing.err == "none.toml:1:1: cannot be read: No such file or directory\n");
  place.write("course.toml", "figurs = \"exact\"\n");
  auto const unknown = place.run({"balance", "H2 + O2 -> H2O", "--course", "course.toml"});
  CHECK(unknown.status == 1);
  CHECK(unknown.out.empty());
  CHECK(unknown.err == "course.toml:1:10: unknown key figurs, expected \"figures\"\n  figurs = \"exact\"\n           ^\n");
}
