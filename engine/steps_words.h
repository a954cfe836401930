#pragma once
// Every sentence of a printed working, in one table: patterns for fmt, so that they can be translated.
namespace molewright::words {

inline constexpr char const* equation_step = "{} = {} = {} = {}";  // n(X) = c × V = numbers = result
inline constexpr char const* short_step = "{} = {} = {}";          // V(X) = 40.0 mL = 0.0400 L
inline constexpr char const* titre_step = "{} {}: {} = {}";        // Titre 2: 24.65 mL − 1.20 mL = 23.45 mL
inline constexpr char const* rough_left_out = "The rough one is left out. ";
inline constexpr char const* titre_left_out = "{} {} ({}) is {} from the nearest of the others: it is left out. ";
inline constexpr char const* look_up_step = "{} = {}";               // M(Cu) = 63.546 g/mol
inline constexpr char const* batches_step = "{} / ν({}) = {} = {}";  // n(X) / ν(X) = 0.00600 mol / 2 = 0.00300 mol
inline constexpr char const* batches_symbols = "{} / ν({})";
inline constexpr char const* logarithm_symbols = "{} {}";  // −lg c(H⁺)
inline constexpr char const* exponential_symbols = "10^({}{})";
inline constexpr char const* limiting_step = "The limiting reagent is {}: of {}, {} is the smallest.";
inline constexpr char const* limiting_of_two_step = "The limiting reagent is {}: of {}, {} is the smaller.";
inline constexpr char const* tie_step = "{} are used up together: n/ν is {} for each, so no one reagent limits.";
inline constexpr char const* found_before = "From {}: the {} is {}.";  // From (a): the limiting reagent is Al.
inline constexpr char const* tie_before = "From {}: {}";
inline constexpr char const* all_used = "{} = {} = {}: all of the limiting reagent is used.";
inline constexpr char const* acid_of_salt_step = "{} = {} = {}: each {} is there as one {}.";
inline constexpr char const* ion_of_element_step = "{} = {} = {}: each {} gives one {}.";  // each Fe gives one Fe2+
inline constexpr char const* hydrate_step = "{} = {} = {}: each formula unit of {} holds one of {}.";
inline constexpr char const* logarithm_step = "{0} = {1} {2} = {1} {3} = {4}";  // pH = −lg c(H⁺) = −lg 0.0012 = 2.92
inline constexpr char const* exponential_step =
    "{0} = 10^({1}{2}) = 10^({1}{3}) = {4}";  // c(H⁺) = 10^(−pH) = 10^(−6.52) = 3.0e-7 mol/L
inline constexpr char const* basis_step = "Take {} = {}: the result is the same for any amount.";
inline constexpr char const* density_of_water_step = "{} = {}: with so little in it, the water is as dense as without.";
inline constexpr char const* course_value_step = "{} = {}: the molar volume of a gas in this course.";
inline constexpr char const* neutral_step = "{} = {}: acid and base have used each other up, and the salt is neutral.";
inline constexpr char const* proportion_step = "{} = {} = {}, in whole numbers {}, so the {} is {}.";
inline constexpr char const* multiple_step =
    "One {} has the molar mass {}; {} / {} is {} in whole numbers, so the molecular formula is {}.";
inline constexpr char const* with_units = "{} [{}]";                            // a step, then what becomes of its units
inline constexpr char const* in_reaction = "{} (coefficients of reaction {})";  // where there are several
inline constexpr char const* solubility_step = "{}; {}";                        // Ksp = s × (2s)² = 4s³; s(PbI₂) = ...
inline constexpr char const* solubility_law = "Ksp = {} = {}s{}";
inline constexpr char const* one_cancels = "{} = {}: {} cancels";
inline constexpr char const* several_cancel = "{} = {}: {} cancel";
inline constexpr char const* same_units = ", and {} = {}";  // kPa × L = J
inline constexpr char const* square_root = "√({})";
inline constexpr char const* cube_root = "∛({})";
inline constexpr char const* other_root = "({})^(1/{})";
inline constexpr char const* and_word = " and ";
inline constexpr char const* hundred_per_cent = "100 %";
inline constexpr char const* per_cent = "%";
inline constexpr char const* under_condition = "{}, provided that {}";  // a step, then when its relation holds
inline constexpr char const* sentence_under_condition = "{} That holds where {}.";
inline constexpr char const* rounded_to = "{}   ({} {}{})";  // m(AgCl) = 1.72 g   (3 figures)
inline constexpr char const* figure = "figure";
inline constexpr char const* decimal_place = "decimal place";
inline constexpr char const* plural = "s";
inline constexpr char const* line_at_fault = "line {}";
inline constexpr char const* part = "({})";

// What is stated. What dissolves, and what does not, is said so in the working itself.
inline constexpr char const* soluble = "soluble";
inline constexpr char const* insoluble = "insoluble";
inline constexpr char const* skeleton_step = "The formulas, each side: {}.";
inline constexpr char const* balanced_step = "With numbers before the formulas, so that each side has {1}: {0}.";
inline constexpr char const* balanced_already_step = "It balances as it stands, each side with {1}: {0}.";
inline constexpr char const* atoms_each_side = "{} {}";  // Fe 4
inline constexpr char const* charge_each_side = "charge {}";
inline constexpr char const* full_ionic_step = "With what is dissolved written as ions: {}.";
inline constexpr char const* spectators_step = "On both sides stand, unchanged: {}.";
inline constexpr char const* net_ionic_step = "What is left, in the smallest whole numbers: {}.";
inline constexpr char const* nothing_happens_step = "Nothing happens: every ion stays in the solution.";
inline constexpr char const* ion_step = "{} is the {}.";  // Fe3+ is the iron(III) ion
inline constexpr char const* crystal_water_step = "{} molecules of water of crystallisation: {}.";
inline constexpr char const* one_crystal_water_step = "1 molecule of water of crystallisation: {}.";
inline constexpr char const* name_step = "The name of {} is {}.";
inline constexpr char const* formula_step = "The formula of {} is {}.";
inline constexpr char const* charges_step = "The charges add up to zero: {} = 0.";
inline constexpr char const* soluble_step = "{} stays dissolved.";
inline constexpr char const* insoluble_step = "{} does not dissolve.";
inline constexpr char const* precipitate_step = "The precipitate is {}.";
inline constexpr char const* no_precipitate_step = "No precipitate forms.";
inline constexpr char const* solid_on_mixing_step = "{} with {}: a precipitate of {}.";
inline constexpr char const* no_solid_on_mixing_step = "{} with {}: no precipitate.";
inline constexpr char const* name_label = "name of {}";
inline constexpr char const* formula_label = "formula of {}";
inline constexpr char const* reagent_label = "reagent";
inline constexpr char const* reagent_step = "The reagent is {}.";

}  // namespace molewright::words
