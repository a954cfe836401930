// The review of a teacher's own problems: faults are named, sound problems are left alone.
#include "generators/review.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

using namespace molewright;

namespace {

/// A sheet of a file: its lines behind so many empty ones that the line numbers stay.
struct Sheet {
  std::string text;
  std::string name;  ///< its first line
  struct Expected {
    std::string kind, slip;
    std::size_t line = 0;
  };
  std::vector<Expected> expected;
};

std::vector<Sheet> sheets_of(std::string const& file) {
  std::ifstream in(std::string(MOLEWRIGHT_TEST_DATA) + "/" + file, std::ios::binary);
  REQUIRE(in);
  std::vector<Sheet> sheets;
  Sheet now;
  std::size_t number = 0;
  auto const close = [&] {
    if (!now.name.empty()) sheets.push_back(now);
    now = Sheet{std::string(number, '\n'), "", {}};
  };
  std::string line;
  while (std::getline(in, line)) {
    ++number;
    if (line.empty()) {
      close();
      continue;
    }
    now.text += line + '\n';
    if (now.name.empty() && line.front() != '#') now.name = line;
    auto const at = line.find("# fault: ");
    if (at == std::string::npos) continue;
    Sheet::Expected expected{"", "", number};
    std::istringstream words(line.substr(at + 9));
    words >> expected.kind;
    std::string word;
    while (words >> word) {
      if (word.front() == '+')
        expected.line += std::stoul(word.substr(1));
      else if (word != "other")
        expected.slip = word;
    }
    now.expected.push_back(expected);
  }
  close();
  return sheets;
}

std::vector<Finding> findings_of(std::string const& text) {
  std::vector<Finding> all;
  for (auto const& one : review(text, {})) all.insert(all.end(), one.findings.begin(), one.findings.end());
  return all;
}
std::string told(std::vector<Finding> const& findings) {
  std::string out;
  for (auto const& one : findings) out += std::to_string(one.line) + ": " + one.kind + ": " + one.text + " | " + one.mend + '\n';
  return out;
}
}  // namespace

TEST_CASE("review: the faulty problems are named rightly, at their line", "[generators][review]") {
  auto const sheets = sheets_of("faulty.problems");
  REQUIRE(sheets.size() >= 120);
  std::size_t named = 0, beside = 0;
  for (auto const& sheet : sheets) {
    REQUIRE(sheet.expected.size() == 1);
    auto const& expected = sheet.expected.front();
    auto const found = findings_of(sheet.text);
    bool const right = std::any_of(found.begin(), found.end(), [&](Finding const& f) {
      return f.kind == expected.kind && f.line == expected.line && (expected.slip.empty() || f.slip == expected.slip);
    });
    named += right ? 1 : 0;
    beside += found.size() - (right ? 1 : 0);
    if (!right)
      UNSCOPED_INFO(sheet.name << ", expected " << expected.kind << " in line " << expected.line << "\n" << told(found));
    for (auto const& one : found) {
      CHECK_FALSE(one.text.empty());
      CHECK_FALSE(one.mend.empty());
      CHECK(one.text.find('{') == std::string::npos);
    }
  }
  CHECK(static_cast<double>(named) >= 0.95 * static_cast<double>(sheets.size()));
  CHECK(beside <= 3);
}

TEST_CASE("review: sound problems are left alone", "[generators][review]") {
  auto const sheets = sheets_of("sound.problems");
  std::size_t problems = 0, alarms = 0;
  for (auto const& sheet : sheets) {
    auto const all = review(sheet.text, {});
    CHECK_FALSE(all.empty());
    problems += all.size();
    auto const found = findings_of(sheet.text);
    alarms += found.size();
    if (!found.empty()) UNSCOPED_INFO(sheet.name << "\n" << told(found));
  }
  CHECK(problems >= 120);
  CHECK(alarms <= 1);
}

TEST_CASE("review: what it says", "[generators][review]") {
  struct Case {
    char const* problem;
    std::vector<char const*> says;
  };
  auto const c = GENERATE(values<Case>({
      {"reaction AgNO3(aq) + Na2SO4(aq) -> AgCl(s) + NaNO3(aq)\ngiven n(AgNO3) = 0.0100 mol\nexcess Na2SO4\nfind m(AgCl) in g",
       {"1: no-such-reaction", "neither of them brings Cl^- for AgCl", "with AgNO3, ", " would give AgCl"}},
      {"given V(KNO3) = 250.0 mL\ngiven c(KNO3) = 0.120 mol/L\nfind n(KNO3) in mol\nanswer n(KNO3) = 30.0 mol",
       {"4: wrong-answer", "is 0.0300 mol, not 30.0 mol", "volume left in mL"}},
      {"given c(KNO3) = 5.00 mol/L\ngiven V(KNO3) = 100.0 mL\nfind m(KNO3) in g",
       {"1: beyond-solubility", "dissolves to about 3.2 mol/L"}},
      {"given m(NaCl) = -5 g\nfind n(NaCl)", {"1: not-positive", "m(NaCl) is negative"}},
      {"reaction 4Al(s) + O2(g) -> 2Al2O3(s)\ngiven m(Al) = 1.35 g\nfind m(Al2O3) in g",
       {"1: unbalanced-equation", "4Al(s) + 3O2(g) -> 2Al2O3(s)"}},
      {"reaction Zn(s) + HCl(aq) -> ZnCl2(aq)\ngiven m(Zn) = 6.54 g\nexcess HCl\nfind m(ZnCl2) in g",
       {"1: impossible-equation", "H stands on one side only", "write Zn(s) + 2HCl(aq) -> ZnCl2(aq) + H2(g)"}},
      {"given m(soduim chloride) = 5.85 g\nfind n(NaCl) in mol",
       {"1: unknown-name", "\"soduim chloride\" is no name that is known here", "sodium chloride, sodium chlorate"}},
      {"given m(NaCl) = 5.85 g\nfind n(NaCl) in mol\ntext\nTake {m(NaCl)}.\nWhat amount of {name sodum chloride} is it?\nend",
       {"5: unknown-name", "\"sodum chloride\" is no name", "sodium chloride, sodium chlorate"}},
  }));
  auto const said = told(findings_of(c.problem));
  CAPTURE(said);
  for (auto const* words : c.says) CHECK(said.find(words) != std::string::npos);
}

TEST_CASE("review: loose problems are parted by blank lines, named ones are not", "[generators][review]") {
  auto const two = review("given m(NaCl) = 5.85 g\nfind n(NaCl) in mol\n\ngiven m(KCl) = 7.46 g\nfind c(KCl) in mol/L\n", {});
  REQUIRE(two.size() == 2);
  CHECK(two[0].problem == "loose-1");
  CHECK(two[0].findings.empty());
  REQUIRE(two[1].findings.size() == 1);
  CHECK(two[1].findings[0].kind == "missing-given");
  CHECK(two[1].findings[0].line == 5);
  CHECK(review("problem p\ngiven m(NaCl) = 5.85 g\nfind n(NaCl) in mol\n\ngiven V(NaCl) = 250.0 mL\nfind c(NaCl)\n", {}).size() ==
        1);
  CHECK(review("", {}).empty());
  CHECK(review("problem bad\ngiven q\n", {}).at(0).problem == "bad");
}
