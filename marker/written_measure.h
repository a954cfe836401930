#pragma once
// A number with what stands behind it in a student's answer: unit, substance, remarks; and what is not one value (a sum, a range,
// two answers).
#include <string>
#include <string_view>

#include "marker/written.h"

namespace molewright {

/// Reads one statement without a sign of equality, such as "about 1.72 g AgCl (3 s.f.)". `text` is UTF-8 without control
/// characters, with signs made even as `read_written` does. The kind is `number`, `words` or `unreadable` (with `why`); `raw` is
/// left empty.
Written read_measure(std::string_view text, DecimalMark mark);

/// Without a remark on figures at the end: "1.72 g (3 s.f.)", "1.72 g to 3 sig. figs". `text` itself where there is none.
std::string_view without_remark(std::string_view text);

/// Without words behind an answer that leave it as it is: "3.5 L, approx" (which sets `approximate`), "2.94 (acidic)". `text`
/// itself where there are none, or others.
std::string_view without_words_behind(std::string_view text, bool& approximate);

/// True where two numbers with their units say the same, within half a unit of the coarser one's last place. Where only one has a
/// unit the numbers are compared. REQUIRES: both are of kind `number`.
bool agree(Written const& a, Written const& b);

/// `note` added once.
void add_note(Written& written, std::string_view note);
/// Kind `unreadable`, with the reason.
Written unreadable(std::string why);

}  // namespace molewright
