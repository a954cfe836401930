// Reads what is mixed: formulas or names, numbers before them, "excess", a medium, a wanted product.
#include <optional>

#include "engine/ascii.h"
#include "engine/equation.h"
#include "engine/formula_text.h"
#include "engine/mixing.h"
#include "engine/nomenclature.h"

namespace molewright {
namespace {

constexpr std::size_t most_reactants = 6;

/// A piece of the text with its place in it.
struct Piece {
  std::string_view text;
  std::size_t at = 0;
};

Piece trimmed(Piece piece) {
  auto const blank = [](char c) { return c == ' ' || c == '\t'; };
  while (!piece.text.empty() && blank(piece.text.front())) {
    piece.text.remove_prefix(1);
    ++piece.at;
  }
  while (!piece.text.empty() && blank(piece.text.back())) piece.text.remove_suffix(1);
  return piece;
}

bool take_word(Piece& piece, std::string_view word) {
  if (piece.text.size() <= word.size() || lowered(piece.text.substr(0, word.size())) != word) return false;
  if (piece.text[word.size()] != ' ') return false;
  piece.text.remove_prefix(word.size());
  piece.at += word.size();
  piece = trimmed(piece);
  return true;
}

bool take_ending(Piece& piece, std::string_view ending) {
  if (piece.text.size() < ending.size() || lowered(piece.text.substr(piece.text.size() - ending.size())) != ending) return false;
  piece.text.remove_suffix(ending.size());
  piece = trimmed(piece);
  return true;
}

/// "concentrated", "conc." before a name or a formula, "(conc)" behind it: true; the same of dilute, which says nothing more:
/// false.
bool take_strength(Piece& piece) {
  bool concentrated = false;
  for (std::string_view const word : {"hot concentrated", "hot, concentrated", "concentrated", "conc.", "conc"})
    concentrated = take_word(piece, word) || concentrated;
  for (std::string_view const ending : {" (concentrated)", "(concentrated)", " (conc.)", "(conc.)", " (conc)", "(conc)"})
    concentrated = take_ending(piece, ending) || concentrated;
  for (std::string_view const word : {"dilute", "dil."}) take_word(piece, word);
  for (std::string_view const ending : {" (dilute)", "(dilute)", " (dil.)", "(dil.)", " (dil)", "(dil)"})
    take_ending(piece, ending);
  return concentrated;
}

/// The medium named at the end, "in acid".
Medium take_medium(Piece& piece) {
  for (std::string_view const ending : {" in acidic solution", " in acid solution", " in acid"})
    if (take_ending(piece, ending)) return Medium::acid;
  for (std::string_view const ending : {" in basic solution", " in alkaline solution", " in base", " in alkali"})
    if (take_ending(piece, ending)) return Medium::base;
  return Medium::unsaid;
}

/// What is heated: "NaHCO3 (heat)", "heat NaHCO3", "NaHCO3 + heat".
bool take_heat(Piece& piece) {
  bool heated = take_word(piece, "heat") || take_word(piece, "heated");
  for (std::string_view const ending : {"(heat)", "(heated)", "(on heating)", "+ heat", " heated", " on heating", "(Δ)", "+ Δ"})
    heated = take_ending(piece, ending) || heated;
  return heated;
}

Fault moved(Fault fault, std::size_t by) {
  fault.offset += by;
  return fault;
}

/// Pieces between "+" signs that stand between blanks, or all of them where none does.
std::vector<Piece> pieces_of(Piece whole) {
  std::vector<Piece> pieces;
  std::size_t begin = 0;
  for (std::size_t at = 0; at <= whole.text.size(); ++at) {
    bool const end = at == whole.text.size();
    bool const sign = !end && whole.text[at] == '+' && (at == 0 || whole.text[at - 1] == ' ') &&
                      (at + 1 == whole.text.size() || whole.text[at + 1] == ' ');
    if (!end && !sign) continue;
    pieces.push_back(trimmed({whole.text.substr(begin, at - begin), whole.at + begin}));
    begin = at + 1;
  }
  return pieces;
}

/// Words rather than symbols: a blank inside, or four small letters in a row.
bool looks_like_name(std::string_view text) {
  int run = 0;
  for (char const c : text) {
    run = c >= 'a' && c <= 'z' ? run + 1 : 0;
    if (run == 4) return true;
  }
  return false;
}

/// "2 sodium hydroxide", "barium chloride(aq)".
Result<Reactant> by_name(Piece piece, bool excess) {
  Reactant reactant;
  reactant.excess = excess;
  std::size_t digits = 0;
  while (digits < piece.text.size() && is_digit(piece.text[digits])) ++digits;
  if (digits > 0 && digits < 5 && digits < piece.text.size() && piece.text[digits] == ' ') {
    reactant.parts = std::stoi(std::string(piece.text.substr(0, digits)));
    piece = trimmed({piece.text.substr(digits), piece.at + digits});
  }
  State state = State::none;
  for (auto const& [text, meant] : {std::pair{"(aq)", State::aqueous}, std::pair{"(s)", State::solid},
                                    std::pair{"(l)", State::liquid}, std::pair{"(g)", State::gas}})
    if (take_ending(piece, text)) state = meant;
  auto const found = identify(piece.text);
  if (!ok(found)) return moved(fault(found), piece.at);
  auto const read = parse_formula(value(found).formula);
  if (!ok(read)) return moved(fault(read), piece.at);
  reactant.formula = value(read);
  reactant.formula.state = state == State::none ? value(found).state : state;
  return reactant;
}

Result<Reactant> one_formula(Piece piece, bool excess) {
  auto const read = parse_equation(piece.text, true);
  if (!ok(read)) {
    auto const named = by_name(piece, excess);
    if (ok(named)) return named;
    Fault const wrong = looks_like_name(piece.text) ? fault(named) : moved(fault(read), piece.at);
    Fault near = with_nearest_names(wrong, piece.text);
    if (near.id == "unknown-name") near.offset = piece.at;
    return near;
  }
  auto const& species = value(read).left;
  Reactant reactant;
  reactant.excess = excess;
  reactant.formula = species.front().formula;
  std::int64_t numerator = 0, denominator = 1;
  bool const number = !piece.text.empty() && is_digit(piece.text.front());
  if (number && species.front().coefficient.fits(numerator, denominator) && denominator == 1) reactant.parts = numerator;
  return reactant;
}

/// What no mixture can hold; `at` is where the formula stands.
std::optional<Fault> refused(Formula const& formula, std::size_t at) {
  if (formula.electron)
    return Fault{"not-a-formula", "an electron is no substance to mix", "a formula, such as NaCl or SO4^2-", at};
  if (auto const wrong = unbalanced_charge(formula)) return moved(*wrong, at);
  return std::nullopt;
}

Result<std::vector<Reactant>> reactants_in(Piece whole) {
  std::vector<Reactant> result;
  for (Piece piece : pieces_of(whole)) {
    if (piece.text.empty()) return Fault{"missing-term", "a formula is missing", "a formula on each side of +", piece.at};
    bool excess = take_word(piece, "excess");
    excess = take_ending(piece, " in excess") || take_ending(piece, " (excess)") || take_ending(piece, " excess") || excess;
    bool const concentrated = take_strength(piece);
    auto const read = parse_equation(piece.text, true);
    if (ok(read) && value(read).left.size() > 1) {  // "HCl+NaOH"
      for (auto const& species : value(read).left) {
        std::int64_t numerator = 0, denominator = 1;
        bool const counted = species.coefficient.fits(numerator, denominator) && denominator == 1 && numerator > 1;
        if (auto const wrong = refused(species.formula, piece.at + species.offset)) return *wrong;
        result.push_back({species.formula, counted ? numerator : 0, excess});
      }
      continue;
    }
    auto one = one_formula(piece, excess);
    if (!ok(one)) return fault(one);
    if (auto const wrong = refused(value(one).formula, piece.at)) return *wrong;
    value(one).concentrated = concentrated;
    result.push_back(value(one));
  }
  return result;
}

}  // namespace

Result<Mixture> read_mixture(std::string_view text) {
  std::size_t const bad = first_invalid_utf8(text);
  if (bad != std::string_view::npos) return Fault{"invalid-utf8", "the text is not UTF-8", "text saved as UTF-8", bad};
  if (text.size() > 20000) return Fault{"text-too-long", "the text is too long for a mixture", "", 0};
  Mixture mixture;
  Piece left{text, 0}, right;
  for (std::string_view const arrow : {"->", "→", "⟶"}) {
    std::size_t const at = text.find(arrow);
    if (at == std::string_view::npos) continue;
    left = {text.substr(0, at), 0};
    right = {text.substr(at + arrow.size()), at + arrow.size()};
    break;
  }
  left = trimmed(left);
  right = trimmed(right);
  mixture.medium = take_medium(right.text.empty() ? left : right);
  bool const heated = take_heat(left);
  if (left.text.empty()) return Fault{"no-reactants", "there are no reactants", "formulas or names joined by +", left.at};
  auto const reactants = reactants_in(left);
  if (!ok(reactants)) return fault(reactants);
  mixture.reactants = value(reactants);
  // One substance alone is heated, with or without the word.
  if (heated && mixture.reactants.size() > 1)
    return Fault{"unclear-heat", "what heat changes where several substances meet is not known here",
                 "one substance that is heated, as in NaHCO3 (heat), or no word on heat", left.at};
  if (mixture.reactants.size() > most_reactants)
    return Fault{"too-many-reactants", "more than 6 reactants", "the reactants of one reaction at a time", left.at};
  if (!right.text.empty()) {
    auto const wanted = reactants_in(right);
    if (!ok(wanted)) return fault(wanted);
    for (auto const& product : value(wanted)) mixture.wanted.push_back(product.formula);
  }
  return mixture;
}

}  // namespace molewright
