#include "engine/quantity.h"

#include <algorithm>
#include <array>
#include <functional>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include "engine/ascii.h"
#include "engine/formula.h"
#include "engine/formula_memo.h"
#include "engine/nomenclature.h"
#include "engine/quantity_words.h"

namespace molewright {
namespace {

struct SymbolRow {
  std::string_view spelling;  ///< as a person may write it
  Symbol symbol;              ///< our spelling
  std::string_view pretty;
  std::string_view unit;  ///< worked in; empty for a pure number
};

// Symbols of the IUPAC Green Book, 3rd ed., 2.10 to 2.13; longest spelling first, so that `Vm` is not V.
constexpr std::array symbols{
    SymbolRow{"K_sp", "Ksp", "Ksp", ""},
    SymbolRow{"V_m", "Vm", "Vm", "L/mol"},
    SymbolRow{"M_r", "M", "M", "g/mol"},
    SymbolRow{"A_r", "M", "M", "g/mol"},
    SymbolRow{"yield", "yield", "yield", "%"},
    SymbolRow{"gamma", "gamma", "γ", "g/L"},
    SymbolRow{"Ksp", "Ksp", "Ksp", ""},
    SymbolRow{"pOH", "pOH", "pOH", ""},
    SymbolRow{"phi", "phi", "φ", ""},
    SymbolRow{"rho", "rho", "ρ", "g/mL"},
    SymbolRow{"γ", "gamma", "γ", "g/L"},
    SymbolRow{"ρ", "rho", "ρ", "g/mL"},
    SymbolRow{"φ", "phi", "φ", ""},
    SymbolRow{"ϕ", "phi", "φ", ""},
    SymbolRow{"pH", "pH", "pH", ""},
    SymbolRow{"Vm", "Vm", "Vm", "L/mol"},
    SymbolRow{"ΔT", "dT", "ΔT", "K"},
    SymbolRow{"ΔH", "dH", "ΔH", "kJ/mol"},
    SymbolRow{"dT", "dT", "ΔT", "K"},
    SymbolRow{"dH", "dH", "ΔH", "kJ/mol"},
    SymbolRow{"cp", "cp", "cp", "J/(g K)"},
    SymbolRow{"C", "C", "C", "kJ/K"},
    SymbolRow{"Q", "Q", "Q", ""},
    SymbolRow{"Mr", "M", "M", "g/mol"},
    SymbolRow{"n", "n", "n", "mol"},
    SymbolRow{"m", "m", "m", "g"},
    SymbolRow{"M", "M", "M", "g/mol"},
    SymbolRow{"N", "N", "N", ""},
    SymbolRow{"V", "V", "V", "L"},
    SymbolRow{"c", "c", "c", "mol/L"},
    SymbolRow{"b", "b", "b", "mol/kg"},
    SymbolRow{"w", "w", "w", ""},
    SymbolRow{"x", "x", "x", ""},
    SymbolRow{"s", "s", "s", "mol/L"},
    SymbolRow{"p", "p", "p", "kPa"},
    SymbolRow{"T", "T", "T", "K"},
    SymbolRow{"q", "q", "q", "kJ"},
    SymbolRow{"DF", "DF", "dilution factor", ""},
    // As some books write them:
    SymbolRow{"χ", "x", "x", ""},
    SymbolRow{"Ar", "M", "M", "g/mol"},
    SymbolRow{"P", "p", "p", "kPa"},
    SymbolRow{"d", "rho", "ρ", "g/mL"},
    SymbolRow{"t", "T", "T", "K"},
};
// Quantities that the working holds but nobody gives: coefficients, atomic weights, by how much two solutions differ.
constexpr std::array inner_symbols{SymbolRow{"nu", "nu", "ν", ""},        SymbolRow{"A", "A", "A", "g/mol"},
                                   SymbolRow{"dc", "dc", "Δc", "mol/L"},  SymbolRow{"dgamma", "dgamma", "Δγ", "g/L"},
                                   SymbolRow{"dw", "dw", "Δw", ""},       SymbolRow{"N_A", "N_A", "N_A", "1/mol"},
                                   SymbolRow{"R", "R", "R", "J/(mol K)"}, SymbolRow{"T0", "T0", "T₀", "K"},
                                   SymbolRow{"Kw", "Kw", "Kw", ""},       SymbolRow{"pKw", "pKw", "pKw", ""}};

SymbolRow const* row_of(Symbol symbol) {
  for (auto const& row : symbols)
    if (row.symbol == symbol) return &row;
  for (auto const& row : inner_symbols)
    if (row.symbol == symbol) return &row;
  return nullptr;
}

/// A substance that stands for none in particular: "solution", "sample", or the unknowns X and Z of a problem.
bool is_placeholder(std::string_view text) {
  if (text == "X" || text == "Z") return true;  // where nothing else tells that a letter stands for something unknown
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return (c >= 'a' && c <= 'z') || c == ' '; });
}

bool ends_with(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

/// Whether a name tells what the formula's own name tells: both have a word in common. Limestone and washing soda are what a
/// sample is called.
bool is_chemical_name(std::string_view text, Identified const& identified) {
  if (text == identified.name) return true;
  bool const abbreviation = std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  if (abbreviation) return true;
  Naming other(Spelling::sulphur);
  other.aluminium = Aluminium::aluminum;
  std::string const all = ' ' + identified.name + ' ' + name_of(identified.formula, other) + ' ';
  for (std::size_t at = 0; at < text.size();) {
    auto const end = std::min(text.size(), text.find(' ', at));
    if (all.find(' ' + std::string(text.substr(at, end - at)) + ' ') != std::string::npos) return true;
    at = end + 1;
  }
  return false;
}

/// The formula that a substance's name stands for: "calcium carbonate", "iron(III) sulfate"; nullptr for "sample", "vinegar",
/// "ore".
std::string const* formula_named(std::string_view text) {
  thread_local std::map<std::string, std::string, std::less<>> known;
  if (auto const found = known.find(text); found != known.end()) return found->second.empty() ? nullptr : &found->second;
  std::string formula;
  bool const of_a_whole = text == "water" || text == "ions" || ends_with(text, "solution") || ends_with(text, "sample") ||
                          ends_with(text, "mixture") || ends_with(text, "crystals") || ends_with(text, "ore") ||
                          ends_with(text, "blende") || ends_with(text, "pyrites");
  if (auto const read = of_a_whole ? Result<Identified>(Fault{}) : identify(text); ok(read))
    if (bool const ion = value(read).formula.find('^') != std::string::npos;  // an oxide is a whole, an oxide ion is not
        is_chemical_name(text, value(read)) && (!ion || ends_with(text, " ion")))
      formula = value(read).formula;
  constexpr std::size_t most = 500;
  if (known.size() >= most) known.clear();
  auto const& kept = known.emplace(std::string(text), formula).first->second;
  return kept.empty() ? nullptr : &kept;
}

constexpr std::string_view unknown_water = "·xH2O";

/// What a sample or a gas that is not known is called.
bool is_called_unknown(std::string_view text) {
  return text == "gas" || text == "unknown gas" || text == "unknown" || text == "unknown acid" || text == "unknown compound";
}

std::optional<Fault> read_substance(std::string_view text, std::size_t offset, std::string_view unknown, std::string& into) {
  auto inner = stripped(text);
  if (inner.substr(0, 4) == "the ") inner = stripped(inner.substr(4));
  if (is_called_unknown(inner)) {
    into = "X";
    return std::nullopt;
  }
  for (std::string_view const impure : {"impure ", "crude "})
    if (inner.substr(0, impure.size()) == impure) {
      into = "sample";
      return std::nullopt;
    }
  // Anhydrous BaCl2 is BaCl2, and hydrated BaCl2 its hydrate.
  for (std::string_view const dry : {"anhydrous ", "hydrated ", "solid ", "pure "}) {
    if (inner.substr(0, dry.size()) != dry) continue;
    auto const rest = stripped(inner.substr(dry.size()));
    auto const formula = known_formula(std::string(rest));
    auto const* const named = formula ? &formula->plain : formula_named(rest);
    if (!named) break;
    into = *named + std::string(dry == "hydrated " ? unknown_water : std::string_view());
    return std::nullopt;
  }
  if (is_placeholder(inner)) {
    auto const* const named = inner.size() > 1 ? formula_named(inner) : nullptr;
    into = named ? *named : std::string(inner);
    return std::nullopt;
  }
  if (auto const salt = salt_of_unknown_hydrate(inner); !salt.empty()) {
    into = salt + std::string(unknown_water);
    return std::nullopt;
  }
  auto const formula = known_formula(std::string(inner));
  if (auto const meant = formula ? abbreviated(formula->formula) : std::nullopt) {
    into = plain(*meant);
    return std::nullopt;
  }
  // KHP, and SODIUM CHLORIDE from a label in capitals.
  bool const capitals =
      inner.size() > 2 && std::all_of(inner.begin(), inner.end(), [](char c) { return (c >= 'A' && c <= 'Z') || c == ' '; });
  if (capitals && !formula) {
    auto const* named = formula_named(inner);
    if (!named) named = formula_named(lowered(inner));
    if (named) {
      into = *named;
      return std::nullopt;
    }
  }
  bool const word = inner.size() > 1 && is_letter(inner[0]) && inner[1] >= 'a' && inner[1] <= 'z';
  if (auto const* const named = word && !formula ? formula_named(lower(inner[0]) + std::string(inner.substr(1))) : nullptr) {
    into = *named;
    return std::nullopt;
  }
  if (formula) {
    into = formula->plain;
    return std::nullopt;
  }
  auto read = parse_formula(inner, unknown);
  if (!ok(read)) {
    Fault found = fault_of_name(fault(read), inner);
    found.offset += offset + static_cast<std::size_t>(inner.data() - text.data());
    return found;
  }
  into = plain(value(read));
  return std::nullopt;
}

/// V(KH2PO4 solution) is the volume of the solution of KH2PO4; its mass and its density are those of a solution.
std::optional<std::string> in_solution(Symbol symbol, std::string_view text, std::string_view unknown) {
  constexpr std::string_view solution = " solution";
  auto const inner = stripped(text);
  if (!ends_with(inner, solution)) return std::nullopt;
  std::string of;
  if (read_substance(inner.substr(0, inner.size() - solution.size()), 0, unknown, of) ||
      (of != "X" && !ok(parse_formula(of, unknown))))
    return std::nullopt;
  return symbol == "m" || symbol == "rho" ? std::string(solution.substr(1)) : of;
}

std::optional<Fault> read_substance_of(Quantity& quantity, std::string_view inside, std::size_t inside_at,
                                       std::string_view unknown) {
  if (auto const vessel = quantity.symbol == "m" && quantity.word.empty() ? in_vessel(inside) : std::nullopt) {
    if (vessel->contents.empty()) {
      quantity.substance = vessel->vessel;
      return std::nullopt;
    }
    quantity.word = with_vessel + vessel->vessel;  // and the contents are read as anything else that is weighed
    auto const contents_at = static_cast<std::size_t>(vessel->contents.data() - inside.data());
    return read_substance_of(quantity, vessel->contents, inside_at + contents_at, unknown);
  }
  if (auto const in = inside.find(" in "); in != std::string_view::npos) {
    if (auto found = read_substance(inside.substr(0, in), inside_at, unknown, quantity.part)) return found;
    return read_substance(inside.substr(in + 4), inside_at + in + 4, unknown, quantity.substance);
  }
  // p(total) is the pressure.
  if (stripped(inside) == "total" && quantity.word.empty()) {
    if (quantity.symbol == "n") quantity.word = "total";
    return std::nullopt;
  }
  if (auto solute = in_solution(quantity.symbol, inside, unknown)) {
    quantity.substance = std::move(*solute);
    return std::nullopt;
  }
  return read_substance(inside, inside_at, unknown, quantity.substance);
}

/// The number of a solution, plain, after a low line or set low: c2, c_2, c₂.
std::optional<Fault> read_stage(std::string_view text, std::size_t& at, Quantity& quantity) {
  constexpr std::string_view low = "\xE2\x82";  // the first bytes of U+2080 and on
  if (at + 1 < text.size() && text[at] == '_' && is_digit(text[at + 1])) ++at;
  while (at < text.size()) {
    bool const set_low = text.substr(at, 2) == low && at + 2 < text.size() && static_cast<unsigned char>(text[at + 2]) >= 0x80 &&
                         static_cast<unsigned char>(text[at + 2]) <= 0x89;
    if (!set_low && !is_digit(text[at])) break;
    if (quantity.stage > 99) return Fault{"not-a-quantity", "the number of a solution is too large", "1 to 99", at};
    quantity.stage = quantity.stage * 10 + (set_low ? static_cast<unsigned char>(text[at + 2]) - 0x80 : text[at] - '0');
    at += set_low ? 3 : 1;
  }
  // M1V1 and C1V1 are written of concentrations.
  if (quantity.stage > 0 && (quantity.symbol == "M" || quantity.symbol == "C")) quantity.symbol = "c";
  return std::nullopt;
}

/// "mass of magnesium oxide", "mass of Fe in Fe2O3": what stands after the name of the quantity, from its " of ".
Result<QuantityRead> read_spelt_out(std::string_view text, std::size_t at, Quantity quantity, std::string_view unknown) {
  constexpr std::string_view of = " of ";
  at += of.size();
  bool const may_have_part = quantity.symbol == "m" || quantity.symbol == "n" || quantity.symbol == "N" || quantity.symbol == "w";
  auto const ahead = substance_ahead(text.substr(at), may_have_part);
  auto const substance = text.substr(at, ahead.length);
  if (auto found = read_substance_of(quantity, substance, at, unknown)) {
    auto const said = with_word_behind(stripped(substance));
    quantity.word = said.word;
    if (said.substance.empty() || read_substance_of(quantity, said.substance, at, unknown)) return *found;
  }
  auto const blanks = static_cast<std::size_t>(substance.end() - stripped(substance).end());
  return QuantityRead{quantity, at + ahead.length - blanks};
}

/// [HCl] is the concentration of HCl.
Result<QuantityRead> read_square_brackets(std::string_view text, std::string_view unknown) {
  Quantity quantity;
  quantity.symbol = "c";
  int depth = 0;
  std::size_t close = 0;
  for (; close < text.size(); ++close) {
    if (text[close] == '[') ++depth;
    if (text[close] == ']' && --depth == 0) break;
  }
  if (close >= text.size()) return Fault{"not-a-quantity", "a bracket is not closed", "']' after the substance", text.size()};
  if (auto found = read_substance(text.substr(1, close - 1), 1, unknown, quantity.substance)) return *found;
  return QuantityRead{quantity, close + 1};
}

/// The comma outside brackets that sets off the word, or npos.
std::size_t outer_comma(std::string_view text) {
  int depth = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '(' || text[i] == '[') ++depth;
    if (text[i] == ')' || text[i] == ']') --depth;
    if (text[i] == ',' && depth == 0) return i;
  }
  return std::string_view::npos;
}

auto tie(Quantity const& q) { return std::tie(q.symbol, q.stage, q.substance, q.word, q.part); }

std::string written(Quantity const& q, bool for_people) {
  if (q.symbol == "DF" && q.stage > 1) return 'V' + std::to_string(q.stage) + "/V" + std::to_string(q.stage - 1);
  if (q.symbol == "DF") return "dilution factor";
  auto const* row = row_of(q.symbol);
  std::string out(row && for_people ? row->pretty : std::string_view(q.symbol));
  if (q.stage > 0) {
    for (char digit : std::to_string(q.stage)) {
      if (for_people)
        out += {'\xE2', '\x82', static_cast<char>('\x80' + (digit - '0'))};  // U+2080 and on
      else
        out += digit;
    }
  }
  if (q.substance.empty() && q.word.empty()) return out;
  out += '(';
  if (!q.part.empty()) out += (for_people ? pretty_formula(q.part) : q.part) + " in ";
  out += for_people ? pretty_formula(q.substance) : q.substance;
  if (!q.word.empty()) out += (q.substance.empty() ? "" : ", ") + q.word;
  return out + ')';
}
}  // namespace

std::string_view vessel_of(Quantity const& quantity) {
  std::string_view const word = quantity.word, with = with_vessel;
  return quantity.symbol == "m" && word.substr(0, with.size()) == with ? word.substr(with.size()) : std::string_view();
}

bool operator==(Quantity const& a, Quantity const& b) {
  return a.symbol == b.symbol && a.stage == b.stage && a.substance == b.substance && a.word == b.word && a.part == b.part;
}
bool operator!=(Quantity const& a, Quantity const& b) { return !(a == b); }
bool operator<(Quantity const& a, Quantity const& b) { return tie(a) < tie(b); }

namespace {
Result<QuantityRead> read_one(std::string_view text, std::string_view unknown) {
  if (!text.empty() && text[0] == '[') return read_square_brackets(text, unknown);
  Quantity quantity;
  std::size_t at = 0;
  if (auto const named = spelt_out(text); named.length > 0) {
    quantity.symbol = named.symbol;
    quantity.word = std::string(named.word);
    at = named.length;
    if (text.substr(at, 4) == " of ") return read_spelt_out(text, at, quantity, unknown);
  } else {
    auto const row = std::find_if(symbols.begin(), symbols.end(),
                                  [&](SymbolRow const& r) { return text.substr(0, r.spelling.size()) == r.spelling; });
    if (row == symbols.end())
      return Fault{"unknown-symbol", "no quantity stands here", "one of n, m, M, N, V, c, gamma, yield ... such as n(NaCl)", 0};
    quantity.symbol = row->symbol;
    at = row->spelling.size();
  }
  if (auto found = read_stage(text, at, quantity)) return *found;
  if (text.substr(at, 4) == " of ") return read_spelt_out(text, at, quantity, unknown);
  if (at < text.size() && is_letter(text[at])) {
    auto const end = std::find_if_not(text.begin(), text.end(), [&](char c) { return is_letter(c) || is_digit(c); });
    return Fault{"unknown-symbol", "unknown quantity " + std::string(text.begin(), end),
                 "one of n, m, M, N, V, c, gamma, yield ... such as n(NaCl)", 0};
  }
  if (at >= text.size() || text[at] != '(') return QuantityRead{quantity, at};

  int depth = 0;
  std::size_t close = at;
  for (; close < text.size(); ++close) {
    if (text[close] == '(') ++depth;
    if (text[close] == ')' && --depth == 0) break;
  }
  if (close >= text.size()) return Fault{"not-a-quantity", "a bracket is not closed", "')' after the substance", text.size()};
  auto inside = text.substr(at + 1, close - at - 1);
  std::size_t const inside_at = at + 1;
  if (auto const comma = outer_comma(inside); comma != std::string_view::npos) {
    auto const written = stripped(inside.substr(comma + 1));
    quantity.word = std::string(usual_word(written));
    if (written.empty() || !(quantity.word.empty() || is_placeholder(quantity.word)))
      return Fault{"not-a-quantity", "a word is wanted after the comma", "a word such as actual, taken, left or added",
                   inside_at + comma + 1};
    inside = inside.substr(0, comma);
  }
  if (quantity.stage > 0 && stripped(inside) == "taken") {  // V2(taken) of the one substance
    quantity.word = "taken";
    return QuantityRead{std::move(quantity), close + 1};
  }
  if (auto found = read_substance_of(quantity, inside, inside_at, unknown)) return *found;
  return QuantityRead{std::move(quantity), close + 1};
}

/// V2/V1 and c1/c2 are how many times a solution was diluted.
bool is_dilution_factor(Quantity const& over, Quantity const& under) {
  if (over.symbol != under.symbol || over.stage == 0 || under.stage == 0) return false;
  bool const concentrations = over.symbol == "c" || over.symbol == "gamma";
  return concentrations ? under.stage == over.stage + 1 : over.symbol == "V" && over.stage == under.stage + 1;
}
}  // namespace

Result<QuantityRead> read_quantity(std::string_view text, std::string_view unknown) {
  auto over = read_one(text, unknown);
  if (!ok(over)) return over;
  // A factor is of a dilution: which substance is diluted says nothing more, and the first is meant where none is counted.
  if (auto& factor = value(over).quantity; factor.symbol == "DF")
    factor = {"DF", factor.stage > 1 ? factor.stage : 0, "", "", ""};
  auto const slash = text.find_first_not_of(' ', value(over).length);
  if (slash == std::string_view::npos || text[slash] != '/') return over;
  auto const at = text.find_first_not_of(' ', slash + 1);
  auto const under = at == std::string_view::npos ? Result<QuantityRead>(Fault{}) : read_one(text.substr(at), unknown);
  if (!ok(under) || !is_dilution_factor(value(over).quantity, value(under).quantity)) return over;
  auto const stage = std::max(value(over).quantity.stage, value(under).quantity.stage);
  return QuantityRead{{"DF", stage, "", "", ""}, at + value(under).length};
}

Result<Quantity> parse_quantity(std::string_view text) {
  auto const inner = stripped(text);
  auto read = read_quantity(inner, unknown_letters);
  std::size_t const shift = static_cast<std::size_t>(inner.data() - text.data());
  if (!ok(read)) {
    Fault found = fault(read);
    found.offset += shift;
    return found;
  }
  if (value(read).length != inner.size())
    return Fault{"not-a-quantity", "something stands after the quantity", "nothing more", shift + value(read).length};
  return value(read).quantity;
}

std::string plain(Quantity const& quantity) { return written(quantity, false); }
std::string pretty(Quantity const& quantity) { return written(quantity, true); }

bool dimension_of(Symbol symbol, Dimension& dimension) {
  auto const* row = row_of(symbol);
  if (!row) return false;
  dimension = working_unit(symbol).dimension;
  return true;
}

bool may_be_below_zero(Symbol symbol) {
  static constexpr std::array<std::string_view, 6> all{"T", "dT", "dH", "q", "pH", "pOH"};
  return std::any_of(all.begin(), all.end(), [&](std::string_view one) { return symbol == one; });
}

Unit const& working_unit(Symbol symbol) {
  // Parsing a unit's text takes longer than a step of a working, so each is read once.
  static auto const units = [] {
    std::vector<std::pair<Symbol, Unit>> made;
    for (auto const& row : symbols) made.push_back({row.symbol, row.unit.empty() ? Unit{} : unit(row.unit)});
    for (auto const& row : inner_symbols) made.push_back({row.symbol, row.unit.empty() ? Unit{} : unit(row.unit)});
    return made;
  }();
  static Unit const pure_number;
  auto const found = std::find_if(units.begin(), units.end(), [&](auto const& one) { return one.first == symbol; });
  return found == units.end() ? pure_number : found->second;
}

std::string salt_of_unknown_hydrate(std::string_view text) {
  constexpr std::string_view water = "H2O";
  auto rest = stripped(text);
  if (!ends_with(rest, water)) return {};
  rest.remove_suffix(water.size());
  rest = stripped(rest);
  if (rest.empty() || (rest.back() != 'x' && rest.back() != 'n')) return {};
  rest.remove_suffix(1);
  rest = stripped(rest);
  for (std::string_view const dot : {"·", "•", ".", "*"}) {
    if (!ends_with(rest, dot)) continue;
    auto const salt = parse_formula(stripped(rest.substr(0, rest.size() - dot.size())));
    return ok(salt) ? plain(value(salt)) : std::string();
  }
  return {};
}

}  // namespace molewright
