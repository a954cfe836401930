// The main of every test program. Its last line, "N passed, N failed", counts test cases; tests/run adds these lines up.
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>
#include <cstddef>
#include <cstdio>

namespace {
Catch::Totals totals;

struct Closing : Catch::TestEventListenerBase {
  using TestEventListenerBase::TestEventListenerBase;
  void testRunEnded(Catch::TestRunStats const& run) override { totals = run.totals; }
};
CATCH_REGISTER_LISTENER(Closing)
}  // namespace

int main(int argc, char* argv[]) {
  int const status = Catch::Session().run(argc, argv);
  auto const& cases = totals.testCases;
  // Listing the tests runs none of them: no line then.
  if (cases.total() > 0) {
    std::printf("%zu passed, %zu failed\n", std::size_t(cases.passed + cases.failedButOk), std::size_t(cases.failed));
  }
  return status;
}
