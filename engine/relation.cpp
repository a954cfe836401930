#include "engine/relation.h"

namespace molewright {

std::vector<Relation> const& relations_of_a_substance() {
  // Definitions: IUPAC Green Book, 3rd ed., 2.10 (amount, molar mass, concentrations); Avogadro constant: SI Brochure, 9th
  // ed., 2.2.
  static std::vector<Relation> const table{
      {"n = m/M", "amount from mass", {{"n", 1}, {"m", -1}, {"M", 1}}, 10, "Green Book, 3rd ed., 2.10: M = m/n"},
      {"n = cV",
       "amount from concentration and volume",
       {{"n", 1}, {"c", -1}, {"V", -1}},
       10,
       "Green Book, 3rd ed., 2.10: c = n/V"},
      {"N = n N_A",
       "number of entities from amount",
       {{"N", 1}, {"n", -1}, {"N_A", -1}},
       10,
       "SI Brochure, 9th ed., 2.2: N_A = 6.02214076e23 /mol exactly"},
      {"gamma = m/V",
       "mass concentration from mass and volume",
       {{"gamma", 1}, {"m", -1}, {"V", 1}},
       11,
       "Green Book, 3rd ed., 2.10: gamma = m/V"},
      {"gamma = cM",
       "mass concentration from amount concentration",
       {{"gamma", 1}, {"c", -1}, {"M", -1}},
       11,
       "from c = n/V, gamma = m/V and M = m/n"},
  };
  return table;
}

}  // namespace molewright
