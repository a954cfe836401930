#pragma once
// A class's results from students made up by hand.
#include <string>
#include <utility>
#include <vector>

#include "marker/results.h"

namespace molewright {

inline ClassResults summarise(std::string title, std::vector<StudentResult> const& students) {
  ColumnOrder order;
  for (auto const& student : students) {
    std::vector<std::string> columns;
    for (auto const& part : student.parts) columns.push_back(part.question + part.part);
    order.add(columns);
  }
  ClassSummary summary(std::move(title), order.all());
  for (auto const& student : students) summary.add(student);
  return summary.take();
}

}  // namespace molewright
