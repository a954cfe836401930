#pragma once
// A fault is a value: what is wrong with a piece of text and where. Parsers return it; only app/ prints it.
#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace molewright {

struct Fault {
  std::string id;          ///< stable and short, for scripts: "unknown-element"; never renamed
  std::string what;        ///< "unknown element symbol Xy"; no position in it, no full stop
  std::string expected;    ///< "an element symbol or a bracket"; empty where there is nothing to add
  std::size_t offset = 0;  ///< byte in the parsed text where the reader should look; may be its size
};

/// A value or the fault that stood in its way.
template <class T>
using Result = std::variant<T, Fault>;

template <class T>
bool ok(Result<T> const& result) {
  return result.index() == 0;
}
/// REQUIRES: ok(result).
template <class T>
T const& value(Result<T> const& result) {
  return std::get<0>(result);
}
template <class T>
T& value(Result<T>& result) {
  return std::get<0>(result);
}
/// REQUIRES: !ok(result).
template <class T>
Fault const& fault(Result<T> const& result) {
  return std::get<1>(result);
}

/// A fault in a file: line and column count from 1, the column in code points; `line_text` holds no newline.
struct PlacedFault {
  Fault fault;
  std::size_t line = 0;
  std::size_t column = 0;
  std::string line_text;
};

/// Column as a person counts it: 1 + the code points of `line` before byte `offset`.
std::size_t column(std::string_view line, std::size_t offset);

/// Byte at which `text` stops being UTF-8, or npos. Surrogates, overlong forms and a NUL byte count as faults.
std::size_t first_invalid_utf8(std::string_view text);

/// "what, expected ..." in one line.
std::string sentence(Fault const& fault);

/// `fault` with its line of the file's text, for who knows where a fault stands but not what stands there. A fault without a
/// place is put at the first line.
PlacedFault with_line(PlacedFault fault, std::string_view file_text);

/// "file:line:column: what, expected ..." then the line, then a caret under the column.
/// Tabs are kept in the caret line so that it stays under its character; a long line is cut to 120 code points round the caret,
/// with … where it was cut. Bytes that cannot be printed show as U+FFFD. No newline at the end.
std::string show(PlacedFault const& fault, std::string_view file);

/// The names in `known` nearest to `name` by edit distance (at most a third of its length, at least 1), best first, three at
/// most; equals keep the order of `known`. A swap of neighbours is one edit, a change of case half of one however many letters it
/// is in; where a change of case is all it takes, only such names. Nothing is near a name with which it shares no letter.
std::vector<std::string> nearest(std::string_view name, std::vector<std::string> const& known);
/// The `most` nearest, however far they are; best first.
std::vector<std::string> nearest_of_all(std::string_view name, std::vector<std::string> const& known, std::size_t most);
/// "a, b or c": names of which one is meant.
std::string either(std::vector<std::string> const& names);

}  // namespace molewright
