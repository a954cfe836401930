#pragma once
// Quantities as people spell them out: "mass of MgO", "percentage yield", "m(AgCl, obtained)".
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace molewright {

/// The symbol that the words at the start of `text` stand for, and how long they are: "percentage yield" is yield. Length 0 for
/// none.
struct SpeltOut {
  std::string_view symbol;
  std::size_t length = 0;
  std::string_view word = {};  ///< "theoretical yield" is m(X, theoretical); empty for most
};
SpeltOut spelt_out(std::string_view text);

/// How long the substance is that stands after "mass of": to the sign of equality, the unit, the figures, the marks or the end
/// of the line. `in_part` is where the compound begins, in "Fe in Fe2O3"; npos where there is none.
struct SubstanceAhead {
  std::size_t length = 0;
  std::size_t in_part = std::string_view::npos;
};
SubstanceAhead substance_ahead(std::string_view text, bool may_have_part);

/// What is weighed with its vessel, in any order: "crucible + CuSO4·5H2O", "hydrate and crucible with lid".
struct InVessel {
  std::string vessel;         ///< "crucible and lid"
  std::string_view contents;  ///< "hydrate"; empty for the empty vessel
};
std::optional<InVessel> in_vessel(std::string_view text);

/// What something is weighed in: "crucible".
bool is_vessel(std::string_view word);

/// What a solution is made up to the mark in: "volumetric flask"; and what a portion of it is measured with.
bool is_volumetric_flask(std::string_view word);
bool is_pipette(std::string_view word);

/// The word that the language uses for what a person writes after the comma: "obtained" is actual, "unreacted" is left. The same
/// word where it has no other; empty for one that says nothing more, as "formed".
std::string_view usual_word(std::string_view word);

/// "O2 left", "copper obtained": a substance with such a word behind it, as it stands in a sentence. Both are empty where there
/// is none.
struct WithWord {
  std::string_view substance, word;
};
WithWord with_word_behind(std::string_view text);

}  // namespace molewright
