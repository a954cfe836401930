#pragma once
// The kinds of reaction, each asked in turn. Nothing returned: the mixture is none of its business. A Mixing that does not react
// says why not, and a later kind may still know better.
#include <optional>
#include <vector>

#include "engine/mixing_equations.h"
#include "engine/mixing_reagent.h"

namespace molewright::mixing {

/// What a mixture asks for beyond its reagents.
struct Asked {
  std::vector<Formula> wanted;
  Medium medium = Medium::unsaid;
};
using Answer = std::optional<Mixing>;

Answer listed(std::vector<Reagent> const& reagents);  ///< a row of listed_reactions.tsv
/// What concentrated sulfuric or nitric acid does with one other substance; undecided where the table has no row for it.
Answer with_concentrated_acid(std::vector<Reagent> const& reagents);
/// What a row of a table of single reactions makes of the left side that `draft` holds: kind, conditions and what is seen are the
/// row's, and so is the right side of `equation`.
Answer by_row(Draft draft, Equation const& equation, std::string const& kind, std::string const& conditions,
              std::string const& seen);
Answer heated(Reagent const& alone);                                         ///< thermal decomposition
Answer burnt(Reagent const& fuel, Reagent const& oxygen);                    ///< combustion, metals included
Answer with_metal(Reagent const& metal, Reagent const& other);               ///< acid, salt, water, oxide of another metal
Answer with_halogen(Reagent const& halogen, Reagent const& salt);            ///< halogen displacement
Answer complexed(std::vector<Reagent> const& reagents);                      ///< ammonia, excess base, thiosulfate, thiocyanate
Answer neutralised(Reagent const& a, Reagent const& b, Asked const& asked);  ///< acid salts, ammonia, oxides
Answer exchanged(Reagent const& a, Reagent const& b, Asked const& asked);    ///< precipitation, acids, bases, gases
Answer oxidised(std::vector<Reagent> const& reagents, Asked const& asked);   ///< half-reactions

/// What a reagent in excess does to the solids that form: "with much more NaOH the solid Zn(OH)2 dissolves again".
std::vector<std::string> in_excess(Mixing const& mixing, std::vector<Reagent> const& reagents);

/// Whether all that is wanted is among the products.
bool makes(Mixing const& mixing, std::vector<Formula> const& wanted);
/// Redox with the products that are wanted, balanced by half-reactions; the tables are not asked.
Answer by_half_reactions(std::vector<Reagent> const& reagents, Asked const& asked);

/// The best of several drafts: the one that makes what was wanted, or whose numbers were written; else the first that works.
Answer chosen(std::vector<Draft> const& drafts, std::vector<Reagent> const& reagents, Asked const& asked);

}  // namespace molewright::mixing
