#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <functional>

#include "app/commands.h"
#include "app/course_file.h"
#include "app/files.h"

namespace molewright {
namespace {

/// A command line that cannot be followed: what to say, and the command whose help would tell more.
struct Misused {
  std::string what;
  std::string command;
};

/// Positionals are taken from what the option parser leaves over: it would read "[Cu(NH3)4]" as a list and lose the brackets.
/// What looks like an option and is none is a fault of the command line. An arrow in front ("->x") is none, nor is "-5 g".
std::vector<std::string> leftover(CLI::App const& command) {
  std::vector<std::string> options;
  for (auto const* option : command.get_options())
    for (auto const& name : option->get_lnames()) options.push_back("--" + name);
  std::vector<std::string> out;
  for (auto const& argument : command.remaining()) {
    bool const option_like =
        argument.size() > 1 && argument[0] == '-' && (argument[1] == '-' || (argument[1] >= 'a' && argument[1] <= 'z'));
    if (argument == "--") continue;
    if (option_like) {
      auto const near = nearest(argument, options);
      throw Misused{"there is no option " + argument + (near.empty() ? "" : "; did you mean " + near.front() + "?"),
                    command.get_name()};
    }
    out.push_back(argument);
  }
  return out;
}

/// Help as a person reads it: what the command does, how it is called, its options.
class Help : public CLI::Formatter {
 public:
  std::string make_usage(CLI::App const* app, std::string) const override { return "\nUsage: " + app->get_footer() + "\n"; }
  std::string make_footer(CLI::App const*) const override { return ""; }
  std::string make_option_opts(CLI::Option const* option) const override {
    return option->get_type_size() == 0 ? "" : " " + option->get_type_name();
  }
};

class Program {
 public:
  Program()
      : app_("Problem sets in stoichiometry and solution chemistry: made, worked, and marked with the step that went wrong.",
             "molewright") {
    app_.formatter(std::make_shared<Help>());
    app_.footer("molewright COMMAND ...   (molewright COMMAND --help tells more)");
    app_.set_help_flag("-h,--help", "this help");
    app_.require_subcommand(1);
    add("mass", "molar mass with its breakdown, of a formula or a name", "FORMULA-OR-NAME... | -",
        "a FORMULA or a NAME, such as CuSO4.5H2O or \"washing soda\"",
        [this](auto const& items) { mass_command(console_, items); });
    add("balance", "balanced equation, of formulas or names", "EQUATION... | -", "an EQUATION, such as \"Fe + O2 -> Fe2O3\"",
        [this](auto const& items) { balance_command(console_, items); });
    add("react", "what happens on mixing: molecular, ionic and net ionic equations", "REACTANTS... | -",
        "REACTANTS, such as \"BaCl2 + AgNO3\"", [this](auto const& items) { react_command(console_, items); });
    add("name", "the name of a formula, the formula of a name", "FORMULA-OR-NAME... | -",
        "a FORMULA or a NAME, such as Fe2(SO4)3 or \"iron(III) sulfate\"",
        [this](auto const& items) { name_command(console_, items); });
    add("solve", "work the problems in a problem file", "FILE... | -", "a FILE of problems",
        [this](auto const& items) { solve_command(console_, items); });
    add("check", "what is wrong with a teacher's own problems, before students see them", "FILE... | -", "a FILE of problems",
        [this](auto const& items) { molewright::check_command(console_, items); });
    add_set();
    add_mark();
    add_term();
    add_explain();
    add_practise();
  }

  int run(int argc, char** argv) {
    try {
      check_command(argc, argv);
      app_.parse(argc, argv);
      for (auto& command : commands_) {
        if (!command.parser->parsed()) continue;
        auto const items = leftover(*command.parser);
        command.check(items);
        if (!read_course_file()) return static_cast<int>(Status::fault);
        command.action(items);
      }
    } catch (CLI::CallForHelp const& help) {
      return app_.exit(help);
    } catch (Misused const& misused) {
      return tell(misused);
    } catch (CLI::ParseError const& error) {
      return tell({error.what(), argc > 1 ? argv[1] : ""});
    }
    return static_cast<int>(console_.status());
  }

 private:
  using Items = std::vector<std::string>;
  struct Command {
    CLI::App* parser;
    std::function<void(Items const&)> check;  ///< throws Misused
    std::function<void(Items const&)> action;
  };

  static int tell(Misused const& misused) {
    std::fprintf(stderr, "molewright: %s\nTry: molewright %s--help\n", misused.what.c_str(),
                 misused.command.empty() ? "" : (misused.command + " ").c_str());
    return static_cast<int>(Status::usage);
  }

  /// The parser would say "subcommand" and name nothing near.
  void check_command(int argc, char** argv) const {
    Items known;
    for (auto const& command : commands_) known.push_back(command.parser->get_name());
    if (argc < 2) throw Misused{"a command is needed: " + either(known), ""};
    std::string const first = argv[1];
    if (first == "-h" || first == "--help" || std::find(known.begin(), known.end(), first) != known.end()) return;
    if (first.rfind('-', 0) == 0) throw Misused{"the command comes first: " + either(known), ""};
    auto const near = nearest(first, known);
    throw Misused{"there is no command \"" + first + "\"; " +
                      (near.empty() ? "the commands are " + either(known) : "did you mean " + either(near) + "?"),
                  ""};
  }
  /// A command that takes as many items as wanted, but one at least.
  void add(std::string const& name, std::string const& about, std::string const& usage, std::string const& needed,
           std::function<void(Items const&)> action) {
    add(name, about, usage, std::move(action), [name, needed](Items const& items) {
      if (items.empty()) throw Misused{name + " needs " + needed, name};
    });
  }
  CLI::App* add(std::string const& name, std::string const& about, std::string const& usage,
                std::function<void(Items const&)> action, std::function<void(Items const&)> check) {
    auto* parser = app_.add_subcommand(name, about);
    parser->formatter(std::make_shared<Help>());
    parser->set_help_flag("-h,--help", "this help");
    parser->group("Commands");
    parser->allow_extras();
    parser->footer("molewright " + name + " [options] " + usage);
    parser->add_flag("--json", console_.json, "print JSON, one object a line");
    parser->add_option("--course", course_file_, "the course's standing choices (TOML)")->type_name("FILE");
    commands_.push_back({parser, std::move(check), std::move(action)});
    return parser;
  }

  void add_page(CLI::App* parser, std::string& page) {
    parser->add_option("--page", page, "paper size: A4 (the usual one) or Letter")->type_name("SIZE");
  }
  static void check_page(std::string const& page, std::string const& command) {
    if (page != "A4" && page != "Letter") throw Misused{"there is no paper size \"" + page + "\" here: A4 or Letter", command};
  }

  void add_set() {
    auto* parser = add(
        "set", "make a problem set: sheets, answers, marking card, answers file", "SET.toml --out DIR | --kinds",
        [this](Items const& items) {
          if (kinds_) return kinds_command(console_, told_apart_);
          set_.set_file = items.front();
          set_command(console_, set_);
        },
        [this](Items const& items) {
          if (told_apart_ < 0 || told_apart_ > most_told_apart || (told_apart_ > 0 && !kinds_))
            throw Misused{"--told-apart goes with --kinds and takes a whole number from 1 to " + std::to_string(most_told_apart),
                          "set"};
          if (kinds_) return;
          if (set_.jobs < 1 || set_.jobs > most_jobs)
            throw Misused{"--jobs takes a whole number from 1 to " + std::to_string(most_jobs), "set"};
          if (items.size() != 1) throw Misused{"set needs one SET.toml" + too_many(items, 1), "set"};
          if (set_.out.empty()) throw Misused{"set needs a folder to write to: --out DIR", "set"};
          check_page(set_.page, "set");
        });
    parser->add_option("--out", set_.out, "folder for what is made")->type_name("DIR");
    parser->add_option("--seed", set_.seed, "word or number that the draws start from (the set file's otherwise)")
        ->type_name("WORD");
    parser
        ->add_option("--avoid", set_.avoid,
                     "a set.jsonl made before: none of its questions comes again (may be given more than once)")
        ->type_name("SET.jsonl")
        ->allow_extra_args(false);
    parser
        ->add_option("--practise-from", set_.practise_from,
                     "marks of an earlier set (its marks.jsonl, or the folder with it): each student gets questions on their own "
                     "slips first (may be given more than once)")
        ->type_name("RESULTS")
        ->allow_extra_args(false);
    parser->add_option("--jobs", set_.jobs, "how many processors to use; the set is the same")->type_name("N");
    parser->add_flag("--kinds", kinds_, "list the kinds of question and their templates, and make nothing");
    parser
        ->add_option("--told-apart", told_apart_,
                     "with --kinds: of so many questions of each template, in how many all wrong answers can be told apart")
        ->type_name("N");
    add_page(parser, set_.page);
  }
  void add_mark() {
    auto* parser = add(
        "mark", "mark a class's answers: marks, feedback, class report", "SET.jsonl ANSWERS... [--out DIR]",
        [this](Items const& items) {
          mark_.set_file = items[0];
          mark_.answers.assign(items.begin() + 1, items.end());
          mark_command(console_, mark_);
        },
        [this](Items const& items) {
          if (items.size() < 2) throw Misused{"mark needs SET.jsonl and ANSWERS", "mark"};
          check_page(mark_.page, "mark");
        });
    parser->add_option("--out", mark_.out, "folder for marks, report and feedback; without it the report is only shown")
        ->type_name("DIR");
    parser->add_flag("--anonymous", mark_.anonymous, "codes in place of the students' names in everything that is written");
    parser
        ->add_option("--key", mark_.key,
                     "the set's order (SET.toml) with what was corrected in its problems or course: marked by that key")
        ->type_name("SET.toml");
    parser
        ->add_option(
            "--earlier", mark_.earlier,
            "marks of earlier sets (marks.jsonl, or the folder with it): what a student slipped on there is likelier here")
        ->type_name("RESULTS")
        ->allow_extra_args(false);
    add_page(parser, mark_.page);
  }
  void add_term() {
    auto* parser = add(
        "term", "a page a student across the sets of a term", "RESULTS... [--out DIR]",
        [this](Items const& items) {
          term_.results = items;
          term_command(console_, term_);
        },
        [this](Items const& items) {
          if (items.empty()) throw Misused{"term needs the marks of a set or more: marks.jsonl, or the folder with it", "term"};
          check_page(term_.page, "term");
        });
    parser->add_option("--out", term_.out, "folder for the pages; without it they are only shown")->type_name("DIR");
    add_page(parser, term_.page);
  }
  void add_explain() {
    auto* parser = add(
        "explain", "one answer, explained (for a tutor)", "CODE ANSWER | --problem FILE ANSWER",
        [this](Items const& items) {
          explain_.arguments = items;
          explain_command(console_, explain_);
        },
        [this](Items const& items) {
          std::size_t const needed = explain_.problem_file ? 1 : 2;
          if (items.size() != needed)
            throw Misused{std::string(needed == 1 ? "explain needs one ANSWER beside the problem file"
                                                  : "explain needs the CODE of a question and an ANSWER") +
                              too_many(items, needed),
                          "explain"};
        });
    parser->add_option("--problem", explain_.problem_file, "a problem file, instead of a code")->type_name("FILE");
    parser->add_option("--id", explain_.problem_id, "which problem of the file (the first otherwise)")->type_name("NAME");
    parser->add_option("--working", explain_.working, "the student's lines of working, \";\" between them: each is judged")
        ->type_name("LINES");
    parser->add_flag("--next", explain_.next, "add a fresh question whose numbers tell the possible causes apart");
    parser->add_option("--part", explain_.part, "part of the question: a, b, ... (the one that fits best otherwise)")
        ->type_name("LETTER");
  }
  void add_practise() {
    auto* parser = add(
        "practise", "questions to practise at the terminal, with hints, steps and what went wrong", "[KIND...]",
        [this](Items const& items) {
          practise_.kinds = items;
          practise_command(console_, practise_);
        },
        [this](Items const&) {
          if (console_.json) throw Misused{"practise is a conversation and prints no JSON", "practise"};
          auto const& level = practise_.level;
          if (!level.empty() && level != "plain" && level != "standard" && level != "stretching")
            throw Misused{"there is no level \"" + level + "\": plain, standard or stretching", "practise"};
        });
    parser->add_option("--level", practise_.level, "plain, standard or stretching (it grows with you otherwise)")
        ->type_name("LEVEL");
    parser
        ->add_option("--keep", practise_.keep,
                     "file that keeps what was practised, to go on from another day; nothing is kept otherwise")
        ->type_name("FILE");
    parser->add_option("--seed", practise_.seed, "word or number for the same questions again")->type_name("WORD");
    parser->add_flag("--plain", practise_.plain, "formulas without raised and lowered digits, as CuSO4 and Ba^2+");
  }
  /// People forget the quotes round an answer with a blank in it.
  static std::string too_many(Items const& items, std::size_t wanted) {
    return items.size() > wanted ? ", not also \"" + items[wanted] + "\" (what holds a blank needs quotes round it)" : "";
  }

  bool read_course_file() {
    if (course_file_.empty()) return true;
    auto const text = read_file(course_file_);
    if (!ok(text)) {
      console_.report(fault(text), course_file_);
      return false;
    }
    auto const read = read_course(value(text), std::filesystem::path(course_file_).parent_path().string());
    for (auto const& found : read.faults) console_.report(found, course_file_);
    console_.course = read.course;
    console_.own_course = true;
    return read.faults.empty();
  }

  CLI::App app_;
  Console console_;
  std::string course_file_;
  static constexpr int most_jobs = 64;
  SetOptions set_;
  bool kinds_ = false;
  static constexpr int most_told_apart = 100000;
  int told_apart_ = 0;
  MarkOptions mark_;
  TermOptions term_;
  ExplainOptions explain_;
  PractiseOptions practise_;
  std::vector<Command> commands_;
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
