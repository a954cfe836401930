// Pairs that are passed over unworked must be those that could not have led to the number: a search that is asked once, and
// passes them over, says what one says that has worked them all.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>

#include "app/question_templates.h"
#include "generators/question_maker.h"
#include "marker/pairs.h"

using namespace molewright;

namespace {
/// What two slips lead to when their changes are made together; NaN where they change one node.
double both(Application const& a, Application const& b, Estimator& estimator, int target) {
  std::vector<Estimator::Change> changes;
  for (auto const* one : {&a, &b})
    for (auto const& edit : one->edits) {
      auto const* const node = std::get_if<NodeEdit>(&edit);
      if (node == nullptr) return std::nan("");
      for (auto const& change : changes)
        if (change.node == node->node) return std::nan("");
      changes.push_back({node->node, &node->definition});
    }
  return estimator.with(changes, target);
}
}  // namespace

TEST_CASE("pairs: what is passed over does not lead to the number", "[generators][pairs]") {
  QuestionMaker maker(read_templates(question_templates()).templates, Course{});
  int asked = 0, found = 0;
  for (std::size_t t = 0; t < maker.templates().size(); t += 4) {
    auto const& from = maker.templates()[t];
    CAPTURE(from.name);
    auto const made = maker.make(from, 1);
    REQUIRE(ok(made));
    auto const& worked = value(made).worked;
    auto const& working = worked.accepted.front();
    auto const table = slip_table(worked, {});
    Estimator estimator(working);
    for (std::size_t f = 0; f < working.finds.size(); ++f) {
      if (working.finds[f].figures == 0) continue;
      auto const& answers = table.by_find[f];
      Rational const& right = working.nodes[static_cast<std::size_t>(working.finds[f].node)].value.number;
      auto const due = due_of(working.finds[f], right);
      PairSearch all_worked(answers, table.all, estimator, working, f);
      for (std::size_t i = 0; i < answers.size(); i += 3) {
        auto const j = (i * 7 + 5) % answers.size();
        double const size =
            both(table.all[answers[i].application], table.all[answers[j].application], estimator, working.finds[f].node);
        if (!(size > 1e-9) || size > 1e9) continue;
        char text[40];
        std::snprintf(text, sizeof text, "%.4e", size);
        auto const read = parse_decimal(text);
        REQUIRE(ok(read));
        auto const written = written_number(value(read));
        PairSearch fresh(answers, table.all, estimator, working, f);
        auto const once = fresh.behind(written, due, 0.001, figures_for_pairs);
        for (int again = 0; again < 2; ++again) all_worked.behind(written, due, 0.001, figures_for_pairs);
        auto const twice = all_worked.behind(written, due, 0.001, figures_for_pairs);
        REQUIRE(once.size() == twice.size());
        for (std::size_t k = 0; k < once.size(); ++k) {
          CHECK(once[k].first->application == twice[k].first->application);
          CHECK(once[k].second->application == twice[k].second->application);
          CHECK(once[k].probability == twice[k].probability);
        }
        ++asked;
        found += once.empty() ? 0 : 1;
      }
    }
  }
  CHECK(asked > 500);
  CHECK(found > 100);
}
