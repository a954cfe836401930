#include "tests/benchmark/equations.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <random>
#include <stdexcept>

#include "engine/element.h"

namespace molewright::benchmarks {
namespace {

using Engine = std::minstd_rand;  // its numbers are fixed by the standard, those of the distributions are not
using Atoms = std::map<std::string, std::int64_t>;

std::int64_t from_to(Engine& engine, std::int64_t least, std::int64_t most) {
  return least + static_cast<std::int64_t>(engine()) % (most - least + 1);
}

std::string formula_of(Atoms const& atoms) {
  std::string text;
  for (auto const& [element, count] : atoms)
    if (count > 0) text += element + (count == 1 ? "" : std::to_string(count));
  return text;
}

/// One try; empty where a species has nothing left for it or stands there twice.
std::string try_equation(Engine& engine, std::size_t species) {
  std::size_t const left = species / 2, right = species - left;
  // As many elements as there are unknown ratios, so that one solution is left.
  std::vector<std::string> symbols;
  for (std::size_t i = 0; i + 1 < species; ++i) symbols.push_back(elements()[i].symbol);
  Atoms pool;
  std::vector<std::string> terms;
  auto const add = [&](Atoms const& atoms) {
    auto const formula = formula_of(atoms);
    bool const usable = !formula.empty() && std::find(terms.begin(), terms.end(), formula) == terms.end();
    terms.push_back(formula);
    return usable;
  };
  for (std::size_t i = 0; i < left; ++i) {
    Atoms atoms;
    // Two to four elements a species as in most compounds; each element comes in by one reactant at least.
    for (auto k = from_to(engine, 1, 3); k > 0; --k)
      atoms[symbols[static_cast<std::size_t>(from_to(engine, 0, static_cast<std::int64_t>(symbols.size()) - 1))]] +=
          from_to(engine, 1, 4);
    for (std::size_t e = i; e < symbols.size(); e += left) atoms[symbols[e]] += 1;
    if (!add(atoms)) return {};
    auto const coefficient = from_to(engine, 1, 3);
    for (auto const& [element, count] : atoms) pool[element] += coefficient * count;
  }
  for (std::size_t i = 0; i + 1 < right; ++i) {
    Atoms atoms;
    auto const coefficient = from_to(engine, 1, 3);
    for (auto k = from_to(engine, 2, 4); k > 0; --k) {
      auto const& element = symbols[static_cast<std::size_t>(from_to(engine, 0, static_cast<std::int64_t>(symbols.size()) - 1))];
      auto const most = std::min<std::int64_t>(pool[element] / coefficient, 4);
      if (most == 0) continue;
      auto const count = from_to(engine, 1, most);
      atoms[element] += count;
      pool[element] -= coefficient * count;
    }
    if (!add(atoms)) return {};
  }
  if (!add(pool)) return {};
  std::string text;
  for (std::size_t i = 0; i < terms.size(); ++i) text += (i == 0 ? "" : i == left ? " -> " : " + ") + terms[i];
  return text;
}

std::string make_equation(std::size_t species) {
  if (species == 2) return "O2 -> O3";
  Engine engine(static_cast<Engine::result_type>(species));
  constexpr int most_tries = 10000;
  for (int i = 0; i < most_tries; ++i) {
    auto const text = try_equation(engine, species);
    if (text.empty()) continue;
    auto const read = parse_equation(text);
    if (ok(read) && balance(value(read)).outcome == Balance::unique) return text;
  }
  throw std::runtime_error("no equation of " + std::to_string(species) + " species was found");
}

}  // namespace

std::vector<std::size_t> const& growth_sizes() {
  static std::vector<std::size_t> const sizes{2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 17, 20, 24, 28, 32, 36, 40};
  return sizes;
}

std::string const& grown_equation(std::size_t species) {
  static std::map<std::size_t, std::string> const equations = [] {
    std::map<std::size_t, std::string> made;
    for (auto const size : growth_sizes()) made[size] = make_equation(size);
    return made;
  }();
  return equations.at(species);
}

std::string in_a_line(CompositionMatrix const& matrix, BalanceResult const& result) {
  auto line = std::to_string(matrix.rows) + " " + std::to_string(matrix.columns);
  for (auto const entry : matrix.entries) line += " " + std::to_string(entry);
  line += " :";
  for (auto const coefficient : result.coefficients) line += " " + std::to_string(coefficient);
  return line;
}

}  // namespace molewright::benchmarks
