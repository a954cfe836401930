// Formulas from data: the amounts of the elements (or of salt and water) whose ratio a formula shows.
#include <algorithm>

#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/network.h"
#include "engine/substance.h"

namespace molewright {
namespace {

/// "oxide", "tin oxide": the last word is the kind.
bool ends_in_word(std::string const& text, std::string_view kind) {
  if (text.size() < kind.size() || text.compare(text.size() - kind.size(), kind.size(), kind) != 0) return false;
  return text.size() == kind.size() || text[text.size() - kind.size() - 1] == ' ';
}

/// The elements of a formula in the order in which it is written.
void gather_elements(std::vector<Group> const& groups, std::vector<std::string>& into) {
  for (auto const& group : groups) {
    gather_elements(group.inside, into);
    if (!group.element.empty() && !contains(into, group.element)) into.push_back(group.element);
  }
}

bool is_element(std::string const& substance) { return find_element(substance) != nullptr; }
}  // namespace

/// Whether a find asks for a formula; nullptr where none does.
Find const* Network::formula_find() const {
  for (auto const& find : problem_.finds)
    if (find.kind == Find::Kind::empirical_formula || find.kind == Find::Kind::molecular_formula ||
        find.kind == Find::Kind::hydrate_formula)
      return &find;
  return nullptr;
}

int Network::molar_mass_asked() const {
  for (std::size_t v = 0; v < variables_.size(); ++v) {
    auto const& variable = variables_[v];
    if (variable.quantity.symbol == "M" && !variable.table) return static_cast<int>(v);
  }
  return -1;
}

/// Settles which parts a formula is made of, or a burnt sample: the author's own, else every element that the data speak of,
/// those in the oxides that were caught, and oxygen where a sample is weighed as well.
void Network::gather_parts() {
  auto const* const wanted = formula_find();
  if (auto const empirical = known_formula(problem_.empirical); wanted && empirical) {
    for (auto const& part : empirical->formula.parts) gather_elements(part.groups, formula_parts_);
    return;
  }
  auto const given = [&](std::string const& substance) {
    return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
      auto const& q = g.quantity;
      return q.substance == substance && q.part.empty() && (q.symbol == "m" || q.symbol == "n" || q.symbol == "w");
    });
  };
  take_compound_as_whole();
  // The unknown that is weighed is the whole, where no word names one.
  bool const unknown_weighed = wanted && (whole_.empty() || whole_ == "solution") && is_named("m", "X");
  if (unknown_weighed) whole_ = "X";
  bool const burnt = problem_.reactions.empty() && !whole_.empty() && given(whole_) && (given("CO2") || given("H2O"));
  if (!wanted && !burnt) return;
  // Where the author names no whole, fractions are those of the compound itself.
  bool const named =
      std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) { return g.quantity.substance == whole_; });
  if (whole_.empty() || !named)
    whole_ = wanted && wanted->kind == Find::Kind::hydrate_formula ? "hydrate" : wanted ? "compound" : "sample";
  components_.clear();
  auto const& salt_named = wanted && !wanted->elements.empty() ? wanted->elements.front() : salt_of_hydrate_;
  if (wanted && wanted->kind == Find::Kind::hydrate_formula && !salt_named.empty()) {
    formula_parts_ = {salt_named, "H2O"};
    return;
  }
  if (wanted && wanted->kind == Find::Kind::hydrate_formula) {
    // The salt that is weighed, or else the first that is a salt and forms in no reaction.
    std::vector<std::string> salts;
    for (auto const& substance : substances_) {
      auto const formula = known_formula(substance);
      if (substance != "H2O" && formula && !formula->formula.hydrate()) salts.push_back(substance);
    }
    auto const forms = [&](std::string const& substance) {
      return std::any_of(species_.begin(), species_.end(),
                         [&](SpeciesOfReaction const& species) { return contains(species.products(), substance); });
    };
    auto const rank = [&](std::string const& salt) {
      if (given(salt) && ions_of(salt).size() > 1) return 0;
      return ions_of(salt).size() > 1 && !forms(salt) && count_in("OH^-", salt) == 0 ? 1 : 2;
    };
    std::stable_sort(salts.begin(), salts.end(), [&](auto const& a, auto const& b) { return rank(a) < rank(b); });
    if (!salts.empty()) formula_parts_.push_back(salts.front());
    formula_parts_.push_back("H2O");
    return;
  }
  if (wanted && !wanted->elements.empty()) {
    formula_parts_ = wanted->elements;
    return;
  }
  for (auto const& substance : substances_)
    if (is_element(substance) && !(burnt && substance == "O")) formula_parts_.push_back(substance);
  for (auto const& [oxide, element] : {std::pair{"CO2", "C"}, {"H2O", "H"}})
    if (given(oxide) && !contains(formula_parts_, element)) formula_parts_.push_back(element);
  // What the name of the whole says is in it beside what was measured: the oxygen of an oxide.
  for (auto const& [kind, element] : {std::pair{"oxide", "O"},
                                      {"chloride", "Cl"},
                                      {"bromide", "Br"},
                                      {"iodide", "I"},
                                      {"fluoride", "F"},
                                      {"sulfide", "S"},
                                      {"sulphide", "S"},
                                      {"nitride", "N"},
                                      {"hydride", "H"},
                                      {"hydrocarbon", "H"}})
    if (named && ends_in_word(whole_, kind) && !contains(formula_parts_, element)) formula_parts_.push_back(element);
  if (burnt && !ends_in_word(whole_, "hydrocarbon") && !contains(formula_parts_, "O")) formula_parts_.push_back("O");
}

/// "0.243 g of magnesium gives 0.403 g of magnesium oxide": the compound whose formula is asked is named, and what it holds
/// beside the elements that were measured is found by difference.
void Network::take_compound_as_whole() {
  auto const* const wanted = formula_find();
  if (!wanted || wanted->kind == Find::Kind::hydrate_formula || !whole_.empty() || !problem_.reactions.empty()) return;
  std::vector<std::string> elements;
  for (auto const& substance : substances_)
    if (is_element(substance) && is_named("m", substance)) elements.push_back(substance);
  if (elements.empty()) return;
  for (auto const& substance : substances_) {
    auto const compound = known_formula(substance);
    if (!compound || compound->composition.size() != elements.size() + 1 || !is_named("m", substance)) continue;
    std::string other;
    std::size_t measured = 0;
    for (auto const& [element, count] : compound->composition)
      contains(elements, element) ? ++measured : (other = element, measured);
    if (measured != elements.size()) continue;
    whole_ = substance;
    substances_.push_back(other);
    return;
  }
}

void Network::add_formula_parts() {
  if (formula_parts_.empty() || !problem_.empirical.empty()) return;
  for (auto const& part : formula_parts_) add_subject(part, 0, "");
  // What is caught of each element: carbon in carbon dioxide, chlorine in hydrogen chloride.
  bool const one_unknown = is_named("m", whole_);
  for (auto const& part : formula_parts_) {
    if (!is_element(part)) continue;
    bool const by_difference = one_unknown && part == formula_parts_.back() && formula_parts_.size() > 1;
    for (auto const& substance : substances_) {
      bool const caught = std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
        return g.quantity.substance == substance &&
               (g.quantity.symbol == "m" || g.quantity.symbol == "n" || g.quantity.symbol == "V");
      });
      bool const water_or_dioxide = substance == "CO2" || substance == "H2O";
      if (by_difference && (!caught || !water_or_dioxide || part == "O")) continue;
      auto const reaction = reaction_of(substance);
      bool const product = reaction != std::string::npos && !is_reactant(reaction, substance);
      if (product || substance == part || substance == whole_ || count_in(part, substance) == 0) continue;
      add_product("n(part) = nu n(whole)", {{add("n", part), 1}, {count_of(part, substance), -1}, {add("n", substance), -1}});
    }
  }
  if (contains(formula_parts_, "H2O") && is_named({"M", 0, whole_, "", ""})) {
    // A mole of the hydrate holds a mole of the salt.
    int const amount = add("n", whole_), molar_mass = add("M", whole_);
    add_product("n = m/M", {{amount, 1}, {add(whole("m")), -1}, {molar_mass, 1}});
    add_product("n(hydrate) = n(salt)", {{amount, 1}, {add("n", formula_parts_.front()), -1}}, 5);
  }
  std::vector<InstanceTerm> masses{{add(whole("m")), -1}};
  for (auto const& part : formula_parts_) masses.push_back({add("m", part), 1});
  add_sum("m(whole) = sum of m", masses);
  // Both fractions from an analysis rarely make just 100 %: only where one is left out does it follow from the other.
  bool const left_out = speaks_of("w", "H2O") && !speaks_of("w", formula_parts_.front());
  if (!is_whole_fraction({"w", 0, whole_, "", ""}) || !left_out) return;
  std::vector<InstanceTerm> fractions{{add(Quantity{"w", 0, whole_, "", ""}), -1}};
  for (auto const& part : formula_parts_) fractions.push_back({add("w", part), 1});
  add_sum("w(whole) = sum of w", fractions);
}

/// What combines with an unknown metal weighs what is gained, and what a carbonate loses when it is heated is the carbon dioxide:
/// where every mass of such a reaction but one is given. Of what is known, only what falls apart by itself, and
/// all of it, is weighed so: among several reactants one may be left over.
void Network::add_conserved_masses() {
  for (auto const& species : species_) {
    auto const all = species.all();
    auto const weighed = [&](std::string const& s) {  // by itself or in its vessel
      return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
        auto const& q = g.quantity;
        bool const in_vessel = !vessel_of(q).empty() && !speaks_of("yield", s);
        return q.symbol == "m" && q.stage == 0 && q.substance == s && q.part.empty() && (q.word.empty() || in_vessel);
      });
    };
    bool const falls_apart = species_.size() == 1 && species.reactants().size() == 1 && weighed(all.front()) && !rests_count();
    if (!falls_apart && std::none_of(all.begin(), all.end(), [](std::string const& s) { return is_unknown(s); })) continue;
    if (std::count_if(all.begin(), all.end(), weighed) + 1 != static_cast<std::ptrdiff_t>(all.size())) continue;
    std::vector<InstanceTerm> masses;
    for (std::size_t s = 0; s < all.size(); ++s) masses.push_back({add("m", all[s]), s < species.reactants().size() ? -1 : 1});
    add_sum("m(reactants) = m(products)", masses);
  }
}

/// M(M2CO3) = 2 M(M) + M(C) + 3 M(O): what is not known in a formula has a molar mass as an element has.
void Network::add_masses_of_unknowns() {
  for (auto const& substance : substances_) {
    auto const formula = formula_of_unknown(substance);
    bool const alone = formula && formula->composition.size() == 1 && formula->composition.begin()->second == 1;
    if (!formula || alone) continue;
    std::vector<InstanceTerm> masses{{add("M", substance), -1}};
    for (auto const& [symbol, count] : formula->composition) masses.push_back({add("M", symbol), static_cast<int>(count)});
    add_sum("M = sum of A", masses);
  }
}

}  // namespace molewright
