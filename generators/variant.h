#pragma once
// Variants of a teacher's own problem: a plain problem, numbers and all, becomes a template.
#include <string>

#include "engine/fault.h"
#include "engine/problem.h"
#include "generators/template.h"

namespace molewright {

/// What a variant may change: the numbers, or the substances too, for others with the same stoichiometry (see siblings.h).
enum class Vary { numbers, chemistry };

/// The problem as a template's text, named `name`. Each given becomes a choice round its value with the same digits, kept on the
/// apparatus: what a flask or a pipette holds goes over flasks or pipettes; a mass over a range at the balance's digits; a
/// concentration over steps within the school's limit; a titre over 15 to 30 mL; a fraction or a yield within its bounds;
/// readings of a mean stay as far apart as they were, but titres with both readings, or with a discordant one, are drawn anew; of
/// a difference the first reading moves. Temperatures, pressures, densities and constants stay. Numbers that stand in the text
/// become those of the data; a problem without a text gets a plain one. Faults: "variant-would-lie" (a number in the text that is
/// like the data but not of them), "no-find", and with the chemistry "cannot-move". Their `offset` is in the problem's text.
Result<std::string> variant_text(Problem const& problem, std::string const& name, Vary vary = Vary::numbers);

/// The template of that text. A name that others have, in full or in a code, is not checked here. Faults as variant_text's and
/// parse_template's.
Result<Template> variant_of(Problem const& problem, std::string const& name, Vary vary = Vary::numbers);

}  // namespace molewright
