#include "app/practice_order.h"

#include <algorithm>

#include "generators/random.h"
#include "marker/results.h"

namespace molewright {
namespace {

struct Counted {
  ToPractise what;
  int times = 0;
};

void count(std::vector<Counted>& all, ToPractise const& what) {
  auto const at = std::find_if(all.begin(), all.end(), [&](Counted const& one) {
    return what.slip.empty() ? one.what == what
                             : one.what.slip == what.slip;  // one slip in two questions is one thing to practise
  });
  if (at == all.end())
    all.push_back({what, 1});
  else
    ++at->times;
}
}  // namespace

std::map<std::string, std::vector<ToPractise>> practice_of(std::vector<StoredMarks> const& results, QuestionMaker const& maker) {
  std::map<std::string, std::vector<Counted>> counted;
  for (auto const& marks : results)
    for (auto const& one : marks.judgements) {
      bool const wrong = one.value == ValueVerdict::wrong, missing = one.value == ValueVerdict::blank;
      if (!wrong && !missing) continue;
      auto const* from = template_of(maker, one.code);
      ToPractise what{wrong ? named_slip(one) : "", from ? from->name : ""};
      if (!what.slip.empty() || !what.template_name.empty()) count(counted[one.student], what);
    }
  std::map<std::string, std::vector<ToPractise>> out;
  for (auto& [student, all] : counted) {
    std::stable_sort(all.begin(), all.end(), [](Counted const& a, Counted const& b) {
      if (a.what.slip.empty() != b.what.slip.empty()) return b.what.slip.empty();
      return a.times > b.times;
    });
    for (auto& one : all) out[student].push_back(std::move(one.what));
  }
  return out;
}

void note_seen(std::vector<StoredMarks> const& results, QuestionMaker& maker, SetHistory& history) {
  std::map<std::string, std::uint64_t> known;  // parts and classmates have a question in common
  for (auto const& marks : results)
    for (auto const& one : marks.judgements)
      for (auto const* code : {&one.code, &one.new_question}) {
        auto const [at, fresh] = known.try_emplace(*code, 0);
        if (fresh) {
          auto const read = parse_code(*code);
          auto const question = ok(read) ? maker.made_now(value(read)) : Result<Question>(fault(read));
          if (ok(question)) at->second = hash_of(value(question).text);
        }
        if (at->second == 0) continue;
        history.texts.insert(at->second);
        history.seen[one.student].insert(at->second);
      }
}

std::vector<SetItem> items_of(StoredMarks const& latest, QuestionMaker const& maker) {
  std::vector<std::string> order;
  std::map<std::string, std::vector<Template const*>> at;  ///< by the question's number
  for (auto const& one : latest.judgements) {
    auto const* from = template_of(maker, one.code);
    if (!from) continue;
    auto& found = at[one.question];
    if (found.empty()) order.push_back(one.question);
    if (std::find(found.begin(), found.end(), from) == found.end()) found.push_back(from);
  }
  std::vector<SetItem> items;
  for (auto const& number : order) {
    auto const& found = at[number];
    SetItem& item = items.emplace_back();
    (found.size() == 1 ? item.template_name : item.kind) = found.size() == 1 ? found.front()->name : found.front()->kind;
  }
  return items;
}

}  // namespace molewright
