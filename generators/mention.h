#pragma once
// What a problem's text speaks of: measured values, typed or filled in from the data; sentences, and the units they ask for.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "engine/problem.h"

namespace molewright {

struct Mention {
  Decimal number;
  Unit unit;
  std::size_t begin = 0, end = 0;  ///< bytes of the text
  Given const* given = nullptr;    ///< that it is filled in from, as {V(NaOH)}; nullptr where it is typed
  bool typed = true;
  /// In coherent units, °C as K.
  double base() const { return (number.value * unit.factor + unit.offset).to_double(); }
};

/// In the order of the text. A number without a unit is none: "24 pupils". REQUIRES: the problem outlives what is returned.
std::vector<Mention> mentions_of(Problem const& problem, DecimalMark mark = DecimalMark::point);

/// Whether the value is that of the given, in whatever unit; any reading of a mean or a difference.
bool tells(Mention const& mention, Given const& given);

/// The sentences of a text, each with the sign that ends it: a full stop before a blank or the end, ? or !.
std::vector<std::string_view> sentences(std::string_view text);
/// Whether a word stands in a text, at the beginning of one of its words; "{name X}" is none. Both in small letters.
bool holds_word(std::string_view text, std::string_view word);
/// Whether a sentence asks for something: it ends in a question mark or holds a command word such as "calculate".
bool asks(std::string_view sentence);

/// A unit that a text asks an answer in: "in mL", "how many grams".
struct AskedUnit {
  Unit unit;
  std::size_t begin = 0;  ///< of the words before it, in bytes of the text
};
std::vector<AskedUnit> asked_units(std::string_view text);
/// The unit that a find is answered in: its own, or the usual one of its quantity.
Unit unit_of(Find const& find);

}  // namespace molewright
