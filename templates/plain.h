#pragma once
// Plain text, 80 columns wide, for terminals and screen readers.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace molewright::paper {

inline constexpr std::size_t plain_width = 80;

/// `text` wrapped; the first line begins with `lead`, the others with blanks up to `hanging` columns. Ends in a newline.
std::string plain_paragraph(std::string_view text, std::string_view lead = "", std::size_t hanging = 0);
/// A heading with a rule of `sign` below it, as long as the heading.
std::string plain_heading(std::string_view text, char sign = '=');
/// `left` and, at the right edge, `right`; below each other where a line does not hold both.
std::string plain_sides(std::string_view left, std::string_view right);
/// A table: head, rule, rows; columns as wide as their contents where 80 columns hold them, else the widest wrap.
/// Columns named in `to_the_right` (from 0) are set to the right. Where the columns are too many, the table is given in bands,
/// each with the first column again.
std::string plain_table(std::vector<std::string> const& head, std::vector<std::vector<std::string>> const& rows,
                        std::vector<std::size_t> const& to_the_right = {});

}  // namespace molewright::paper
