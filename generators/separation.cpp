#include "generators/separation.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace molewright {
namespace {

constexpr int enough_to_believe = 20;  ///< draws in which two numbers are alike though their ratio varies

/// 10^k without the cost of pow.
double power_of_ten(int k) {
  static std::array<double, 81> const powers = [] {
    std::array<double, 81> all{};
    int exponent = -40;
    for (double& power : all) power = std::pow(10.0, exponent++);
    return all;
  }();
  int const index = k + 40;
  return index < 0 || index > 80 ? std::pow(10.0, k) : powers[static_cast<std::size_t>(index)];
}

/// One unit of the last of `figures` figures of `value`.
double unit_of(double value, int figures) {
  int exponent = 0;
  std::frexp(value, &exponent);
  int magnitude = static_cast<int>(std::floor((exponent - 1) * 0.30102999566398120));
  if (power_of_ten(magnitude + 1) <= value) ++magnitude;
  return power_of_ten(magnitude - figures + 1);
}

/// As the marker's slip key judges it. REQUIRES: 0 < a <= b.
bool alike_at(double a, double b, int figures) { return b - a <= unit_of(b, figures) * (1 + 1e-9); }
bool equal(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b)); }

/// "a = b" in the order of the alphabet; "a = right answer" where the other is none.
std::string pair_of(Slip const* one, Slip const* other) {
  if (one == nullptr) std::swap(one, other);
  if (other != nullptr && other->id < one->id) std::swap(one, other);
  return std::string(one->id) + " = " + (other == nullptr ? "right answer" : std::string(other->id));
}
void note(std::vector<std::string>& pairs, std::string pair) {
  if (std::find(pairs.begin(), pairs.end(), pair) == pairs.end()) pairs.push_back(std::move(pair));
}

}  // namespace

bool Separation::Pair::undecided() const {
  return alike == together && equal < together && !molewright::equal(least_ratio, most_ratio) && together < enough_to_believe;
}
bool Separation::Pair::one_class() const { return together > 0 && (equal == together || (alike == together && !undecided())); }

bool Separation::undecided() const {
  for (Part const& part : parts_)
    for (auto const& row : part.pairs)
      if (std::any_of(row.begin(), row.end(), [](Pair const& pair) { return pair.undecided(); })) return true;
  return false;
}

std::vector<Separation::Shown> Separation::shown(Part const& part, Working const& working, std::vector<SlipAnswer> const& answers,
                                                 std::size_t find) const {
  std::vector<Shown> all;
  all.reserve(answers.size() + 1);
  double const right = working.nodes[static_cast<std::size_t>(working.finds[find].node)].value.number.to_double();
  double const sign = right < 0 ? -1 : 1;
  all.push_back({sign * right, 0, nullptr});
  std::size_t expected = 0;  // the answers come in the order of the keys, most often
  for (std::size_t a = 0; a < answers.size(); ++a) {
    SlipAnswer const& answer = answers[a];
    if (answer.slip->reach != Reach::specific) continue;
    int ordinal = 0;
    for (std::size_t b = a; b-- > 0 && answers[b].slip == answer.slip;) ordinal += answers[b].node == answer.node ? 1 : 0;
    Key const key{answer.slip, answer.node, ordinal};
    int index = -1;
    for (std::size_t i = 0; i < part.keys.size(); ++i) {
      std::size_t const at = (expected + i) % part.keys.size();
      if (!(part.keys[at] == key)) continue;
      index = static_cast<int>(at) + 1;
      expected = at + 1;
      break;
    }
    all.push_back({sign * answer.value, index, answer.slip});
  }
  return all;
}

void Separation::learn(Working const& working, SlipTable const& table) {
  parts_.resize(working.finds.size());
  for (std::size_t f = 0; f < parts_.size(); ++f) {
    Part& part = parts_[f];
    if (working.finds[f].figures == 0) continue;
    // Two rounds: the first makes keys of what was never met, the second finds them all.
    for (std::size_t a = 0; a < table.by_find[f].size(); ++a) {
      SlipAnswer const& answer = table.by_find[f][a];
      if (answer.slip->reach != Reach::specific) continue;
      int ordinal = 0;
      for (std::size_t b = a; b-- > 0 && table.by_find[f][b].slip == answer.slip;)
        ordinal += table.by_find[f][b].node == answer.node ? 1 : 0;
      Key const key{answer.slip, answer.node, ordinal};
      if (std::find(part.keys.begin(), part.keys.end(), key) == part.keys.end()) part.keys.push_back(key);
    }
    part.pairs.resize(part.keys.size() + 1);
    for (std::size_t i = 0; i < part.pairs.size(); ++i) part.pairs[i].resize(i + 1);
    auto const now = shown(part, working, table.by_find[f], f);
    for (Shown const& one : now) {
      for (Shown const& other : now) {
        if (one.key <= other.key || !(one.value > 0) || !(other.value > 0)) continue;
        Pair& pair = part.pairs[static_cast<std::size_t>(one.key)][static_cast<std::size_t>(other.key)];
        double const ratio = one.value / other.value;
        pair.least_ratio = pair.together == 0 ? ratio : std::min(pair.least_ratio, ratio);
        pair.most_ratio = pair.together == 0 ? ratio : std::max(pair.most_ratio, ratio);
        ++pair.together;
        pair.equal += equal(one.value, other.value) ? 1 : 0;
        pair.alike +=
            alike_at(std::min(one.value, other.value), std::max(one.value, other.value), working.finds[f].figures) ? 1 : 0;
      }
    }
  }
}

void Separation::settle() {
  for (Part& part : parts_) {
    std::size_t const size = part.keys.size() + 1;
    part.one_class.assign(size, std::vector<char>(size, 0));
    for (std::size_t i = 0; i < size && i < part.pairs.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        Pair const& pair = part.pairs[i][j];
        if (!pair.one_class()) continue;
        part.one_class[i][j] = part.one_class[j][i] = 1;
        if (pair.equal == pair.together) continue;
        auto const* const other = j == 0 ? nullptr : part.keys[j - 1].slip;
        if (part.keys[i - 1].slip != other) note(by_substance_, pair_of(part.keys[i - 1].slip, other));
      }
    }
  }
}

Separation::Alike Separation::alike(Working const& working, SlipTable const& table, bool with_names) const {
  Alike result;
  for (std::size_t f = 0; f < parts_.size(); ++f) {
    int const figures = working.finds[f].figures;
    if (figures == 0) continue;
    Part const& part = parts_[f];
    auto now = shown(part, working, table.by_find[f], f);
    std::vector<char> seen(part.keys.size(), 0);
    for (Shown const& one : now) {
      if (one.key > 0) seen[static_cast<std::size_t>(one.key - 1)] = 1;
    }
    // Where a reagent limits, a slip on the other's side rightly changes nothing.
    bool const limited = std::any_of(working.nodes.begin(), working.nodes.end(),
                                     [](Node const& node) { return node.definition.operation == Operation::choose; });
    for (std::size_t k = 0; !limited && k < part.keys.size(); ++k) {
      Key const& key = part.keys[k];
      bool const made_here = std::any_of(table.all.begin(), table.all.end(),
                                         [&](Application const& one) { return one.slip == key.slip && one.node == key.node; });
      if (seen[k] || !made_here) continue;
      ++result.avoidable;
      if (with_names) note(result.pairs, pair_of(key.slip, nullptr));
    }
    // A number with the other sign shows at once, and who it is from is not asked.
    now.erase(std::remove_if(now.begin(), now.end(), [](Shown const& one) { return !(one.value > 0); }), now.end());
    std::sort(now.begin(), now.end(),
              [](Shown const& a, Shown const& b) { return a.value != b.value ? a.value < b.value : a.key < b.key; });
    // Whatever turns the choice of the limiting reagent over leads to one number by one way: that of the other reagent.
    std::vector<double> turned;
    for (Shown const& one : now) {
      if (one.slip != nullptr && one.slip->id == "excess-reagent-used") turned.push_back(one.value);
    }
    auto const is_turned = [&](double value) {
      return std::any_of(turned.begin(), turned.end(), [&](double t) { return equal(t, value); });
    };
    for (std::size_t i = 0; i < now.size(); ++i) {
      for (std::size_t j = i + 1; j < now.size() && alike_at(now[i].value, now[j].value, figures); ++j) {
        Shown const& a = now[i];
        Shown const& b = now[j];
        if (a.slip == b.slip) continue;  // one slip at two places is one cause
        bool const known = a.key >= 0 && b.key >= 0;
        auto const ka = static_cast<std::size_t>(std::max(a.key, 0));
        auto const kb = static_cast<std::size_t>(std::max(b.key, 0));
        if (known && part.one_class[ka][kb]) continue;
        if (equal(a.value, b.value) && is_turned(a.value)) continue;
        if (!known && equal(a.value, b.value)) continue;  // met for the first time: exactly equal is taken for a class
        ++result.avoidable;
        if (with_names) note(result.pairs, pair_of(a.slip, b.slip));
      }
    }
  }
  return result;
}

}  // namespace molewright
