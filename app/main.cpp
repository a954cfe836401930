#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <functional>

#include "app/commands.h"
#include "app/course_file.h"
#include "app/files.h"

namespace molewright {
namespace {

/// Positionals are taken from what the option parser leaves over: it would read "[Cu(NH3)4]" as a list and lose the brackets.
/// What looks like an option and is none is a fault of the command line.
std::vector<std::string> leftover(CLI::App const& command) {
  auto const arguments = command.remaining();
  for (auto const& argument : arguments) {
    bool const option_like =
        argument.size() > 1 && argument[0] == '-' && (argument[1] == '-' || (argument[1] >= 'a' && argument[1] <= 'z'));
    if (option_like && argument != "--") throw CLI::ExtrasError(command.get_name(), {argument});
  }
  std::vector<std::string> out;
  for (auto const& argument : arguments)
    if (argument != "--") out.push_back(argument);
  return out;
}

void need(bool enough, std::string const& what) {
  if (!enough) throw CLI::RequiredError(what);
}

class Program {
 public:
  Program()
      : app_("Problem sets in stoichiometry and solution chemistry: made, worked, and marked with the step that went wrong.",
             "molewright") {
    app_.require_subcommand(1);
    app_.fallthrough(false);
    add("mass", "molar mass with its breakdown", "FORMULA... | -", [this](auto const& items) {
      need(!items.empty(), "FORMULA");
      mass_command(console_, items);
    });
    add("balance", "balanced equation", "EQUATION... | -", [this](auto const& items) {
      need(!items.empty(), "EQUATION");
      balance_command(console_, items);
    });
    add("solve", "work the problems in a problem file", "FILE... | -", [this](auto const& items) {
      need(!items.empty(), "FILE");
      solve_command(console_, items);
    });
    add_set();
    add_mark();
    add_explain();
  }

  int run(int argc, char** argv) {
    try {
      app_.parse(argc, argv);
      for (auto& [command, action] : actions_)
        if (command->parsed()) {
          auto const items = leftover(*command);
          if (!read_course_file()) return static_cast<int>(Status::fault);
          action(items);
        }
    } catch (CLI::CallForHelp const& help) {
      return app_.exit(help);
    } catch (CLI::ParseError const& error) {
      std::fprintf(stderr, "molewright: %s\nTry: molewright --help\n", error.what());
      return static_cast<int>(Status::usage);
    }
    return static_cast<int>(console_.status());
  }

 private:
  using Action = std::function<void(std::vector<std::string> const&)>;

  CLI::App* add(std::string const& name, std::string const& about, std::string const& usage, Action action) {
    auto* command = app_.add_subcommand(name, about);
    command->allow_extras();
    command->footer("molewright " + name + " [options] " + usage);
    command->add_flag("--json", console_.json, "print JSON, one object a line");
    command->add_option("--course", course_file_, "the course's standing choices (TOML)");
    actions_.push_back({command, std::move(action)});
    return command;
  }

  void add_page(CLI::App* command, std::string& page) {
    command->add_option("--page", page, "paper size: A4 or Letter")->check(CLI::IsMember({"A4", "Letter"}));
  }

  void add_set() {
    auto* command = add("set", "make a problem set: sheets, answers, marking card, answers file", "SET.toml --out DIR",
                        [this](auto const& items) {
                          need(items.size() == 1, "one SET.toml");
                          set_.set_file = items.front();
                          set_command(console_, set_);
                        });
    command->add_option("--out", set_.out, "folder for what is made")->required();
    command->add_option("--seed", set_.seed, "word or number that the draws start from (the set file's otherwise)");
    add_page(command, set_.page);
  }
  void add_mark() {
    auto* command = add("mark", "mark a class's answers: marks, feedback, class report", "SET.jsonl ANSWERS [--out DIR]",
                        [this](auto const& items) {
                          need(items.size() == 2, "SET.jsonl and ANSWERS");
                          mark_.set_file = items[0];
                          mark_.answers_file = items[1];
                          mark_command(console_, mark_);
                        });
    command->add_option("--out", mark_.out, "folder for marks, report and feedback");
    add_page(command, mark_.page);
  }
  void add_explain() {
    auto* command =
        add("explain", "one answer, explained (for a tutor)", "CODE ANSWER | --problem FILE ANSWER", [this](auto const& items) {
          need(items.size() == (explain_.problem_file ? 1U : 2U), explain_.problem_file ? "ANSWER" : "CODE and ANSWER");
          explain_.arguments = items;
          explain_command(console_, explain_);
        });
    command->add_option("--problem", explain_.problem_file, "a problem file; its first problem is meant");
    command->add_option("--part", explain_.part, "part of the question: a, b, ... (the first otherwise)");
  }

  bool read_course_file() {
    if (course_file_.empty()) return true;
    auto const text = read_file(course_file_);
    if (!ok(text)) {
      console_.report(fault(text), course_file_);
      return false;
    }
    auto const read = read_course(value(text));
    for (auto const& found : read.faults) console_.report(found, course_file_);
    console_.course = read.course;
    return read.faults.empty();
  }

  CLI::App app_;
  Console console_;
  std::string course_file_;
  SetOptions set_;
  MarkOptions mark_;
  ExplainOptions explain_;
  std::vector<std::pair<CLI::App*, Action>> actions_;
};
}  // namespace
}  // namespace molewright

int main(int argc, char** argv) {
  try {
    return molewright::Program().run(argc, argv);
  } catch (std::exception const& error) {
    std::fprintf(stderr, "molewright: a fault of the program itself: %s\n", error.what());
    return 1;
  }
}
