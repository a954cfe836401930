#include "generators/practice.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <tuple>

#include "generators/kinds.h"
#include "generators/random.h"
#include "generators/slip_practice.h"
#include "marker/slip.h"

namespace molewright {
namespace {

constexpr std::array<char const*, 3> levels{"plain", "standard", "stretching"};

bool holds(std::vector<std::string> const& all, std::string_view one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

bool wished(PracticeWish const& wish, std::string const& kind) { return wish.kinds.empty() || holds(wish.kinds, kind); }

/// Which kind is the turn of: the one after the last that was done, in the order of the wish; a kind is stayed with until a
/// question of it was right at once.
std::string kind_in_turn(std::vector<std::string> const& kinds, std::vector<Practised> const& before) {
  for (auto last = before.rbegin(); last != before.rend(); ++last) {
    auto const at = std::find(kinds.begin(), kinds.end(), last->kind);
    if (at == kinds.end() || !last->chosen_for.empty()) continue;
    if (!last->right_at_once) return *at;
    return at + 1 == kinds.end() ? kinds.front() : *(at + 1);
  }
  return kinds.front();
}

/// The level that a kind has come to: one up for each question of it that was right at once.
std::size_t level_of(std::string const& kind, std::vector<Practised> const& before) {
  auto const right =
      std::count_if(before.begin(), before.end(), [&](Practised const& one) { return one.kind == kind && one.right_at_once; });
  return std::min<std::size_t>(static_cast<std::size_t>(right), levels.size() - 1);
}

/// Templates of a kind, those to try first in front: of the level wished for or come to, then the nearest; of these the ones that
/// were given least often, and last of all the one just given.
std::vector<Template const*> in_order(QuestionMaker const& maker, std::string const& kind, std::string const& level,
                                      std::vector<Practised> const& before, Random& random) {
  struct Placed {
    Template const* one;
    int off, given;
    std::uint32_t lot;
  };
  auto const wanted = level.empty() ? level_of(kind, before)
                                    : static_cast<std::size_t>(std::find(levels.begin(), levels.end(), level) - levels.begin());
  std::vector<Placed> all;
  for (auto const& one : maker.templates()) {
    if (one.kind != kind) continue;
    auto const own = static_cast<std::size_t>(std::find(levels.begin(), levels.end(), one.level) - levels.begin());
    auto const given =
        std::count_if(before.begin(), before.end(), [&](Practised const& p) { return p.template_name == one.name; });
    all.push_back({&one, std::abs(static_cast<int>(own) - static_cast<int>(wanted)), static_cast<int>(given), random.next()});
  }
  std::sort(all.begin(), all.end(),
            [](Placed const& a, Placed const& b) { return std::tie(a.off, a.given, a.lot) < std::tie(b.off, b.given, b.lot); });
  std::vector<Template const*> out;
  for (auto const& placed : all) out.push_back(placed.one);
  return out;
}

class Chooser {
 public:
  Chooser(QuestionMaker& maker, PracticeWish const& wish, std::vector<Practised> const& before, std::string const& seed)
      : maker_(maker), wish_(wish), before_(before), random_(hash_of(seed), before.size()) {}

  Result<PracticeChoice> next() {
    auto const slip = slip_to_practise(wish_, before_);
    auto const kinds = wish_.kinds.empty() ? kinds_of(maker_.templates()) : wish_.kinds;
    auto made = slip.empty() ? of_kind(kind_in_turn(kinds, before_)) : for_slip(slip);
    if (!ok(made)) return fault(made);
    return PracticeChoice{std::move(value(made)), slip};
  }

 private:
  bool is_new(Question const& question) const {
    return std::none_of(before_.begin(), before_.end(), [&](Practised const& one) { return one.code == question.code; });
  }
  std::uint32_t any_seed() { return random_.below(code_seeds); }

  /// The first of a few questions that is fit and new; any that is fit otherwise.
  Result<Question> of_kind(std::string const& kind) {
    constexpr int tries_each = 4;
    std::optional<Question> repeated;
    std::optional<Fault> why;
    for (auto const* one : in_order(maker_, kind, wish_.level, before_, random_))
      for (int i = 0; i < tries_each; ++i) {
        auto made = maker_.make(*one, any_seed());
        if (!ok(made)) {
          if (!why) why = fault(made);
          break;
        }
        if (is_new(value(made))) return made;
        if (!repeated) repeated = std::move(value(made));
      }
    if (repeated) return std::move(*repeated);
    return why.value_or(Fault{"unknown-kind", "there is no kind called \"" + kind + '"', "a kind that templates have", 0});
  }

  /// One in which the slip shows; for a slip that stands in no key (a power of ten, an equation not balanced), one of the kind in
  /// which it was made.
  Result<Question> for_slip(std::string const& slip) {
    auto const made = std::find_if(before_.rbegin(), before_.rend(),
                                   [&](Practised const& one) { return holds(one.slips, slip) && wished(wish_, one.kind); });
    auto const* known = find_slip(slip);
    if (known == nullptr || known->reach != Reach::specific) return of_kind(made->kind);
    SlipPractice practice(maker_);
    std::size_t const nth = before_.size();
    constexpr std::size_t tries = 6;
    for (std::size_t i = 0; i < tries; ++i) {
      auto found = practice.question({slip, made->template_name}, nth + i, random_.next());
      if (!found) break;
      if (is_new(*found) && wished(wish_, found->kind)) return std::move(*found);
    }
    return of_kind(made->kind);
  }

  QuestionMaker& maker_;
  PracticeWish const& wish_;
  std::vector<Practised> const& before_;
  Random random_;
};
}  // namespace

std::string slip_to_practise(PracticeWish const& wish, std::vector<Practised> const& before) {
  for (std::size_t i = 0; i < before.size(); ++i)
    for (auto const& slip : before[i].slips) {
      if (!wished(wish, before[i].kind)) continue;
      int overcome = 0;
      for (std::size_t k = 0; k < before.size(); ++k) {
        if (holds(before[k].slips, slip)) overcome = 0;  // made again: it starts anew
        if (k > i && before[k].chosen_for == slip && before[k].right_at_once) ++overcome;
      }
      if (overcome < times_to_overcome) return slip;
    }
  return "";
}

Result<PracticeChoice> next_practice(QuestionMaker& maker, PracticeWish const& wish, std::vector<Practised> const& before,
                                     std::string const& seed) {
  return Chooser(maker, wish, before, seed).next();
}

}  // namespace molewright
