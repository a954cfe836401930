// Any bytes as a question's code: what is read prints as a code that reads the same, and what might have been meant is a code.
#include "generators/code.h"
#include "tests/fuzz/check.h"

using namespace molewright;

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  auto const read = parse_code(text);
  if (ok(read)) {
    auto const printed = print_code(value(read));
    auto const again = parse_code(printed);
    demand(ok(again) && value(again) == value(read), "a printed code is read as the same");
    demand(printed.size() == 12 && printed[0] >= 'A' && printed[0] <= 'Z', "a code has twelve characters, the first a letter");
  } else {
    demand_usable(fault(read), text);
  }
  for (auto const& near : near_codes(text)) demand(ok(parse_code(near)), "what might have been meant is a code");

  // Twelve bytes or more are also the fields of a code.
  if (size < 12) return 0;
  auto const field = [&](std::size_t i) { return static_cast<std::uint32_t>(data[i]) << 8U | data[i + 1]; };
  Code const code{field(0) % (1U << 12U), data[5] % (1U << 3U), (field(2) << 4U | data[4] % 16U) % code_seeds,
                  field(6) % code_draws, field(8) % code_checks};
  auto const back = parse_code(print_code(code));
  demand(ok(back) && value(back) == code, "a code holds its fields");
  return 0;
}
