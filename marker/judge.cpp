#include "marker/judge.h"

#include <algorithm>
#include <cmath>

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

namespace {
/// All that a judgement rests on, as one text; empty where a box was cut, so that two may look alike.
std::string all_of(std::vector<Written> const& script) {
  constexpr std::size_t never_cut = 150;
  std::string all;
  for (auto const& box : script) {
    if (box.raw.size() > never_cut) return {};
    all += box.raw;
    all += '\0';
    all += static_cast<char>('a' + static_cast<int>(box.kind));
    all += box.letter;
    all += box.zeros_may_be_lost ? '1' : '0';
    for (auto const& note : box.notes) all += note + ',';
    all += '\0';
    all += box.working;
    all += '\0';
  }
  return all;
}
}  // namespace

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
  }
  return "";
}

Judge::Judge(Question const& question, Course const& course, Slip const* without)
    : question_(question), course_(course), without_(without), estimator_(question.worked.accepted.front()) {}

SlipTable const& Judge::slips() const {
  if (slips_) return *slips_;
  slips_ = slip_table(question_.worked, course_.conventions);
  if (without_)
    for (auto& answers : slips_->by_find) std::erase_if(answers, [&](SlipAnswer const& one) { return one.slip == without_; });
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
  auto const& table = working == 0 ? slips() : others()[working - 1].slips;
  auto& estimator = working == 0 ? estimator_ : others()[working - 1].estimator;
  return pairs_.try_emplace({working, f}, table.by_find[f], table.all, estimator, accepted, f).first->second;
}

SlipTable const& Judge::roundings() const {
  if (roundings_) return *roundings_;
  roundings_.emplace();
  roundings_->all = rounding_applications(question_.worked, working(), course_.conventions);
  roundings_->by_find = slip_answers(roundings_->all, estimator_, working());
  return *roundings_;
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

std::vector<Judgement> Judge::judge(std::vector<Written> const& written, SlipRecord const* record) const {
  constexpr std::size_t most_kept = 1000;
  auto const script = record ? std::string() : all_of(written);
  if (auto const known = judged_.find(script); known != judged_.end()) return known->second;
  auto judgements = judge_anew(written, record);
  // Whose numbers are their own is asked once.
  if (asked_before_ && !script.empty() && judged_.size() < most_kept) judged_.emplace(script, judgements);
  asked_before_ = true;
  return judgements;
}

std::vector<Judgement> Judge::judge_anew(std::vector<Written> const& written, SlipRecord const* record) const {
  Script script(*this, record);
  std::vector<Judgement> judgements;
  Written const blank;
  for (std::size_t f = 0; f < working().finds.size(); ++f)
    judgements.push_back(script.next(f < written.size() ? written[f] : blank));
  return judgements;
}

}  // namespace molewright
