#include "marker/item_analysis.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "marker/table.h"

namespace molewright {
namespace {

/// Pearson's correlation; nothing where one of the two does not vary.
std::optional<double> correlation(std::vector<double> const& x, std::vector<double> const& y) {
  auto const mean = [](std::vector<double> const& all) {
    double sum = 0;
    for (double const one : all) sum += one;
    return sum / static_cast<double>(all.size());
  };
  double const mean_x = mean(x), mean_y = mean(y);
  double xx = 0, yy = 0, xy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    double const dx = x[i] - mean_x, dy = y[i] - mean_y;
    xx += dx * dx;
    yy += dy * dy;
    xy += dx * dy;
  }
  if (!(xx > 0) || !(yy > 0)) return std::nullopt;
  return xy / std::sqrt(xx * yy);
}

std::optional<double> discrimination_of(ClassResults const& results, std::string const& column) {
  std::vector<double> here, rest;
  for (auto const& student : results.students) {
    auto const* part = part_of(student, column);
    if (student.absent || !part || (part->value == ValueVerdict::absent && !part->by_hand)) continue;
    here.push_back(part->marks);
    rest.push_back(student.marks - part->marks);
  }
  if (here.size() < static_cast<std::size_t>(least_students_for_discrimination)) return std::nullopt;
  return correlation(here, rest);
}

/// The wrong answer without any candidate for a cause that most share; the first of those that as many share.
std::optional<SharedAnswer> shared_wrong_of(ClassResults const& results, std::string const& column) {
  std::vector<SharedAnswer> shared;
  std::map<std::string, std::size_t> places;  // of an answer in these
  for (auto const& student : results.students) {
    auto const* part = part_of(student, column);
    if (!part || part->value != ValueVerdict::wrong || !part->candidates.empty()) continue;
    std::string const given(trimmed(part->given));
    auto const [place, fresh] = places.try_emplace(given, shared.size());
    if (fresh) shared.push_back(SharedAnswer{given, 0});
    ++shared[place->second].students;
  }
  auto const most = std::max_element(shared.begin(), shared.end(),
                                     [](SharedAnswer const& a, SharedAnswer const& b) { return a.students < b.students; });
  if (most == shared.end() || most->students < least_students_for_a_shared_answer) return std::nullopt;
  return *most;
}
}  // namespace

void analyse_items(ClassResults& results, bool one_paper) {
  results.one_paper = one_paper;
  if (!one_paper) return;
  for (auto& part : results.parts) {
    part.discrimination = discrimination_of(results, part.column);
    part.shared_wrong = shared_wrong_of(results, part.column);
  }
}

}  // namespace molewright
