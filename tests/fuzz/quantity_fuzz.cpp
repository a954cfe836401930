// Any bytes as a quantity: what is read prints as a text that is read as the same quantity.
#include "engine/quantity.h"
#include "tests/fuzz/check.h"

using namespace molewright;

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  auto const read = read_quantity(text);
  if (!ok(read)) {
    demand_usable(fault(read), text);
    return 0;
  }
  demand(value(read).length > 0 && value(read).length <= text.size(), "a quantity lies within its text");
  auto const& quantity = value(read).quantity;
  auto const again = parse_quantity(plain(quantity));
  demand(ok(again) && value(again) == quantity, "a printed quantity is read as the same");
  demand(!pretty(quantity).empty(), "a quantity can be set in print");
  auto const whole = parse_quantity(text);
  if (!ok(whole)) demand_usable(fault(whole), text);
  return 0;
}
