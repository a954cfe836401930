#pragma once
// What the reader of names says to people, and the words round a name that it knows: one table, apart from the logic, so that it
// can be translated. {} is filled in order.
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/formula.h"

namespace molewright::naming::words {

constexpr std::size_t longest_name = 200;  ///< bytes; no name of a school substance comes near

/// Words that say how a substance is at hand, and the state that they mean.
constexpr std::pair<std::string_view, State> at_hand[] = {
    {"anhydrous", State::none},   {"aqueous", State::aqueous}, {"dilute", State::aqueous}, {"concentrated", State::none},
    {"solution", State::aqueous}, {"solid", State::solid},     {"molten", State::liquid},  {"gas", State::gas},
    {"gaseous", State::gas},      {"metal", State::none},      {"powder", State::none},    {"crystals", State::none},
};

/// Names that say a state by themselves.
constexpr std::pair<std::string_view, State> own_state[] = {
    {"limewater", State::aqueous}, {"steam", State::gas}, {"ice", State::solid}, {"dryice", State::solid}};

/// `sentence` with its {} filled in.
inline std::string fill(std::string_view sentence, std::vector<std::string> const& with) {
  std::string result;
  std::size_t next = 0;
  for (std::size_t at = 0; at < sentence.size(); ++at) {
    if (sentence.substr(at, 2) == "{}" && next < with.size()) {
      result += with[next++];
      ++at;
    } else {
      result += sentence[at];
    }
  }
  return result;
}

constexpr char const* unknown_name = "\"{}\" is no name that is known here";
constexpr char const* long_name = "the text is too long for a name";
constexpr char const* name_expected = "a formula or a name, such as NaCl or iron(III) sulfate";
constexpr char const* mixture_name = "\"{}\" is {}, no single substance: {}";
constexpr char const* substance_expected = "the name or the formula of the substance that is meant";
constexpr char const* ambiguous_name = "\"{}\" fits more than one substance: {}";
constexpr char const* no_name = "there is no name here for {}";
constexpr char const* ion_meant = "its charge, if the {} is meant: {}";
constexpr char const* brackets_meant = "brackets, if hydroxide is meant: {}";
constexpr char const* unbalanced = "the charges in {} do not add up: {} and {} leave {}";

}  // namespace molewright::naming::words
