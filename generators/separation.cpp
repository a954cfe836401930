#include "generators/separation.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace molewright {
namespace {

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

}  // namespace

std::vector<Separation::Shown> Separation::shown(Part const& part, Working const& working, std::vector<SlipAnswer> const& answers,
                                                 std::size_t find) const {
  std::vector<Shown> all;
  all.reserve(answers.size() + 1);
  all.push_back({working.nodes[static_cast<std::size_t>(working.finds[find].node)].value.number.to_double(), 0, nullptr});
  std::size_t expected = 0;  // the answers come in the order of the keys, most often
  for (std::size_t a = 0; a < answers.size(); ++a) {
    SlipAnswer const& answer = answers[a];
    if (answer.slip->reach != Reach::specific || !(answer.value > 0)) continue;
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
    all.push_back({answer.value, index, answer.slip});
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
      if (answer.slip->reach != Reach::specific || !(answer.value > 0)) continue;
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
        if (one.key <= other.key) continue;
        Pair& pair = part.pairs[static_cast<std::size_t>(one.key)][static_cast<std::size_t>(other.key)];
        ++pair.together;
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
        if (pair.together == 0) continue;
        part.one_class[i][j] = part.one_class[j][i] = pair.alike == pair.together ? 1 : 0;
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
      if (with_names) result.pairs.push_back(std::string(key.slip->id) + " = right answer");
    }
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
        if (!with_names) continue;
        std::string first(a.slip != nullptr ? a.slip->id : b.slip->id);
        std::string second(a.slip != nullptr && b.slip != nullptr ? b.slip->id : "right answer");
        if (second != "right answer" && second < first) std::swap(first, second);
        std::string const pair = first + " = " + second;
        if (std::find(result.pairs.begin(), result.pairs.end(), pair) == result.pairs.end()) result.pairs.push_back(pair);
      }
    }
  }
  return result;
}

}  // namespace molewright
