#include "app/anonymous.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "generators/code.h"
#include "generators/random.h"

namespace molewright {
namespace {

constexpr int letters_of_a_code = 5;

std::string drawn_code(std::string const& seed, std::string const& name, std::uint64_t round) {
  auto bits = spread(hash_of(name, hash_of(seed, round)));
  std::string code = "S-";
  for (int i = 0; i < letters_of_a_code; ++i) {
    code += code_alphabet[bits % code_alphabet.size()];
    bits /= code_alphabet.size();
  }
  return code;
}
}  // namespace

void make_anonymous(ProblemSet& set, AllHandedIn& handed_in) {
  std::map<std::string, std::string> code_of;
  std::set<std::string> taken;
  for (auto const& student : set.class_order) {
    std::string code;
    for (auto const& paper : set.papers)
      if (!paper.student.empty() && paper.student == student && !paper.questions.empty()) code = paper.questions.front().code;
    for (std::uint64_t round = 0; code.empty() || taken.count(code) > 0; ++round) code = drawn_code(set.seed, student, round);
    taken.insert(code);
    code_of[student] = code;
  }
  auto const rename = [&](std::string& student) {
    auto const at = code_of.find(student);
    student = at == code_of.end() ? "unknown" : at->second;
  };
  std::vector<std::pair<std::string, std::string>> order;  // code, version
  for (std::size_t i = 0; i < set.class_order.size(); ++i)
    order.emplace_back(code_of[set.class_order[i]], i < set.class_versions.size() ? set.class_versions[i] : "");
  std::sort(order.begin(), order.end());
  set.class_order.clear();
  set.class_versions.clear();
  for (auto& [code, version] : order) {
    set.class_order.push_back(std::move(code));
    set.class_versions.push_back(std::move(version));
  }
  for (auto& paper : set.papers) {
    if (paper.student.empty()) continue;
    rename(paper.student);
    for (auto& question : paper.questions) question.student = paper.student;
  }
  for (auto* rows : {&handed_in.answers, &handed_in.readings})
    for (auto& row : *rows) rename(row.student);
}

}  // namespace molewright
