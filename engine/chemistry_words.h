#pragma once
// What the readers of formulas and equations and the balancer say to people: one table, apart from the logic, so that it can be
// translated.
// {} is filled with a symbol, a formula or a count.
#include <string>
#include <string_view>

namespace molewright::words {

/// `sentence` with its {} filled in.
inline std::string fill(std::string_view sentence, std::string_view with) {
  std::size_t const at = sentence.find("{}");
  if (at == std::string_view::npos) return std::string(sentence);
  return std::string(sentence.substr(0, at)).append(with).append(sentence.substr(at + 2));
}

// Formulas.
constexpr char const* text_too_long = "the text is too long for a formula or an equation";
constexpr char const* not_utf8 = "the text is not UTF-8";
constexpr char const* utf8_expected = "text saved as UTF-8";
constexpr char const* empty_formula = "there is no formula here";
constexpr char const* formula_expected = "a formula, such as NaCl or SO4^2-";
constexpr char const* unknown_element = "unknown element symbol {}";
constexpr char const* element_expected = "an element symbol";
constexpr char const* element_meant = "an element symbol; did you mean {}?";
constexpr char const* small_letter = "an element symbol begins with a capital letter";
constexpr char const* not_a_formula = "not a formula";
constexpr char const* symbol_or_bracket = "an element symbol or a bracket";
constexpr char const* after_dot = "a formula after the dot, such as 5H2O";
constexpr char const* end_expected = "the end of the formula";
constexpr char const* bracket_not_closed = "bracket not closed";
constexpr char const* bracket_too_many = "a closing bracket too many";
constexpr char const* bracket_opened = "an opening bracket before it";
constexpr char const* brackets_crossed = "brackets crossed";
constexpr char const* empty_bracket = "empty brackets";
constexpr char const* nested_too_deep = "brackets nested more than 50 deep";
constexpr char const* charge_without_sign = "a charge without its sign";
constexpr char const* sign_expected = "+ or - after the number of the charge";
constexpr char const* charge_range = "not a charge";
constexpr char const* charge_expected = "a charge from 1 to 99, written as in ^2+";
constexpr char const* count_range = "not a number of atoms";
constexpr char const* count_expected = "a whole number from 1 to 9999, without a zero in front";
constexpr char const* too_many_atoms = "more than 1000000000 atoms in one formula";
constexpr char const* unknown_state = "unknown state ({})";
constexpr char const* state_expected = "(s), (l), (g) or (aq)";
constexpr char const* zero_for_letter = "H20 with a zero";
constexpr char const* letter_expected = "H2O with the letter O";
constexpr char const* fraction_in_hydrate = "a fraction of a water molecule";
constexpr char const* whole_hydrate_expected = "whole numbers: write (CaSO4)2·H2O for half a water to each CaSO4";

// Equations.
constexpr char const* no_arrow = "there is no arrow";
constexpr char const* arrow_expected = "-> between the reactants and the products";
constexpr char const* two_arrows = "there is more than one arrow";
constexpr char const* one_arrow_expected = "one arrow in each equation";
constexpr char const* missing_term = "a formula is missing";
constexpr char const* term_expected = "a formula on each side of +";
constexpr char const* no_reactants = "there are no reactants";
constexpr char const* no_products = "there are no products";
constexpr char const* before_arrow = "a formula before the arrow";
constexpr char const* after_arrow = "a formula after the arrow";
constexpr char const* coefficient_alone = "a coefficient without a formula";
constexpr char const* after_coefficient = "a formula after the coefficient";
constexpr char const* bad_coefficient = "not a coefficient";
constexpr char const* coefficient_expected = "a number greater than 0 with at most 18 digits, such as 2 or 1/2";

// Balancing.
constexpr char const* cannot_balance = "the equation cannot be balanced: {}";
constexpr char const* balances_many_ways = "the equation can be balanced in more than one way: {}";
constexpr char const* independent_reactions = "{} independent reactions";
constexpr char const* one_side_only = "{} on one side only";  ///< "S stands", "Cl and O stand"
constexpr char const* stands = "{} stands";
constexpr char const* stand = "{} stand";
constexpr char const* charges_unequal = "the charges cannot be made equal";
constexpr char const* needs_zero = "{} would need the coefficient 0";
constexpr char const* needs_negative = "{} would need a coefficient below 0";
constexpr char const* no_numbers = "no numbers make every element equal on both sides";
constexpr char const* too_large = "its coefficients have more than 18 digits";
constexpr char const* and_word = " and ";

}  // namespace molewright::words
