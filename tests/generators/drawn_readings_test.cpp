// Readings that are drawn: what a burette and a balance could show, and exactly the value they stand for.
#include "generators/drawn_readings.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <set>

#include "generators/template.h"

using namespace molewright;

namespace {
/// Titres from readings, in 0.01 mL.
std::vector<std::int64_t> titres_of(DrawnReadings const& how, std::vector<std::int64_t> const& numbers) {
  if (!how.in_pairs) return numbers;
  std::vector<std::int64_t> titres;
  for (std::size_t i = 0; i < numbers.size(); i += 2) titres.push_back(numbers[i] - numbers[i + 1]);
  return titres;
}

std::string with(std::string const& given) {
  return "template reading\nkind readings\nlevel plain\nreaction NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(l)\ngiven c(NaOH) = 0.0905 "
         "to 0.1105 by 0.0005 mol/L\ngiven V(HCl) = 25.00 mL\n" +
         given + "\nfind c(HCl) in mol/L\ntext\n  {table V(NaOH)} What is {c(NaOH)} {V(HCl)}?\nend\n";
}
}  // namespace

TEST_CASE("readings: titres are what they are called, and their mean is what was drawn", "[generators][readings]") {
  auto const how =
      GENERATE(DrawnReadings{0, 2, 0, false, ""}, DrawnReadings{0, 3, 0, true, ""}, DrawnReadings{1, 3, 1, true, ""},
               DrawnReadings{1, 2, 1, false, ""}, DrawnReadings{1, 5, 0, true, ""}, DrawnReadings{0, 4, 1, false, ""});
  std::set<std::vector<std::int64_t>> seen;
  for (std::uint32_t way = 0; way < ways_of_reading; ++way) {
    std::int64_t const value = 1800 + 5 * (way % 201);
    int const accurate = how.concordant + how.discordant;
    int const at = how.discordant > 0 ? 1 + static_cast<int>(way) % accurate : 0;
    auto const numbers = draw_readings(how, value, way, at);
    CAPTURE(how.rough, how.concordant, how.discordant, value, way, at);
    REQUIRE(numbers.size() == static_cast<std::size_t>(how.titres()) * (how.in_pairs ? 2 : 1));
    seen.insert(numbers);
    for (auto const number : numbers) CHECK((number % 5 == 0 && number > 0 && number <= 5000));
    for (std::size_t i = 1; how.in_pairs && i < numbers.size(); i += 2) CHECK(numbers[i] >= 20);
    auto const titres = titres_of(how, numbers);
    std::int64_t sum = 0, least = 1000000, most = 0;
    for (int i = 0; i < how.titres(); ++i) {
      auto const titre = titres[static_cast<std::size_t>(i)];
      if (i < how.rough || i - how.rough + 1 == at) continue;
      sum += titre;
      least = std::min(least, titre);
      most = std::max(most, titre);
    }
    CHECK(sum == value * how.concordant);
    CHECK(most - least <= 10);
    CHECK(titres[static_cast<std::size_t>(how.rough) + (at == 1 ? 1 : 0)] != value);  // one alone is not the mean
    if (how.rough > 0) CHECK((titres[0] - value >= 30 && titres[0] - value <= 100));
    if (at > 0) {
      auto const off = titres[static_cast<std::size_t>(how.rough + at - 1)];
      CHECK((std::abs(off - value) >= 25 && std::abs(off - value) <= 60));
      CHECK((off < least - 10 || off > most + 10));
      if (how.rough > 0) CHECK(std::abs(off - titres[0]) > 10);
    }
  }
  CHECK(seen.size() > 350);
}

TEST_CASE("readings: a difference is what was drawn", "[generators][readings]") {
  DrawnReadings how;
  how.low_first = 1100;
  how.low_count = 1301;
  std::set<std::int64_t> lows;
  for (std::uint32_t way = 0; way < ways_of_reading; ++way) {
    auto const numbers = draw_readings(how, 314, way, 0);
    REQUIRE(numbers.size() == 2);
    CHECK(numbers[0] - numbers[1] == 314);
    CHECK((numbers[1] >= 1100 && numbers[1] <= 2400));
    lows.insert(numbers[1]);
  }
  CHECK(lows.size() > 500);
}

TEST_CASE("readings: the lines of a template", "[generators][readings][template]") {
  struct Row {
    char const* line;
    std::size_t lets;
    char const* begins;  ///< of the first draw's right side
  };
  Row const table[] = {
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.05 mL", 2, "mean of 1"},
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.05 mL rough 1 concordant 2", 2, "mean of 18."},
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.05 mL rough 1 concordant 3 discordant 1 as readings", 3, "mean of "},
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.05 mL discordant 1", 3, "mean of 1"},
      {"given V(NaOH) = 18.00 to 28.00 by 0.05 mL as difference", 2, ""},
  };
  for (auto const& row : table) {
    CAPTURE(row.line);
    auto const read = parse_template(with(row.line));
    for (auto const& fault : read.faults) UNSCOPED_INFO(show(fault, "t"));
    REQUIRE(read.read);
    REQUIRE(read.read->lets.size() == row.lets);
    auto const& let = read.read->lets.back();
    CHECK(let.number);
    REQUIRE(let.pick.readings);
    CHECK(let.pick.values() == 201);
    if (row.lets == 3) CHECK_FALSE(read.read->lets[1].number);
    Binding const binding{{"#1", "2"}};
    auto const text = readings_text(let.pick, 0, binding);
    CHECK(text.rfind(row.begins, 0) == 0);
    CHECK(text == readings_text(let.pick, 0, binding));
    Problem problem;
    REQUIRE(!add_statement(problem, "given V(NaOH) = " + text + " mL"));
    CHECK(problem.givens[0].rough.size() == static_cast<std::size_t>(let.pick.readings->rough));
    CHECK(problem.givens[0].discordant.size() == static_cast<std::size_t>(let.pick.readings->discordant));
    CHECK(problem.givens[0].in_pairs == let.pick.readings->in_pairs);
  }
}

TEST_CASE("readings: lines that cannot be drawn", "[generators][readings][template][bad-input]") {
  struct Row {
    char const *line, *what;
  };
  Row const table[] = {
      {"given V(NaOH) = titres 18.0 to 28.0 by 0.1 mL", "titres are volumes between 5.00 and 44.00 mL, read to 0.05 mL"},
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.02 mL", "titres are volumes between 5.00 and 44.00 mL, read to 0.05 mL"},
      {"given V(NaOH) = titres 38.00 to 48.00 by 0.05 mL", "titres are volumes between 5.00 and 44.00 mL, read to 0.05 mL"},
      {"given m(NaOH) = titres 18.00 to 28.00 by 0.05 g", "titres are volumes between 5.00 and 44.00 mL, read to 0.05 mL"},
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.05 mL concordant 1", "so many titres are not drawn"},
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.05 mL rough 2", "so many titres are not drawn"},
      {"given V(NaOH) = 18.00 to 28.00 by 0.05 mL rough 1", "only titres are rough, concordant or discordant"},
      {"given V(NaOH) = 18.00 to 28.00 by 0.05 mL as readings", "only titres are rough, concordant or discordant"},
      {"given V(NaOH) = one of 18.00 | 28.00 mL as difference",
       "only a range is given as a difference; titres are given as readings"},
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.05 mL as difference",
       "only a range is given as a difference; titres are given as readings"},
      {"given V(NaOH) = titres 18.00 to 28.00 mL", "this given cannot be read"},
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.05 mL as a table", "this given cannot be read"},
      {"given V(NaOH) = titres 18.00 to 28.00 by 0.05 mL rough one", "this given cannot be read"},
  };
  for (auto const& row : table) {
    CAPTURE(row.line);
    auto const read = parse_template(with(row.line));
    REQUIRE_FALSE(read.faults.empty());
    CHECK(read.faults.front().fault.what == row.what);
    CHECK(read.faults.front().line == 7);
  }
}
