#pragma once
// Formulas already read: a problem speaks of the same few substances over and over.
#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <string_view>

#include "engine/formula.h"

namespace molewright {

struct KnownFormula {
  Formula formula;
  std::string plain;
  std::map<std::string, std::int64_t> composition;
};

/// The formula that `text` is, read once and kept (a few hundred at a time, for each thread); nullptr where it is none.
std::shared_ptr<KnownFormula const> known_formula(std::string const& text);
/// The same where some of it is not known, X itself included: HA, M2CO3. nullptr for a formula of elements alone.
std::shared_ptr<KnownFormula const> formula_of_unknown(std::string const& text);
/// Whether a substance is one: it has a molar mass, and no table knows it.
inline bool is_unknown(std::string const& substance) { return formula_of_unknown(substance) != nullptr; }

}  // namespace molewright
