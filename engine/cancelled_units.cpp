#include "engine/cancelled_units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string_view>

#include "engine/lists.h"
#include "engine/steps_words.h"

namespace molewright {
namespace {

constexpr std::array<std::string_view, 10> superscripts{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
constexpr std::string_view raised_minus = "⁻";

/// A single unit, "L" or "dm", and its exponent over all factors: above the line and below it.
struct Power {
  std::string name;
  int above = 0, below = 0;
  int left() const { return above - below; }
};

void count(std::vector<Power>& powers, std::string_view name, int exponent) {
  auto found = std::find_if(powers.begin(), powers.end(), [&](Power const& p) { return p.name == name; });
  if (found == powers.end()) found = powers.insert(powers.end(), {std::string(name), 0, 0});
  (exponent > 0 ? found->above : found->below) += std::abs(exponent);
}

/// Counts "mol", "dm³" or "mol⁻¹". What begins with a digit, the 100 of g/100 mL, is a name of its own.
void count_factor(std::vector<Power>& powers, std::string_view factor, int exponent) {
  int sign = 1, size = 0;
  std::string_view name = factor;
  for (std::size_t at = 0; at < factor.size(); ++at) {
    auto const rest = factor.substr(at);
    if (rest.substr(0, raised_minus.size()) == raised_minus) {
      sign = -1;
      name = factor.substr(0, std::min(at, name.size()));
    }
    for (std::size_t digit = 0; digit < superscripts.size(); ++digit)
      if (rest.substr(0, superscripts[digit].size()) == superscripts[digit]) {
        size = 10 * size + static_cast<int>(digit);
        name = factor.substr(0, std::min(at, name.size()));
      }
  }
  count(powers, name, exponent * sign * (size == 0 ? 1 : size));
}

void count_unit(std::vector<Power>& powers, PrintedUnit const& unit) {
  int side = unit.exponent;
  std::string_view const text = unit.text;
  for (std::size_t at = 0; at < text.size();) {
    auto const end = std::min(text.find_first_of("/() ", at), text.size());
    auto factor = text.substr(at, end - at);
    for (std::size_t dot; (dot = factor.find("·")) != std::string_view::npos;) {
      if (dot > 0) count_factor(powers, factor.substr(0, dot), side);
      factor.remove_prefix(dot + std::string_view("·").size());
    }
    if (!factor.empty() && factor != "1") count_factor(powers, factor, side);
    if (end < text.size() && text[end] == '/') side = -unit.exponent;
    at = end + 1;
  }
}

std::string with_exponent(std::string const& text, int exponent) {
  if (exponent == 1) return text;
  std::string out = text.find_first_of("/ ") == std::string::npos ? text : '(' + text + ')';
  for (char digit : std::to_string(exponent)) out += superscripts[static_cast<std::size_t>(digit - '0')];
  return out;
}

/// "kPa × L / (J/(mol K) × K)": a solidus alone is not followed by another without brackets.
std::string quotient(std::vector<PrintedUnit> const& factors) {
  std::string above, below;
  int count_above = 0, count_below = 0;
  for (auto const& factor : factors) {
    if (factor.text.empty()) continue;
    auto& side = factor.exponent > 0 ? above : below;
    ++(factor.exponent > 0 ? count_above : count_below);
    side += (side.empty() ? "" : " × ") + with_exponent(factor.text, std::abs(factor.exponent));
  }
  if (above.empty()) above = "1";
  if (below.empty()) return above;
  if (count_above == 1 && above.find('/') != std::string::npos) above = '(' + above + ')';
  if (count_below > 1 || below.find('/') != std::string::npos) below = '(' + below + ')';
  return above + " / " + below;
}
}  // namespace

std::string cancelled_units(std::vector<PrintedUnit> const& factors, std::string const& result, bool of_one_size) {
  std::vector<Power> powers, wanted;
  for (auto const& factor : factors) count_unit(powers, factor);
  count_unit(wanted, {result, 1});

  std::vector<std::string> gone;
  for (auto const& power : powers)
    if (int const both = std::min(power.above, power.below); both > 0) gone.push_back(with_exponent(power.name, both));
  if (gone.empty()) return {};

  std::vector<PrintedUnit> others;  // left over, but not as the result is written
  for (auto& power : powers) {
    auto const found = std::find_if(wanted.begin(), wanted.end(), [&](Power const& w) { return w.name == power.name; });
    int left = power.left();
    if (found != wanted.end()) {
      left -= found->left();
      found->above = found->below = 0;
    }
    if (left != 0) others.push_back({power.name, left});
  }
  std::string same;  // what they are equal to
  for (auto const& power : wanted)
    if (power.left() != 0) others.push_back({power.name, -power.left()});
  if (!others.empty()) {
    if (!of_one_size) return {};
    std::vector<PrintedUnit> above, below;
    for (auto const& other : others) (other.exponent > 0 ? above : below).push_back({other.text, std::abs(other.exponent)});
    same = fmt::format(words::same_units, quotient(above), quotient(below));
  }

  auto const list = enumerated(gone);
  auto const product = quotient(factors);
  std::string const unit = result.empty() ? "1" : result;
  return (gone.size() == 1 ? fmt::format(words::one_cancels, product, unit, list)
                           : fmt::format(words::several_cancel, product, unit, list)) +
         same;
}

}  // namespace molewright
