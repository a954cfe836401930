#include "marker/item_analysis.h"

#include <algorithm>
#include <cmath>

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

std::optional<double> discrimination_of(ClassResults const& results, std::size_t column) {
  std::vector<double> here, rest;
  for (auto const& student : results.students) {
    auto const* part = part_of(student, column);
    if (!student.whole() || !part || part->missing()) continue;
    here.push_back(part->marks);
    rest.push_back(student.marks - part->marks);
  }
  if (here.size() < static_cast<std::size_t>(least_students_for_discrimination)) return std::nullopt;
  return correlation(here, rest);
}
}  // namespace

void WrongAnswers::add(StudentResult const& student) {
  for (auto const& part : student.parts) {
    if (part.value != ValueVerdict::wrong || !part.candidates.empty()) continue;
    auto& texts = columns_[part.question + part.part];
    std::string given(trimmed(part.given));
    auto const known = texts.places.find(given);
    if (known != texts.places.end()) {
      ++texts.answers[known->second].students;
    } else if (texts.answers.size() < most_texts_counted) {
      texts.places.emplace(given, texts.answers.size());
      texts.answers.push_back({std::move(given), 1});
    }
  }
}

std::optional<SharedAnswer> WrongAnswers::most_shared(std::string const& column) const {
  auto const at = columns_.find(column);
  if (at == columns_.end()) return std::nullopt;
  auto const& answers = at->second.answers;
  auto const most = std::max_element(answers.begin(), answers.end(),
                                     [](SharedAnswer const& a, SharedAnswer const& b) { return a.students < b.students; });
  if (most->students < least_students_for_a_shared_answer) return std::nullopt;
  return *most;
}

void analyse_items(ClassResults& results, WrongAnswers const& wrong) {
  results.one_paper = true;
  for (std::size_t p = 0; p < results.parts.size(); ++p) {
    results.parts[p].discrimination = discrimination_of(results, p);
    results.parts[p].shared_wrong = wrong.most_shared(results.parts[p].column);
  }
}

}  // namespace molewright
