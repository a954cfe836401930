#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <stdexcept>

#include "engine/tsv.h"
#include "marker/slip_library.h"

namespace molewright {
namespace data {
extern std::string_view const slips_tsv;
}
namespace {

Frequency frequency_of(std::string_view word) {
  if (word == "common") return Frequency::common;
  if (word == "occasional") return Frequency::occasional;
  if (word == "rare") return Frequency::rare;
  throw std::invalid_argument("slips.tsv: unknown frequency " + std::string(word));
}

Reach reach_of(std::string_view word) {
  if (word == "specific") return Reach::specific;
  if (word == "generic") return Reach::generic;
  if (word == "rounding") return Reach::rounding;
  if (word == "unit of answer") return Reach::unit_of_answer;
  throw std::invalid_argument("slips.tsv: unknown reach " + std::string(word));
}

std::vector<Slip> read_slips() {
  TsvTable const table(data::slips_tsv);
  auto const id = table.column("id"), group = table.column("group"), frequency = table.column("frequency"),
             reach = table.column("reach"), source = table.column("source");
  std::vector<Slip> all;
  for (std::size_t row = 0; row < table.size(); ++row)
    all.push_back(Slip{table.cell(row, id), table.cell(row, group), frequency_of(table.cell(row, frequency)),
                       reach_of(table.cell(row, reach)), table.cell(row, source)});
  return all;
}

constexpr std::size_t usual_applications = 128;

/// The groups that change what is worked, in the order in which their slips are listed.
struct SlipGroup {
  void (*find)(Anatomy const& anatomy, Sink& sink);
  bool reads_numbers;  ///< not only the structure of the working: other slips, or others' constants, for other numbers
};
constexpr std::array groups{
    SlipGroup{conversion_slips, false}, SlipGroup{amount_slips, false},  SlipGroup{exchange_slips, true},
    SlipGroup{molar_mass_slips, false}, SlipGroup{hydrate_slips, false}, SlipGroup{ratio_slips, false},
    SlipGroup{limiting_slips, true},    SlipGroup{dilution_slips, true}, SlipGroup{yield_slips, true},
    SlipGroup{relation_slips, true},    SlipGroup{answer_slips, false},  SlipGroup{titration_slips, true},
    SlipGroup{copying_slips, true},     SlipGroup{operator_slips, true},
};

ProblemEdit const* problem_of(Application const& application) {
  for (auto const& edit : application.edits)
    if (auto const* const problem = std::get_if<ProblemEdit>(&edit)) return problem;
  return nullptr;
}

/// Whatever makes the other reagent limiting and does nothing else gives one number: what is seen there is the choice.
void mark_through_choice(std::vector<SlipAnswer>& answers) {
  static auto const* const excess = find_slip("excess-reagent-used");
  for (std::size_t i = 0; i < answers.size(); ++i) {
    if (answers[i].slip != excess) continue;
    double const flipped = answers[i].value;
    for (auto& answer : answers)
      if (answer.slip->group != excess->group && !changes_answer(answer.value, flipped)) answer.through_choice = true;
  }
}

/// The answers of the finds from `first` to before `end`.
std::vector<std::vector<SlipAnswer>> answers_of(std::vector<Application> const& all, Estimator& estimator, Working const& working,
                                                std::size_t first, std::size_t end) {
  std::vector<std::vector<SlipAnswer>> answers(end - first);
  std::vector<Estimator::Change> changes;
  std::vector<int> targets;
  std::vector<double> values;
  for (std::size_t f = first; f < end; ++f) {
    targets.push_back(working.finds[f].node);
    answers[f - first].reserve(all.size());
  }
  for (std::size_t a = 0; a < all.size(); ++a) {
    if (problem_of(all[a])) continue;
    changes.clear();
    add_changes(all[a], changes);
    for (std::size_t f = first; f < end; ++f) targets[f - first] = target_of(all[a], f, working.finds[f].node);
    estimator.with(changes, targets, values);
    for (std::size_t f = first; f < end; ++f) {
      double const value = values[f - first];
      if (changes.empty() && targets[f - first] == working.finds[f].node) continue;
      if (changes_answer(value, estimator.base(working.finds[f].node)))
        answers[f - first].push_back(SlipAnswer{all[a].slip, all[a].node, value, a, false, all[a].way});
    }
  }
  for (auto& of_find : answers) mark_through_choice(of_find);
  return answers;
}
}  // namespace

std::vector<Slip> const& slips() {
  static std::vector<Slip> const all = read_slips();
  return all;
}

Slip const* find_slip(std::string_view id) {
  for (auto const& slip : slips())
    if (slip.id == id) return &slip;
  return nullptr;
}

bool changes_answer(double value, double right) {
  return std::isfinite(value) && std::abs(value - right) > 1e-9 * std::max(std::abs(value), std::abs(right));
}

std::vector<Application> applications(Worked const& worked, Working const& working, Conventions const& conventions,
                                      bool with_problem_edits) {
  std::vector<Application> all = value_applications(worked, working, conventions);
  Anatomy const anatomy(worked, working, conventions);
  Sink sink(anatomy, all);
  rounding_slips(anatomy, sink);
  if (with_problem_edits) problem_slips(anatomy, sink);
  return all;
}

std::vector<Application> value_applications(Worked const& worked, Working const& working, Conventions const& conventions) {
  std::vector<Application> all;
  all.reserve(usual_applications);
  Anatomy const anatomy(worked, working, conventions);
  Sink sink(anatomy, all);
  for (auto const& group : groups) group.find(anatomy, sink);
  return all;
}

std::vector<Application> rounding_applications(Worked const& worked, Working const& working, Conventions const& conventions) {
  std::vector<Application> all;
  Anatomy const anatomy(worked, working, conventions);
  Sink sink(anatomy, all);
  rounding_slips(anatomy, sink);
  return all;
}

void add_changes(Application const& application, std::vector<Estimator::Change>& changes) {
  for (auto const& edit : application.edits)
    if (auto const* const node = std::get_if<NodeEdit>(&edit)) changes.push_back({node->node, &node->definition});
}

int target_of(Application const& application, std::size_t find, int node) {
  for (auto const& edit : application.edits)
    if (auto const* const answer = std::get_if<AnswerEdit>(&edit); answer && answer->find == find) node = answer->node;
  return node;
}

std::vector<SlipAnswer> slip_answers(std::vector<Application> const& all, Estimator& estimator, Working const& working,
                                     std::size_t find, std::vector<Estimator::Change> const& carried) {
  if (carried.empty()) return std::move(answers_of(all, estimator, working, find, find + 1).front());
  auto on_top = estimator.with_fixed(carried);
  return std::move(answers_of(all, on_top, working, find, find + 1).front());
}

std::vector<std::vector<SlipAnswer>> slip_answers(std::vector<Application> const& all, Estimator& estimator,
                                                  Working const& working) {
  return answers_of(all, estimator, working, 0, working.finds.size());
}

std::vector<SlipAnswer> slip_answers_at(std::vector<Application> const& all, Estimator& estimator, int node) {
  std::vector<SlipAnswer> answers;
  std::vector<Estimator::Change> changes;
  double const right = estimator.base(node);
  for (std::size_t a = 0; a < all.size(); ++a) {
    if (problem_of(all[a])) continue;
    changes.clear();
    add_changes(all[a], changes);
    if (changes.empty()) continue;
    double const value = estimator.with(changes, node);
    if (changes_answer(value, right)) answers.push_back(SlipAnswer{all[a].slip, all[a].node, value, a, false, all[a].way});
  }
  mark_through_choice(answers);
  return answers;
}

void renew(SlipTable& table, Worked const& worked, Conventions const& conventions) {
  auto const& working = worked.accepted.front();
  bool const first = table.groups.empty();
  Anatomy const anatomy(worked, working, conventions);
  std::vector<Application> all;
  all.reserve(std::max(table.all.size(), usual_applications));
  Sink sink(anatomy, all);
  std::vector<std::size_t> begins;
  begins.reserve(groups.size() + 1);
  for (std::size_t g = 0; g < groups.size(); ++g) {
    begins.push_back(all.size());
    if (first || groups[g].reads_numbers)
      groups[g].find(anatomy, sink);
    else
      std::move(table.all.begin() + static_cast<std::ptrdiff_t>(table.groups[g]),
                table.all.begin() + static_cast<std::ptrdiff_t>(table.groups[g + 1]), std::back_inserter(all));
  }
  begins.push_back(all.size());
  table.all = std::move(all);
  table.groups = std::move(begins);
  Estimator estimator(working);
  table.by_find = slip_answers(table.all, estimator, working);
}

SlipTable slip_table(Worked const& worked, Conventions const& conventions, bool with_problem_edits) {
  SlipTable table;
  renew(table, worked, conventions);
  if (!with_problem_edits) return table;
  add_problem_slips(table, worked, conventions);
  return table;
}

}  // namespace molewright
