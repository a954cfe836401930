#pragma once
// Formulas already read: a problem speaks of the same few substances over and over.
#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <string_view>

#include "engine/element.h"
#include "engine/formula.h"

namespace molewright {

struct KnownFormula {
  Formula formula;
  std::string plain;
  std::map<std::string, std::int64_t> composition;
};

/// The formula that `text` is, read once and kept (a few hundred at a time, for each thread); nullptr where it is none.
std::shared_ptr<KnownFormula const> known_formula(std::string const& text);
/// The salt of a hydrate, "CuSO4" of "CuSO4·5H2O"; empty for what is no hydrate.
std::string salt_of_crystals(std::string const& substance);
/// Molar mass in g/mol, for searching and comparing; 0 for what is no formula.
double grams_per_mole(std::string const& substance, AtomicWeights const& weights = {});
/// As known_formula, where some of it is not known, X itself included: HA, M2CO3. nullptr for a formula of elements alone.
std::shared_ptr<KnownFormula const> formula_of_unknown(std::string const& text);
/// Whether a substance is one: it has a molar mass, and no table knows it.
inline bool is_unknown(std::string const& substance) { return formula_of_unknown(substance) != nullptr; }

}  // namespace molewright
