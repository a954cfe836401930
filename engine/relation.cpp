#include "engine/relation.h"

#include <array>

#include "engine/quantity.h"
#include "engine/relation_table.h"
#include "engine/unit.h"

namespace molewright {

std::span<Relation const> all_relations() { return relation_table::relations; }

std::span<Relation const> relations_of_a_substance() { return all_relations().first(relation_table::of_a_substance); }

Relation const* relation_of(std::string_view form) { return relation_table::find(form); }

std::string usual_units(Relation const& relation) {
  std::string out;
  auto const terms = relation.terms();
  for (auto term = terms.begin(); term != terms.end(); ++term) {
    bool const again =
        std::any_of(terms.begin(), term, [&](RelationTerm const& before) { return before.symbol == term->symbol; });
    auto const& unit = term->unit.empty() ? working_unit(term->symbol).symbol : std::string(term->unit);
    if (again || unit.empty()) continue;
    out += (out.empty() ? "" : ", ") + std::string(term->symbol) + " in " + unit;
  }
  return out;
}

Constant const* constant_of(Symbol symbol) {
  static std::array<Constant, 5> const constants{{
      {"N_A", "1/mol", Rational::from_digits("602214076") * Rational::power_of_ten(15), "SI Brochure, 9th ed., 2.2, exact"},
      {"R", "J/(mol K)", Rational::from_digits("831446261815324") * Rational::power_of_ten(-14),
       "CODATA 2018: R = N_A k, exact since the SI of 2019; from memory"},
      {"T0", "K", Rational(27315, 100), "SI Brochure, 9th ed., 2.3.1: t/°C = T/K - 273.15, exact"},
      {"Kw", "", Rational::power_of_ten(-14), "the school's round value at 25 °C (CRC Handbook: pKw = 13.995), from memory"},
      {"pKw", "", Rational(14), "the school's round value at 25 °C (CRC Handbook: pKw = 13.995), from memory"},
  }};
  for (auto const& constant : constants)
    if (constant.symbol == symbol) return &constant;
  return nullptr;
}

}  // namespace molewright
