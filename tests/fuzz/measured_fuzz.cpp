// Any bytes as a number, as a unit and as a number with a unit, under both decimal marks: what is read keeps its value when it is
// printed and read again.
#include "engine/decimal.h"
#include "engine/measured.h"
#include "engine/unit.h"
#include "tests/fuzz/check.h"

using namespace molewright;

namespace {
void look_at_unit(std::string_view text) {
  auto const read = read_unit(text);
  if (!ok(read)) {
    demand_usable(fault(read), text);
    return;
  }
  demand(value(read).length <= text.size(), "a unit lies within its text");
  auto const& found = value(read).unit;
  demand(found.factor.sign() > 0, "a unit's factor is positive");
  auto const again = parse_unit(found.symbol);
  demand(found.symbol.empty() || (ok(again) && value(again) == found), "a unit's own symbol is read as that unit");
}

void look_at_number(std::string_view text, DecimalMark mark) {
  auto const read = read_decimal(text, mark);
  if (!ok(read)) {
    demand_usable(fault(read), text);
    look_at_unit(text);
    return;
  }
  auto const& [number, length] = value(read);
  demand(length > 0 && length <= text.size(), "a number lies within its text");
  demand(number.figures >= 1 && number.certain_figures >= 1 && number.certain_figures <= number.figures, "figures are counted");
  for (auto const& printed : {print_as_typed(number, mark).plain, print_as_typed(number, mark).pretty}) {
    auto const again = parse_decimal(printed, mark);
    demand(ok(again), "a printed number can be read");
    demand(value(again).value == number.value, "printing a number keeps its value");
    demand(value(again).last_place == number.last_place, "printing a number keeps its figures");
  }
  auto const rounded = round_to_figures(number.value, number.figures, Rounding::half_up);
  demand(rounded == number.value, "a number has no more figures than were written");
  look_at_unit(text.substr(length));
  look_at_unit(text.substr(length + (length < text.size() && text[length] == ' ' ? 1 : 0)));
}

void look_at_measured(std::string_view text, DecimalMark mark) {
  auto const read = parse_measured(text, mark);
  if (!ok(read)) {
    demand_usable(fault(read), text);
    return;
  }
  auto const& [number, unit] = value(read);
  auto const printed = print_as_typed(number, mark).plain + (unit ? " " + unit->symbol : "");
  auto const again = parse_measured(printed, mark);
  demand(ok(again), "a printed measure can be read");
  demand(value(again).number.value == number.value, "printing a measure keeps its number");
  if (unit && !unit->symbol.empty()) demand(value(again).unit == unit, "printing a measure keeps its unit");
}
}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  look_at_number(text, DecimalMark::point);
  look_at_number(text, DecimalMark::comma);
  look_at_measured(text, DecimalMark::point);
  look_at_measured(text, DecimalMark::comma);
  return 0;
}
