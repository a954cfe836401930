#pragma once
// The table of relations: for each its form, its name, when it holds, its terms with the units that they are usually worked in,
// and its source. A form that is used and has no entry here does not compile (`RelationForm`).
// Sections of the Green Book (IUPAC, Quantities, Units and Symbols in Physical Chemistry, 3rd ed.), of the SI Brochure (9th ed.)
// and terms of the Gold Book (IUPAC, Compendium of Chemical Terminology) are cited from memory.
#include <array>

#include "engine/relation.h"
#include "engine/working.h"

namespace molewright {
namespace relation_table {

using A = Applies;
constexpr auto product = Shape::product;
constexpr auto sum = Shape::sum;
constexpr auto other = Shape::other;
constexpr char const* no_source = "common practice, no source";

// Three lines an entry: what it is, when it holds and for what, what it is made of and whence.
// clang-format off
constexpr std::array relations{
    // Of one substance. Definitions first: n, m, M, c, gamma; then gases, parts of a whole, bottles and molalities.
    Relation{"n = m/M", "amount from mass",
     "", A::molar, product,
     {{"n"}, {"m", -1}, {"M"}}, "Green Book, 2.10: M = m/n"},
    Relation{"n = cV", "amount from concentration and volume",
     "", A::dissolved, product,
     {{"n"}, {"c", -1}, {"V", -1, "", Of::solution}}, "Green Book, 2.10: c = n/V"},
    Relation{"N = n N_A", "number of entities from amount",
     "", A::counted, product,
     {{"N"}, {"n", -1}, {"N_A", -1, "", Of::nothing}}, "SI Brochure, 2.2: N_A = 6.02214076e23 /mol exactly"},
    Relation{"gamma = m/V", "mass concentration from mass and volume",
     "", A::dissolved, product,
     {{"gamma"}, {"m", -1}, {"V", 1, "", Of::solution}}, "Green Book, 2.10: gamma = m/V", 11},
    Relation{"gamma = cM", "mass concentration from amount concentration",
     "", A::dissolved_molar, product,
     {{"gamma"}, {"c", -1}, {"M", -1}}, "from c = n/V, gamma = m/V and M = m/n", 11},
    Relation{"rho = m/V", "density of a liquid, a solid or a solution",
     "", A::pure, product,
     {{"rho", 1, "g/mL"}, {"m", -1, "g"}, {"V", 1, "mL"}}, "Green Book, 2.2: rho = m/V"},
    Relation{"pV = nRT", "gas law",
     "the gas is ideal", A::gas, product,
     {{"p"}, {"V"}, {"n", -1}, {"R", -1, "", Of::nothing}, {"T", -1, "", Of::nothing}},
     "Green Book, 2.10: pV = nRT of an ideal gas"},
    Relation{"V = n Vm", "volume of a gas from its molar volume",
     "temperature and pressure are those of the molar volume", A::molar_volume, product,
     {{"V"}, {"n", -1}, {"Vm", -1, "", Of::nothing}}, "Green Book, 2.10: Vm = V/n"},
    Relation{"rho = M/Vm", "density of a gas from its molar volume",
     "temperature and pressure are those of the molar volume", A::gas_density, product,
     {{"rho", 1, "g/L"}, {"M", -1}, {"Vm", 1, "", Of::nothing}}, "from Vm = V/n, M = m/n and rho = m/V"},
    Relation{"rho = pM/(RT)", "density of a gas",
     "the gas is ideal", A::gas_density, product,
     {{"rho", 1, "g/L"}, {"p", -1}, {"M", -1}, {"R", 1, "", Of::nothing}, {"T", 1, "", Of::nothing}},
     "from pV = nRT, M = m/n and rho = m/V"},
    Relation{"p(X) = x p", "partial pressure",
     "the gases are ideal", A::partial_pressure, product,
     {{"p"}, {"x", -1}, {"p", -1, "", Of::whole}}, "Green Book, 2.10: p(B) = x(B) p"},
    Relation{"w = m/m(whole)", "mass fraction",
     "", A::mass_part, product,
     {{"w"}, {"m", -1}, {"m", 1, "", Of::whole}}, "Green Book, 2.10: w = m/sum of m"},
    Relation{"x = n/n(total)", "amount fraction",
     "", A::amount_part, product,
     {{"x"}, {"n", -1}, {"n", 1, "", Of::whole}}, "Green Book, 2.10: x = n/sum of n"},
    Relation{"phi = V/V(whole)", "volume fraction",
     "the volumes are those before mixing", A::volume_part, product,
     {{"phi"}, {"V", -1}, {"V", 1, "", Of::whole}}, "Green Book, 2.10: phi = V/sum of V"},
    Relation{"c = w rho/M", "concentration of a bottled solution",
     "", A::bottle, product,
     {{"c"}, {"w", -1, "", Of::unnumbered}, {"rho", -1, "g/L", Of::whole}, {"M"}},
     "from w = m/m(solution), rho = m(solution)/V, n = m/M and c = n/V", 12},
    Relation{"b = n/m(solvent)", "molality",
     "", A::in_solvent, product,
     {{"b"}, {"n", -1}, {"m", 1, "kg", Of::solvent}}, "Green Book, 2.10: b = n/m of the solvent"},

    // What is done with solutions. Volumes, concentrations and masses of one relation share a unit, whichever the data have.
    Relation{"c1V1 = c2V2", "dilution",
     "", A::several, product,
     {{"c"}, {"V"}, {"V", -1}, {"c", -1}}, "from c = n/V: the amount dissolved stays as it is"},
    Relation{"gamma1V1 = gamma2V2", "dilution, by mass concentration",
     "", A::several, product,
     {{"gamma"}, {"V"}, {"V", -1}, {"gamma", -1}}, "from gamma = m/V: the mass dissolved stays as it is"},
    Relation{"phi1V1 = phi2V2", "dilution, by volume fraction",
     "", A::several, product,
     {{"phi"}, {"V"}, {"V", -1}, {"phi", -1}}, "from phi = V/V(whole): the volume of what is diluted stays as it is"},
    Relation{"dilution factor = V2/V1", "dilution factor from volumes",
     "", A::several, product,
     {{"DF"}, {"V", -1}, {"V"}}, no_source},
    Relation{"dilution factor = c1/c2", "dilution factor from concentrations",
     "", A::several, product,
     {{"DF"}, {"c", -1}, {"c"}}, "from dilution factor = V2/V1 and c1V1 = c2V2"},
    Relation{"V1 = V2 + V(evaporated)", "volume before evaporation",
     "the volumes add up", A::several, sum,
     {{"V"}}, no_source},
    Relation{"V2 = V1 + V(added)", "volume after adding",
     "the volumes add up", A::several, sum,
     {{"V"}}, no_source},
    Relation{"V = V1", "volume of a solution that something is put into",
     "what is put in changes the volume little", A::several, sum,
     {{"V"}}, no_source},
    Relation{"V = V1 + V2", "volume of a mixture",
     "the volumes add up", A::several, sum,
     {{"V"}}, no_source},
    Relation{"n = n1 + n2", "amount in a mixture",
     "", A::several, sum,
     {{"n"}}, "amounts of one substance add up: Green Book, 2.10, n is extensive"},
    Relation{"m = m1 + m2", "mass of a mixture",
     "", A::several, sum,
     {{"m"}}, "masses add up: Green Book, 2.2, m is extensive"},
    Relation{"difference of two solutions", "by how much one solution is stronger than another",
     "", A::several, other,
     {{"c"}, {"gamma"}, {"w"}}, "from V1(c1 - c3) = V2(c3 - c2), of which it is a factor"},
    Relation{"V1(c1 - c3) = V2(c3 - c2)", "mixing ratio of two solutions",
     "the volumes or masses that are mixed add up", A::several, other,
     {{"V"}, {"m"}, {"dc"}, {"dgamma"}, {"dw"}}, "from c = n/V and n = n1 + n2, or w = m/m(whole) and m = m1 + m2"},
    Relation{"n(solution) = n(left)", "what is left, made up to a solution",
     "", A::several, product,
     {{"n"}, {"n", -1}}, "the amount stays as it is: by definition"},

    // A whole and its parts, and what is weighed.
    Relation{"m(reactants) = m(products)", "conservation of mass",
     "", A::several, sum,
     {{"m"}}, "Gold Book: stoichiometry; each side of an equation has the same atoms"},
    Relation{"m(together) = m(vessel) + m(contents)", "weighing with the vessel",
     "", A::several, sum,
     {{"m"}}, "masses add up: Green Book, 2.2, m is extensive"},
    Relation{"m(whole) = sum of m", "mass of a whole from its parts",
     "", A::several, sum,
     {{"m"}}, "masses add up: Green Book, 2.2, m is extensive"},
    Relation{"w(whole) = sum of w", "mass fractions of all parts",
     "", A::several, sum,
     {{"w"}}, "from w = m/m(whole) and m(whole) = sum of m"},
    Relation{"n(total) = sum of n", "amount of a mixture from its parts",
     "", A::several, sum,
     {{"n"}}, "Green Book, 2.10: x = n/sum of n"},
    Relation{"n(part) = nu n(whole)", "amount of a part from its number in the formula",
     "", A::several, product,
     {{"n"}, {"nu", -1}, {"n", -1}}, "Gold Book: stoichiometric; a formula counts its parts"},
    Relation{"w = nu M(part)/M(whole)", "mass fraction of a part in a compound",
     "", A::several, product,
     {{"w"}, {"nu", -1}, {"M", -1}, {"M"}}, "from w = m/m(whole), n = m/M and n(part) = nu n(whole)"},
    Relation{"M = sum of A", "molar mass of a formula with an unknown in it",
     "", A::several, sum,
     {{"M"}}, "Green Book, 2.10: the mass of a formula unit is that of its atoms"},
    Relation{"n(hydrate) = n(salt)", "amount of a hydrate and of its salt",
     "", A::several, product,
     {{"n"}, {"n", -1}}, "from n(part) = nu n(whole), nu = 1"},
    Relation{"n(acid) = n(anion)", "amount of an acid and of its anion",
     "", A::several, product,
     {{"n"}, {"n", -1}}, "from n(part) = nu n(whole), nu = 1"},

    // Reactions.
    Relation{relations::mole_ratio, "amounts in the ratio of the coefficients",
     "", A::several, product,
     {{"n", -1}, {"n"}, {"nu"}, {"nu", -1}}, "Green Book, 2.10: extent of reaction, dn(B) = nu(B) d(xi)"},
    Relation{"mass ratio", "masses in the ratio of coefficient times molar mass",
     "", A::several, product,
     {{"m", -1}, {"m"}, {"nu"}, {"nu", -1}, {"M"}, {"M", -1}}, "from the mole ratio and n = m/M"},
    Relation{"gas volume ratio", "volumes of gases in the ratio of the coefficients",
     "the gases are ideal and at one temperature and pressure", A::several, product,
     {{"V", -1}, {"V"}, {"nu"}, {"nu", -1}}, "from the mole ratio and pV = nRT"},
    Relation{relations::batches, "amount over coefficient",
     "", A::graph, other,
     {{"n"}, {"nu", -1}}, "Green Book, 2.10: extent of reaction, dn(B) = nu(B) d(xi)"},
    Relation{relations::limiting, "limiting reagent",
     "", A::graph, other,
     {{"n"}}, "the reactant with the smallest n/nu ends the reaction: from the extent of reaction, Green Book, 2.10"},
    Relation{relations::from_limiting, "amount from the limiting reagent",
     "", A::several, other,
     {{"n"}}, "from the mole ratio, of the limiting reagent"},
    Relation{"n = sum over the reactions", "amount from several reactions",
     "", A::several, sum,
     {{"n"}}, "Green Book, 2.10: n(B) = n0(B) + sum of nu(B) xi"},
    Relation{"n(left) = n - n(used)", "amount left over",
     "", A::several, sum,
     {{"n"}}, "Green Book, 2.10: n(B) = n0(B) + nu(B) xi"},
    Relation{"V(left) = V - V(used)", "volume of a gas left over",
     "", A::several, sum,
     {{"V"}}, "from n(left) = n - n(used) and the molar volume, the same for all gases"},
    Relation{"yield = actual/theoretical", "percentage yield",
     "", A::several, product,
     {{"yield", 1, "%"}, {"m", -1}, {"m"}}, "Gold Book: yield"},
    Relation{"overall yield = product of yields", "overall yield",
     "", A::several, product,
     {{"yield", 1, "%"}, {"yield", -1, "%"}}, "from yield = actual/theoretical: what one step gives the next one takes"},

    // Gases: one portion in two states, 1 and 2, where what stays as it is drops out; mixtures.
    Relation{"p1V1/T1 = p2V2/T2", "combined gas law",
     "the gas is ideal", A::several, product,
     {{"p"}, {"V"}, {"T", -1}, {"p", -1}, {"V", -1}, {"T"}}, "from pV = nRT, n as it is"},
    Relation{"p1V1 = p2V2", "Boyle's law",
     "the gas is ideal", A::several, product,
     {{"p"}, {"V"}, {"p", -1}, {"V", -1}}, "from pV = nRT, n and T as they are"},
    Relation{"V1/T1 = V2/T2", "Charles's law",
     "the gas is ideal", A::several, product,
     {{"V"}, {"T", -1}, {"V", -1}, {"T"}}, "from pV = nRT, n and p as they are"},
    Relation{"p1/T1 = p2/T2", "Gay-Lussac's law of pressure",
     "the gas is ideal", A::several, product,
     {{"p"}, {"T", -1}, {"p", -1}, {"T"}}, "from pV = nRT, n and V as they are"},
    Relation{"V1/n1 = V2/n2", "Avogadro's law",
     "the gas is ideal", A::several, product,
     {{"V"}, {"n", -1}, {"V", -1}, {"n"}}, "from pV = nRT, p and T as they are"},
    Relation{"p1V1/(n1T1) = p2V2/(n2T2)", "gas law in two states",
     "the gas is ideal", A::several, product,
     {{"p"}, {"V"}, {"n", -1}, {"T", -1}, {"p", -1}, {"V", -1}, {"n"}, {"T"}}, "from pV = nRT"},
    Relation{"p = sum of p(X)", "Dalton's law of partial pressures",
     "the gases are ideal", A::several, sum,
     {{"p"}}, "from p(B) = x(B) p, Green Book, 2.10"},
    Relation{"p(gas) = p - p(H2O)", "pressure of a gas collected over water",
     "the gas is saturated with water vapour", A::several, sum,
     {{"p"}}, "from p = sum of p(X)"},

    // Ions, acidity, solubility.
    Relation{"c(ion) = nu c(salt)", "concentration of an ion from its number in the formula",
     "all that is dissolved is there as ions", A::several, product,
     {{"c"}, {"nu", -1}, {"c", -1}}, "from n(part) = nu n(whole) and c = n/V"},
    Relation{"pX = -lg c(X)", "pH and pOH",
     "the solution is dilute", A::several, other,
     {{"c"}, {"pH"}, {"pOH"}}, "Green Book, 2.13.1: pH = -lg a(H+)"},
    Relation{"pH + pOH = pKw", "pH and pOH of water",
     "the temperature is 25 °C", A::several, sum,
     {{"pH"}, {"pOH"}, {"pKw"}}, "from c(H^+) c(OH^-) = Kw"},
    Relation{"c(H^+) c(OH^-) = Kw", "ion product of water",
     "the temperature is 25 °C", A::several, other,
     {{"c"}, {"Kw"}}, "Gold Book: autoprotolysis constant"},
    Relation{"pH of a neutral solution", "pH of a neutral solution",
     "the temperature is 25 °C", A::several, other,
     {{"n"}}, "from c(H^+) c(OH^-) = Kw, both the same"},
    Relation{"Ksp = product of c^nu", "solubility product",
     "the solution is saturated and dilute", A::several, other,
     {{"Ksp"}, {"c"}}, "Gold Book: solubility product"},
    Relation{"Q = product of c^nu", "ion product",
     "the solution is dilute", A::several, other,
     {{"Q"}, {"c"}}, "Gold Book: reaction quotient; of a solid that dissolves"},
    Relation{"c(ion) = nu s", "concentration of an ion from the solubility",
     "the ions come from this solid alone", A::several, product,
     {{"c"}, {"nu", -1}, {"s", -1}}, "from n(part) = nu n(whole) and c = n/V"},
    Relation{"Ksp = product of (nu s)^nu", "solubility and solubility product",
     "the ions come from this solid alone", A::several, other,
     {{"Ksp"}, {"s"}}, "from Ksp = product of c^nu and c(ion) = nu s"},

    // Heat.
    Relation{"dT = T2 - T1", "change of temperature",
     "", A::several, sum,
     {{"dT"}, {"T"}}, "Green Book, 2.11: a change is the final state less the initial one"},
    Relation{"q = m cp dT", "heat from a change of temperature",
     "no heat is lost to the surroundings", A::several, product,
     {{"q", 1, "J"}, {"m", -1}, {"cp", -1}, {"dT", -1}}, "Green Book, 2.11: heat capacity, Cp = (dH/dT) at constant p"},
    Relation{"q = C dT", "heat from the heat capacity of a calorimeter",
     "no heat is lost to the surroundings", A::several, product,
     {{"q", 1, "kJ"}, {"C", -1}, {"dT", -1}}, "Green Book, 2.11: heat capacity, C = dq/dT"},
    Relation{"dH = -q/n", "enthalpy change for one mole, from the heat that is given off",
     "the pressure is constant, or the work that gases do is small beside the heat", A::several, product,
     {{"dH"}, {"q", -1, "kJ"}, {"n"}}, "Green Book, 2.11: dH = q at constant p, molar"},
    Relation{"dH = q/n", "enthalpy change for one mole",
     "the pressure is constant, or the work that gases do is small beside the heat", A::several, product,
     {{"dH"}, {"q", -1, "kJ"}, {"n"}}, "Green Book, 2.11: dH = q at constant p, molar"},
    Relation{"dH = -q nu/n", "enthalpy of the reaction as written, from the heat that is given off",
     "the pressure is constant, or the work that gases do is small beside the heat", A::several, product,
     {{"dH"}, {"q", -1, "kJ"}, {"nu", -1}, {"n"}}, "Green Book, 2.11: dH = q at constant p, for one mole of reaction"},
    Relation{"dH = q nu/n", "enthalpy of the reaction as written",
     "the pressure is constant, or the work that gases do is small beside the heat", A::several, product,
     {{"dH"}, {"q", -1, "kJ"}, {"nu", -1}, {"n"}}, "Green Book, 2.11: dH = q at constant p, for one mole of reaction"},

    // What is read, and what stands in a table.
    Relation{relations::given, "as the question states it", "", A::graph, other, {}, "the question"},
    Relation{relations::reading, "a reading", "", A::graph, other, {}, "the question"},
    Relation{relations::difference, "difference of two readings", "", A::graph, sum, {}, no_source},
    Relation{relations::titre, "titre from two readings of the burette", "", A::graph, sum, {{"V"}}, no_source},
    Relation{relations::mean, "mean of the readings that agree", "", A::graph, sum, {}, no_source},
    Relation{relations::convert, "change of unit", "", A::graph, other, {}, "SI Brochure, 2 and 4; engine/data/units.tsv"},
    Relation{relations::atomic_weight, "atomic weight", "", A::graph, other, {{"A"}}, "the course's table of atomic weights"},
    Relation{relations::group_mass, "molar mass of a group", "", A::graph, sum, {{"M"}, {"A"}},
     "Green Book, 2.10: the mass of a formula unit is that of its atoms"},
    Relation{relations::molar_mass, "molar mass from atomic weights", "", A::graph, sum, {{"M"}, {"A"}},
     "Green Book, 2.10: the mass of a formula unit is that of its atoms"},
    Relation{relations::coefficient, "coefficient of the balanced equation", "", A::graph, other, {{"nu"}},
     "Green Book, 2.10: nu(B)"},
    Relation{relations::count, "number in the formula", "", A::graph, other, {{"nu"}}, "the formula"},
    Relation{relations::table_value, "constant", "", A::graph, other, {}, "see constant_of"},
    Relation{relations::course_value, "value of the course", "", A::graph, other, {{"Vm"}}, "the course file"},
    Relation{relations::basis, "a round amount to work with", "", A::graph, other, {}, no_source},
    Relation{relations::density_of_water, "density of a very dilute solution",
     "so little is dissolved that the solution is as dense as water", A::graph, other, {{"rho"}}, no_source},
    Relation{"rounding", "rounding to the figures that are due", "", A::graph, other, {}, "ASTM E29; NIST SP 811, B.7"},

    // Formulas from data.
    Relation{relations::given_formula, "empirical formula of the question", "", A::graph, other, {}, "the question"},
    Relation{relations::empirical_formula, "empirical formula", "", A::graph, other, {{"n"}}, "Gold Book: empirical formula"},
    Relation{relations::molecular_formula, "molecular formula", "", A::graph, other, {{"M"}}, "Gold Book: molecular formula"},
    Relation{relations::hydrate_formula, "formula of a hydrate", "", A::graph, other, {{"n"}},
     "Gold Book: empirical formula; Red Book, 2005"},

    // What is stated and not worked out.
    Relation{relations::skeleton, "equation without numbers", "", A::graph, other, {}, no_source},
    Relation{relations::balanced_equation, "balanced equation", "", A::graph, other, {}, "Gold Book: chemical reaction equation"},
    Relation{relations::full_ionic, "full ionic equation", "", A::graph, other, {}, no_source},
    Relation{relations::spectators, "spectator ions", "", A::graph, other, {}, no_source},
    Relation{relations::net_ionic, "net ionic equation", "", A::graph, other, {}, no_source},
    Relation{relations::ion, "an ion and its name", "", A::graph, other, {}, "Red Book, 2005; engine/data/ions.tsv"},
    Relation{relations::crystal_water, "water of crystallisation", "", A::graph, other, {}, "Red Book, 2005"},
    Relation{relations::name, "name of a formula", "", A::graph, other, {}, "Red Book, 2005"},
    Relation{relations::formula, "formula of a name", "", A::graph, other, {}, "Red Book, 2005"},
    Relation{relations::in_water, "solubility in water", "", A::graph, other, {}, "engine/data/solubility.tsv"},
    Relation{relations::precipitate, "precipitate", "", A::graph, other, {}, "engine/data/solubility.tsv"},
    Relation{relations::on_mixing, "what a reagent does", "", A::graph, other, {}, "engine/data/solubility.tsv"},
    Relation{relations::reagent, "choice of reagent", "", A::graph, other, {}, "engine/data/solubility.tsv"},
};
// clang-format on

constexpr Relation const* find(std::string_view form) {
  for (auto const& relation : relations)
    if (relation.form == form) return &relation;
  return nullptr;
}
constexpr bool is_of_a_substance(Relation const& relation) {
  return relation.applies != Applies::several && relation.applies != Applies::graph;
}
constexpr std::size_t of_a_substance =
    static_cast<std::size_t>(std::count_if(relations.begin(), relations.end(), is_of_a_substance));
static_assert(std::all_of(relations.begin(), relations.begin() + of_a_substance, is_of_a_substance), "they stand first");
static_assert(std::none_of(relations.begin(), relations.end(),
                           [](Relation const& r) { return r.name.empty() || r.source.empty(); }));
static_assert(std::all_of(relations.begin(), relations.end(), [](Relation const& r) { return find(r.form) == &r; }), "once each");

}  // namespace relation_table

/// The form of a relation of the table, "c1V1 = c2V2". One without an entry does not compile.
class RelationForm {
 public:
  consteval RelationForm(char const* form) : entry_(relation_table::find(form)) {  // NOLINT: it reads as the text that it is
    if (entry_ == nullptr) throw "a form without an entry in the table of relations";
  }
  constexpr Relation const& entry() const { return *entry_; }
  constexpr std::string_view text() const { return entry_->form; }
  friend constexpr bool operator==(std::string_view text, RelationForm form) { return text == form.text(); }

 private:
  Relation const* entry_;
};

}  // namespace molewright
