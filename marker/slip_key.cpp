#include "marker/slip_key.h"

#include <algorithm>
#include <cmath>

namespace molewright {
namespace {

/// How often a class of slips is made, for the order of the letters only.
double weight_of(Frequency frequency) {
  switch (frequency) {
    case Frequency::common:
      return 9;
    case Frequency::occasional:
      return 3;
    case Frequency::rare:
      return 1;
  }
  return 0;
}

/// One unit of the last of `figures` figures of `value`. REQUIRES: value > 0.
double unit_of(double value, int figures) { return std::pow(10.0, std::floor(std::log10(value)) - figures + 1); }

bool within(double a, double b, double unit) { return std::abs(a - b) <= unit * (1 + 1e-9); }

/// Searching is done in floating point. A printed number must be exact, so one that lies near a rounding tie is worked again.
std::string printed(Worked const& worked, Application const& application, std::size_t find, double value, int figures,
                    Conventions const& conventions) {
  double const size = std::pow(10.0, std::floor(std::log10(std::abs(value))) - figures + 1);
  double const part = std::abs(value) / size - std::floor(std::abs(value) / size);
  auto const rounding = nearest_by(conventions.ties);
  if (std::abs(part - 0.5) < 1e-6) {
    auto const result = run(worked, worked.accepted.front(), application.edits, conventions);
    if (auto const* const working = std::get_if<Working>(&result))
      return print_to_figures(working->nodes[static_cast<std::size_t>(working->finds[find].node)].value.number, figures, rounding)
          .plain;
  }
  int const place = static_cast<int>(std::floor(std::log10(std::abs(value)))) - 14;
  auto const scaled = static_cast<std::int64_t>(std::llround(value / std::pow(10.0, place)));
  return print_to_figures(Rational(scaled) * Rational::power_of_ten(place), figures, rounding).plain;
}

struct Class {
  double weight = 0;
  double value = 0;
  double unit = 0;  ///< of the last figure of the value
  std::vector<SlipAnswer const*> members;
};

std::vector<Class> classes_of(std::vector<SlipAnswer> const& answers, double right, int figures) {
  std::vector<Class> classes;
  double const sign = right < 0 ? -1 : 1;  // of an enthalpy change: slips that leave its sign are compared by size
  double const unit_of_right = right != 0 ? unit_of(sign * right, figures) : 0;
  for (auto const& answer : answers) {
    if (answer.slip->reach != Reach::specific || answer.through_choice || answer.value * sign <= 0) continue;
    double const unit = unit_of(answer.value * sign, figures);
    if (right != 0 && within(answer.value, right, std::max(unit, unit_of_right))) continue;
    auto found = std::find_if(classes.begin(), classes.end(),
                              [&](Class const& one) { return within(one.value, answer.value, std::max(one.unit, unit)); });
    if (found == classes.end()) found = classes.insert(classes.end(), Class{0, answer.value, unit, {}});
    bool const again =
        std::any_of(found->members.begin(), found->members.end(), [&](SlipAnswer const* m) { return m->slip == answer.slip; });
    if (again) continue;
    found->weight += weight_of(answer.slip->frequency);
    found->members.push_back(&answer);
  }
  for (auto& one : classes)
    std::stable_sort(one.members.begin(), one.members.end(),
                     [](SlipAnswer const* a, SlipAnswer const* b) { return a->slip->frequency < b->slip->frequency; });
  std::stable_sort(classes.begin(), classes.end(), [](Class const& a, Class const& b) { return a.weight > b.weight; });
  return classes;
}
}  // namespace

bool look_alike(double a, double b, int figures) {
  if (a < 0 && b < 0) return look_alike(-a, -b, figures);
  if (!(a > 0) || !(b > 0)) return a == b;
  return within(a, b, unit_of(std::max(a, b), figures));
}

std::vector<std::vector<SlipKeyEntry>> slip_key(Worked const& worked, SlipTable const& table, Conventions const& conventions) {
  std::vector<std::vector<SlipKeyEntry>> keys;
  auto const& working = worked.accepted.front();
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    auto& key = keys.emplace_back();
    auto const& find = working.finds[f];
    if (find.figures == 0 || f >= table.by_find.size()) continue;
    double const right = working.nodes[static_cast<std::size_t>(find.node)].value.number.to_double();
    for (auto const& one : classes_of(table.by_find[f], right, find.figures)) {
      if (key.size() == most_letters) break;
      SlipKeyEntry entry;
      entry.letter = static_cast<char>('A' + static_cast<int>(key.size()));
      for (auto const* const member : one.members) entry.ids.emplace_back(member->slip->id);
      entry.value = one.members.front()->value;
      entry.answer = printed(worked, table.all[one.members.front()->application], f, entry.value, find.figures, conventions);
      key.push_back(std::move(entry));
    }
  }
  return keys;
}

}  // namespace molewright
