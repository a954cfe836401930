#pragma once
// The choices of a course that bear on the numbers and on how they are printed.
#include <optional>
#include <string>

#include "engine/decimal.h"
#include "engine/element.h"
#include "engine/measured.h"
#include "engine/substance.h"

namespace molewright {

struct Conventions {
  AtomicWeights weights;
  Ties ties = Ties::half_up;
  DecimalMark mark = DecimalMark::point;
  Naming naming;                             ///< words only
  std::string concentration_unit = "mol/L";  ///< any spelling of mol/L or mol/dm3: how amount concentrations are printed
  std::string volume_unit = "mL";            ///< "mL" or "cm3"; litres follow it (L or dm3)
  std::string amount_word = "amount";        ///< or "number of moles"
  std::optional<Measured> molar_gas_volume;  ///< of any gas, with its unit, for problems that state neither Vm nor p and T
};

/// A line that changes whenever a convention changes a number or a printed text: part of a question code's check. Which of two
/// names of the trade is printed, the spelling of sulfur apart, changes no code: the question is the same.
std::string fingerprint(Conventions const& conventions);

}  // namespace molewright
