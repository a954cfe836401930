#pragma once
// What the mixing of substances says to people: one table, apart from the logic, so that it can be translated.
// {} is filled in order with formulas, ions or rules.
#include <initializer_list>
#include <string>
#include <string_view>

namespace molewright::mixing::words {

/// `sentence` with each {} filled in turn.
inline std::string fill(std::string_view sentence, std::initializer_list<std::string_view> with) {
  std::string result;
  for (auto const text : with) {
    std::size_t const at = sentence.find("{}");
    if (at == std::string_view::npos) break;
    result.append(sentence.substr(0, at)).append(text);
    sentence.remove_prefix(at + 2);
  }
  return result.append(sentence);
}

// Who says whether a salt dissolves, and whether an acid is strong.
constexpr char const* by_table = "the solubility table";
constexpr char const* by_rule = "the rule for {} ({})";
constexpr char const* by_rule_unnamed = "the rule for {} ({}), which does not name {}";
constexpr char const* by_acids = "the table of acids";

// Why something happens.
constexpr char const* solid_forms = "{} does not dissolve, by {}";
constexpr char const* slightly_forms = "{} dissolves only slightly, by {}";
constexpr char const* water_forms = "H^+ of the acid and OH^- or O^2- of the base make water";
constexpr char const* water_from_acid_salt = "{} still has H to give, and the base takes it";
constexpr char const* gas_forms = "acid turns {} into {}";
constexpr char const* weak_acid_forms = "{} is a weak acid: it stays together";
constexpr char const* ammonia_leaves = "a base takes H^+ from NH4^+, and ammonia leaves on warming";
constexpr char const* ammonia_takes = "ammonia is a base: it takes H^+ and becomes NH4^+";
constexpr char const* ammonia_hydroxide = "ammonia makes the solution alkaline, and {} does not dissolve, by {}";
constexpr char const* acid_oxide = "{} is the anhydride of {}";
constexpr char const* oxide_water = "{} turns into its hydroxide in water, by the solubility table";
constexpr char const* by_row = "a reaction that the table of single reactions lists";

// Why nothing happens.
constexpr char const* both_dissolved = "both salts stay dissolved: {} and {} are soluble, by {}";
constexpr char const* both_dissolved_apart = "both salts stay dissolved: {} is soluble by {}, and {} by {}";
constexpr char const* all_dissolved = "everything stays dissolved: {}";
constexpr char const* soluble_by = "{} is soluble by {}";
constexpr char const* strong_by = "{} is a strong acid by {}";
constexpr char const* solid_in_acid = "the solid {} does not dissolve in it: {} would be set free, a strong acid";
constexpr char const* strong_acid_stays = "nothing leaves the solution: {} is a strong acid and {} is soluble, by {}";
constexpr char const* acid_too_weak = "{} is a weaker acid than {}: it cannot drive it out";
constexpr char const* shared_ion = "both hold {}: there is nothing to exchange";
constexpr char const* silent_on = "the tables are silent on {}";
constexpr char const* nitric_oxidises = "nitric acid also oxidises what holds {}: other products form besides";
constexpr char const* partly = "H^+ passes from {} to {} only in part, and the tables are silent on how far";
constexpr char const* silent = "the tables are silent on this mixture";
constexpr char const* silent_concentrated =
    "concentrated {} does other things than the dilute acid, and the tables are silent on what it does with {}";
constexpr char const* silent_alone = "the tables are silent on what {} does on heating";
constexpr char const* stable = "{} does not fall apart at the heat of a Bunsen burner";
constexpr char const* solid_stays = "{} is a solid that does not dissolve, and the tables are silent on exchange with it";
constexpr char const* neutral_oxide = "{} is a neutral oxide: it reacts with no water, acid or base";
constexpr char const* acidic_oxide = "{} is an acidic oxide: it does not react with acids";
constexpr char const* acid_proof = "dilute acids do not dissolve {}";
constexpr char const* ammonium_and_solid_base =
    "dry, an ammonium salt and a base give off ammonia only when they are ground or warmed";
constexpr char const* dry_solids = "two dry solids do not exchange ions: dissolve them first";
constexpr char const* only_dissolves = "{} dissolves in water, by {}; that is no reaction";
constexpr char const* does_not_dissolve = "{} does not dissolve in water, by {}";
constexpr char const* ammonia_no_solid = "ammonia forms no solid with it: {} stays dissolved, by {}";
constexpr char const* ammonia_ammonium = "NH3 and NH4^+ have nothing to exchange";
constexpr char const* two_acids = "two acids have nothing to exchange";
constexpr char const* two_bases = "two bases have nothing to exchange";

// What is seen.
constexpr char const* by_heat = "thermal decomposition";  ///< the kind
constexpr char const* solid_forms_seen = "{} solid forms: ";
constexpr char const* solid_left_seen = "{} solid is left: ";
constexpr char const* solid_goes = "the solid {} dissolves";
constexpr char const* bubbles = "bubbles of ";
constexpr char const* colour_comes = "the solution turns {}";
constexpr char const* colour_goes = "the {} of {} fades";
constexpr char const* colour_turns = "the solution turns from {} to {}";
constexpr char const* only_warm = "nothing but a rise in temperature; an indicator changes colour";
constexpr char const* hydrate_turns = "the {} crystals crumble to a {} powder";
constexpr char const* hydrate_white = "the crystals crumble to a white powder: {}";
constexpr char const* hydrate_crumbles = "the crystals crumble to a powder: {}";
constexpr char const* steam_condenses = "steam leaves and condenses to drops on cooler glass";
constexpr char const* clear_again = "the solution is clear and colourless again";
constexpr char const* milky = "the clear limewater turns milky: fine white CaCO3";
constexpr char const* clears_again = "it clears again";
constexpr char const* first_then_dissolves = "a little {} gives {}, which more of it dissolves";

// What goes with it.
constexpr char const* kept_solid = "{} dissolves in water: (s) is kept as written";
constexpr char const* slightly_itself = "{} dissolves only slightly: {}(aq) is its clear, dilute solution";
constexpr char const* layer = "a layer of {} on the solid may stop the reaction early";
constexpr char const* cold_ammonia = "in the cold the ammonia stays dissolved: NH3(aq)";
constexpr char const* basic_carbonate = "simplified: in practice a basic carbonate precipitates";
constexpr char const* more_dissolves = "with much more {} the solid {} dissolves again, as {}";
constexpr char const* wanted_not_formed = "{} does not form here by the tables";
constexpr char const* not_the_numbers = "the numbers written before the reactants are not those of the equation";

// Metals and halogens.
constexpr char const* metal_above = "{} stands above {} in the activity series";
constexpr char const* metal_below = "{} stands below {} in the activity series, so it cannot displace it";
constexpr char const* below_hydrogen =
    "{} stands below hydrogen in the activity series, so it does not displace hydrogen from acids";
constexpr char const* nitric =
    "nitric acid gives no hydrogen with metals but oxides of nitrogen, of a kind that depends on how concentrated it is: the "
    "tables are silent on them";
constexpr char const* own_salt = "{} is already the metal of the salt";
constexpr char const* reacts_with_water = "{} reacts with the water of the solution first: hydrogen and the hydroxide form";
constexpr char const* metal_coated = "{} covers the metal and does not dissolve: the reaction stops";
constexpr char const* no_water = "{} does not react with water";
constexpr char const* does_not_burn = "{} does not burn, by the activity series table";
constexpr char const* not_in_series = "the activity series does not name the metal of {}";
constexpr char const* close = "the two stand close together in the activity series: the reaction may not go far";
constexpr char const* halogen_above = "{} is a stronger oxidant than {}";
constexpr char const* halogen_below = "{} is a weaker oxidant than {}, so it cannot displace it";
constexpr char const* burns = "in plenty of oxygen ";
constexpr char const* burns_carbon = "carbon leaves as CO2";
constexpr char const* burns_hydrogen = "hydrogen leaves as H2O";
constexpr char const* burns_sulfur = "sulfur leaves as SO2";
constexpr char const* burns_nitrogen = "nitrogen leaves as N2";
constexpr char const* loses_water = "the hydrate loses its water of crystallisation";
constexpr char const* hydrolyses = "{} loses acid along with its water on heating, so that no single equation tells it";
constexpr char const* steam = "the water forms as steam; it is H2O(l) once cool";
constexpr char const* violent = "{} with acid is violent: not done at school";

// Complexes and redox.
constexpr char const* complex_forms = "{} forms the complex ion {} with {}";
constexpr char const* with_excess = "with {} in excess";
constexpr char const* ammine_in_acid = "the acid takes NH3 from {} and makes NH4^+ of it";
constexpr char const* hydroxide_in_acid = "acid takes OH^- from {}, and {} is left";
constexpr char const* more_acid_dissolves = "with more {} the solid {} dissolves again";
constexpr char const* amphoteric = "an amphoteric metal: with an excess of base {} becomes {}";
constexpr char const* not_dissolved_by = "{} does not dissolve in {}: its solubility is too low";
constexpr char const* half_reactions = "half-reactions: {}; {}; the potentials differ by {} V";
constexpr char const* half_reactions_hot =
    "half-reactions: {}; {}; by the standard potentials it would not run, but with hot, concentrated acid it does";
constexpr char const* halves_of_named = "half-reactions: {}; {}";
constexpr char const* products_named = "balanced for the products that were named; no table says whether it runs";
constexpr char const* in_acid = "in acid";
constexpr char const* in_base = "in base";
constexpr char const* acid_assumed = "acid is needed: H^+ stands for what the acid gives";
constexpr char const* base_assumed = "base is needed: OH^- stands for what the base gives";
constexpr char const* potentials_wrong = "{} cannot oxidise {}: its potential is too low ({} V against {} V)";
constexpr char const* close_potentials = "the potentials are close: the reaction may not go far";

}  // namespace molewright::mixing::words
