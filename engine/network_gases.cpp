// One portion of an ideal gas in two states: the combined gas law, and what it becomes where pressure, volume or temperature
// stays.
#include <algorithm>
#include <array>

#include "engine/network.h"

namespace molewright {
namespace {

constexpr std::array<char const*, 4> state_symbols{"p", "V", "n", "T"};

template <class Fits>
bool any_named(Problem const& problem, Fits fits) {
  return std::any_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) { return fits(g.quantity); }) ||
         std::any_of(problem.finds.begin(), problem.finds.end(),
                     [&](Find const& f) { return f.kind == Find::Kind::number && fits(f.quantity); });
}
}  // namespace

/// Two of pressure, volume, amount and temperature stand in the problem as 1 and 2, and no solution and no calorimeter does.
bool Network::has_two_gas_states() {
  if (!problem_.handlings.empty()) return false;
  std::array<std::array<bool, 2>, state_symbols.size()> seen{};
  bool const other = any_named(problem_, [&](Quantity const& q) {
    auto const& s = q.symbol;
    for (std::size_t i = 0; i < state_symbols.size(); ++i)
      if ((q.stage == 1 || q.stage == 2) && s == state_symbols[i]) seen[i][static_cast<std::size_t>(q.stage - 1)] = true;
    return s == "c" || s == "gamma" || s == "w" || s == "b" || s == "q" || s == "cp" || s == "C" || s == "dH" || s == "dT" ||
           q.word == "added" || q.word == "taken";
  });
  gas_amount_changes_ = !other && seen[2][0] && seen[2][1];
  return !other && std::count_if(seen.begin(), seen.end(), [](auto const& state) { return state[0] && state[1]; }) >= 2;
}

/// What is given without a number where its second state is asked or given is the first: V(air) beside V2.
void Network::number_first_states() {
  if (!problem_.handlings.empty() || speaks_of("c") || speaks_of("gamma")) return;
  std::set<Symbol> second, first;
  any_named(problem_, [&](Quantity const& q) {
    if (q.stage == 2) second.insert(q.symbol);
    if (q.stage == 1) first.insert(q.symbol);
    return false;
  });
  auto const both = [&](Symbol symbol) { return first.count(symbol) == 1 && second.count(symbol) == 1; };
  if (!both("p") && !both("T") && !both("V")) return;
  for (auto& given : problem_.givens) {
    auto& q = given.quantity;
    bool const of_state = q.symbol == "p" || q.symbol == "V" || q.symbol == "T";
    if (of_state && q.stage == 0 && q.word.empty() && second.count(q.symbol) == 1 && first.count(q.symbol) == 0) q.stage = 1;
  }
}

void Network::add_gas_states() {
  if (!gas_states_) return;
  auto const named = [&](Symbol symbol, int stage) -> std::optional<Quantity> {
    std::optional<Quantity> found;
    any_named(problem_, [&](Quantity const& q) {
      if (!found && q.symbol == symbol && q.stage == stage && q.word.empty()) found = q;
      return false;
    });
    return found;
  };
  std::string gas;
  for (Symbol symbol : state_symbols)
    for (int stage : {1, 2})
      if (auto const q = named(symbol, stage); q && gas.empty()) gas = q->substance;
  if (gas.empty() && !substances_.empty()) gas = substances_.front();
  /// As the problem writes it: the pressure and the temperature with their gas or without.
  auto const state = [&](Symbol symbol, int stage) {
    if (auto const q = named(symbol, stage)) return *q;
    bool const of_gas = symbol == std::string_view("V");
    return Quantity{symbol, stage, of_gas ? gas : "", "", ""};
  };
  // What stands in the problem as 1 alone stays as it is.
  auto const asked = [&](Symbol symbol) {
    return std::any_of(problem_.finds.begin(), problem_.finds.end(),
                       [&](Find const& f) { return f.quantity.symbol == symbol && f.quantity.stage > 0; });
  };
  auto const changes = [&](Symbol symbol) { return (named(symbol, 1) && named(symbol, 2)) || asked(symbol); };

  RelationForm const form =
      changes("n")    ? (changes("p") || changes("T") ? RelationForm("p1V1/(n1T1) = p2V2/(n2T2)") : RelationForm("V1/n1 = V2/n2"))
      : !changes("T") ? RelationForm("p1V1 = p2V2")
      : !changes("p") ? RelationForm("V1/T1 = V2/T2")
      : !changes("V") ? RelationForm("p1/T1 = p2/T2")
                      : RelationForm("p1V1/T1 = p2V2/T2");
  std::vector<InstanceTerm> terms;
  for (int stage : {1, 2})
    for (Symbol symbol : state_symbols) {
      if (!changes(symbol)) continue;
      bool const factor = symbol == std::string_view("p") || symbol == std::string_view("V");
      bool const over = factor == (stage == 1);
      terms.push_back({add(state(symbol, stage)), over ? 1 : -1});
    }
  add_product(form, std::move(terms), 10, true);

  // How much gas it is follows from either state; what does not change is written without a number.
  if (gas.empty() || !any_named(problem_, [&](Quantity const& q) { return q.stage == 0 && q.substance == gas; })) return;
  for (int stage : {1, 2}) {
    auto const here = [&](Symbol symbol) { return add(state(symbol, changes(symbol) ? stage : named(symbol, 1) ? 1 : 0)); };
    int const amount = changes("n") ? here("n") : add("n", gas);
    add_product("pV = nRT", {{here("p"), 1}, {here("V"), 1}, {amount, -1}, {add("R", ""), -1}, {here("T"), -1}});
  }
}

}  // namespace molewright
