// The order in which the reactions of a problem run, however they are written.
#include <algorithm>
#include <utility>

#include "engine/formula_memo.h"
#include "engine/lists.h"
#include "engine/network.h"
#include "engine/quantity_words.h"

namespace molewright {
namespace {

struct Step {
  std::size_t written = 0;
  std::vector<std::string> uses, forms;
};

std::vector<Step> steps_of(Problem const& problem) {
  std::vector<Step> steps(problem.reactions.size());
  for (std::size_t r = 0; r < steps.size(); ++r) {
    steps[r].written = r;
    for (auto const& species : problem.reactions[r].equation.left) add_once(steps[r].uses, plain(species.formula));
    for (auto const& species : problem.reactions[r].equation.right) add_once(steps[r].forms, plain(species.formula));
  }
  return steps;
}

bool is_told(Problem const& problem, std::string const& substance, std::initializer_list<Symbol> symbols) {
  return std::any_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) {
    return g.quantity.substance == substance && std::find(symbols.begin(), symbols.end(), g.quantity.symbol) != symbols.end();
  });
}

/// A solution that is titrated with: its volume and its concentration are known.
bool is_titrant(Problem const& problem, std::string const& substance) {
  return is_told(problem, substance, {"V"}) && is_told(problem, substance, {"c", "gamma"});
}

template <class Test>
bool speaks(Problem const& problem, Test const& test) {
  return std::any_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) { return test(g.quantity); }) ||
         std::any_of(problem.finds.begin(), problem.finds.end(), [&](Find const& f) { return test(f.quantity); });
}

/// Whether the problem speaks of a substance, of its crystals, or of the salt that brings the ion.
bool speaks_of_it(Problem const& problem, std::string const& substance) {
  return speaks(problem, [&](Quantity const& q) {
    return q.substance == substance || salt_of_crystals(q.substance) == substance ||
           (is_ion(substance) && count_in(substance, q.substance) > 0);
  });
}

/// Iodide of which a reaction sets iodine free: what lacks is the anion of an element that the reaction forms.
bool sets_free(Step const& step, std::string const& lacking) {
  auto const ion = known_formula(lacking);
  if (!ion || ion->formula.charge >= 0 || ion->composition.size() != 1) return false;
  return std::any_of(step.forms.begin(), step.forms.end(), [&](std::string const& product) {
    auto const made = known_formula(product);
    return made && made->formula.charge == 0 && made->composition.size() == 1 &&
           made->composition.begin()->first == ion->composition.begin()->first;
  });
}

/// Sorts reactions by what each forms and another uses: one runs when all that it uses is there, which is what no other of them
/// forms, what is in excess, and what those before it have formed. What is ready runs in the order written.
class Chain {
 public:
  explicit Chain(Problem const& problem) : problem_(problem), left_(steps_of(problem)) {}

  std::vector<std::size_t> order() {
    std::vector<std::size_t> out;
    while (!left_.empty()) {
      auto const next = next_to_run();
      out.push_back(next->written);
      there_.insert(there_.end(), next->forms.begin(), next->forms.end());
      left_.erase(next);
    }
    return out;
  }
  /// Whether each of several waited for another, and nothing told which comes first.
  bool unsure() const { return unsure_; }

 private:
  using Place = std::vector<Step>::iterator;

  Place next_to_run() {
    auto const ready = std::find_if(left_.begin(), left_.end(), [&](Step const& step) { return lacking(step).empty(); });
    if (ready != left_.end()) return ready;
    // Each waits for another: what one gives back, another began with.
    auto const start = std::find_if(left_.begin(), left_.end(), [&](Step const& step) { return leads_to_the_end(step); });
    if (start != left_.end()) return start;
    auto const frees = std::find_if(left_.begin(), left_.end(), [&](Step const& step) {
      auto const all = lacking(step);
      return std::all_of(all.begin(), all.end(), [&](std::string const& one) { return sets_free(step, one); });
    });
    if (frees != left_.end()) return frees;
    auto const titrated = std::find_if(left_.begin(), left_.end(), [&](Step const& step) { return is_titrated(step); });
    auto const before = std::find_if(left_.begin(), left_.end(), [&](Step const& step) { return !is_titrated(step); });
    if (titrated != left_.end() && before != left_.end()) return before;
    unsure_ = true;
    return left_.begin();
  }

  template <class Side>
  bool of_others(Step const& step, std::string const& substance, Side side) const {
    return std::any_of(left_.begin(), left_.end(),
                       [&](Step const& other) { return other.written != step.written && contains(other.*side, substance); });
  }

  std::vector<std::string> lacking(Step const& step) const {
    std::vector<std::string> out;
    for (auto const& one : step.uses)
      if (of_others(step, one, &Step::forms) && !contains(there_, one) && !contains(problem_.excess, one)) out.push_back(one);
    return out;
  }

  /// Raw material that the problem speaks of: no reaction forms it. And a product of which it speaks: no reaction uses it.
  bool begins(Step const& step) const {
    return std::any_of(step.uses.begin(), step.uses.end(), [&](std::string const& one) {
      return !of_others(step, one, &Step::forms) && !contains(there_, one) && speaks_of_it(problem_, one);
    });
  }
  bool ends(Step const& step) const {
    return std::any_of(step.forms.begin(), step.forms.end(),
                       [&](std::string const& one) { return !of_others(step, one, &Step::uses) && speaks_of_it(problem_, one); });
  }
  /// Salt is spoken of in this one, soda in another, and no soda in this one nor salt in that one.
  bool leads_to_the_end(Step const& step) const {
    if (!begins(step) || ends(step)) return false;
    return std::any_of(left_.begin(), left_.end(), [&](Step const& other) { return ends(other) && !begins(other); });
  }

  /// A titration of what nothing is told of, with a solution whose volume and concentration are known: it was formed before.
  bool is_titrated(Step const& step) const {
    auto const all = lacking(step);
    return std::any_of(step.uses.begin(), step.uses.end(), [&](std::string const& one) { return is_titrant(problem_, one); }) &&
           std::none_of(all.begin(), all.end(), [&](std::string const& one) {
             return is_told(problem_, one, {"m", "n", "V", "c", "gamma"});
           });
  }

  Problem const& problem_;
  std::vector<Step> left_;
  std::vector<std::string> there_;  ///< what the reactions before have formed
  bool unsure_ = false;
};

/// yield1, yield2: numbers of reactions as they are written.
bool numbers_its_steps(Problem const& problem) {
  return std::any_of(problem.givens.begin(), problem.givens.end(),
                     [](Given const& g) { return g.quantity.symbol == "yield" && g.quantity.stage > 0; });
}

/// A back titration: what is titrated, with a solution whose volume and concentration are known, is what the sample left. Whether
/// it is written first; unclear where there is no sample and it is asked what is left, for then an order could be meant.
enum class TitratesFirst { no, yes, unclear };
TitratesFirst titrates_first(Problem const& problem) {
  auto const steps = steps_of(problem);
  auto const own = [&](std::size_t step) {  // the reactants that the other reaction does not have
    auto out = steps[step].uses;
    std::erase_if(out, [&](std::string const& one) { return contains(steps[1 - step].uses, one); });
    return out;
  };
  auto const first = own(0), second = own(1);
  if (first.size() == steps[0].uses.size()) return TitratesFirst::no;
  bool const titrant = std::any_of(first.begin(), first.end(), [&](std::string const& one) { return is_titrant(problem, one); });
  bool const told = std::any_of(second.begin(), second.end(), [&](std::string const& one) {
    return is_told(problem, one, {"m", "n", "c"});
  });
  if (!titrant || told) return TitratesFirst::no;
  bool const sample = speaks(problem, [&](Quantity const& q) {
    bool const portion = q.word == "aliquot" || is_pipette(q.substance) || q.substance == "aliquot";
    return portion || q.symbol == "w" || (q.symbol == "m" && is_whole(q.substance)) ||
           ((q.symbol == "V" || q.symbol == "c" || q.symbol == "gamma") && contains(second, q.substance));
  });
  if (sample) return TitratesFirst::yes;
  bool const asks_rest = speaks(problem, [&](Quantity const& q) {
    return (q.word == "left" || q.word == "used") && contains(steps[0].uses, q.substance) && contains(steps[1].uses, q.substance);
  });
  return asks_rest ? TitratesFirst::unclear : TitratesFirst::no;
}
}  // namespace

/// Puts the reactions in the order in which they run. Where each of several waits for another and nothing tells, they stay as
/// they are; so they do where the yields are numbered as they are written, which in another order tells nothing.
void Network::resolve_order() {
  if (problem_.reactions.size() < 2) return;
  Chain chain(problem_);
  auto const order = chain.order();
  order_as_written_ = chain.unsure();
  bool const sorted = std::is_sorted(order.begin(), order.end());
  if (numbers_its_steps(problem_)) {
    order_unclear_ = !sorted && !chain.unsure();
    return;
  }
  if (!sorted) {
    std::vector<Reaction> reactions;
    for (std::size_t const written : order) reactions.push_back(problem_.reactions[written]);
    problem_.reactions = std::move(reactions);
  }
  if (problem_.reactions.size() != 2 || any_named_symbol("yield")) return;
  auto const titrates = titrates_first(problem_);
  if (titrates == TitratesFirst::yes) std::swap(problem_.reactions[0], problem_.reactions[1]);
  order_unclear_ = titrates == TitratesFirst::unclear;
}

}  // namespace molewright
