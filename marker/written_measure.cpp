#include "marker/written_measure.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

#include "engine/ascii.h"
#include "engine/formula.h"
#include "marker/table.h"
#include "marker/written_number.h"

namespace molewright {
namespace {
using namespace std::string_view_literals;

bool has_digit(std::string_view text) { return std::any_of(text.begin(), text.end(), is_digit); }

/// Takes `piece` off the front of `text` where it stands there.
bool take(std::string_view& text, std::string_view piece) {
  if (text.substr(0, piece.size()) != piece) return false;
  text.remove_prefix(piece.size());
  return true;
}

/// Takes `word` (in any case) off the front of `text`; a blank or a digit must follow it.
bool take_word(std::string_view& text, std::string_view word) {
  if (text.size() <= word.size() || lowered(text.substr(0, word.size())) != word) return false;
  auto const rest = text.substr(word.size());
  if (rest[0] != ' ' && !begins_number(rest)) return false;
  text = trimmed(rest);
  return true;
}

/// Passes over what students put before a number; true where it says that the number is not exact.
bool take_lead(std::string_view& text) {
  if (text.empty() || is_digit(text.front())) return false;
  static constexpr std::array<std::string_view, 8> nearly = {"about",  "approximately", "approx.", "approx",
                                                             "around", "roughly",       "circa",   "ca."};
  static constexpr std::array<std::string_view, 9> saying = {"the answer is", "my answer is", "final answer", "answer", "ans.",
                                                             "ans",           "it is",        "ph",           "poh"};
  bool approximate = false;
  bool more = true;
  while (more) {
    more = false;
    for (auto const sign : {"∴"sv, "≈"sv, "~"sv, "≃"sv, "≅"sv}) {
      if (!take(text, sign)) continue;
      approximate = approximate || sign != "∴";
      text = trimmed(text);
      more = true;
    }
    for (auto const word : nearly) {
      if (!take_word(text, word)) continue;
      approximate = more = true;
    }
    for (auto const word : saying) more = take_word(text, word) || more;
  }
  return approximate;
}

/// Spellings that no table of units should hold, since they are wrong, but that can mean one thing only: capitals, and two units
/// run together. `Mg`, `MG` and `m` (for M) are not among them: those are asked about.
std::string mended_units(std::string_view text) {
  static std::map<std::string_view, std::string_view> const meant = {
      {"ML", "mL"},          {"Ml", "mL"},       {"MLS", "mL"},      {"gr", "g"},        {"grs", "g"},        {"G", "g"},
      {"KG", "kg"},          {"MOL", "mol"},     {"MOLS", "mol"},    {"Mols", "mol"},    {"MMOL", "mmol"},    {"Mmol", "mmol"},
      {"Mmole", "mmol"},     {"Mmoles", "mmol"}, {"MOLES", "mol"},   {"MMOLES", "mmol"}, {"DM", "dm"},        {"Dm", "dm"},
      {"CM", "cm"},          {"Cm", "cm"},       {"molL", "mol L"},  {"moll", "mol L"},  {"moldm", "mol dm"}, {"mmolL", "mmol L"},
      {"mmoldm", "mmol dm"}, {"gmol", "g mol"},  {"gL", "g L"},      {"gl", "g L"},      {"gdm", "g dm"},     {"gcm", "g cm"},
      {"gmL", "g mL"},       {"gml", "g mL"},    {"mgL", "mg L"},    {"mgl", "mg L"},    {"mgdm", "mg dm"},   {"kJmol", "kJ mol"},
      {"Jmol", "J mol"},     {"Lmol", "L mol"},  {"dmmol", "dm mol"}};
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    while (end < text.size() && is_letter(text[end])) ++end;
    if (end == at) {
      result += text[at++];
      continue;
    }
    auto const word = text.substr(at, end - at);
    auto const found = meant.find(word);
    result += found == meant.end() ? word : found->second;
    at = end;
  }
  return result;
}

/// True where every word of a unit as written is a symbol of the SI or of the trade (SI Brochure, 9th ed.: l is as good as L), so
/// that nothing had to be read kindly.
bool usual_spelling(std::string_view text) {
  static std::set<std::string, std::less<>> const symbols = {
      "g",         "kg",        "mg",       "ug",   "ng",       "l",    "L",   "ml",    "mL",        "cl",   "cL",      "dl",
      "dL",        "ul",        "uL",       "dm",   "cm",       "mm",   "m",   "nm",    "mol",       "mmol", "umol",    "nmol",
      "kmol",      "M",         "mM",       "uM",   "nM",       "Pa",   "kPa", "hPa",   "MPa",       "bar",  "mbar",    "atm",
      "mmHg",      "torr",      "Torr",     "K",    "C",        "degC", "J",   "kJ",    "MJ",        "s",    "ms",      "min",
      "h",         "d",         "w",        "v",    "ppm",      "ppb",  "t",   "atoms", "molecules", "ions", "formula", "units",
      "particles", "electrons", "entities", "atom", "molecule", "ion",  "unit"};
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    while (end < text.size() && is_letter(text[end])) ++end;
    if (end > at && symbols.find(text.substr(at, end - at)) == symbols.end()) return false;
    at = end + 1;
  }
  return true;
}

/// Elements and brackets of a formula's first part: 1 for Mg and O2, 2 for NaCl.
std::size_t pieces(Formula const& formula) { return formula.parts.empty() ? 0 : formula.parts.front().groups.size(); }

bool is_formula(std::string_view text) { return ok(parse_formula(text)); }

/// A substance or a remark in words behind the unit: "AgCl", "(AgCl)", "of silver chloride".
bool is_substance(std::string_view text) {
  text = trimmed(text);
  bool const of = take(text, "of ");
  text = trimmed(text);
  if (is_formula(text)) return true;
  if (text.size() > 2 && text.front() == '(' && text.back() == ')' && is_formula(text.substr(1, text.size() - 2))) return true;
  return of && !text.empty() && !has_digit(text);
}

/// True where a second number stands in the text: behind "(", "/", "=", a comma or a blank.
bool holds_number(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i)
    if ((i == 0 || std::string_view(" (,/;=").find(text[i - 1]) != std::string_view::npos) && begins_number(text.substr(i)))
      return true;
  return false;
}

/// At most 40 bytes of a text for a message, never half a character.
std::string excerpt(std::string_view text) {
  if (text.size() <= 40) return std::string(text);
  text = text.substr(0, 40);
  return std::string(text.substr(0, first_invalid_utf8(text))) + "…";
}

/// What makes the number only a part of a sum, a range, a fraction or a date; empty for none of them.
std::string not_one_number(std::string_view rest) {
  auto const at = rest.front();
  auto const behind = trimmed(rest.substr(1));
  if (at == '/' && begins_number(behind)) return "a fraction that is not worked out";
  if (at == '-')
    return begins_number(behind) ? "a range or a difference, not one number"
                                 : "a date, or a number with something after its dash";
  if (at == ':') return "a ratio or a time, not one number";
  if (is_letter(at) && std::string_view("xXtT").find(at) == std::string_view::npos) return "";  // no sign, not "to"
  for (auto const sign : {"½"sv, "¼"sv, "¾"sv, "⅓"sv, "⅔"sv})
    if (rest.substr(0, sign.size()) == sign) return "a fraction that is not worked out";
  for (auto const sign : {"⁰"sv, "¹"sv, "²"sv, "³"sv, "⁴"sv, "⁵"sv, "⁶"sv, "⁷"sv, "⁸"sv, "⁹"sv, "⁻"sv, "√"sv})
    if (rest.substr(0, sign.size()) == sign) return "a sum that is not worked out";
  std::string_view copy = rest;
  if (take_word(copy, "to") && begins_number(copy)) return "a range, not one number";
  for (auto const sign : {"+"sv, "*"sv, "×"sv, "÷"sv, "^"sv, "x"sv, "X"sv, "·"sv}) {
    copy = rest;
    if (!take(copy, sign)) continue;
    copy = trimmed(copy);
    if (copy.empty() && sign != "x" && sign != "X") return "a sum that is not worked out";
    if (begins_number(copy) || copy.substr(0, 1) == "(") return "a sum that is not worked out";
  }
  return "";
}

/// "3/800 mol/L", of whole numbers with a unit behind them: not worked out, but one value, exactly. Taken off `rest`, which
/// begins with the line.
void take_fraction(Written& result, std::string_view& rest) {
  constexpr std::size_t most_digits = 9;
  constexpr int figures = 6;  // as many as the answer is asked to, and more: they are not judged
  std::string_view copy = rest;
  if (!take(copy, "/")) return;
  copy = trimmed(copy);
  std::size_t digits = 0;
  while (digits < copy.size() && is_digit(copy[digits])) ++digits;
  if (digits == 0 || digits > most_digits || copy[0] == '0') return;
  auto const behind = trimmed(copy.substr(digits));
  if (behind.empty() || !(is_letter(behind[0]) || behind[0] == '%') || !ok(read_unit(behind))) return;
  auto& number = result.number;
  std::string const divisor(copy.substr(0, digits));
  number.value /= Rational::from_digits(divisor);
  number.figures = number.certain_figures = figures;
  number.last_place = (number.value.sign() == 0 ? 0 : magnitude(number.value)) - figures + 1;
  number.text += '/' + divisor;
  rest = behind;
  add_note(result, "fraction-written");
}

/// Without the number once more, in brackets at the end, as it was before rounding: "0.144 mol/L (0.1438)".
std::string_view without_the_same_again(Written const& result, std::string_view rest, DecimalMark mark) {
  auto const open = rest.find_last_of('(');
  if (open == std::string_view::npos || rest.back() != ')' || (open > 0 && rest[open - 1] != ' ')) return rest;
  auto const inside = trimmed(rest.substr(open + 1, rest.size() - open - 2));
  auto const read = read_written_number(inside, mark);
  if (!ok(read) || value(read).length != inside.size()) return rest;
  Written again;
  again.number = value(read).number;
  return agree(result, again) ? trimmed(rest.substr(0, open)) : rest;
}

/// Reads `rest` as a unit and what may follow it. False where no unit stands there.
bool read_unit_behind(Written& result, std::string_view rest, std::string_view as_written) {
  auto const read = read_unit(rest);
  if (!ok(read)) return false;
  std::size_t const length = value(read).length;
  auto const tail = rest.substr(length);
  auto const behind = trimmed(tail);
  bool const apart = tail.empty() || tail[0] == ' ' || tail[0] == '(' || tail[0] == ',';
  if (!apart) return false;
  bool const units = !behind.empty() && !is_substance(behind) && ok(read_unit(behind));
  if (units) return false;  // "mol L": a power was lost, and what is left is no unit that was meant
  if (!behind.empty() && !is_substance(behind)) {
    bool const second = holds_number(behind);
    result = unreadable(second ? "two answers" : "text after the unit: " + excerpt(behind));
    if (second) add_note(result, "two-answers");
    return true;
  }
  result.unit = value(read).unit;
  // As the student wrote it: mending changes no text behind the unit, so that the tail is as long in both.
  result.unit_text = std::string(trimmed(as_written.substr(0, as_written.size() - tail.size())));
  if (rest != as_written || !usual_spelling(result.unit_text)) add_note(result, "unit-spelling");
  return true;
}

/// True for what a student may have meant as a unit, though it is none: short, beginning with a letter or % or /, and no part of
/// a mistyped number ("1O.5", "2.5O").
bool like_a_unit(std::string_view text, bool attached) {
  if (text.size() > 24 || std::count(text.begin(), text.end(), ' ') > 2) return false;
  if (attached && lower(text.front()) == 'o') return false;
  bool begins = is_letter(text.front()) || text.front() == '%' || text.front() == '/';
  for (auto const sign : {"°"sv, "µ"sv, "μ"sv, "‰"sv, "Å"sv, "Ω"sv}) begins = begins || text.substr(0, sign.size()) == sign;
  if (!begins) return false;
  for (std::size_t i = 0; i + 1 < text.size(); ++i)
    if ((text[i] == '.' || text[i] == ',') && is_digit(text[i + 1])) return false;
  return true;
}

/// What stands behind the number, blanks taken off, not empty.
Written with_rest(Written result, std::string_view rest, bool whole_number, bool attached) {
  std::string const why = not_one_number(rest);
  if (!why.empty()) return unreadable(why);
  if (read_unit_behind(result, rest, rest)) return result;
  std::string const mended = mended_units(rest);
  if (mended != rest && read_unit_behind(result, mended, rest)) return result;
  auto const formula = parse_formula(rest);
  if (ok(formula) && (pieces(value(formula)) > 1 || has_digit(rest))) {
    if (!whole_number) return result;  // "1.72 AgCl": the unit is missing
    Written words;                     // "2AgNO3": a formula with its coefficient
    words.kind = Written::Kind::words;
    return words;
  }
  if (rest.substr(0, 3) == "of " && is_substance(rest)) return result;
  if (holds_number(rest)) {
    Written two = unreadable("two answers");
    add_note(two, "two-answers");
    return two;
  }
  if (!like_a_unit(rest, attached)) return unreadable("text after the number: " + excerpt(rest));
  result.unit_text = std::string(rest);
  add_note(result, "unknown-unit");
  return result;
}

Written from_number(std::string_view text, DecimalMark mark) {
  auto const read = read_written_number(text, mark);
  if (!ok(read)) return unreadable(fault(read).what);
  NumberWritten const& number = value(read);
  Written result;
  result.kind = Written::Kind::number;
  result.number = number.number;
  result.other_reading = number.other;
  result.notes = number.notes;
  std::string_view rest = text.substr(number.length);
  if (take(rest, "...") || take(rest, "…")) add_note(result, "digits-run-on");
  bool const attached = trimmed(rest).size() == rest.size();
  rest = trimmed(rest);
  for (auto const sign : {"±"sv, "+/-"sv, "+-"sv}) {
    std::string_view copy = rest;
    if (!take(copy, sign)) continue;
    copy = trimmed(copy);
    auto const width = read_written_number(copy, mark);
    if (!ok(width)) continue;
    rest = trimmed(copy.substr(value(width).length));
    add_note(result, "uncertainty-written");
  }
  while (!rest.empty() && std::string_view(".,;!? ").find(rest.back()) != std::string_view::npos) rest.remove_suffix(1);
  if (!rest.empty()) rest = without_the_same_again(result, rest, mark);
  if (rest.empty()) return result;
  bool const whole_number =
      result.number.last_place == 0 && result.number.text.find_first_not_of("0123456789") == std::string::npos;
  if (whole_number) take_fraction(result, rest);
  return with_rest(std::move(result), rest, whole_number, attached);
}

/// Letters of any script, with the signs that names hold; a digit only next to a hyphen ("copper(II) sulfate-5-water").
bool is_words(std::string_view text) {
  bool letter = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    auto const byte = static_cast<unsigned char>(text[i]);
    if (is_digit(text[i])) {
      std::size_t first = i;
      while (first > 0 && is_digit(text[first - 1])) --first;
      std::size_t last = i;
      while (last + 1 < text.size() && is_digit(text[last + 1])) ++last;
      bool const hyphen = (first > 0 && text[first - 1] == '-') || (last + 1 < text.size() && text[last + 1] == '-');
      if (!hyphen) return false;
    } else if (byte < 0x80U) {
      letter = letter || is_letter(text[i]);
      if (!is_letter(text[i]) && std::string_view(" -'()[],./!?").find(text[i]) == std::string_view::npos) return false;
    } else {
      // Signs, arrows and pictures: U+0080 to U+00BF, U+2000 to U+2FFF, beyond U+FFFF. Letters lie elsewhere.
      bool const continues = (byte & 0xC0U) == 0x80U;
      if (!continues && (byte == 0xC2U || byte == 0xE2U || byte >= 0xF0U)) return false;
      letter = true;
    }
  }
  return letter;
}

}  // namespace

std::string_view without_remark(std::string_view text) {
  static constexpr std::array<std::string_view, 12> remarks = {
      "sf", "s.f", "sig fig",        "sig figs", "sig. fig", "sig. figs", "significant figures", "significant figure",
      "dp", "d.p", "decimal places", "figures"};
  std::string_view rest = text;
  while (!rest.empty() && (rest.back() == ')' || rest.back() == '.')) rest.remove_suffix(1);
  std::string const low = lowered(rest);
  for (auto const remark : remarks) {
    if (low.size() <= remark.size() || low.compare(low.size() - remark.size(), remark.size(), remark) != 0) continue;
    auto before = trimmed(rest.substr(0, rest.size() - remark.size()));
    std::size_t digits = 0;
    while (digits < before.size() && is_digit(before[before.size() - 1 - digits])) ++digits;
    if (digits == 0 || digits > 2 || digits == before.size()) continue;
    before.remove_suffix(digits);
    if (before.back() != ' ' && before.back() != '(') continue;
    while (!before.empty() && (before.back() == ' ' || before.back() == '(')) before.remove_suffix(1);
    for (auto const joint : {" to"sv, " (to"sv, "(to"sv}) {
      if (before.size() > joint.size() && before.substr(before.size() - joint.size()) == joint)
        before.remove_suffix(joint.size());
    }
    before = trimmed(before);
    if (!before.empty() && before.back() == ',') before.remove_suffix(1);
    if (has_digit(before)) return before;
  }
  return text;
}

std::string_view without_words_behind(std::string_view text, bool& approximate) {
  struct Words {
    std::string_view words;
    bool nearly;
  };
  static constexpr std::array<Words, 14> known{{{"approximately", true},
                                                {"approx", true},
                                                {"roughly", true},
                                                {"about", true},
                                                {"or so", true},
                                                {"rounded", false},
                                                {"strongly acidic", false},
                                                {"weakly acidic", false},
                                                {"acidic", false},
                                                {"alkaline", false},
                                                {"basic", false},
                                                {"neutral", false},
                                                {"final answer", false},
                                                {"answer", false}}};
  auto rest = trimmed(text);
  while (!rest.empty() && (rest.back() == '.' || rest.back() == ' ')) rest.remove_suffix(1);
  bool const bracket = !rest.empty() && rest.back() == ')';
  if (bracket) rest.remove_suffix(1);
  while (!rest.empty() && (rest.back() == '.' || rest.back() == ' ')) rest.remove_suffix(1);
  std::string const low = lowered(rest);
  for (auto const& [words, nearly] : known) {
    if (!low.ends_with(words)) continue;
    auto before = trimmed(rest.substr(0, rest.size() - words.size()));
    bool const apart = before.size() + words.size() < rest.size() || (!before.empty() && before.back() == '(');
    if (!apart || !has_digit(before) || bracket != (before.back() == '(')) continue;
    if (bracket) before = trimmed(before.substr(0, before.size() - 1));
    while (!before.empty() && (before.back() == ',' || before.back() == ' ')) before.remove_suffix(1);
    approximate = approximate || nearly;
    return before;
  }
  return text;
}

void add_note(Written& written, std::string_view note) {
  if (std::find(written.notes.begin(), written.notes.end(), note) == written.notes.end())
    written.notes.push_back(std::string(note));
}

Written unreadable(std::string why) {
  Written result;
  result.kind = Written::Kind::unreadable;
  result.why = std::move(why);
  return result;
}

Written read_measure(std::string_view text, DecimalMark mark) {
  text = trimmed(text);
  bool const approximate = take_lead(text);
  text = without_remark(text);
  if (text.empty()) return unreadable("nothing after the sign");
  // "- 55.2": a blank behind the sign says nothing.
  std::string closed;
  if ((text.front() == '-' || text.front() == '+') && text.size() > 1 && text[1] == ' ') {
    closed = text.front() + std::string(trimmed(text.substr(1)));
    if (begins_number(closed)) text = closed;
  }
  for (auto const sign : {"<"sv, ">"sv, "≤"sv, "≥"sv})
    if (text.substr(0, sign.size()) == sign) return unreadable("a limit, not a value");
  if (begins_number(text)) {
    Written result = from_number(text, mark);
    if (result.kind == Written::Kind::number) result.answer = std::string(text);
    if (approximate && result.kind == Written::Kind::number) add_note(result, "approximate");
    return result;
  }
  Written result;
  result.kind = Written::Kind::words;
  if (is_formula(text) || is_words(text)) return result;
  return unreadable(has_digit(text) ? "no number at the beginning: " + excerpt(text)
                                    : "no number, formula or word: " + excerpt(text));
}

bool agree(Written const& a, Written const& b) {
  Rational second = b.number.value;
  Rational scale(1);
  if (a.unit && b.unit) {
    if (!convertible(*b.unit, *a.unit)) return false;
    second = convert(second, *b.unit, *a.unit);
    scale = b.unit->factor / a.unit->factor;
  }
  Rational const half(1, 2);
  Rational const band_a = half * Rational::power_of_ten(a.number.last_place);
  Rational const band_b = half * Rational::power_of_ten(b.number.last_place) * scale;
  Rational const apart = (a.number.value - second).absolute();
  return apart <= band_a || apart <= band_b;
}

}  // namespace molewright
