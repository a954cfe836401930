#include "engine/second_solve.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace molewright {
namespace {

using Real = long double;
constexpr Real agreement = 1e-12L;
constexpr int most_rounds = 60;
constexpr Real settled = 1e-15L;
constexpr Real longest_step = 2;  ///< of a logarithm: a factor of about 7

Real number_of(Rational const& number) {
  std::int64_t numerator = 0, denominator = 0;
  if (number.fits(numerator, denominator)) return static_cast<Real>(numerator) / static_cast<Real>(denominator);
  // A double and what it leaves out: more digits than either alone.
  double const first = number.to_double();
  if (!std::isfinite(first) || first == 0) return first;
  int const shift = magnitude(number);
  auto const digits = round_to_place(number * Rational::power_of_ten(17 - shift), 0, Rounding::half_up);
  if (digits.fits(numerator, denominator)) return static_cast<Real>(numerator) * std::pow(10.0L, static_cast<Real>(shift - 17));
  return first;
}

/// Value of a node in base units; temperatures in kelvins.
Real base_value(Node const& node) {
  auto const& unit = node.value.unit;
  Real const shift = node.quantity.symbol == "dT" ? 0 : number_of(unit.offset);
  return number_of(node.value.number) * number_of(unit.factor) + shift;
}

bool is_logarithm(Symbol symbol) { return symbol == "pH" || symbol == "pOH" || symbol == "pKw"; }

struct Square {
  explicit Square(std::size_t size) : n(size), cells(size * size) {}
  Real& operator()(std::size_t row, std::size_t column) { return cells[row * n + column]; }
  std::size_t n;
  std::vector<Real> cells;
};

/// Solves a x = b in place; false where the equations do not settle x.
bool solve_linear(Square& a, std::vector<Real>& b) {
  std::size_t const n = b.size();
  for (std::size_t column = 0; column < n; ++column) {
    std::size_t best = column;
    for (std::size_t row = column + 1; row < n; ++row)
      if (std::abs(a(row, column)) > std::abs(a(best, column))) best = row;
    if (std::abs(a(best, column)) < 1e-30L) return false;
    if (best != column) {
      for (std::size_t k = column; k < n; ++k) std::swap(a(best, k), a(column, k));
      std::swap(b[best], b[column]);
    }
    for (std::size_t row = column + 1; row < n; ++row) {
      if (a(row, column) == 0) continue;
      Real const times = a(row, column) / a(column, column);
      for (std::size_t k = column; k < n; ++k) a(row, k) -= times * a(column, k);
      b[row] -= times * b[column];
    }
  }
  for (std::size_t row = n; row-- > 0;) {
    for (std::size_t k = row + 1; k < n; ++k) b[row] -= a(row, k) * b[k];
    b[row] /= a(row, row);
  }
  return true;
}
}  // namespace

SecondSolve::SecondSolve(Network const& network, std::vector<std::pair<int, int>> const& chain, Working const& working) {
  std::map<int, int> unknown_of;
  auto const& variables = network.variables();
  auto const quantity = [&](int variable) -> Quantity const& { return variables[static_cast<std::size_t>(variable)].quantity; };
  for (auto const& [variable, instance] : chain) {
    unknown_of[variable] = static_cast<int>(unknowns_.size());
    unknowns_.push_back({working.find_node(plain(quantity(variable))), is_logarithm(quantity(variable).symbol)});
  }
  for (auto const& [variable, index] : chain) {
    auto const& instance = network.instances()[static_cast<std::size_t>(index)];
    Equation equation{instance.kind, {}, 0};
    if (instance.kind == Instance::Kind::product) equation.log_factor = std::log(std::abs(number_of(instance.factor)));
    if (instance.kind == Instance::Kind::constant) equation.log_factor = number_of(instance.factor);
    for (auto const& term : instance.terms) {
      auto const found = unknown_of.find(term.variable);
      auto const& q = quantity(term.variable);
      Part part{-1, -1, term.weight};
      if (found != unknown_of.end())
        part.unknown = found->second;
      else
        part.node = working.find_node(plain(q));
      if (instance.kind == Instance::Kind::product) {
        // Relations are stated in units; here everything is in base units.
        Unit const worked_in = term.unit.empty() ? working_unit(q.symbol) : unit(term.unit);
        if (!instance.same_units) equation.log_factor += term.weight * std::log(number_of(worked_in.factor));
      }
      if (instance.kind == Instance::Kind::pick || instance.kind == Instance::Kind::constant) {
        int const stage = instance.reaction == 0 ? 0 : static_cast<int>(instance.reaction) + 1;
        part.coefficient = working.find_node(plain(Quantity{"nu", stage, q.substance, "", ""}));
      }
      equation.parts.push_back(part);
    }
    equations_.push_back(std::move(equation));
  }
}

std::string SecondSolve::disagreement(Working const& working) const {
  auto const node = [&](int index) -> Node const& { return working.nodes[static_cast<std::size_t>(index)]; };
  std::size_t const n = unknowns_.size();
  std::vector<Real> worked(n), right(n), x(n), sign(n, 1);
  std::vector<bool> linear(n);  // not taken in logarithms
  for (std::size_t i = 0; i < n; ++i) {
    if (unknowns_[i].node < 0) return {};
    worked[i] = base_value(node(unknowns_[i].node));
    linear[i] = unknowns_[i].linear || worked[i] == 0;
    sign[i] = worked[i] < 0 ? -1 : 1;
    // Begun away from the worked value, so that agreeing is no matter of course.
    Real const off = 0.2L * static_cast<Real>(static_cast<int>(i % 3) - 1) + 0.05L;
    right[i] = linear[i] ? worked[i] : std::log(std::abs(worked[i]));
    x[i] = right[i] + off;
  }
  auto const value = [&](Part const& part) -> Real {
    if (part.unknown < 0) return base_value(node(part.node));
    auto const u = static_cast<std::size_t>(part.unknown);
    return linear[u] ? x[u] : sign[u] * std::exp(x[u]);
  };
  // What is known is the same in every round: the logarithm of all known factors of a product together.
  std::vector<Real> known(n, 0);
  for (std::size_t e = 0; e < n; ++e) {
    auto const& equation = equations_[e];
    // Multiplied only, over and under apart: with a division in this loop em++ 3.1.6 makes 32 of 1 / 0.125 / 0.5, though the same
    // division by itself comes out right.
    Real over = 1, under = 1;
    for (auto const& part : equation.parts) {
      if (part.unknown >= 0) continue;
      if (part.node < 0) return {};
      if (equation.kind == Instance::Kind::sum) continue;
      Real const number = base_value(node(part.node));
      if (number == 0) return {};
      if (equation.kind != Instance::Kind::product) continue;
      if (part.weight == 1)
        over *= number;
      else if (part.weight == -1)
        under *= number;
      else
        known[e] += part.weight * std::log(std::abs(number));
    }
    if (over != 1) known[e] += std::log(std::abs(over));
    if (under != 1) known[e] -= std::log(std::abs(under));
  }
  bool const compares =
      std::any_of(equations_.begin(), equations_.end(), [](Equation const& e) { return e.kind == Instance::Kind::constant; });
  std::vector<Real> terms;  // of the sum in hand
  Square slope(n);
  std::vector<Real> rest(n);  // minus the residual of each equation
  for (int round = 0; round < most_rounds; ++round) {
    std::fill(slope.cells.begin(), slope.cells.end(), Real(0));
    std::fill(rest.begin(), rest.end(), Real(0));
    for (std::size_t e = 0; e < n; ++e) {
      auto const& equation = equations_[e];
      auto const& parts = equation.parts;
      auto const add = [&](Part const& part, Real by) {
        if (part.unknown >= 0) slope(e, static_cast<std::size_t>(part.unknown)) += by;
      };
      switch (equation.kind) {
        case Instance::Kind::product:
          if (std::any_of(parts.begin(), parts.end(), [&](Part const& part) {
                return part.unknown >= 0 && worked[static_cast<std::size_t>(part.unknown)] == 0;
              })) {  // nothing of what is used up: a product with nothing is nothing
            rest[e] = -x[e];
            slope(e, e) = 1;
            break;
          }
          rest[e] = equation.log_factor - known[e];
          for (auto const& part : parts) {
            if (part.unknown < 0) continue;
            auto const u = static_cast<std::size_t>(part.unknown);
            rest[e] -= part.weight * (linear[u] ? std::log(std::abs(x[u])) : x[u]);
            add(part, part.weight);
          }
          break;
        case Instance::Kind::sum: {
          Real scale = 0;
          terms.clear();
          for (auto const& part : parts) {
            terms.push_back(part.weight * value(part));
            scale = std::max(scale, std::abs(terms.back()));
          }
          for (std::size_t t = 0; t < parts.size(); ++t) {
            auto const& part = parts[t];
            Real const now = terms[t] / scale;
            rest[e] -= now;
            bool const straight = part.unknown >= 0 && linear[static_cast<std::size_t>(part.unknown)];
            add(part, straight ? part.weight / scale : now);
          }
          break;
        }
        case Instance::Kind::pick: {
          std::size_t least = 1;
          auto const batches = [&](std::size_t t) { return value(parts[t]) / base_value(node(parts[t].coefficient)); };
          for (std::size_t t = 2; t < parts.size(); ++t)
            if (batches(t) < batches(least)) least = t;
          Real const due = std::log(batches(least)) + std::log(base_value(node(parts[0].coefficient)));
          rest[e] = due - std::log(std::abs(value(parts[0])));
          add(parts[0], 1);
          add(parts[least], -1);
          break;
        }
        case Instance::Kind::logarithm: {
          Real const lg = std::log10(std::abs(value(parts[1])));
          rest[e] = -lg - value(parts[0]);
          add(parts[0], 1);
          add(parts[1], 1 / std::log(10.0L));
          break;
        }
        case Instance::Kind::constant:
          // 1e-9: data that agree to their figures are equal exactly or not at all.
          for (std::size_t t = 2; t < parts.size(); ++t) {
            Real const one = value(parts[1]) / base_value(node(parts[1].coefficient));
            Real const other = value(parts[t]) / base_value(node(parts[t].coefficient));
            if (round > 2 && std::abs(one - other) > 1e-9L * std::abs(one))
              return plain(node(unknowns_[static_cast<std::size_t>(parts[0].unknown)].node).quantity) +
                     ": the acid and the base do not use each other up";
          }
          rest[e] = equation.log_factor - value(parts[0]);
          add(parts[0], 1);
          break;
      }
    }
    if (!solve_linear(slope, rest)) return {};
    Real largest = 0;
    for (Real const step : rest) largest = std::max(largest, std::abs(step));
    // A small difference of large numbers sends a whole step far off, and the next one farther.
    Real const part = largest > longest_step ? longest_step / largest : 1;
    for (std::size_t i = 0; i < n; ++i) x[i] += part * rest[i];
    constexpr int fewest_rounds = 4;
    if (largest < settled && (!compares || round >= fewest_rounds)) break;
  }
  for (std::size_t i = 0; i < n; ++i) {
    // A difference of logarithms is a relative one.
    Real const scale = linear[i] ? std::max(std::abs(worked[i]), Real(1)) : Real(1);
    if (!(std::abs(x[i] - right[i]) <= agreement * scale)) {
      Real const got = linear[i] ? x[i] : sign[i] * std::exp(x[i]);
      auto const& differs = node(unknowns_[i].node);
      Real const factor = number_of(differs.value.unit.factor);
      return fmt::format("{}: worked {}, by all relations at once {:.12g}", plain(differs.quantity),
                         unrounded(differs.value.number), static_cast<double>(got / factor));
    }
  }
  return {};
}

}  // namespace molewright
