#include "engine/formula_memo.h"

#include <unordered_map>

namespace molewright {

std::shared_ptr<KnownFormula const> known_formula(std::string const& text) {
  constexpr std::size_t most = 512;
  thread_local std::unordered_map<std::string, std::shared_ptr<KnownFormula const>> kept;
  auto const found = kept.find(text);
  if (found != kept.end()) return found->second;
  auto read = parse_formula(text);
  std::shared_ptr<KnownFormula const> made;
  if (ok(read)) {
    auto composition = value(read).composition();
    auto plain_text = plain(value(read));
    made =
        std::make_shared<KnownFormula const>(KnownFormula{std::move(value(read)), std::move(plain_text), std::move(composition)});
  }
  if (kept.size() >= most) kept.clear();
  kept.emplace(text, made);
  return made;
}

}  // namespace molewright
