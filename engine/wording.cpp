#include "engine/wording.h"

#include <algorithm>

#include "engine/ascii.h"
#include "engine/lists.h"
#include "engine/nomenclature.h"
#include "engine/problem.h"
#include "engine/quantity_words.h"
#include "engine/steps.h"
#include "engine/substance.h"
#include "engine/working.h"

namespace molewright {
namespace {

std::string given_text(Given const& given, Conventions const& conventions) {
  auto const one = [&](Decimal const& number) {
    return measure_text(print_as_typed(number, conventions.mark).pretty, given.unit, conventions);
  };
  switch (given.form) {
    case Given::Form::value:
      return one(given.numbers[0]);
    case Given::Form::difference:
      return one(given.numbers[1]) + " to " + one(given.numbers[0]);
    case Given::Form::mean: {
      std::vector<std::string> all;
      for (std::size_t i = 0; i < titres(given); ++i) {
        all.push_back(given.in_pairs ? one(given.numbers[2 * i + 1]) + " to " + one(given.numbers[2 * i])
                                     : one(given.numbers[i]));
        if (is_rough(given, i)) all.back() += " (rough)";  // which one is discordant is for the student to see
      }
      return enumerated(all);
    }
    case Given::Form::measured:  // each student writes their own
      return "______ " + unit_text(given.unit, conventions);
  }
  return {};
}

/// Does a sentence begin where this much has been written? At the start, and after a full stop, a question mark or an exclamation
/// mark with a blank or a new line behind it; not behind e.g. or i.e.
bool begins_sentence(std::string_view written) {
  auto const end = written.find_last_not_of(" \n");
  if (end == std::string_view::npos) return true;
  if (end + 1 == written.size() || std::string_view(".?!").find(written[end]) == std::string_view::npos) return false;
  return !(end >= 2 && written[end - 2] == '.');
}

/// What is asked of readings: the text has nothing where the given is none of these.
std::string readings_text(std::string_view part, Given const& given, Conventions const& conventions) {
  if (part == "table ") return table_of_readings(given, conventions);
  if (given.form != Given::Form::difference) return {};
  return measure_text(print_as_typed(given.numbers[part == "initial " ? 1 : 0], conventions.mark).pretty, given.unit,
                      conventions);
}

Fault unknown(std::string const& what, std::size_t offset) {
  return {"unknown-in-text", "{" + what + "} is nothing that this problem knows",
          "a given such as {V(NaCl)}, or {name NaCl}, {formula NaCl} or {equation}", offset};
}

/// The substance that a formula or a name stands for, by its name (the formula where it has none) or by its formula.
Result<std::string> name_or_formula(std::string_view substance, std::size_t offset, bool by_name,
                                    Conventions const& conventions) {
  auto const at_offset = [&](Fault found) {
    found.offset += offset;
    return found;
  };
  if (auto const read = parse_formula(substance); ok(read)) {
    auto const formula = abbreviated(value(read)).value_or(value(read));
    auto const name = by_name ? name_of(plain(formula), conventions.naming) : std::string();
    return name.empty() ? pretty(formula) : name;
  }
  auto const known = identify(substance, conventions.naming);
  if (!ok(known)) return at_offset(fault_of_name(fault(known), substance, conventions.naming));
  return by_name ? value(known).name : pretty_formula(value(known).formula);
}

std::string in_words(std::vector<Species> const& side, Naming naming) {
  std::string out;
  for (auto const& species : side) {
    auto const name = name_of(plain(species.formula), naming);
    out += (out.empty() ? "" : " + ") + (name.empty() ? pretty(species.formula) : name);
  }
  return out;
}

/// An equation as a text asks for it: as it is balanced, without its coefficients, or in words.
std::string equation_text(Equation equation, std::string_view kind, Naming naming) {
  if (kind == "word equation") return in_words(equation.left, naming) + " → " + in_words(equation.right, naming);
  if (kind == "unbalanced equation")
    for (auto* side : {&equation.left, &equation.right})
      for (auto& species : *side) species.coefficient = Rational(1);
  return pretty(equation);
}

/// The find that a question tells about by this quantity, to be shown; nothing where there is none.
std::optional<std::size_t> told_find(Quantity const& quantity, Problem const& problem) {
  for (std::size_t f = 0; f < problem.finds.size(); ++f) {
    auto const& find = problem.finds[f];
    auto unnamed = find.quantity;
    unnamed.substance.clear();
    if (find.told && (find.quantity == quantity || unnamed == quantity)) return f;
  }
  return std::nullopt;
}

std::string told_text(Working const& working, std::size_t find, Conventions const& conventions) {
  auto const& unit = working.nodes[static_cast<std::size_t>(working.finds[find].node)].value.unit;
  return measure_text(print_as_typed(told_value(working, find, conventions.ties), conventions.mark).pretty, unit, conventions);
}
}  // namespace

/// What stands for one brace.
Result<Wording::Piece> Wording::fill(std::string_view inside, std::size_t offset, Problem const& problem,
                                     Conventions const& conventions, bool has_working) {
  auto const starts = [&](std::string_view word) { return inside.substr(0, word.size()) == word; };
  auto const words = [](std::string text) { return Piece{Piece::Kind::words, std::move(text), 0}; };
  // The first equation, or one by its number.
  for (std::string_view const kind : {"equation", "unbalanced equation", "word equation"}) {
    if (!starts(kind)) continue;
    auto const which = inside.substr(kind.size());
    for (std::size_t i = 0; i < problem.reactions.size(); ++i)
      if (which == " " + std::to_string(i + 1) || (which.empty() && i == 0))
        return words(equation_text(problem.reactions[i].equation, kind, conventions.naming));
    return unknown(std::string(inside), offset);
  }
  if (starts("about ") && has_working) {
    auto const quantity = parse_quantity(inside.substr(6));
    if (ok(quantity))
      if (auto const find = told_find(value(quantity), problem)) return Piece{Piece::Kind::told, {}, *find};
    auto found = unknown(std::string(inside), offset);
    found.expected = "a line such as show " + std::string(inside.substr(6)) + "";
    return found;
  }
  if (starts("name ") || starts("formula ")) {
    bool const name = starts("name ");
    std::size_t const word = name ? 5 : 8;
    auto text = name_or_formula(inside.substr(word), offset + word, name, conventions);
    if (!ok(text)) return fault(text);
    return words(std::move(value(text)));
  }
  std::string_view const part = part_of_readings(inside);
  auto const quantity = parse_quantity(inside.substr(part.size()));
  auto const* given = ok(quantity) ? given_named(problem, value(quantity)) : nullptr;
  if (given == nullptr) return unknown(std::string(inside), offset);
  if (part.empty() || !readings_text(part, *given, conventions).empty())
    return Piece{Piece::Kind::given, std::string(part), static_cast<std::size_t>(given - problem.givens.data())};
  auto found = unknown(std::string(inside), offset);
  found.expected = "a given of two readings or more after " + std::string(part);
  return found;
}

std::string_view part_of_readings(std::string_view inside) {
  for (std::string_view const part : {"table ", "final ", "initial "})
    if (inside.substr(0, part.size()) == part) return inside.substr(0, part.size());
  return {};
}

namespace {
/// What the author wrote without a number and without a substance where something was made up to the mark: {V(flask)} is solution
/// 2, {V(aliquot)} the portion of it, {V(vinegar)} or {V(HCl)} what was poured in. And {m(CaC2)} is the sample's, where a purity
/// is given.
Given const* given_before_it_was_read(Problem const& problem, Quantity const& quantity) {
  if (quantity.stage != 0 || quantity.symbol == "w") return nullptr;
  auto const& of = quantity.substance;
  bool const portion = (of.empty() && quantity.word == "aliquot") || is_pipette(of) || of == "aliquot" || of == "portion";
  bool const flask = is_volumetric_flask(of) || of == "solution";
  bool const word = !of.empty() && of[0] >= 'a' && of[0] <= 'z';
  bool const made_up = std::any_of(problem.givens.begin(), problem.givens.end(), [](Given const& g) {
    return g.quantity.symbol == "V" && g.quantity.stage == 2 && g.quantity.word == "aliquot";
  });
  bool const impure = std::any_of(problem.givens.begin(), problem.givens.end(), [&](Given const& g) {
    return g.quantity.symbol == "w" && g.quantity.substance == of && g.quantity.part.empty();
  });
  for (auto const& given : problem.givens) {
    auto const& q = given.quantity;
    if (q.symbol != quantity.symbol) continue;
    if (impure && !word && q == Quantity{"m", 0, "sample", "", ""}) return &given;
    if (portion && q.symbol == "V" && q.word == "aliquot") return &given;
    bool const poured = made_up && q.stage == 1 && (word || q.substance == of);
    if (!portion && q.word.empty() && (flask ? made_up && q.stage == 2 : poured)) return &given;
  }
  return nullptr;
}
}  // namespace

Given const* given_named(Problem const& problem, Quantity const& quantity) {
  for (auto const& given : problem.givens)
    if (given.quantity == quantity) return &given;
  for (auto const& given : problem.givens) {
    auto unnamed = given.quantity;
    unnamed.substance.clear();
    if (unnamed == quantity) return &given;
  }
  for (auto const& given : problem.givens) {  // as its author wrote it, before what was left unsaid was filled in
    auto const& q = given.quantity;
    if (q.symbol != quantity.symbol || q.stage != quantity.stage) continue;
    bool const got = q.substance == quantity.substance && q.word == "actual" && quantity.word.empty();
    bool const of_warmed = q.substance.empty() && q.word == quantity.word;
    bool const water = q.substance == "H2O" && quantity.substance == "water" && q.word == quantity.word;
    bool const word = !quantity.substance.empty() && quantity.substance[0] >= 'a' && quantity.substance[0] <= 'z';
    bool const vessel = q.symbol == "V" && q.substance == "solution" && word && q.word == quantity.word;  // V(tank)
    if (got || of_warmed || water || vessel) return &given;
  }
  return given_before_it_was_read(problem, quantity);
}

Result<Wording> Wording::read(Problem const& problem, Conventions const& conventions, Working const* working) {
  Wording out;
  out.written_ = problem.text;
  std::string before;  // what is written so far, a 0 for each number
  std::string plain_words;
  auto const settle = [&] {  // the author wrote mL, L and mol/L; the course may print others
    if (!plain_words.empty()) out.pieces_.push_back({Piece::Kind::words, in_units_of_course(plain_words, conventions), 0});
    if (!plain_words.empty()) before += out.pieces_.back().words;
    plain_words.clear();
  };
  std::string_view const text = problem.text;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] == '{' && at + 1 < text.size() && text[at + 1] == '{') {
      plain_words += '{';
      ++at;
    } else if (text[at] == '{') {
      auto const close = text.find('}', at);
      if (close == std::string_view::npos) return Fault{"unknown-in-text", "a brace is not closed", "'}'", at};
      auto filled = fill(text.substr(at + 1, close - at - 1), at + 1, problem, conventions, working != nullptr);
      if (!ok(filled)) return fault(filled);
      settle();
      bool const name = text.substr(at + 1, 5) == "name ";
      auto piece = std::move(value(filled));
      if (name && begins_sentence(before)) piece.words = capitalized(std::move(piece.words));
      before += piece.kind == Piece::Kind::words ? piece.words : "0";
      out.pieces_.push_back(std::move(piece));
      at = close;
    } else {
      plain_words += text[at];
    }
  }
  settle();
  return out;
}

std::string Wording::with(Problem const& numbers, Conventions const& conventions, Working const* working) const {
  std::string out;
  for (auto const& piece : pieces_) switch (piece.kind) {
      case Piece::Kind::words:
        out += piece.words;
        break;
      case Piece::Kind::given:
        out += piece.words.empty() ? given_text(numbers.givens[piece.index], conventions)
                                   : readings_text(piece.words, numbers.givens[piece.index], conventions);
        break;
      case Piece::Kind::told:
        out += told_text(*working, piece.index, conventions);
        break;
    }
  return out;
}

Result<std::string> wording(Problem const& problem, Conventions const& conventions, Working const* working) {
  auto const read = Wording::read(problem, conventions, working);
  if (!ok(read)) return fault(read);
  return value(read).with(problem, conventions, working);
}

std::string fingerprint(Conventions const& conventions) {
  std::string out = std::to_string(static_cast<int>(conventions.weights.table));
  for (auto const& [symbol, weight] : conventions.weights.overrides) out += ';' + symbol + '=' + weight.text;
  out += '|' + std::to_string(static_cast<int>(conventions.ties)) + std::to_string(static_cast<int>(conventions.mark)) +
         std::to_string(static_cast<int>(conventions.naming.spelling));
  out += '|' + conventions.concentration_unit + '|' + conventions.volume_unit + '|' + conventions.amount_word;
  if (auto const& volume = conventions.molar_gas_volume) out += '|' + volume->number.text + volume->unit->symbol;
  return out;
}

}  // namespace molewright
