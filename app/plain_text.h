#pragma once
// Text for other programs: what people read with raised and lowered digits, in the plain spelling.
#include <string>
#include <string_view>

namespace molewright {

/// "Ba²⁺ + 2Cl⁻" -> "Ba^2+ + 2Cl^-", "CuSO₄·5H₂O" -> "CuSO4·5H2O", "10⁻³" -> "10^-3", "dm³" -> "dm^3"; a no-break space becomes a
/// blank. All else stays.
std::string plain_text(std::string_view text);

}  // namespace molewright
