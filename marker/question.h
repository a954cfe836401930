#pragma once
// A question as it stands in a set: its code, who it is for, its wording and its working. It is all that marking needs.
#include <cstddef>
#include <string>
#include <vector>

#include "engine/solver.h"

namespace molewright {

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
  std::string text;  ///< wording, ready to print (Unicode formulas)
  Worked worked;
  std::vector<int> marks;                           ///< for each find
  std::vector<std::vector<SlipKeyEntry>> slip_key;  ///< for each find, by letter (in a set, letters may be missing)
  std::vector<std::string>
      told_apart_not;  ///< "volume-left-in-mL = power-of-ten": classes that share a number here though they need not
};

/// "a", "b" ...; empty for a question with one find.
std::string part_name(Question const& question, std::size_t find);
/// "3" or "3a": how a column of the answers file is headed.
std::string column_name(Question const& question, std::size_t find);

}  // namespace molewright
