#pragma once
// The wording of a problem, read once: its names, formulas and equations stay while the numbers change.
#include <string>
#include <vector>

#include "engine/conventions.h"
#include "engine/problem.h"
#include "engine/working.h"

namespace molewright {

class Wording {
 public:
  /// Reads the text of a problem. `working` is that of the problem, nullptr where there is none. Faults: those of wording().
  static Result<Wording> read(Problem const& problem, Conventions const& conventions, Working const* working);
  /// The text that was read, braces and all.
  std::string const& written() const { return written_; }
  /// With the numbers of a problem that is otherwise the same. REQUIRES: the conventions are those it was read with; there is a
  /// working where there was one.
  std::string with(Problem const& numbers, Conventions const& conventions, Working const* working) const;

 private:
  struct Piece {
    enum class Kind { words, given, told } kind = Kind::words;
    std::string words;      ///< as they are printed; of a given, which of its readings: "table "
    std::size_t index = 0;  ///< of the given, or of the find whose answer is told
  };
  static Result<Piece> fill(std::string_view inside, std::size_t offset, Problem const& problem, Conventions const& conventions,
                            bool has_working);
  std::string written_;
  std::vector<Piece> pieces_;
};

}  // namespace molewright
