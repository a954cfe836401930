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

}  // namespace molewright
