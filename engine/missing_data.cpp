// What is missing where a find cannot be had: single data that would do, or pairs of them.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "engine/consistency.h"
#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/stated.h"
#include "engine/substance.h"

namespace molewright {
namespace {

constexpr char const* molar_volume_wanted = "Vm (a line of the problem, or the course's molar_gas_volume)";
constexpr char const* acid_wanted = "a strong acid or base with its concentration (weak ones are not worked)";
constexpr char const* more = "more data";
constexpr char const* mass_of_sample = "m(sample), or m and the name of what it is a share of";
constexpr char const* sample_instead = "m(sample) in place of m({})";
constexpr char const* in_no_reaction = "; {} stands in no reaction";
constexpr char const* of_each_element = "the mass or the mass fraction of each of its elements";
constexpr char const* and_molar_mass = ", and its molar mass M(X)";
constexpr char const* of_hydrate = "the mass of the hydrate and that of its salt or its water";
constexpr std::size_t most_named = 4;    ///< single data; more are no help
constexpr std::size_t most_pairs = 3;    ///< the same of pairs
constexpr std::size_t most_paired = 12;  ///< of which pairs are tried, so that a large problem keeps nobody waiting

/// What is measured comes before what is told or follows.
constexpr std::array<std::string_view, 6> measured{"V", "c", "m", "p", "T", "dT"};
constexpr std::array<std::string_view, 8> told{"yield", "cp", "w", "rho", "n", "gamma", "M", "dH"};
/// In a pair: what is weighed, then what is made of it.
constexpr std::array<std::string_view, 9> in_pairs{"m", "c", "V", "T", "p", "dT", "cp", "rho", "yield"};

template <std::size_t count>
std::size_t rank_in(std::array<std::string_view, count> const& order, std::string_view symbol) {
  return static_cast<std::size_t>(std::find(order.begin(), order.end(), symbol) - order.begin());
}

/// Tries what would be enough for one find of a problem.
class Missing {
 public:
  Missing(Problem const& problem, Find const& wanted)
      : wanted_(wanted), written_(problem), network_(problem), read_(network_.problem()) {
    each_quantity(read_, [&](Quantity const& q) {
      add_once(spoken_of_, q.substance);
      last_stage_ = std::max(last_stage_, q.stage);
    });
    Measured const any{value(parse_decimal("24.0")), unit("L/mol")};
    Network of_gases(problem, &any);
    if (of_gases.course_value({"Vm", 0, "", "", ""}) != nullptr) with_molar_volume_ = std::move(of_gases);
  }

  /// What makes use of all that is given comes before what leaves some of it without a use.
  std::vector<std::string> enough() {
    all_are_read_ = wanted_.kind == Find::Kind::number && written_.finds.size() == 1;
    auto out = choices();
    if (!out.empty() || !all_are_read_) return out;
    all_are_read_ = false;
    return choices();
  }

 private:
  std::vector<std::string> choices() {
    std::vector<std::string> out;
    if (asks_acidity()) out.push_back(acid_wanted);
    bool const number = wanted_.kind == Find::Kind::number;
    if (number && with_molar_volume_ && would_do(*with_molar_volume_, {})) out.push_back(molar_volume_wanted);
    bool any_measured = !out.empty();
    for (int const v : candidates(network_, measured))
      if (out.size() < most_named && would_do(network_, {v})) {
        out.push_back(is_share_of_unnamed(quantity(v)) ? sample_wanted() : plain(quantity(v)));
        any_measured = true;
      }
    for (int const v : candidates(network_, told))
      if (out.size() < most_named && would_do(network_, {v})) {
        out.push_back(plain(quantity(v)));
        any_measured = any_measured || (quantity(v).symbol != "n" && quantity(v).symbol != "gamma");
      }
    if (!any_measured && number && add_dilutions(out)) return out;
    if (out.empty()) {
      add_unspoken(out);
      any_measured = !out.empty();
    }
    if (!any_measured) add_pairs(out);
    if (out.empty() && number && with_molar_volume_) add_pairs_with_molar_volume(out);
    return out;
  }

  Quantity const& quantity(int v) const { return network_.variables()[static_cast<std::size_t>(v)].quantity; }

  bool asks_acidity() const {
    auto const& q = wanted_.quantity;
    return q.symbol == "pH" || q.symbol == "pOH" || q.substance == "H^+" || q.substance == "H3O^+" || q.substance == "OH^-";
  }

  bool may_be_given(Variable const& variable) const {
    auto const& q = variable.quantity;
    if (variable.given >= 0 || variable.table || q == network_.canonical(wanted_.quantity)) return false;
    bool const dissolved = q.symbol == "c" || q.symbol == "gamma";
    if (q.word == "left" || q.word == "used" || (dissolved && q.substance == "H2O")) return false;
    return !(with_molar_volume_ && dissolved && q.substance == wanted_.quantity.substance);
  }

  /// What the problem speaks of, what goes into a reaction, what comes out of one.
  int place_of(std::string const& substance) const {
    if (contains(spoken_of_, substance)) return 0;
    auto const reaction = network_.reaction_of(substance);
    bool const reactant = reaction != std::string::npos && contains(network_.species(reaction).reactants(), substance);
    return reactant ? 1 : 2;
  }

  /// Those with one of the symbols: by the place of their substances, and among them in the symbols' order.
  template <std::size_t count>
  std::vector<int> candidates(Network const& network, std::array<std::string_view, count> const& order) const {
    std::vector<int> out;
    auto const& variables = network.variables();
    for (std::size_t v = 0; v < variables.size(); ++v)
      if (rank_in(order, variables[v].quantity.symbol) < count && may_be_given(variables[v])) out.push_back(static_cast<int>(v));
    auto const key = [&](int v) {
      auto const& q = variables[static_cast<std::size_t>(v)].quantity;
      return std::pair{place_of(q.substance), rank_in(order, q.symbol)};
    };
    std::stable_sort(out.begin(), out.end(), [&](int a, int b) { return key(a) < key(b); });
    return out;
  }

  bool would_do(Network trial, std::vector<int> const& supposed) const {
    for (int const v : supposed) trial.suppose(v);
    trial.add_reactions();
    auto const derivation = trial.derive();
    return can_be_had(trial, derivation, wanted_) && (!all_are_read_ || reads_all(trial, derivation));
  }

  /// Whether every portion and every concentration that is given is read on the way to what is wanted.
  bool reads_all(Network const& trial, Network::Derivation const& derivation) const {
    std::vector<char> read(trial.variables().size(), 0);
    std::vector<int> open{trial.find(trial.canonical(wanted_.quantity))};
    while (!open.empty()) {
      auto const v = static_cast<std::size_t>(open.back());
      open.pop_back();
      if (read[v]) continue;
      read[v] = 1;
      if (derivation.via[v] < 0) continue;
      for (auto const& term : trial.instances()[static_cast<std::size_t>(derivation.via[v])].terms) open.push_back(term.variable);
    }
    for (std::size_t v = 0; v < read.size(); ++v)
      if (trial.variables()[v].given >= 0 && is_of_portions(trial.variables()[v].quantity.symbol) && !read[v]) return false;
    return true;
  }

  /// How far it is from what a person at the bench would add: least where V or c of a solution stands without the other.
  int distance(Quantity const& q) const {
    bool const solution = q.symbol == "c" || q.symbol == "V";
    bool const completes =
        solution && std::any_of(read_.givens.begin(), read_.givens.end(), [&](Given const& given) {
          auto const& g = given.quantity;
          return g.substance == q.substance && g.stage == q.stage && g.symbol != q.symbol && (g.symbol == "c" || g.symbol == "V");
        });
    if (completes) return 0;
    return 1 + place_of(q.substance) + (q.substance == wanted_.quantity.substance ? 0 : 1);
  }

  /// "m(NaCl) and V(NaCl)": the nearest of them first.
  void add_pairs(std::vector<std::string>& out) const {
    auto tried = candidates(network_, in_pairs);
    if (tried.size() > most_paired) tried.resize(most_paired);
    struct Pair {
      int far, first, second;
    };
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i < tried.size(); ++i)
      for (std::size_t j = i + 1; j < tried.size(); ++j)
        pairs.push_back({distance(quantity(tried[i])) + distance(quantity(tried[j])), tried[i], tried[j]});
    std::stable_sort(pairs.begin(), pairs.end(), [](Pair const& a, Pair const& b) { return a.far < b.far; });
    std::size_t found = 0;
    for (auto const& pair : pairs) {
      if (found == most_pairs) return;
      if (!would_do(network_, {pair.first, pair.second})) continue;
      out.push_back(plain(quantity(pair.first)) + " and " + plain(quantity(pair.second)));
      ++found;
    }
  }

  /// The mass of a whole that nobody spoke of: beside a reaction a share is that of a sample, not of a solution.
  bool is_share_of_unnamed(Quantity const& q) const {
    return q.symbol == "m" && q.substance == "solution" && wanted_.quantity.symbol == "w" && !written_.reactions.empty() &&
           !contains(spoken_of_, "solution");
  }

  /// Where the mass of the substance itself is given, it was meant for that of the sample.
  std::string sample_wanted() const {
    auto const& of = wanted_.quantity.substance;
    bool const weighed = std::any_of(written_.givens.begin(), written_.givens.end(), [&](Given const& g) {
      return g.quantity.symbol == "m" && g.quantity.substance == of && g.quantity.word.empty();
    });
    return weighed ? fmt::format(fmt::runtime(sample_instead), of) : mass_of_sample;
  }

  /// Numbered solutions that no line makes of one another: "a line dilute 1 -> 2".
  bool add_dilutions(std::vector<std::string>& out) const {
    bool const written = std::any_of(written_.handlings.begin(), written_.handlings.end(),
                                     [](Handling const& handling) { return handling.place.line > 0; });
    if (written || last_stage_ < 2 || !written_.reactions.empty()) return false;
    auto trial = written_;
    std::string lines;
    for (int from = 1; from < last_stage_; ++from) {
      trial.handlings.push_back({Handling::Kind::dilute, {from}, from + 1, {}});
      lines += fmt::format("{}dilute {} -> {}", from == 1 ? "a line " : " and a line ", from, from + 1);
    }
    if (!would_do(Network(trial), {})) return false;
    out = {lines};
    return true;
  }

  /// What the problem does not speak of yet: p2 of a gas where V2 is asked, the water of a hydrate, the molar mass of X.
  std::vector<Quantity> unspoken() const {
    auto const& asked = wanted_.quantity;
    std::vector<Quantity> out;
    if (wanted_.kind == Find::Kind::hydrate_formula) out.push_back({"m", 0, "H2O", "", ""});
    if (wanted_.kind == Find::Kind::molecular_formula) out.push_back({"M", 0, "X", "", ""});
    bool const of_state = wanted_.kind == Find::Kind::number && asked.stage > 0;
    for (auto const* symbol : {"p", "V", "T"})
      if (of_state && asked.symbol != symbol) out.push_back({symbol, asked.stage, asked.substance, "", ""});
    return out;
  }

  void add_unspoken(std::vector<std::string>& out) const {
    for (auto const& other : unspoken()) {
      auto trial = written_;
      bool const given =
          std::any_of(trial.givens.begin(), trial.givens.end(), [&](Given const& g) { return g.quantity == other; });
      if (given) continue;
      Given supposed;
      supposed.quantity = other;
      supposed.numbers = {value(parse_decimal("1.0"))};
      supposed.unit = working_unit(other.symbol);
      trial.givens.push_back(std::move(supposed));
      std::erase_if(trial.handlings, [](Handling const& h) { return h.place.line == 0; });  // a dilution that nobody wrote
      if (would_do(Network(trial), {})) out.push_back(plain(other));
    }
  }

  void add_pairs_with_molar_volume(std::vector<std::string>& out) const {
    for (int const v : candidates(*with_molar_volume_, measured))
      if (out.size() < most_pairs && would_do(*with_molar_volume_, {v}))
        out.push_back(plain(with_molar_volume_->variables()[static_cast<std::size_t>(v)].quantity) + " and Vm");
  }

  Find const& wanted_;
  Problem const& written_;
  bool all_are_read_ = false;  ///< only what leaves no given without a use is named
  Network network_;
  Problem read_;                              ///< as the network reads it
  std::optional<Network> with_molar_volume_;  ///< where it is of gases whose molar volume nobody told
  std::vector<std::string> spoken_of_;
  int last_stage_ = 0;
};

/// "V(NaCl) or gamma(NaCl)"; with pairs among them "gamma(NaCl), or m(NaCl) and V(NaCl)".
std::string choices(std::vector<std::string> const& enough) {
  bool const pairs = std::any_of(enough.begin(), enough.end(), [](auto const& one) { return one.find(" and ") != one.npos; });
  if (!pairs) return either(enough);
  std::string out;
  for (auto const& one : enough) out += (out.empty() ? "" : ", or ") + one;
  return out;
}
}  // namespace

bool can_be_had(Network const& network, Network::Derivation const& derivation, Find const& find) {
  if (is_stated(find.kind)) return true;
  if (find.kind == Find::Kind::limiting_reagent) {
    auto const* const choice = network.limiting_choice();
    return choice && std::all_of(choice->terms.begin() + 1, choice->terms.end(),
                                 [&](auto const& term) { return derivation.known(term.variable); });
  }
  if (find.kind != Find::Kind::number) {
    auto const& parts = network.formula_parts();
    bool const molecular = find.kind == Find::Kind::molecular_formula;
    int const molar_mass = molecular ? network.molar_mass_asked() : -1;
    if (molecular && (molar_mass < 0 || !derivation.known(molar_mass))) return false;
    if (!network.problem().empirical.empty()) return !parts.empty();
    return parts.size() > 1 && std::all_of(parts.begin(), parts.end(), [&](std::string const& part) {
             int const amount = network.find({"n", 0, part, "", ""});
             return amount >= 0 && derivation.known(amount);
           });
  }
  int const v = network.find(network.canonical(find.quantity));
  return v >= 0 && derivation.known(v);
}

namespace {
/// Where no one or two data are enough.
std::string in_general(Find const& wanted) {
  if (wanted.kind == Find::Kind::empirical_formula) return of_each_element;
  if (wanted.kind == Find::Kind::molecular_formula) return std::string(of_each_element) + and_molar_mass;
  return wanted.kind == Find::Kind::hydrate_formula ? of_hydrate : more;
}
}  // namespace

namespace {
/// A substance whose portion is given though no reaction has it, nor anything that it is in or that is in it: MgCO3 beside the
/// reaction of CaCO3.
std::string in_no_reaction_of(Problem const& problem) {
  std::vector<std::string> species;
  for (auto const& reaction : problem.reactions)
    for (auto const* side : {&reaction.equation.left, &reaction.equation.right})
      for (auto const& one : *side) species.push_back(plain(one.formula));
  if (species.empty()) return {};
  for (auto const& given : problem.givens) {
    auto const& substance = given.quantity.substance;
    auto const known = known_formula(substance);
    if (!known || !is_of_portions(given.quantity.symbol) || known->formula.charge != 0 || substance == "H2O") continue;
    auto const dry = plain(anhydrous(known->formula));
    auto const is_kin = [&](std::string const& one) {
      if (one == substance || one == dry || count_in(one, substance) > 0 || count_in(substance, one) > 0) return true;
      auto const ions = ions_of(dry);
      return std::any_of(ions.begin(), ions.end(), [&](auto const& ion) { return ion.ion == one; });
    };
    if (std::none_of(species.begin(), species.end(), is_kin)) return substance;
  }
  return {};
}
}  // namespace

PlacedFault missing_data(Problem const& problem, std::size_t find) {
  auto const& wanted = problem.finds[find];
  auto const enough = Missing(problem, wanted).enough();
  PlacedFault found;
  found.line = wanted.place.line;
  found.column = wanted.place.column;
  found.fault.id = "missing-data";
  std::string const what = wanted.kind == Find::Kind::number ? plain(wanted.quantity) : "the " + plain(wanted);
  found.fault.what = "there is too little to find " + what + " from";
  if (auto const stranger = in_no_reaction_of(problem); !stranger.empty())
    found.fault.what += fmt::format(fmt::runtime(in_no_reaction), stranger);
  found.fault.expected = enough.empty() ? in_general(wanted) : choices(enough);
  return found;
}

}  // namespace molewright
