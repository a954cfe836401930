// Reading of units: single ones by the table, products and quotients by a small grammar (see unit.h for what joins what).
#include <algorithm>
#include <array>
#include <stdexcept>

#include "engine/ascii.h"
#include "engine/unit.h"
#include "engine/unit_table.h"

namespace molewright {
namespace {

constexpr int most_factors = 12;
constexpr int greatest_exponent = 9;

/// What has been multiplied so far.
struct Product {
  std::array<int, 5> exponents{};
  Rational factor{1};
  std::vector<UnitPower> powers;
  std::int64_t divisor = 1;           ///< the 100 of g/100 mL
  UnitEntry const* single = nullptr;  ///< the entry itself, while it is the whole unit
  int factors = 0;

  void multiply(UnitEntry const& entry, int exponent) {
    single = factors == 0 && exponent == 1 && divisor == 1 ? &entry : nullptr;
    ++factors;
    for (std::size_t i = 0; i < exponents.size(); ++i) exponents[i] += exponent * entry.unit.dimension.exponents[i];
    factor *= entry.unit.factor.power(exponent);
    for (auto const& power : entry.powers) powers.push_back({power.symbol, power.exponent * exponent});
  }
  bool too_large() const {
    if (factors > most_factors) return true;
    for (auto const& power : powers) {
      if (power.exponent > greatest_exponent || power.exponent < -greatest_exponent) return true;
    }
    for (int const exponent : exponents) {
      if (exponent > 100 || exponent < -100) return true;
    }
    return false;
  }
};

std::string symbol_of(Product const& product) {
  std::string top;
  std::string bottom;
  int below = 0;
  for (auto const& power : product.powers) {
    int const size = power.exponent < 0 ? -power.exponent : power.exponent;
    std::string& side = power.exponent < 0 ? bottom : top;
    if (power.exponent < 0) ++below;
    if (!side.empty()) side += power.exponent < 0 ? " " : "·";
    side += power.symbol;
    if (size != 1) side += std::to_string(size);
  }
  if (product.divisor != 1) bottom.insert(0, std::to_string(product.divisor) + " ");
  if (top.empty()) top = "1";
  if (below == 0) return top;
  return top + "/" + (below > 1 ? "(" + bottom + ")" : bottom);
}

Unit unit_of(Product const& product) {
  if (product.single != nullptr) return product.single->unit;
  Unit unit;
  unit.symbol = symbol_of(product);
  unit.factor = product.factor / Rational(product.divisor);
  for (std::size_t i = 0; i < product.exponents.size(); ++i) {
    unit.dimension.exponents[i] = static_cast<std::int8_t>(product.exponents[i]);
  }
  return unit;
}

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  /// Longest unit at the start; 0 for none. `wanting` is then, or where a slash was left hanging, the place where a unit was
  /// missing.
  std::size_t read(Product& product) {
    std::size_t end = 0;
    std::size_t at = text_.starts_with("1/") ? 0 : read_product(0, 1, false, product);
    bool const inverse = at == 0 && text_.starts_with("1/");
    if (at == 0 && !inverse) return 0;
    if (inverse) at = 1;
    end = inverse ? 0 : at;
    for (std::size_t next = past_slash(at); next != 0; next = past_slash(at)) {
      Product longer = product;
      at = read_divisor(next, inverse && end == 0, longer);
      if (at == 0) break;
      product = longer;
      end = at;
    }
    return end;
  }
  std::size_t wanting() const { return wanting_; }
  bool too_large() const { return too_large_; }
  /// What was missing there is the bracket that closes, not a unit.
  bool open_bracket() const { return open_bracket_; }

 private:
  char peek(std::size_t at) const { return at < text_.size() ? text_[at] : '\0'; }
  bool stands(std::size_t at, std::string_view piece) const {
    return text_.substr(std::min(at, text_.size()), piece.size()) == piece;
  }

  std::size_t past_blanks(std::size_t at) const {
    for (;;) {
      if (peek(at) == ' ') {
        ++at;
      } else if (stands(at, "\u00A0")) {
        at += 2;
      } else if (stands(at, "\u2009") || stands(at, "\u202F")) {
        at += 3;
      } else {
        return at;
      }
    }
  }

  /// Past "/" or " per " with the blanks round it; 0 where neither stands.
  std::size_t past_slash(std::size_t at) const {
    std::size_t const word = past_blanks(at);
    if (peek(word) == '/') return past_blanks(word + 1);
    if (word > at && stands(word, "per") && past_blanks(word + 3) > word + 3) return past_blanks(word + 3);
    return 0;
  }

  /// An exponent at `at`: ^-3, **2, ^(-3), ⁻³, -3, 3. Returns where it ends; `at` itself for none.
  std::size_t read_exponent(std::size_t at, int& exponent) const {
    std::size_t next = at;
    bool negative = false;
    int size = 0;
    bool const caret = peek(next) == '^' || stands(next, "**");
    if (caret) next += peek(next) == '^' ? 1 : 2;
    bool const bracket = caret && peek(next) == '(';
    if (bracket) ++next;
    if (!caret && read_raised(next, negative, size)) {
      if (size == 0) return at;
    } else {
      for (std::string_view const minus : {std::string_view("-"), std::string_view("\u2212"), std::string_view("\u2013")}) {
        if (negative || !stands(next, minus)) continue;
        negative = true;
        next += minus.size();
      }
      if (!is_digit(peek(next))) return at;
      size = peek(next) - '0';
      ++next;
      if (is_digit(peek(next)) || (peek(next) == '.' && is_digit(peek(next + 1)))) return at;  // "mL-12.5" is no power
      if (bracket && peek(next) != ')') return at;
      if (bracket) ++next;
    }
    if (size == 0 || is_letter(peek(next))) return at;
    exponent = negative ? -size : size;
    return next;
  }

  /// A superscript sign and one superscript digit; true where any superscript stands, with size 0 if it is no power.
  bool read_raised(std::size_t& at, bool& negative, int& size) const {
    static constexpr std::array<std::string_view, 10> digits{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
    std::size_t const start = at;
    if (stands(at, "⁻")) {
      negative = true;
      at += std::string_view("⁻").size();
    }
    int count = 0;
    for (bool more = true; more;) {
      more = false;
      for (std::size_t i = 0; i < digits.size() && !more; ++i) {
        if (!stands(at, digits[i])) continue;
        size = static_cast<int>(i);
        at += digits[i].size();
        ++count;
        more = true;
      }
    }
    if (count != 1) size = 0;
    return at != start;
  }

  /// A single unit with its exponent. Returns where it ends; 0 for none.
  std::size_t read_factor(std::size_t at, UnitEntry const*& entry, int& exponent) const {
    std::size_t length = 0;
    entry = at < text_.size() ? match_unit(text_.substr(at), length) : nullptr;
    if (entry == nullptr) return 0;
    exponent = 1;
    std::size_t const after = at + length;
    std::size_t const end = read_exponent(after, exponent);
    // What goes on with a digit is a formula or a code ("K2SO4"), not a unit.
    return end == after && is_digit(peek(after)) && is_letter(peek(after - 1)) ? 0 : end;
  }

  static bool alone(UnitEntry const& entry) { return entry.unit.symbol.front() == '%'; }

  std::size_t take(std::size_t end, UnitEntry const& entry, int exponent, Product& product) {
    Product longer = product;
    longer.multiply(entry, exponent);
    if (longer.too_large()) {
      too_large_ = true;
      return 0;
    }
    product = longer;
    return end;
  }

  /// Factors joined by dots (and blanks); `sign` is -1 below a slash, `inside` is true in brackets. 0 where not even one stands
  /// there.
  std::size_t read_product(std::size_t at, int sign, bool inside, Product& product) {
    UnitEntry const* entry = nullptr;
    int exponent = 1;
    std::size_t end = read_factor(at, entry, exponent);
    if (end == 0) {
      wanting_ = std::max(wanting_, at);
      return 0;
    }
    if (alone(*entry) && (exponent != 1 || sign < 0 || inside)) return 0;
    end = take(end, *entry, sign * exponent, product);
    if (alone(*entry)) return end;
    while (end != 0) {
      bool dotted = false;
      std::size_t const next = past_joint(end, dotted);
      std::size_t const after = next == 0 ? 0 : read_factor(next, entry, exponent);
      if (after == 0 || alone(*entry)) break;
      if (!dotted && !inside && exponent > 0) break;
      // "J/mol K-1" says K-1 as it stands; "J/mol.K" can only mean both below.
      bool const below = sign < 0 && (inside || exponent > 0);
      std::size_t const taken = take(after, *entry, below ? -exponent : exponent, product);
      if (taken == 0) break;
      end = taken;
    }
    return end;
  }

  /// Past a product sign, or past blanks; 0 where neither stands.
  std::size_t past_joint(std::size_t at, bool& dotted) const {
    if (peek(at) == '.') {
      dotted = true;
      return at + 1;
    }
    std::size_t const next = past_blanks(at);
    for (std::string_view const sign :
         {std::string_view("·"), std::string_view("⋅"), std::string_view("×"), std::string_view("*")}) {
      if (!stands(next, sign)) continue;
      dotted = true;
      return past_blanks(next + sign.size());
    }
    return next > at ? next : 0;
  }

  /// "100 " before a unit: 1 to 7 digits. Returns where it ends, `at` for none.
  std::size_t read_count(std::size_t at, std::int64_t& count) const {
    std::size_t next = at;
    std::int64_t size = 0;
    while (is_digit(peek(next)) && next - at < 7) size = size * 10 + (text_[next++] - '0');
    if (next == at || size == 0 || is_digit(peek(next))) return at;
    count = size;
    return past_blanks(next);
  }

  std::size_t read_divisor(std::size_t at, bool after_one, Product& product) {
    bool const brackets = peek(at) == '(';
    if (brackets) at = past_blanks(at + 1);
    std::int64_t count = 1;
    if (brackets || !after_one) at = read_count(at, count);  // 1/2 L is no unit
    if (product.divisor * count > 10'000'000) return 0;
    product.divisor *= count;
    std::size_t end = read_product(at, -1, brackets, product);
    if (end == 0 || !brackets) return end;
    end = past_blanks(end);
    if (peek(end) == ')') return end + 1;
    if (end > wanting_) {
      wanting_ = end;
      open_bracket_ = true;
    }
    return 0;
  }

  std::string_view text_;
  std::size_t wanting_ = 0;
  bool too_large_ = false;
  bool open_bracket_ = false;
};

/// The word at `at` for a message, at most 24 bytes of it and never half a character.
std::string word_at(std::string_view text, std::size_t at) {
  std::string_view word = text.substr(std::min(at, text.size()));
  word = word.substr(0, word.find_first_of(" \t\r\n/()"));
  word = word.substr(0, 24);
  return std::string(word.substr(0, first_invalid_utf8(word)));
}

Fault unknown(std::string_view text, Reader const& reader) {
  if (reader.too_large())
    return {"unit-too-large", "a unit of too many factors or too high a power", "a unit such as g, mL or mol/L", 0};
  if (reader.open_bracket()) return {"unknown-unit", "a bracket that is not closed in a unit", "')'", reader.wanting()};
  std::string const word = word_at(text, reader.wanting());
  Fault fault{"unknown-unit", "", "a unit such as g, mL or mol/L", reader.wanting()};
  fault.what = word.empty() ? "the unit is missing" : "unknown unit \"" + word + "\"";
  std::vector<UnitEntry const*> offered;  // of two spellings of one unit the nearer is enough
  for (auto const& near : word.empty() ? std::vector<std::string>() : nearest(word, unit_spellings())) {
    std::size_t length = 0;
    auto const* entry = match_unit(near, length);
    if (std::find(offered.begin(), offered.end(), entry) != offered.end()) continue;
    fault.expected = offered.empty() ? near : fault.expected + " or " + near;
    offered.push_back(entry);
  }
  return fault;
}

Result<UnitRead> read_with(Reader& reader, std::string_view text) {
  Product product;
  std::size_t const length = reader.read(product);
  if (length == 0) return unknown(text, reader);
  return UnitRead{unit_of(product), length};
}

}  // namespace

Result<UnitRead> read_unit(std::string_view text) {
  Reader reader(text);
  return read_with(reader, text);
}

Result<Unit> parse_unit(std::string_view text) {
  std::size_t const first = std::min(text.find_first_not_of(' '), text.size());
  text.remove_prefix(first);
  text = text.substr(0, text.find_last_not_of(' ') + 1);
  if (auto const* entry = find_unit(text)) return entry->unit;
  Reader reader(text);
  auto read = read_with(reader, text);
  Fault fault;
  if (!ok(read)) {
    fault = molewright::fault(read);
  } else if (value(read).length == text.size()) {
    return std::move(value(read).unit);
  } else if (reader.too_large() || reader.wanting() > value(read).length) {
    fault = unknown(text, reader);
  } else {
    std::size_t const end = value(read).length;
    std::size_t const at = std::min(text.find_first_not_of(' ', end), text.size());
    std::string const word = word_at(text, at);
    fault = {"text-after-unit", word.empty() ? "more after the unit" : "\"" + word + "\" after the unit", "the end of the unit",
             at};
  }
  fault.offset += first;
  return fault;
}

Unit unit(std::string_view symbol) {
  if (symbol.empty()) return {};
  auto const parsed = parse_unit(symbol);
  if (!ok(parsed)) throw std::invalid_argument(sentence(fault(parsed)));
  return value(parsed);
}

}  // namespace molewright
