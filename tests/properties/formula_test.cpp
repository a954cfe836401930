// Formulas printed and read again (RapidCheck; RC_PARAMS="seed=1" repeats a run).
#include "engine/formula.h"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <cstdint>
#include <map>

#include "engine/element.h"

using namespace molewright;

namespace {

std::int64_t any_count() {
  switch (*rc::gen::inRange(0, 8)) {
    case 0:
      return *rc::gen::inRange<std::int64_t>(10, 100);
    case 1:
      return *rc::gen::inRange<std::int64_t>(2, 10000);
    case 2:
    case 3:
      return *rc::gen::inRange<std::int64_t>(2, 10);
    default:
      return 1;
  }
}

/// Elements and brackets, brackets in brackets up to `depth`. The number of atoms stays within what one formula may hold: large
/// counts stand on elements only.
std::vector<Group> any_groups(int depth) {
  std::vector<Group> groups;
  for (int n = *rc::gen::inRange(1, 5); n > 0; --n) {
    Group group;
    if (depth > 0 && *rc::gen::inRange(0, 4) == 0) {
      group.bracket = *rc::gen::element('(', '[');
      group.inside = any_groups(depth - 1);
      group.count = *rc::gen::inRange<std::int64_t>(1, 9);
    } else {
      group.element = elements()[*rc::gen::inRange<std::size_t>(0, elements().size())].symbol;
      group.count = any_count();
    }
    groups.push_back(group);
  }
  return groups;
}

Formula any_formula() {
  Formula formula;
  formula.parts.push_back({1, any_groups(3)});
  if (*rc::gen::inRange(0, 3) == 0)
    formula.parts.push_back({*rc::gen::inRange<std::int64_t>(1, 25), {{"H", {}, '(', 2}, {"O", {}, '(', 1}}});
  if (*rc::gen::inRange(0, 8) == 0) formula.parts.push_back({*rc::gen::inRange<std::int64_t>(1, 4), any_groups(1)});
  if (*rc::gen::inRange(0, 3) == 0) formula.charge = *rc::gen::inRange(-99, 100);
  formula.state = *rc::gen::element(State::none, State::solid, State::liquid, State::gas, State::aqueous);
  return formula;
}

void add(std::map<std::string, std::int64_t>& atoms, std::vector<Group> const& groups, std::int64_t times) {
  for (auto const& group : groups) {
    if (group.element.empty())
      add(atoms, group.inside, times * group.count);
    else
      atoms[group.element] += times * group.count;
  }
}

void is_same(std::string const& text, Formula const& expected) {
  RC_LOG() << text << '\n';
  auto const read = parse_formula(text);
  RC_ASSERT(ok(read));
  std::map<std::string, std::int64_t> atoms;  // counted here, not by the formula itself
  for (auto const& part : expected.parts) add(atoms, part.groups, part.multiplier);
  RC_ASSERT(value(read).composition() == atoms);
  RC_ASSERT(value(read).charge == expected.charge);
  RC_ASSERT(value(read).state == expected.state);
  RC_ASSERT(plain(value(read)) == plain(expected));
  RC_ASSERT(pretty(value(read)) == pretty(expected));
}

}  // namespace

TEST_CASE("formula: printed and read again it is the same", "[property][formula]") {
  rc::prop("in plain and in print, with charge, water and state", [] {
    auto const formula = any_formula();
    is_same(plain(formula) + plain(formula.state), formula);
    is_same(pretty(formula) + plain(formula.state), formula);
    is_same(pretty(formula) + ' ' + plain(formula.state), formula);
    RC_ASSERT(pretty_formula(plain(formula)) == pretty(formula));
  });
}
