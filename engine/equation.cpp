#include "engine/equation.h"

#include <array>
#include <optional>
#include <utility>

#include "engine/ascii.h"
#include "engine/chemistry_words.h"
#include "engine/formula_text.h"

namespace molewright {
namespace {

struct Span {
  std::size_t begin = 0, end = 0;
  bool empty() const { return begin == end; }
};

struct Arrow {
  Span where;
  bool reversible = false;
};

Span trim(std::string const& text, Span span) {
  while (span.begin < span.end && text[span.begin] == ' ') ++span.begin;
  while (span.end > span.begin && text[span.end - 1] == ' ') --span.end;
  return span;
}

/// True where the characters before `at` are ^ or ^2: what follows is the sign of a charge.
bool after_caret(std::string const& text, std::size_t at) {
  while (at > 0 && is_digit(text[at - 1])) --at;
  return at > 0 && text[at - 1] == '^';
}

/// -> --> = => ==> <=> <-> and the signs for → and ⇌.
std::optional<Arrow> arrow_at(std::string const& text, std::size_t at) {
  char const first = text[at];
  if (first == sign_arrow || first == sign_reversible) return Arrow{{at, at + 1}, first == sign_reversible};
  if (first != '-' && first != '=' && first != '<') return std::nullopt;
  bool const turns = first == '<';
  std::size_t end = at + (turns ? 1 : 0);
  if (end == text.size() || (text[end] != '-' && text[end] != '=')) return std::nullopt;
  char const shaft = text[end];
  // "Cl^-->": the first dash is the charge.
  if (shaft == '-' && !turns && after_caret(text, at)) return std::nullopt;
  while (end < text.size() && text[end] == shaft) ++end;
  bool const headed = end < text.size() && text[end] == '>';
  if (!headed && (turns || shaft == '-')) return std::nullopt;
  return Arrow{{at, end + (headed ? 1 : 0)}, turns};
}

/// True when the + at `at` belongs to the formula before it.
bool is_charge(std::string const& text, Span side, std::size_t at) {
  if (at == side.begin || text[at - 1] == ' ' || text[at - 1] == '+') return false;
  if (after_caret(text, at)) return true;
  std::size_t next = at + 1;
  while (next < side.end && text[next] == ' ') ++next;
  if (next == side.end || text[next] == '+' || text[next] == sign_solid || text[next] == sign_gas) return true;
  return text[next] == '(' && next + 1 < side.end && text[next + 1] >= 'a' && text[next + 1] <= 'z';
}

std::vector<Span> split_terms(std::string const& text, Span side) {
  std::vector<Span> terms;
  terms.reserve(4);
  std::size_t begin = side.begin;
  int depth = 0;
  for (std::size_t i = side.begin; i < side.end; ++i) {
    char const c = text[i];
    if (c == '(' || c == '[' || c == '{') ++depth;
    if ((c == ')' || c == ']' || c == '}') && depth > 0) --depth;
    if (c != '+' || depth > 0 || is_charge(text, side, i)) continue;
    terms.push_back(trim(text, {begin, i}));
    begin = i + 1;
  }
  terms.push_back(trim(text, {begin, side.end}));
  return terms;
}

/// Digits at `at`, moved past them; nullopt where there are none or more than eighteen.
std::optional<std::int64_t> read_whole(std::string const& text, std::size_t& at, std::size_t end) {
  std::int64_t number = 0;
  std::size_t const begin = at;
  for (; at < end && is_digit(text[at]); ++at)
    if (at - begin < 18) number = 10 * number + (text[at] - '0');
  if (at == begin || at - begin > 18) return std::nullopt;
  return number;
}

/// 2, 1/2, 2 1/2, 0.5; `at` is moved to the formula. nullopt where it is no coefficient.
std::optional<Rational> read_coefficient(std::string const& text, std::size_t& at, std::size_t end) {
  auto const whole = read_whole(text, at, end);
  if (!whole) return std::nullopt;
  Rational number(*whole);
  if (at < end && text[at] == '/') {
    auto const below = read_whole(text, ++at, end);
    if (!below || *below == 0) return std::nullopt;
    number = Rational(*whole, *below);
  } else if (at + 1 < end && text[at] == '.' && is_digit(text[at + 1])) {
    std::size_t const point = at;
    auto const tenths = read_whole(text, ++at, end);
    if (!tenths) return std::nullopt;
    number += Rational(*tenths) * Rational::power_of_ten(-static_cast<int>(at - point - 1));
  }
  std::size_t next = at;
  while (next < end && text[next] == ' ') ++next;
  if (next < end && is_digit(text[next])) {  // the fraction of "2 1/2"
    auto const above = read_whole(text, next, end);
    if (!above || next == end || text[next] != '/') return std::nullopt;
    auto const below = read_whole(text, ++next, end);
    if (!below || *below == 0) return std::nullopt;
    number += Rational(*above, *below);
    while (next < end && text[next] == ' ') ++next;
  }
  at = next;
  constexpr std::int64_t limit = 1'000'000'000'000'000'000;  // so that what is printed can be read back
  std::int64_t above = 0, below = 0;
  if (!number.fits(above, below) || above <= 0 || above >= limit || below >= limit) return std::nullopt;
  return number;
}

Result<Species> read_species(PlainText const& text, Span term, std::string_view unknown) {
  Species species;
  species.offset = text.offset(term.begin);
  std::size_t at = term.begin;
  char const first = text.text[at];
  if (first == '-' || is_digit(first)) {
    auto const coefficient = read_coefficient(text.text, at, term.end);
    if (!coefficient) return Fault{"bad-coefficient", words::bad_coefficient, words::coefficient_expected, species.offset};
    if (at == term.end) return Fault{"missing-term", words::coefficient_alone, words::after_coefficient, text.offset(at)};
    species.coefficient = *coefficient;
  }
  auto formula = parse_formula(text, at, term.end, unknown);
  if (!ok(formula)) return fault(formula);
  species.formula = std::move(value(formula));
  return species;
}

std::optional<Fault> read_side(PlainText const& text, Span side, std::string_view unknown, std::vector<Species>& species) {
  std::vector<Span> const terms = split_terms(text.text, side);
  species.reserve(terms.size());
  for (Span const& term : terms) {
    if (term.empty()) {
      std::size_t at = term.begin;  // show the sign that stands where a formula should
      while (at < text.text.size() && text.text[at] == ' ') ++at;
      return Fault{"missing-term", words::missing_term, words::term_expected, text.offset(at)};
    }
    auto read = read_species(text, term, unknown);
    if (!ok(read)) return fault(read);
    species.push_back(std::move(value(read)));
  }
  return std::nullopt;
}

template <class Print>
std::string print_side(std::vector<Species> const& side, Print print) {
  std::string text;
  for (Species const& species : side) {
    if (!text.empty()) text += " + ";
    if (species.coefficient != Rational(1)) {
      text += species.coefficient.text();
      if (!species.coefficient.is_integer()) text += ' ';
    }
    text += print(species.formula);
    text += plain(species.formula.state);
  }
  return text;
}

/// Atoms of one species without a map: elements by their letters.
struct Counts {
  std::vector<std::pair<std::uint16_t, std::int64_t>> counts;
  void add(std::string const& symbol, std::int64_t number) {
    auto const key = static_cast<std::uint16_t>(symbol[0] * 256 + (symbol.size() > 1 ? symbol[1] : 0));
    for (auto& [known, count] : counts)
      if (known == key) {
        count += number;
        return;
      }
    counts.push_back({key, number});
  }
  void add(std::vector<Group> const& groups, std::int64_t times) {
    for (Group const& group : groups) {
      if (group.element.empty())
        add(group.inside, times * group.count);
      else
        add(group.element, times * group.count);
    }
  }
};

}  // namespace

Result<Equation> parse_equation(std::string_view text, bool one_side, std::string_view unknown) {
  Result<PlainText> const made = make_plain(text);
  if (!ok(made)) return fault(made);
  PlainText const& plain_text = value(made);
  std::string const& characters = plain_text.text;
  std::optional<Arrow> arrow;
  for (std::size_t i = 0; i < characters.size(); ++i) {
    auto const found = arrow_at(characters, i);
    if (!found) continue;
    if (arrow) return Fault{"two-arrows", words::two_arrows, words::one_arrow_expected, plain_text.offset(i)};
    arrow = found;
    i = found->where.end - 1;
  }
  std::size_t const end = characters.size();
  if (!arrow && !one_side) return Fault{"no-arrow", words::no_arrow, words::arrow_expected, plain_text.offset(end)};
  Span const left = trim(characters, {0, arrow ? arrow->where.begin : end});
  if (left.empty()) return Fault{"no-reactants", words::no_reactants, words::before_arrow, plain_text.offset(left.begin)};
  Equation equation;
  if (auto bad = read_side(plain_text, left, unknown, equation.left)) return *bad;
  if (!arrow) return equation;
  equation.reversible = arrow->reversible;
  Span const right = trim(characters, {arrow->where.end, end});
  if (!right.empty()) {
    if (auto bad = read_side(plain_text, right, unknown, equation.right)) return *bad;
  } else if (!one_side) {
    return Fault{"no-products", words::no_products, words::after_arrow, plain_text.offset(end)};
  }
  return equation;
}

std::string plain(Equation const& equation) {
  auto const print = [](Formula const& formula) { return plain(formula); };
  std::string const left = print_side(equation.left, print);
  if (equation.right.empty()) return left;
  return left + (equation.reversible ? " <=> " : " -> ") + print_side(equation.right, print);
}

std::string pretty(Equation const& equation) {
  auto const print = [](Formula const& formula) { return pretty(formula); };
  std::string const left = print_side(equation.left, print);
  if (equation.right.empty()) return left;
  return left + (equation.reversible ? " ⇌ " : " → ") + print_side(equation.right, print);
}

CompositionMatrix composition_matrix(Equation const& equation) {
  CompositionMatrix matrix;
  matrix.columns = equation.left.size() + equation.right.size();
  std::vector<std::uint16_t> rows;
  rows.reserve(8);
  matrix.entries.reserve(8 * matrix.columns);
  std::vector<std::int64_t> charges(matrix.columns, 0);
  bool charged = false;
  Counts counts;
  for (std::size_t column = 0; column < matrix.columns; ++column) {
    bool const product = column >= equation.left.size();
    Formula const& formula = (product ? equation.right[column - equation.left.size()] : equation.left[column]).formula;
    counts.counts.clear();
    for (FormulaPart const& part : formula.parts) counts.add(part.groups, part.multiplier);
    for (auto const& [key, count] : counts.counts) {
      std::size_t row = 0;
      while (row < rows.size() && rows[row] != key) ++row;
      if (row == rows.size()) {
        rows.push_back(key);
        matrix.entries.resize(rows.size() * matrix.columns, 0);
      }
      matrix.entries[row * matrix.columns + column] = product ? -count : count;
    }
    charges[column] = product ? -formula.charge : formula.charge;
    charged = charged || formula.charge != 0;
  }
  matrix.rows = rows.size();
  if (charged) {
    matrix.entries.insert(matrix.entries.end(), charges.begin(), charges.end());
    ++matrix.rows;
  }
  return matrix;
}

bool is_balanced(Equation const& equation) {
  if (equation.left.empty() || equation.right.empty()) return false;
  CompositionMatrix const matrix = composition_matrix(equation);
  for (std::size_t row = 0; row < matrix.rows; ++row) {
    Rational sum;
    for (std::size_t column = 0; column < matrix.columns; ++column) {
      std::int64_t const entry = matrix.entries[row * matrix.columns + column];
      if (entry == 0) continue;
      bool const product = column >= equation.left.size();
      sum += Rational(entry) * (product ? equation.right[column - equation.left.size()] : equation.left[column]).coefficient;
    }
    if (sum.sign() != 0) return false;
  }
  return true;
}

}  // namespace molewright
