// Slips that make another problem of it: a formula written from the name with its charges not balanced.
#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "engine/substance.h"
#include "marker/slip_library.h"

namespace molewright {
namespace {

/// "CaNO3" for Ca(NO3)2: one of each ion, however they are charged. Empty where that is right, or the substance is no salt.
std::string one_of_each_ion(std::string const& formula) {
  auto const salt = ions_of(formula);
  if (salt.size() != 2 || (salt[0].count == 1 && salt[1].count == 1)) return "";
  std::string joined;
  for (auto const& ion : salt) joined += ion.ion.substr(0, ion.ion.find('^'));
  return joined;
}

void rename(Quantity& quantity, std::string const& from, std::string const& to) {
  if (quantity.substance == from) quantity.substance = to;
}

/// A slip with the problem that it makes of a question, as it was solved for some numbers of a plan.
struct SolvedOtherwise {  // NOLINT(bugprone-exception-escape): a few terms moved in place allocate nothing
  Application application;
  std::shared_ptr<Problem const> problem;
  Working working;
  Estimator estimator;
};
struct OfPlan {
  std::weak_ptr<SecondSolve const> plan;  ///< says which it is as long as some question of it is there
  std::vector<SolvedOtherwise> slips;
};

std::vector<SolvedOtherwise> solved_otherwise(Worked const& worked, Conventions const& conventions) {
  std::vector<Application> found;
  Anatomy const anatomy(worked, worked.accepted.front(), conventions);
  Sink sink(anatomy, found);
  problem_slips(anatomy, sink);
  std::vector<SolvedOtherwise> all;
  for (auto& application : found) {
    auto ran = run(worked, worked.accepted.front(), application.edits, conventions);
    auto* const working = std::get_if<Working>(&ran);
    if (working == nullptr || working->finds.size() != worked.problem.finds.size()) continue;
    auto problem = std::get<ProblemEdit>(application.edits.front()).problem;
    Estimator estimator(*working);
    all.push_back({std::move(application), std::move(problem), std::move(*working), std::move(estimator)});
  }
  return all;
}

/// Those of the plan that the question was made by; found anew where it was made by none.
std::vector<SolvedOtherwise>& of_plan(Worked const& worked, Conventions const& conventions) {
  constexpr std::size_t most = 512;
  thread_local std::map<SecondSolve const*, OfPlan> kept;
  auto const known = kept.find(worked.second.get());
  if (worked.second && known != kept.end() && known->second.plan.lock() == worked.second) return known->second.slips;
  if (kept.size() >= most) kept.clear();
  auto& fresh = kept[worked.second.get()];
  fresh = {worked.second, solved_otherwise(worked, conventions)};
  return fresh.slips;
}

/// The same slip for the numbers of this problem.
Application with_numbers_of(Problem const& problem, SolvedOtherwise const& known) {
  auto other = std::make_shared<Problem>(*known.problem);
  for (std::size_t g = 0; g < problem.givens.size(); ++g) other->givens[g].numbers = problem.givens[g].numbers;
  auto application = known.application;
  application.edits.clear();
  application.edits.emplace_back(ProblemEdit{std::move(other)});
  return application;
}

/// What the answers come to with the numbers of this problem.
void answers_with(Problem const& problem, SolvedOtherwise& known, std::vector<double>& values) {
  std::vector<Definition> numbers;
  std::vector<int> nodes, targets;
  for (std::size_t g = 0; g < problem.givens.size(); ++g)
    for (std::size_t i = 0; i < problem.givens[g].numbers.size(); ++i) {
      numbers.push_back(constant_of(problem.givens[g].numbers[i].value));
      nodes.push_back(known.working.given_nodes[g][i]);
    }
  std::vector<Estimator::Change> changes;
  for (std::size_t k = 0; k < nodes.size(); ++k) changes.push_back({nodes[k], &numbers[k]});
  for (auto const& answer : known.working.finds) targets.push_back(answer.node);
  known.estimator.with(changes, targets, values);
}
}  // namespace

void problem_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const wrong_formula = find_slip("wrong-formula-from-name");
  auto const& problem = anatomy.worked.problem;
  if (!problem.reactions.empty()) return;  // the equation that a wrong formula leads to cannot be balanced
  for (int const i : anatomy.all(NodeKind::molar_mass)) {
    auto const& right = anatomy.node(i).quantity.substance;
    if (!anatomy.used(i)) continue;
    auto const wrong = one_of_each_ion(right);
    if (wrong.empty() || !ok(parse_formula(wrong))) continue;
    auto other = std::make_shared<Problem>(problem);
    for (auto& given : other->givens) rename(given.quantity, right, wrong);
    for (auto& find : other->finds) rename(find.quantity, right, wrong);
    Edits edits;
    edits.emplace_back(ProblemEdit{std::move(other)});
    sink.edits(wrong_formula, i, std::move(edits));
  }
}

void add_problem_slips(SlipTable& table, Worked const& worked, Conventions const& conventions) {
  Estimator const estimator(worked.accepted.front());
  std::vector<double> values;
  for (auto& known : of_plan(worked, conventions)) {
    answers_with(worked.problem, known, values);
    auto application = with_numbers_of(worked.problem, known);
    for (std::size_t f = 0; f < values.size(); ++f)
      if (changes_answer(values[f], estimator.base(worked.accepted.front().finds[f].node)))
        table.by_find[f].push_back(SlipAnswer{application.slip, application.node, values[f], table.all.size(), false});
    table.all.push_back(std::move(application));
  }
}

}  // namespace molewright
