// The course file: every key and word of the contract, told and read back, and what is wrong with one.
#include "app/course_file.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace molewright;

TEST_CASE("course: every key takes each of its words, and JSON gives it back", "[app][course]") {
  struct Case {
    std::string key;
    std::vector<std::string> words;  // the first is what holds where nothing is said
  };
  // The contract's list of keys.
  auto const c = GENERATE(values<Case>({
      {"atomic_weights", {"abridged", "two decimals", "one decimal", "whole"}},
      {"ties", {"half up", "half to even"}},
      {"figures", {"within one", "exact", "at least two", "once a paper", "not judged"}},
      {"units", {"required", "once a paper", "not judged"}},
      {"decimal", {"point", "comma"}},
      {"concentration_unit", {"mol/L", "mol L-1", "mol dm-3", "mol/dm3", "M"}},
      {"volume_unit", {"mL", "cm3"}},
      {"spelling", {"sulfur", "sulphur"}},
      {"aluminium", {"aluminium", "aluminum"}},
      {"acetic_acid", {"acetic acid", "ethanoic acid"}},
      {"hydrogencarbonate", {"hydrogencarbonate", "bicarbonate"}},
      {"amount_word", {"amount", "number of moles"}},
      {"marks_for_a_slip", {"suggested", "none", "given"}},
  }));
  CAPTURE(c.key);
  auto const usual = nlohmann::json::parse(course_to_json(Course{}));
  CHECK(usual.at(c.key) == c.words.front());
  for (auto const& word : c.words) {
    CAPTURE(word);
    auto const read = read_course(c.key + " = \"" + word + "\"\n");
    CHECK(read.faults.empty());
    auto const json = course_to_json(read.course);
    CHECK(nlohmann::json::parse(json).at(c.key) == word);
    auto const again = course_from_json(json);
    REQUIRE(ok(again));
    CHECK(course_to_json(value(again)) == json);
  }
}

TEST_CASE("course: a tolerance in per cent", "[app][course]") {
  auto const read = read_course("tolerance = \"1.5 %\"\n");
  CHECK(read.faults.empty());
  CHECK(read.course.rules.tolerance == Approx(0.015));
  CHECK(nlohmann::json::parse(course_to_json(read.course)).at("tolerance") == "1.5 %");
  CHECK_FALSE(nlohmann::json::parse(course_to_json(Course{})).contains("tolerance"));
  for (std::string const text : {"2", "20 %", "-1 %", "2 g", "two"})
    CHECK(read_course("tolerance = \"" + text + "\"\n").faults.size() == 1);
}

TEST_CASE("course: follow-through", "[app][course]") {
  CHECK(read_course("").course.rules.follow_through);
  auto const read = read_course("follow_through = false\n");
  CHECK(read.faults.empty());
  CHECK_FALSE(read.course.rules.follow_through);
}

TEST_CASE("course: the molar volume of a gas is kept as typed, and unsaid where nobody says it", "[app][course]") {
  CHECK_FALSE(nlohmann::json::parse(course_to_json(Course{})).contains("molar_gas_volume"));
  struct Case {
    std::string written, told;
  };
  auto const c = GENERATE(values<Case>({{"24.0 L/mol", "24.0 L/mol"},
                                        {"22.4 dm3/mol", "22.4 dm3/mol"},
                                        {"24 dm^3 mol^-1", "24 dm3/mol"},
                                        {"24000 cm3/mol", "24000 cm3/mol"}}));
  CAPTURE(c.written);
  auto const read = read_course("molar_gas_volume = \"" + c.written + "\"\n");
  REQUIRE(read.faults.empty());
  auto const json = course_to_json(read.course);
  CHECK(nlohmann::json::parse(json).at("molar_gas_volume") == c.told);
  auto const again = course_from_json(json);
  REQUIRE(ok(again));
  REQUIRE(value(again).conventions.molar_gas_volume);
  CHECK(course_to_json(value(again)) == json);
  CHECK(value(again).conventions.molar_gas_volume->number.figures == read.course.conventions.molar_gas_volume->number.figures);
}

TEST_CASE("course: faults, in the order of the file", "[app][course][bad-input]") {
  struct Case {
    std::string text, id, what, expected;
    std::size_t line, column;
  };
  auto const c = GENERATE(values<Case>({
      {"figurs = \"exact\"", "unknown-key", "unknown key figurs", "\"figures\"", 1, 10},
      {"\nties = \"up\"", "unknown-value", "ties cannot be \"up\"", "\"half up\" or \"half to even\"", 2, 8},
      {"units = 3", "wrong-type", "units has the wrong type", "\"required\", \"once a paper\" or \"not judged\"", 1, 9},
      {"atomic_weights = \"abriged\"", "unknown-value", "atomic_weights cannot be \"abriged\"",
       "\"abridged\", \"two decimals\", \"one decimal\" or \"whole\"", 1, 18},
      {"atomic_weights = \"none.tsv\"", "cannot-read",
       "the file of atomic weights none.tsv cannot be read: No such file or directory",
       "\"abridged\", \"two decimals\", \"one decimal\" or \"whole\", or a file", 1, 18},
      {"molar_gas_volume = \"24.0 g/mol\"", "unknown-value", "molar_gas_volume cannot be \"24.0 g/mol\"",
       "a volume per amount in quotes, such as \"24.0 L/mol\" or \"22.4 dm3/mol\"", 1, 20},
      {"molar_gas_volume = \"24.0\"", "unknown-value", "molar_gas_volume cannot be \"24.0\"",
       "a volume per amount in quotes, such as \"24.0 L/mol\" or \"22.4 dm3/mol\"", 1, 20},
      {"molar_gas_volume = \"-24.0 L/mol\"", "unknown-value", "molar_gas_volume cannot be \"-24.0 L/mol\"",
       "a volume per amount in quotes, such as \"24.0 L/mol\" or \"22.4 dm3/mol\"", 1, 20},
      {"molar_gas_volume = 24.0", "wrong-type", "molar_gas_volume has the wrong type",
       "a volume per amount in quotes, such as \"24.0 L/mol\" or \"22.4 dm3/mol\"", 1, 20},
      {"figures = exact", "toml-syntax", "this value cannot be read", "\"text\" in quotes, a number, true or false", 1, 11},
      {"# \xFF", "invalid-utf8", "these bytes are not UTF-8 text", "UTF-8", 1, 3},
  }));
  CAPTURE(c.text);
  auto const read = read_course(c.text);
  REQUIRE(read.faults.size() == 1);
  auto const& found = read.faults.front();
  CHECK(found.fault.id == c.id);
  CHECK(found.fault.what == c.what);
  CHECK(found.fault.expected == c.expected);
  CHECK(found.line == c.line);
  CHECK(found.column == c.column);

  auto const several = read_course("zzz = 1\nties = \"up\"\naaa = 2\n");
  REQUIRE(several.faults.size() == 3);
  CHECK(several.faults[0].line == 1);
  CHECK(several.faults[1].line == 2);
  CHECK(several.faults[2].line == 3);
}

TEST_CASE("course: JSON that this program did not write", "[app][course][bad-input]") {
  for (char const* json : {"", "[]", "{\"figures\": 3}", "{\"figures\": \"strict\"}", "{\"colour\": \"red\"}",
                           "{\"own_atomic_weights\": {\"Xy\": \"1\"}}", "{\"own_atomic_weights\": {\"Cl\": 35.5}}"}) {
    CAPTURE(json);
    auto const read = course_from_json(json);
    REQUIRE_FALSE(ok(read));
    CHECK(fault(read).id == "bad-course");
  }
}
