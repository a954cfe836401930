#pragma once
// The fonts of every printed page, compiled in: whole TrueType files, as the paper library wants them.
#include <string_view>

namespace molewright {

/// DejaVu Serif: the text face. Has sub- and superscripts, arrows and mathematical signs; lacks U+2610 (ballot box) and U+2713
/// (check mark).
std::string_view serif_font();
/// DejaVu Serif Bold, for headings.
std::string_view serif_bold_font();
/// DejaVu Sans: the second face, for characters that the serif lacks.
std::string_view sans_font();

}  // namespace molewright
