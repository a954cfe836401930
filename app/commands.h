#pragma once
// The commands of the program. Each prints its results through the console, reports every fault, does the rest, and leaves the
// exit status to the console.
#include <optional>
#include <string>
#include <vector>

#include "app/console.h"

namespace molewright {

void mass_command(Console& console, std::vector<std::string> const& formulas);
void balance_command(Console& console, std::vector<std::string> const& equations);
void react_command(Console& console, std::vector<std::string> const& mixtures);  ///< a mixture an item
void name_command(Console& console, std::vector<std::string> const& formulas_or_names);
void solve_command(Console& console, std::vector<std::string> const& files);
void check_command(Console& console, std::vector<std::string> const& files);

struct SetOptions {
  std::string set_file;
  std::string out;
  std::string page = "A4";                 ///< or "Letter"
  std::optional<std::string> seed;         ///< overrides the set file's
  std::vector<std::string> avoid;          ///< earlier sets whose questions are not to come again
  std::vector<std::string> practise_from;  ///< marks of earlier sets: each student's questions follow their slips there
  int jobs = 1;                            ///< threads
};
/// The kinds of question with their templates, levels and how many questions each can give; and where `told_apart` is above 0, in
/// how many of so many questions of each all wrong answers can be told apart, and which slips most often cannot.
void kinds_command(Console& console, int told_apart = 0);
void set_command(Console& console, SetOptions const& options);

struct MarkOptions {
  std::string set_file;
  std::vector<std::string> answers;  ///< files, and folders of files
  std::string out;
  std::string page = "A4";
  bool anonymous = false;            ///< codes in place of names
  std::string key;                   ///< the order (SET.toml) as it stands now: its workings are the key
  std::vector<std::string> earlier;  ///< marks of earlier sets: what a student slipped on there is likelier here
};
void mark_command(Console& console, MarkOptions const& options);

struct TermOptions {
  std::vector<std::string> results;  ///< marks.jsonl files, or the folders with them, in the order of the term
  std::string out;
  std::string page = "A4";
};
void term_command(Console& console, TermOptions const& options);

struct ExplainOptions {
  std::optional<std::string> problem_file;
  std::optional<std::string> problem_id;  ///< which of the file's problems; the first otherwise
  std::optional<std::string> part;        ///< "a" or "b"; otherwise the part that the answer fits best
  std::string working;                    ///< the student's lines of working, ";" or a line break between them
  bool next = false;                      ///< a fresh question as well, whose numbers tell the causes apart
  std::vector<std::string> arguments;     ///< CODE ANSWER, or with a problem file ANSWER alone
};
void explain_command(Console& console, ExplainOptions const& options);

struct PractiseOptions {
  std::vector<std::string> kinds;   ///< as people say them; none: asked for, or what the record says
  std::string level;                ///< plain, standard, stretching; empty for any
  std::string keep;                 ///< file for the record; empty keeps nothing
  std::optional<std::string> seed;  ///< the same questions again; otherwise they differ each time
  bool plain = false;               ///< formulas without raised and lowered digits
};
void practise_command(Console& console, PractiseOptions const& options);

}  // namespace molewright
