#pragma once
// The kinds of question: ids, words for people, and which one is meant by what a person says.
#include <string>
#include <string_view>
#include <vector>

#include "generators/template.h"

namespace molewright {

/// The kinds that these templates have, in the order of teaching (data/kinds.tsv); those that the table does not know come last,
/// by the alphabet.
std::vector<std::string> kinds_of(std::vector<Template> const& templates);
/// The kind that a person means ("Serial dilutions"), out of these: by its id, its words or another word for it, whatever the
/// case, blanks, hyphens and a plural s. Empty where it is none of them.
std::string kind_meant(std::string_view said, std::vector<std::string> const& kinds);
/// Where none is meant, those that may be, three at most: a name misspelt, or else those that hold a word of it ("gas").
std::vector<std::string> kinds_near(std::string_view said, std::vector<std::string> const& kinds);
/// "mass of a precipitate"; the id itself where the table does not know it.
std::string kind_words(std::string_view kind);

}  // namespace molewright
