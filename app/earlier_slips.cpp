#include "app/earlier_slips.h"

#include <fstream>
#include <set>
#include <unordered_map>
#include <utility>

#include "app/files.h"
#include "app/marks_store.h"
#include "marker/results.h"

namespace molewright {

std::vector<SlipRecord::Counts> earlier_slips(Console& console, std::vector<std::string> const& results,
                                              std::vector<std::string> const& names) {
  std::vector<SlipRecord::Counts> by_place(names.size());
  std::unordered_map<std::string, std::size_t> place_of;
  for (std::size_t place = 0; place < names.size(); ++place) place_of.emplace(names[place], place);
  for (auto const& result : results) {
    auto const path = marks_path(result);
    std::ifstream in(path, std::ios::binary);
    if (!in) {
      auto const text = read_file(path);  // says why
      if (!ok(text)) console.report(fault(text), path);
      continue;
    }
    MarksReader marks;
    std::set<std::pair<std::string, std::string>> counted;  // of the last student: slip and question
    std::string last;
    each_judgement(in, marks, [&](Judgement const& judgement) {
      if (judgement.student != last) counted.clear();
      last = judgement.student;
      auto const slip = named_slip(judgement);
      auto const at = place_of.find(last);
      if (slip.empty() || judgement.value != ValueVerdict::wrong || at == place_of.end()) return;
      if (counted.emplace(slip, judgement.question).second) ++by_place[at->second][slip];
    });
    for (auto const& found : marks.faults()) console.report(found, path);
  }
  return by_place;
}

}  // namespace molewright
