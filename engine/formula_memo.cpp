#include "engine/formula_memo.h"

#include <unordered_map>

namespace molewright {
namespace {

/// Formulas by their text, nullptr for what is none.
class Memo {
 public:
  template <class Read>
  std::shared_ptr<KnownFormula const> find(std::string const& text, Read read) {
    constexpr std::size_t most = 512;
    if (auto const found = kept_.find(text); found != kept_.end()) return found->second;
    auto formula = read(text);
    std::shared_ptr<KnownFormula const> made;
    if (ok(formula)) {
      auto composition = value(formula).composition();
      auto plain_text = plain(value(formula));
      made = std::make_shared<KnownFormula const>(
          KnownFormula{std::move(value(formula)), std::move(plain_text), std::move(composition)});
    }
    if (kept_.size() >= most) kept_.clear();
    kept_.emplace(text, made);
    return made;
  }

 private:
  std::unordered_map<std::string, std::shared_ptr<KnownFormula const>> kept_;
};
}  // namespace

std::shared_ptr<KnownFormula const> known_formula(std::string const& text) {
  thread_local Memo kept;
  return kept.find(text, [](std::string const& formula) { return parse_formula(formula); });
}

std::shared_ptr<KnownFormula const> formula_of_unknown(std::string const& text) {
  if (text.find_first_of(unknown_letters) == std::string::npos || known_formula(text)) return nullptr;
  thread_local Memo kept;
  return kept.find(text, [](std::string const& formula) { return parse_formula(formula, unknown_letters); });
}

std::string salt_of_crystals(std::string const& substance) {
  auto const known = known_formula(substance);
  return known && known->formula.hydrate() ? plain(anhydrous(known->formula)) : std::string();
}

double grams_per_mole(std::string const& substance, AtomicWeights const& weights) {
  auto const known = known_formula(substance);
  double mass = 0;
  if (known)
    for (auto const& [element, count] : known->composition)
      mass += static_cast<double>(count) * weights.weight(element).value.to_double();
  return mass;
}

}  // namespace molewright
