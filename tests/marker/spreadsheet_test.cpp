// What a spreadsheet does to answers: dates made of cells, zeros dropped.
#include "marker/spreadsheet.h"

#include <catch2/catch.hpp>
#include <string>

using namespace molewright;

TEST_CASE("spreadsheet: cells that became dates", "[marker][spreadsheet]") {
  for (char const* cell :
       {"03-Apr", "3-Apr", "Apr-25", "1. Feb", "03. Mär 26", "1 dez", "12-août", "03/04/2026", "3/4/26", "3.4.2026",
        "01.02.2026 00:00", "2026-04-03", "2026-04-03 00:00:00", "12:30:00", "########", " 03-Apr "}) {
    CAPTURE(cell);
    CHECK(looks_like_a_date(cell));
  }
}

TEST_CASE("spreadsheet: answers are no dates", "[marker][spreadsheet]") {
  for (char const* cell : {"1.20",
                           "1.20 g",
                           "0.0120 mol",
                           "1.2e-3",
                           "1-2",
                           "3/4",
                           "1:2",
                           "BaCl2",
                           "MgCl2",
                           "5 mmol",
                           "12 min",
                           "absent",
                           "right",
                           "B",
                           "",
                           "2.50 x 10-3",
                           "1 250",
                           "3 dm3",
                           "0.5 M",
                           "May",
                           "Fe2O3",
                           "#",
                           "25.0 mL of 0.150 mol/L",
                           "n = 0.15 * 0.04 = 0.006",
                           "1.2.3"}) {
    CAPTURE(cell);
    CHECK_FALSE(looks_like_a_date(cell));
  }
}

TEST_CASE("spreadsheet: one zero kept in a file says that none was dropped", "[marker][spreadsheet]") {
  struct Case {
    std::vector<std::string> cells;
    bool may_be_lost;
  };
  auto const c = GENERATE(values<Case>({
      {{"1.2", "0.015", "25"}, true},
      {{"1.2", "1.70"}, false},
      {{"1.2", "1.70 g"}, true},  // text with its unit is left alone by a spreadsheet
      {{"1.2", "1700"}, true},    // zeros before the point always stay
      {{"1.2", "2.50e-3"}, false},
      {{"", "right", "B"}, true},
  }));
  KeptZeros zeros;
  for (auto const& cell : c.cells) zeros.look_at(read_written(cell, DecimalMark::point));
  CAPTURE(c.cells);
  CHECK(zeros.may_be_lost() == c.may_be_lost);
}
