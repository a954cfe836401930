#include "marker/judge.h"

#include <algorithm>
#include <cmath>

#include "engine/builder.h"
#include "marker/known_parts.h"
#include "marker/script.h"
#include "marker/slip_library.h"

namespace molewright {

std::string_view name(ValueVerdict verdict) {
  switch (verdict) {
    case ValueVerdict::right:
      return "right";
    case ValueVerdict::wrong:
      return "wrong";
    case ValueVerdict::follow_through:
      return "follow-through";
    case ValueVerdict::blank:
      return "blank";
    case ValueVerdict::absent:
      return "absent";
    case ValueVerdict::unreadable:
      return "unreadable";
  }
  return "";
}

std::string_view name(UnitVerdict verdict) {
  switch (verdict) {
    case UnitVerdict::right:
      return "right";
    case UnitVerdict::wrong:
      return "wrong";
    case UnitVerdict::missing:
      return "missing";
    case UnitVerdict::equivalent:
      return "equivalent";
    case UnitVerdict::not_judged:
      return "not-judged";
  }
  return "";
}

std::string_view name(FiguresVerdict verdict) {
  switch (verdict) {
    case FiguresVerdict::right:
      return "right";
    case FiguresVerdict::too_few:
      return "too-few";
    case FiguresVerdict::too_many:
      return "too-many";
    case FiguresVerdict::not_judged:
      return "not-judged";
  }
  return "";
}

std::string_view name(LineVerdict verdict) {
  switch (verdict) {
    case LineVerdict::right:
      return "right";
    case LineVerdict::follows:
      return "follow-through";
    case LineVerdict::departs:
      return "departs";
    case LineVerdict::not_placed:
      return "not-placed";
  }
  return "";
}

std::string_view name(MarkReason reason) {
  switch (reason) {
    case MarkReason::right:
      return "right";
    case MarkReason::follows:
      return "follow-through";
    case MarkReason::implied:
      return "implied";
    case MarkReason::method:
      return "method";
    case MarkReason::departs:
      return "departs";
    case MarkReason::not_shown:
      return "not-shown";
    case MarkReason::answer:
      return "answer-wrong";
    case MarkReason::slip:
      return "slip";
    case MarkReason::to_accept:
      return "slip-to-accept";
    case MarkReason::wrong:
      return "wrong";
    case MarkReason::blank:
      return "blank";
    case MarkReason::absent:
      return "absent";
    case MarkReason::unreadable:
      return "unreadable";
    case MarkReason::by_hand:
      return "by-hand";
    case MarkReason::unit:
      return "unit";
    case MarkReason::figures:
      return "significant-figures";
    case MarkReason::states:
      return "states";
  }
  return "";
}

Judge::Judge(Question const& question, Course const& course, Slip const* without)
    : question_(question), course_(course), without_(without), estimator_(question.worked.accepted.front()) {}

Judge::~Judge() = default;

SlipTable const& Judge::slips() const {
  if (slips_) return *slips_;
  slips_ = slip_table(question_.worked, course_.conventions);
  if (without_)
    for (auto& answers : slips_->by_find) std::erase_if(answers, [&](SlipAnswer const& one) { return one.slip == without_; });
  for (auto const& answers : slips_->by_find) singles_.push_back(answers.size());
  return *slips_;
}

std::vector<Judge::OtherWorking> const& Judge::others() const {
  if (others_) return *others_;
  others_.emplace();
  auto const& accepted = question_.worked.accepted;
  for (std::size_t w = 1; w < accepted.size(); ++w) {
    OtherWorking other{Estimator(accepted[w]), {}};
    other.slips.all = value_applications(question_.worked, accepted[w], course_.conventions);
    other.slips.by_find = slip_answers(other.slips.all, other.estimator, accepted[w]);
    for (auto& answers : other.slips.by_find) {
      std::erase_if(answers, [&](SlipAnswer const& one) { return one.slip == without_ || one.slip->reach != Reach::specific; });
      for (auto& answer : answers) answer.working = static_cast<int>(w);
    }
    others_->push_back(std::move(other));
  }
  return *others_;
}

PairSearch& Judge::pairs(std::size_t working, std::size_t f) const {
  auto found = pairs_.find({working, f});
  if (found != pairs_.end()) return found->second;
  auto const& accepted = question_.worked.accepted[working];
  auto const single = working == 0 ? singles(f) : std::span<SlipAnswer const>(others()[working - 1].slips.by_find[f]);
  auto const& all = working == 0 ? slips().all : others()[working - 1].slips.all;
  auto& estimator = working == 0 ? estimator_ : others()[working - 1].estimator;
  return pairs_.try_emplace({working, f}, single, all, estimator, accepted, f).first->second;
}

SlipTable const& Judge::roundings() const {
  if (roundings_) return *roundings_;
  roundings_.emplace();
  roundings_->all = rounding_applications(question_.worked, working(), course_.conventions);
  roundings_->by_find = slip_answers(roundings_->all, estimator_, working());
  return *roundings_;
}

RoundedSlips& Judge::rounded_slips() const {
  if (!rounded_slips_) rounded_slips_.emplace(question_.worked, course_.conventions, slips().all, estimator_);
  return *rounded_slips_;
}

std::span<SlipAnswer const> Judge::singles(std::size_t f) const {
  auto const& all = slips().by_find[f];
  return {all.data(), singles_[f]};
}

std::span<SlipAnswer const> Judge::with_roundings(std::size_t f) const {
  auto& all = slips_->by_find[f];
  if (auto const& rounded = roundings().by_find[f]; all.size() == singles_[f])
    all.insert(all.end(), rounded.begin(), rounded.end());
  return all;
}

Application const& Judge::application_of(SlipAnswer const& answer) const {
  if (answer.working > 0) return others()[static_cast<std::size_t>(answer.working) - 1].slips.all[answer.application];
  auto const& table = answer.slip->reach == Reach::rounding ? roundings() : slips();
  return table.all[answer.application];
}

Working const& Judge::working_of(SlipAnswer const& answer) const {
  return question_.worked.accepted[static_cast<std::size_t>(answer.working)];
}

SlipNumbers const& Judge::numbers_of(SlipAnswer const& answer, std::size_t f) const {
  auto const& application = application_of(answer);
  auto const [at, first] = numbers_.try_emplace({&application, f});
  if (first) at->second = slip_numbers(working_of(answer), application, f, course_.conventions);
  return at->second;
}

namespace {
/// The formula of a hydrate as it comes out once changes are made, its water rounded to a whole number, as students do who come
/// from wrong masses to none. Empty where there is no such hydrate.
std::string hydrate_with(std::vector<Estimator::Change> const& changes, Working const& working, Estimator& estimator,
                         std::size_t f) {
  auto const& nodes = working.nodes;
  auto const& parts = nodes[static_cast<std::size_t>(working.finds[f].node)].definition.terms;
  if (parts.size() != 2) return {};
  auto const substance = [&](std::size_t at) { return nodes[static_cast<std::size_t>(parts[at].node)].quantity.substance; };
  std::size_t const water = substance(0) == "H2O" ? 0 : 1;
  double const times = estimator.with(changes, parts[water].node) / estimator.with(changes, parts[1 - water].node);
  constexpr double least = 0.5, most = 99.5;
  if (!(times >= least && times < most)) return {};
  return substance(1 - water) + "·" + std::to_string(std::lround(times)) + "H2O";
}
}  // namespace

std::vector<Judge::FormulaFound> const& Judge::formulas(std::size_t f) const {
  auto const [at, first] = formulas_.try_emplace(f);
  if (!first) return at->second;
  bool const hydrate = working().nodes[static_cast<std::size_t>(working().finds[f].node)].relation == relations::hydrate_formula;
  auto const& all = slips().all;
  for (std::size_t a = 0; a < all.size(); ++a) {
    if (all[a].slip == without_ || all[a].slip->reach != Reach::specific) continue;
    std::string text;
    std::vector<Estimator::Change> changes;
    add_changes(all[a], changes);
    if (hydrate && changes.size() == all[a].edits.size()) {
      text = hydrate_with(changes, working(), estimator_, f);
    } else if (auto const result = run(question_.worked, working(), all[a].edits, course_.conventions);
               auto const* const slipped = std::get_if<Working>(&result)) {
      text = slipped->finds[f].text;
    }
    auto const formula = parse_formula(text);
    if (ok(formula)) at->second.push_back({value(formula).composition(), a});
  }
  return at->second;
}

std::vector<double> const& Judge::other_tables(std::size_t f) const {
  if (other_tables_.empty()) {
    other_tables_.resize(working().finds.size());
    for (auto const table : {WeightTable::abridged, WeightTable::two_decimals, WeightTable::one_decimal, WeightTable::whole}) {
      if (table == course_.conventions.weights.table) continue;
      AtomicWeights const weights{table, {}};
      std::vector<Definition> definitions;
      std::vector<int> nodes;
      for (std::size_t i = 0; i < working().nodes.size(); ++i) {
        auto const& node = working().nodes[i];
        if (node.relation != relations::atomic_weight) continue;
        definitions.push_back(
            constant_of(weights.weight(std::string_view(node.id).substr(2, node.id.size() - 3)).value));  // "A(Ag)"
        nodes.push_back(static_cast<int>(i));
      }
      std::vector<Estimator::Change> changes;
      for (std::size_t k = 0; k < nodes.size(); ++k) changes.push_back({nodes[k], &definitions[k]});
      for (std::size_t g = 0; g < working().finds.size(); ++g)
        other_tables_[g].push_back(estimator_.with(changes, working().finds[g].node));
    }
  }
  return other_tables_[f];
}

std::vector<Judge::HandsOn> const& Judge::hands_on() const {
  auto const& finds = working().finds;
  if (!hands_on_.empty()) return hands_on_;
  for (auto const& find : finds) {
    auto const& node = working().nodes[static_cast<std::size_t>(find.node)];
    auto const& term = node.definition.terms;
    HandsOn one{find.node, Rational(1), {}};
    if (node.relation == relations::convert && node.definition.operation == Operation::product &&
        rank_of(working().nodes[static_cast<std::size_t>(term[0].node)]) == 2) {
      one.node = term[0].node;
      one.factor = node.definition.factor.reciprocal();
    }
    auto const touched = estimator_.touched({{one.node, nullptr}});
    for (auto const& later : finds) {
      auto const at = static_cast<std::size_t>(later.node);
      bool const rests = later.node != find.node && (touched[at / 64] >> (at % 64) & 1U) != 0;
      one.to.push_back(rests ? 1 : 0);
    }
    hands_on_.push_back(std::move(one));
  }
  return hands_on_;
}

std::vector<Judgement> Judge::judge(std::vector<Written> const& written, SlipRecord const* record) const {
  // Whose numbers are their own is asked once.
  if (asked_before_ && !known_) known_ = std::make_unique<KnownParts>();
  asked_before_ = true;
  Script script(*this, record);
  std::vector<Judgement> judgements;
  judgements.reserve(working().finds.size());
  static Written const blank;
  for (std::size_t f = 0; f < working().finds.size(); ++f)
    judgements.push_back(script.next(f < written.size() ? written[f] : blank));
  return judgements;
}

}  // namespace molewright
