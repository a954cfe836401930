#include "marker/term.h"

#include <algorithm>
#include <map>

#include "marker/results.h"

namespace molewright {
namespace {

struct Made {
  std::string id, kind;
  std::size_t last_set = 0;
  int times = 0;
};
struct Kind {
  std::string id;
  int parts = 0, marks = 0, out_of = 0;
};
struct Right {
  std::string kind;
  std::size_t set = 0;
};

template <class Item>
Item& item_of(std::vector<Item>& all, std::string const& id) {
  auto at = std::find_if(all.begin(), all.end(), [&](Item const& one) { return one.id == id; });
  if (at == all.end()) {
    at = all.insert(at, Item{});
    at->id = id;
  }
  return *at;
}

/// One student's judgements, set after set.
class Account {
 public:
  Account(std::string student, std::size_t sets) {
    term_.student = std::move(student);
    term_.sets.resize(sets);
  }

  void take(Judgement const& one, std::size_t set, std::string const& kind) {
    auto& sat = term_.sets[set];
    if (!sat.had_paper) sat.absent = true;
    sat.had_paper = true;
    bool const misplaced = out_of_place(one);
    bool const absent = misplaced || (one.value == ValueVerdict::absent && !one.by_hand);
    sat.misplaced = sat.misplaced || misplaced;
    sat.absent = sat.absent && absent;
    bool const marked = !to_read(one);
    if (marked || misplaced) sat.out_of += one.out_of;
    sat.to_read = sat.to_read || (!marked && !misplaced);
    if (absent || !marked) return;
    sat.marks += one.marks;
    if (!kind.empty()) {
      auto& of_kind = item_of(kinds_, kind);
      ++of_kind.parts;
      of_kind.marks += one.marks;
      of_kind.out_of += one.out_of;
      if (one.value == ValueVerdict::right) rights_.push_back({kind, set});
    }
    auto const slip = one.value == ValueVerdict::wrong ? named_slip(one) : "";
    if (slip.empty()) return;
    auto& made = item_of(slips_, slip);
    ++made.times;
    made.last_set = set;
    made.kind = kind;
  }

  StudentTerm finish() {
    for (auto const& kind : kinds_) {
      if (kind.parts < least_parts_of_a_kind || kind.out_of == 0) continue;
      double const share = static_cast<double>(kind.marks) / kind.out_of;
      if (share >= kind_sure) term_.kinds_sure.push_back(kind.id);
      if (share < kind_unsure) term_.kinds_unsure.push_back(kind.id);
    }
    std::stable_sort(slips_.begin(), slips_.end(), [](Made const& a, Made const& b) { return a.times > b.times; });
    for (auto const& made : slips_) {
      bool const mended = std::any_of(rights_.begin(), rights_.end(), [&](Right const& right) {
        return !made.kind.empty() && right.kind == made.kind && right.set > made.last_set;
      });
      (mended ? term_.mended : term_.slips).push_back({made.id, made.times});
      if (!mended) std::erase(term_.kinds_sure, made.kind);  // what is to be practised does not go well yet
    }
    return std::move(term_);
  }

 private:
  StudentTerm term_;
  std::vector<Kind> kinds_;
  std::vector<Made> slips_;
  std::vector<Right> rights_;
};
}  // namespace

std::vector<StudentTerm> term_of(std::vector<TermSet> const& sets,
                                 std::function<std::string(std::string_view code)> const& kind_of) {
  std::vector<Account> accounts;
  std::map<std::string, std::size_t> place;
  for (std::size_t set = 0; set < sets.size(); ++set)
    for (auto const& one : sets[set].judgements) {
      auto const [at, fresh] = place.try_emplace(one.student, accounts.size());
      if (fresh) accounts.emplace_back(one.student, sets.size());
      accounts[at->second].take(one, set, kind_of(one.code));
    }
  std::vector<StudentTerm> out;
  for (auto& account : accounts) out.push_back(account.finish());
  return out;
}

}  // namespace molewright
