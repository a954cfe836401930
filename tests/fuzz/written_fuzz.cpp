// Any bytes as a cell of the answers file: always one of the kinds, with what that kind needs, and text that can be printed.
#include "engine/fault.h"
#include "marker/written.h"
#include "marker/written_measure.h"
#include "tests/fuzz/check.h"

using namespace molewright;

namespace {

void check(std::string_view text, DecimalMark mark) {
  auto const read = read_written(text, mark);
  demand(first_invalid_utf8(read.raw) == std::string_view::npos, "what is kept of a cell is UTF-8");
  demand(first_invalid_utf8(read.why) == std::string_view::npos, "a reason is UTF-8");
  demand(first_invalid_utf8(read.unit_text) == std::string_view::npos, "a unit as written is UTF-8");
  demand((read.kind == Written::Kind::unreadable) == !read.why.empty(),
         "a reason stands with what is unreadable, and only there");
  demand((read.kind == Written::Kind::letter) == (read.letter >= 'A' && read.letter <= 'Z'), "a letter is a capital");
  demand(read.kind == Written::Kind::number || !read.unit, "a unit stands behind a number");
  demand(read.kind == Written::Kind::number || !read.other_reading, "two readings are readings of a number");
  if (read.kind != Written::Kind::number) return;
  demand(read.number.figures >= 1 && read.number.certain_figures >= 1, "a number has a figure");
  demand(read.number.certain_figures <= read.number.figures, "sure figures are some of the figures");
  demand(!read.number.text.empty(), "a number has its digits");
  demand(agree(read, read), "a number agrees with itself");
  if (!read.other_reading) return;
  demand(read.other_reading->value != read.number.value || read.number.value.sign() == 0, "two readings differ");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  check(text, DecimalMark::point);
  check(text, DecimalMark::comma);
  return 0;
}
