// What is done with numbered solutions: diluted, mixed; portions taken from them; and the volume that reacting solutions come to.
#include <algorithm>

#include "engine/lists.h"
#include "engine/network.h"

namespace molewright {
void Network::gather_stages() {
  number_first_states();
  gas_states_ = has_two_gas_states();
  if (gas_states_) return;  // the numbers are those of its states
  std::set<int> stages;
  auto const gather = [&](Quantity const& q) {
    bool const of_solution = q.symbol == "c" || q.symbol == "V" || q.symbol == "gamma";
    bool const of_portion = q.symbol == "n" || q.symbol == "m";
    if (q.stage > 0 && (q.symbol == "pH" || q.symbol == "pOH")) stages.insert(q.stage);
    if (q.stage == 0 || !(of_solution || of_portion) || q.word == "added") return;
    if (of_solution) stages.insert(q.stage);
    if (!contains(staged_, q.substance)) staged_.push_back(q.substance);
    if (q.symbol == "V" && q.word.empty()) stage_volume_.emplace(q.stage, q.substance);
  };
  for (auto const& given : problem_.givens) gather(given.quantity);
  for (auto const& find : problem_.finds)
    if (find.kind == Find::Kind::number) gather(find.quantity);
  // V3 of a mixture of several solutes is written without any of them.
  if (staged_.size() > 1) staged_.erase(std::remove(staged_.begin(), staged_.end(), ""), staged_.end());
  // c2(Cl^-) beside c2(FeCl3) is of the same solution: an ion that comes from another of them is no second solute.
  auto const solutes = std::count_if(staged_.begin(), staged_.end(), [&](std::string const& one) {
    return one != "solution" &&
           std::none_of(staged_.begin(), staged_.end(), [&](std::string const& salt) { return count_in(one, salt) > 0; });
  });
  bool const titrated_back = staged_.size() == 1 && aliquot_of(staged_.front()) &&
                             reaction_of(staged_.front()) != std::string::npos &&
                             goes_on(reaction_of(staged_.front()), staged_.front());
  if (problem_.handlings.empty() && stages.count(1) && stages.count(2) && solutes == 1 && !titrated_back)
    problem_.handlings.push_back({Handling::Kind::dilute, {1}, 2, {}});
  // Solutions of different salts whose ion product is asked are mixed.
  if (problem_.handlings.empty() && solutes > 1 && stages.size() > 1 && speaks_of("Q")) {
    Handling mixing{Handling::Kind::mix, {stages.begin(), stages.end()}, *stages.rbegin() + 1, {}};
    problem_.handlings.push_back(mixing);
  }
  // Solutions 1 and 2 told by their mass fractions, water added: the second is the first one diluted.
  if (problem_.handlings.empty() && speaks_of("w") && is_named({"m", 0, "H2O", "added", ""}))
    problem_.handlings.push_back({Handling::Kind::dilute, {1}, 2, {}});
  if (staged_.empty()) return;
  for (auto const& handling : problem_.handlings) {
    std::set<std::string> together;  // a mixture of several solutes has a volume of its own: V3
    for (int from : handling.from) together.insert(stage_volume_.emplace(from, staged_.front()).first->second);
    stage_volume_.emplace(handling.to, together.size() > 1 ? std::string() : staged_.front());
  }
}

/// Whether a substance is in a numbered solution: the problem says so, or it came there from one that it is in.
bool Network::present(std::string const& substance, int stage) const {
  auto const says = [&](Quantity const& q) {
    if (q.stage != stage || q.word == "added" || q.symbol == "V") return false;
    return q.substance == substance || (q.substance != substance && count_in(substance, q.substance) > 0);
  };
  if (staged_.size() == 1) return true;
  for (auto const& given : problem_.givens)
    if (says(given.quantity)) return true;
  for (auto const& find : problem_.finds)
    if (find.kind == Find::Kind::number && says(find.quantity)) return true;
  return std::any_of(problem_.handlings.begin(), problem_.handlings.end(), [&](Handling const& handling) {
    return handling.to == stage && std::any_of(handling.from.begin(), handling.from.end(),
                                               [&](int from) { return from < stage && present(substance, from); });
  });
}

Quantity Network::taken(std::string const& substance, int stage) const {
  Quantity const with_word{"V", stage, substance, "taken", ""};
  return is_named(with_word) ? with_word : canonical({"V", stage, substance, "", ""});
}

/// The highest number of a solution of the substance; 0 where it has none.
int Network::last_stage(std::string const& substance) const {
  int last = 0;
  auto const look = [&](Quantity const& q) {
    if (q.substance == substance) last = std::max(last, q.stage);
  };
  for (auto const& given : problem_.givens) look(given.quantity);
  for (auto const& find : problem_.finds) look(find.quantity);
  if (contains(staged_, substance))
    for (auto const& handling : problem_.handlings) last = std::max(last, handling.to);
  return last;
}

/// The lowest number that the problem gives a solution of the substance; 0 where it has none.
int Network::first_stage(std::string const& substance) const {
  int first = 0;
  auto const look = [&](Quantity const& q) {
    if (q.substance == substance && q.stage > 0 && (first == 0 || q.stage < first)) first = q.stage;
  };
  for (auto const& given : problem_.givens) look(given.quantity);
  for (auto const& find : problem_.finds) look(find.quantity);
  return first;
}

/// The volume of the portion that is taken with a pipette to react: V(X, aliquot), V2(X, aliquot), or V2(X, taken) where solution
/// 2 is not diluted any further.
std::optional<Quantity> Network::aliquot_of(std::string const& substance) const {
  if (problem_.reactions.empty()) return std::nullopt;
  for (auto const& given : problem_.givens) {
    auto const& q = given.quantity;
    if (q.symbol != "V" || q.substance != substance) continue;
    bool const diluted = std::any_of(problem_.handlings.begin(), problem_.handlings.end(), [&](Handling const& h) {
      return std::find(h.from.begin(), h.from.end(), q.stage) != h.from.end();
    });
    if (q.word == "aliquot" || (q.word == "taken" && q.stage > 0 && !diluted)) return q;
  }
  for (auto const& find : problem_.finds)
    if (find.quantity.symbol == "V" && find.quantity.substance == substance && find.quantity.word == "aliquot")
      return find.quantity;
  return std::nullopt;
}

void Network::add_aliquots() {
  for (auto const& substance : substances_) {
    auto const volume = aliquot_of(substance);
    if (!volume) continue;
    int const stage = volume->stage > 0 ? volume->stage : last_stage(substance);
    add_product("n = cV",
                {{add({"n", volume->stage, substance, "aliquot", ""}), 1}, {add("c", substance, stage), -1}, {add(*volume), -1}});
    if (stage > 0) add_subject(substance, stage, "");
    // A back titration: what the first reaction left is made up to the mark, and an aliquot of that is titrated.
    for (std::size_t r = 0; r < problem_.reactions.size(); ++r)
      if (stage > 0 && goes_on(r, substance))
        add_product("n(solution) = n(left)", {{add("n", substance, stage), 1}, {add("n", substance, 0, "left"), -1}});
  }
}

void Network::add_handling(Handling const& handling, bool only_dilution) {
  add_mixed_masses(handling);
  add_mixing_ratios(handling);
  for (auto const& substance : staged_) {
    int const to = handling.to;
    auto const q = [&](Symbol symbol, int stage) { return add(symbol, substance, stage); };
    if (handling.kind != Handling::Kind::mix) {
      int const from = handling.from.front();
      if (!present(substance, from)) continue;
      int const volume = add(taken(substance, from));
      add_product("c1V1 = c2V2", {{q("c", from), 1}, {volume, 1}, {q("V", to), -1}, {q("c", to), -1}}, 10, true);
      add_product("gamma1V1 = gamma2V2", {{q("gamma", from), 1}, {volume, 1}, {q("V", to), -1}, {q("gamma", to), -1}}, 11, true);
      if (speaks_of("phi", substance))
        add_product("phi1V1 = phi2V2", {{q("phi", from), 1}, {volume, 1}, {q("V", to), -1}, {q("phi", to), -1}}, 10, true);
      add_product("n = cV", {{q("n", to), 1}, {q("c", from), -1}, {volume, -1}}, 10);
      if (speaks_of("DF")) {
        int const factor = add(canonical({"DF", to, "", "", ""}));
        add_product("dilution factor = V2/V1", {{factor, 1}, {q("V", to), -1}, {volume, 1}}, 10, true);
        for (Symbol symbol : {"c", "gamma"})
          add_product("dilution factor = c1/c2", {{factor, 1}, {q(symbol, from), -1}, {q(symbol, to), 1}}, 10, true);
      }
      if (Quantity const gone{"V", 0, "H2O", "evaporated", ""}; handling.kind == Handling::Kind::evaporate && is_named(gone))
        add_sum("V1 = V2 + V(evaporated)", {{volume, -1}, {q("V", to), 1}, {add(gone), 1}});
      // The water added: V(H2O, added) where there is one dilution, V3(H2O, added) for the one that makes solution 3.
      Quantity const water{"V", only_dilution ? 0 : to, "H2O", "added", ""};
      if (is_named(water)) add_sum("V2 = V1 + V(added)", {{q("V", to), -1}, {volume, 1}, {add(water), 1}});
      continue;
    }
    std::vector<InstanceTerm> volumes{{q("V", to), -1}}, amounts{{q("n", to), -1}};
    for (int from : handling.from) {
      volumes.push_back({q("V", from), 1});
      if (present(substance, from)) amounts.push_back({q("n", from), 1});
    }
    if (substance == staged_.front()) add_sum("V = V1 + V2", volumes);
    if (amounts.size() > 1) add_sum("n = n1 + n2", amounts);
  }
}

/// What is weighed with its vessel: the two masses add up.
void Network::add_weighings() {
  each_quantity(problem_, [&](Quantity const& q) {
    auto const vessel = std::string(vessel_of(q));
    if (vessel.empty()) return;
    char const* const got = speaks_of("yield", q.substance) ? "actual" : "";
    add_sum("m(together) = m(vessel) + m(contents)",
            {{add(q), -1}, {add("m", vessel), 1}, {add("m", q.substance, q.stage, got), 1}});
  });
  if (speaks_of("m", "residue") && speaks_of("m", "hydrate"))  // of a salt that is not named
    add_sum("m(whole) = sum of m", {{add("m", "hydrate"), -1}, {add("m", "residue"), 1}, {add("m", "H2O"), 1}});
}

/// Numbered solutions told by their mass fractions: w1(NaCl) and m1(solution). What is mixed keeps its masses, and so does what
/// is diluted with m(H2O, added).
void Network::add_mixed_masses(Handling const& handling) {
  std::set<std::string> solutes;
  auto const look = [&](Quantity const& q) {
    if (q.symbol == "w" && q.stage > 0 && q.part.empty()) solutes.insert(q.substance);
  };
  for (auto const& given : problem_.givens) look(given.quantity);
  for (auto const& find : problem_.finds) look(find.quantity);
  if (solutes.empty()) return;
  auto const q = [&](Symbol symbol, std::string const& substance, int stage) {
    return add(Quantity{symbol, stage, substance, "", ""});
  };
  auto stages = handling.from;
  stages.push_back(handling.to);
  for (auto const& solute : solutes)
    for (int const stage : stages)
      add_product("w = m/m(whole)", {{q("w", solute, stage), 1}, {q("m", solute, stage), -1}, {q("m", "solution", stage), 1}});
  // Of what is numbered and has a density: rho1(solution).
  for (auto const& solute : solutes)
    for (int const stage : stages) {
      if (!is_named({"rho", stage, "solution", "", ""})) continue;
      int const density = q("rho", "solution", stage), volume = add(canonical({"V", stage, solute, "", ""}));
      add_product("rho = m/V", {{density, 1}, {q("m", "solution", stage), -1}, {volume, 1}});
      add_product(
          "c = w rho/M",
          {{add(canonical({"c", stage, solute, "", ""})), 1}, {q("w", solute, stage), -1}, {density, -1}, {add("M", solute), 1}},
          12);
    }
  auto const sum = [&](std::string const& substance) {
    std::vector<InstanceTerm> masses{{q("m", substance, handling.to), -1}};
    for (int const from : handling.from) masses.push_back({q("m", substance, from), 1});
    Quantity const water{"m", 0, "H2O", "added", ""};
    if (substance == "solution" && handling.kind == Handling::Kind::dilute && is_named(water)) masses.push_back({add(water), 1});
    if (substance == "solution" && handling.kind != Handling::Kind::mix && masses.size() == 2) return;
    add_sum("m = m1 + m2", masses);
  };
  sum("solution");
  for (auto const& solute : solutes) sum(solute);
}

/// How much of two solutions makes a third, where all three are told by what they hold: the portions are as the differences to
/// the mixture, the other way round.
void Network::add_mixing_ratio(Handling const& handling, Symbol share, std::string const& solute, Symbol portion,
                               std::string const& solution) {
  auto const given = [&](int stage) -> Given const* {
    for (auto const& one : problem_.givens)
      if (one.quantity == Quantity{share, stage, solute, "", ""} && one.numbers.size() == 1) return &one;
    return nullptr;
  };
  auto const *first = given(handling.from[0]), *second = given(handling.from[1]);
  if (!first || !second || !given(handling.to)) return;
  bool const in_order = first->numbers[0].value * first->unit.factor >= second->numbers[0].value * second->unit.factor;
  int const strong = handling.from[in_order ? 0 : 1], weak = handling.from[in_order ? 1 : 0], mixed = handling.to;
  auto const q = [&](Symbol symbol, std::string const& substance, int stage) {
    return add(canonical({symbol, stage, substance, "", ""}));
  };
  auto const difference = [&](int more, int less) {
    constexpr int next_digit = 10;  // Δc13 is c1 - c3
    int const made = add(Quantity{Symbol("d" + std::string(share)), next_digit * more + less, solute, "", ""});
    add_sum("difference of two solutions", {{made, -1}, {q(share, solute, more), 1}, {q(share, solute, less), -1}});
    return made;
  };
  int const upper = difference(strong, mixed), lower = difference(mixed, weak), whole = difference(strong, weak);
  auto const part = [&](int stage) { return q(portion, solution, stage); };
  auto const ratio = [&](int one, int by, int other, int over) {
    add_product("V1(c1 - c3) = V2(c3 - c2)", {{one, 1}, {by, -1}, {other, -1}, {over, 1}}, 10, true);
  };
  ratio(part(strong), lower, part(weak), upper);
  ratio(part(strong), lower, part(mixed), whole);
  ratio(part(weak), upper, part(mixed), whole);
}

void Network::add_mixing_ratios(Handling const& handling) {
  if (handling.kind != Handling::Kind::mix || handling.from.size() != 2) return;
  std::set<std::string> solutes;
  each_quantity(problem_, [&](Quantity const& q) {
    if (q.stage == handling.to) solutes.insert(q.substance);
  });
  for (auto const& solute : solutes) {
    for (Symbol share : {"c", "gamma"}) add_mixing_ratio(handling, share, solute, "V", solute);
    add_mixing_ratio(handling, "w", solute, "m", "solution");
  }
}

/// Solutions that react come to one volume: that of all of them together.
void Network::add_mixture() {
  if (reacting_volumes_.empty()) return;
  std::vector<InstanceTerm> volumes{{add("V", "", 0, "mixture"), -1}};
  for (auto const& substance : reacting_volumes_) volumes.push_back({add("V", substance), 1});
  if (Quantity const water{"V", 0, "H2O", "added", ""}; is_named(water)) volumes.push_back({add(water), 1});
  if (volumes.size() > 2)
    add_sum("V = V1 + V2", volumes);
  else
    add_sum("V = V1", volumes);
  instances_.back().targets = {volumes.front().variable};
}

}  // namespace molewright
