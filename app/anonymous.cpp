#include "app/anonymous.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
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

std::vector<std::string> make_anonymous(ProblemSet& set) {
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
  struct Member {
    std::string code, version, name;
  };
  std::vector<Member> order;
  for (std::size_t i = 0; i < set.class_order.size(); ++i)
    order.push_back(
        {code_of[set.class_order[i]], i < set.class_versions.size() ? set.class_versions[i] : "", set.class_order[i]});
  std::sort(order.begin(), order.end(),
            [](Member const& a, Member const& b) { return std::tie(a.code, a.version) < std::tie(b.code, b.version); });
  set.class_order.clear();
  set.class_versions.clear();
  std::vector<std::string> names;
  for (auto& member : order) {
    set.class_order.push_back(std::move(member.code));
    set.class_versions.push_back(std::move(member.version));
    names.push_back(std::move(member.name));
  }
  for (auto& paper : set.papers) {
    if (paper.student.empty()) continue;
    auto const at = code_of.find(paper.student);
    paper.student = at == code_of.end() ? anonymous_stranger : at->second;
    for (auto& question : paper.questions) question.student = paper.student;
  }
  return names;
}

}  // namespace molewright
