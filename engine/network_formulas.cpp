// Formulas from data: the amounts of the elements (or of salt and water) whose ratio a formula shows.
#include <algorithm>

#include "engine/formula_memo.h"
#include "engine/network.h"

namespace molewright {
namespace {

bool contains(std::vector<std::string> const& list, std::string const& item) {
  return std::find(list.begin(), list.end(), item) != list.end();
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
  auto const given = [&](std::string const& substance) {
    return std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) {
      auto const& q = g.quantity;
      return q.substance == substance && q.part.empty() && (q.symbol == "m" || q.symbol == "n" || q.symbol == "w");
    });
  };
  bool const burnt = problem_.reactions.empty() && given("sample") && (given("CO2") || given("H2O"));
  if (!wanted && !burnt) return;
  // Where the author names no whole, fractions are those of the compound itself.
  bool const named =
      std::any_of(problem_.givens.begin(), problem_.givens.end(), [&](Given const& g) { return g.quantity.substance == whole_; });
  if (whole_.empty() || !named)
    whole_ = wanted && wanted->kind == Find::Kind::hydrate_formula ? "hydrate" : wanted ? "compound" : "sample";
  components_.clear();
  if (wanted && wanted->kind == Find::Kind::hydrate_formula) {
    for (auto const& substance : substances_) {
      auto const formula = known_formula(substance);
      if (substance != "H2O" && formula && !formula->formula.hydrate()) formula_parts_.push_back(substance);
    }
    if (formula_parts_.size() > 1) formula_parts_.resize(1);
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
  if (burnt && !contains(formula_parts_, "O")) formula_parts_.push_back("O");
}

void Network::add_formula_parts() {
  if (formula_parts_.empty()) return;
  for (auto const& part : formula_parts_) add_subject(part, 0, "");
  // What is caught of each element: carbon in carbon dioxide, chlorine in hydrogen chloride.
  bool const one_unknown = is_named({"m", 0, whole_, "", ""});
  for (auto const& part : formula_parts_) {
    if (!is_element(part)) continue;
    bool const by_difference = one_unknown && part == formula_parts_.back() && formula_parts_.size() > 1;
    if (by_difference) continue;
    for (auto const& substance : substances_) {
      auto const reaction = reaction_of(substance);
      bool const product =
          reaction != std::string::npos &&
          std::none_of(problem_.reactions[reaction].equation.left.begin(), problem_.reactions[reaction].equation.left.end(),
                       [&](Species const& s) { return plain(s.formula) == substance; });
      if (product || substance == part || count_in(part, substance) == 0) continue;
      add_product(part_form, {{add("n", part), 1}, {count_of(part, substance), -1}, {add("n", substance), -1}});
    }
  }
  std::vector<InstanceTerm> masses{{add(whole("m")), -1}};
  for (auto const& part : formula_parts_) masses.push_back({add("m", part), 1});
  add_sum(whole_mass_form, masses);
}

}  // namespace molewright
