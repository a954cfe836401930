// Published solubility products (tests/data/ksp.tsv): their negative logarithms, and the solubilities that the solver works from
// them, against the closed form s = (Ksp / (a^a b^b ...))^(1/(a + b + ...)) worked here in long double.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

#include "engine/formula.h"
#include "engine/lists.h"
#include "engine/logarithm.h"
#include "engine/mixing.h"
#include "engine/salt.h"
#include "engine/substance.h"
#include "tests/engine/problem_text.h"
#include "tests/engine/table_file.h"

using namespace molewright;

namespace {

/// "3 Ba^2+ + 2 PO4^3-" -> Ba^2+: 3, PO4^3-: 2.
std::map<std::string, std::int64_t> ions_in(std::string text) {
  std::map<std::string, std::int64_t> ions;
  for (std::size_t end = 0; end != std::string::npos;) {
    end = text.find(" + ");
    auto term = text.substr(0, end);
    auto const blank = term.find(' ');
    auto const count = blank == std::string::npos ? 1 : std::stoll(term.substr(0, blank));
    if (blank != std::string::npos) term.erase(0, blank + 1);
    if (!term.empty()) ions[term] += count;
    if (end != std::string::npos) text.erase(0, end + 3);
  }
  return ions;
}

/// Each ion by its atoms and charge: sources and the ion table bracket complexes differently (PtCl6^2-, [PtCl6]^2-).
std::map<std::string, std::int64_t> spelled_alike(std::map<std::string, std::int64_t> const& ions) {
  std::map<std::string, std::int64_t> alike;
  for (auto const& [ion, count] : ions) {
    auto const read = parse_formula(ion);
    REQUIRE(ok(read));
    std::string key;
    for (auto const& [element, atoms] : value(read).composition()) key += element + std::to_string(atoms) + ' ';
    alike[key + std::to_string(value(read).charge)] += count;
  }
  return alike;
}

/// a^a b^b ..., and a + b + ...
struct Counts {
  Rational factor{1};
  int all = 0;
};
Counts counts_of(std::map<std::string, std::int64_t> const& ions) {
  Counts counts;
  for (auto const& [ion, count] : ions) {
    counts.factor *= Rational(count).power(static_cast<int>(count));
    counts.all += static_cast<int>(count);
  }
  return counts;
}

/// The number in long double, through its digits.
long double real(Rational const& number) { return std::strtold(unrounded(number, 25).c_str(), nullptr); }

}  // namespace

TEST_CASE("solubility products: pKsp is the negative logarithm at the printed places", "[outside][ksp]") {
  test::TableFile const file("ksp.tsv");
  REQUIRE(file.table.size() == 231);
  for (std::size_t r = 0; r < file.table.size(); ++r) {
    CAPTURE(file.cell(r, "formula"), file.cell(r, "Ksp"), file.cell(r, "source"));
    auto const product = parse_decimal(file.cell(r, "Ksp"));
    auto const printed = parse_decimal(file.cell(r, "pKsp"));
    REQUIRE(ok(product));
    REQUIRE(ok(printed));
    CHECK(round_to_place(-log10_of(value(product).value), value(printed).last_place, Rounding::half_up) == value(printed).value);
  }
}

TEST_CASE("solubility products: the ions of a solid are those that its formula and their charges leave", "[outside][ksp]") {
  test::TableFile const file("ksp.tsv");
  std::set<std::string> silent;
  for (std::size_t r = 0; r < file.table.size(); ++r) {
    auto const formula = file.cell(r, "formula");
    auto const expected = ions_in(file.cell(r, "ions"));
    if (expected.empty()) continue;  // said in its note
    std::map<std::string, std::int64_t> ours;
    for (auto const& ion : ions_of(formula)) ours[ion.ion] = ion.count;
    CAPTURE(formula);
    if (ours.empty())
      silent.insert(formula);
    else
      CHECK(spelled_alike(ours) == spelled_alike(expected));
  }
  CHECK(silent == std::set<std::string>{});
}

TEST_CASE("solubility products: solubility from the product, and back, agree with the closed form", "[outside][ksp][solver]") {
  test::TableFile const file("ksp.tsv");
  int worked = 0;
  for (std::size_t r = 0; r < file.table.size(); ++r) {
    auto const formula = file.cell(r, "formula"), product = file.cell(r, "Ksp"), written = file.cell(r, "ions");
    auto const ions = ions_in(written);
    if (ions.empty()) continue;
    ++worked;
    CAPTURE(formula, product, file.cell(r, "source"));
    auto const counts = counts_of(ions);
    // With the ions that the program knows by itself, and with those that the problem's own equation says.
    std::vector<std::string> ways{"reaction " + formula + " -> " + written + '\n'};
    if (formula.find("·") != std::string::npos) ways.clear();  // such an equation sets water free as well
    if (!ions_of(formula).empty()) ways.push_back("");
    for (auto const& way : ways) {
      CAPTURE(way);
      auto const solved = test::solved(way + "given Ksp(" + formula + ") = " + product + "\nfind s(" + formula + ")\n");
      auto const& s = test::answer_node(solved.accepted.front()).value;
      REQUIRE(s.unit == unit("mol/L"));
      long double const closed =
          std::pow(std::strtold(product.c_str(), nullptr) / real(counts.factor), 1.0L / static_cast<long double>(counts.all));
      CHECK(std::fabs(real(s.number) / closed - 1) < 1e-14L);
      auto const figures = value(parse_decimal(product)).figures;
      CHECK(solved.accepted.front().finds.front().figures == figures);

      auto const printed = solved.accepted.front().finds.front().text;
      auto const back = test::solved(way + "given s(" + formula + ") = " + printed + " mol/L\nfind Ksp(" + formula + ")\n");
      CHECK(test::answer_node(back.accepted.front()).value.number ==
            counts.factor * value(parse_decimal(printed)).value.power(counts.all));
    }
  }
  CHECK(worked == 227);  // all rows but the four whose note says why not
}

namespace {

NamedIon const* named_ion(std::string const& formula) {
  for (auto const& ion : named_ions())
    if (ion.formula == formula) return &ion;
  return nullptr;
}

/// "Ba(NO3)2 + Na2SO4": the cation's nitrate with the anion's sodium salt, all of which dissolve.
std::string soluble_pair(NamedIon const& cation, NamedIon const& anion) {
  return salt_formula(cation, *named_ion("NO3^-")) + " + " + salt_formula(*named_ion("Na^+"), anion);
}

}  // namespace

TEST_CASE("solubility products: what is listed as slightly soluble falls out on mixing, or is called borderline",
          "[outside][ksp][mixing]") {
  // Rightly soluble, though they have a product: it is large.
  std::vector<std::string> const dissolve{"Ba(OH)2·8H2O", "CdF2"};
  // No solutions can be mixed: the ion is in water another one, or all three ions must meet, or the nitrate is the salt itself.
  std::vector<std::string> const not_mixed{"Sn(OH)4", "MgNH4PO4", "Ba(NO3)2"};
  test::TableFile const file("ksp.tsv");
  int asked = 0;
  for (std::size_t r = 0; r < file.table.size(); ++r) {
    auto const formula = file.cell(r, "formula");
    auto const counts = ions_of(formula);
    if (ions_in(file.cell(r, "ions")).empty() || counts.size() != 2 || contains(not_mixed, formula)) continue;
    auto const* const cation = named_ion(counts[0].ion);
    auto const* const anion = named_ion(counts[1].ion);
    REQUIRE(cation != nullptr);
    REQUIRE(anion != nullptr);
    auto const pair = soluble_pair(*cation, *anion);
    CAPTURE(formula, file.cell(r, "Ksp"), pair);
    auto const mixture = read_mixture(pair);
    REQUIRE(ok(mixture));
    auto const mixing = mix(value(mixture));
    REQUIRE(ok(mixing));
    CAPTURE(value(mixing).because);
    ++asked;
    CHECK(value(mixing).decided);
    bool const falls_out = value(mixing).reacts && value(mixing).kind.find("precipitation") != std::string::npos;
    CHECK((falls_out || value(mixing).borderline) == !contains(dissolve, formula));
  }
  CHECK(asked > 210);
}
