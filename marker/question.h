#pragma once
// A question as it stands in a set: its code, who it is for, its wording and its working. It is all that marking needs.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/solver.h"

namespace molewright {

/// How a question is put. The working is the same; what is printed and what is handed in differ.
enum class Form {
  open,     ///< worked out and handed in as a number, a formula ...
  choice,   ///< one of a few answers is chosen by its letter; the wrong ones are those that slips lead to
  mistake,  ///< a worked answer with one slip in it: which line, and what should it say
  faded     ///< the first lines of the working are given
};
/// "open", "choice", "mistake", "faded".
std::string_view name(Form form);
/// Nothing where no form is called so.
std::optional<Form> form_named(std::string_view name);

/// An answer to choose.
struct Option {
  char letter = 'A';
  std::string answer;  ///< as printed in a plain spelling: "1.72 g"
  bool right = false;
};

/// A wrong answer to expect, lettered for marking with a pen. Slips that give one number are one entry.
struct SlipKeyEntry {
  char letter = 'A';
  std::vector<std::string> ids;  ///< most frequent first
  std::string answer;            ///< plain number at the key's figures, in the asked unit
  double value = 0;              ///< unrounded, for comparing
};

struct Question {
  std::string code;
  std::string version;  ///< "1", "2", ... or "A", "B"; one paper for all: "1"
  std::string student;  ///< empty where the paper is the same for several
  std::string number;   ///< as printed: "3"
  std::string kind;     ///< "n-cV", "mass-from-amount", "dilution", "precipitate", "limiting-reagent"
  std::string template_name;
  std::string
      text;  ///< wording, ready to print (Unicode formulas), with what its form adds: answers to choose, lines of a working
  Form form = Form::open;
  std::vector<Option> options;  ///< of a choice
  std::string planted;          ///< the slip in a working with a mistake
  int lines_given = 0;          ///< how many lines of a faded working stand in the question
  Worked worked;
  std::vector<int> marks;                           ///< for each find
  std::vector<std::vector<SlipKeyEntry>> slip_key;  ///< for each find, by letter (in a set, letters may be missing)
  std::vector<std::string>
      told_apart_not;  ///< "volume-left-in-mL = power-of-ten": classes that share a number here though they need not
  std::vector<std::string> alike_by_substance;  ///< the same of slips that no numbers part: one entry of the key
};

/// The letter of the right answer of a choice; nothing where the question is none.
std::optional<char> right_letter(Question const& question);
/// "a", "b" ...; empty for a question with one find.
std::string part_name(Question const& question, std::size_t find);
/// "3" or "3a": how a column of the answers file is headed.
std::string column_name(Question const& question, std::size_t find);

}  // namespace molewright
