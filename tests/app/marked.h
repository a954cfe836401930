#pragma once
// A small class with a set, for tests of what is marked and what comes of it.
#include "tests/app/program.h"

namespace molewright {

inline std::string const members = "student\n\"Reed, Ann\"\nBo Sedge\n=Cleo Rush\n@Dov\n";

/// A workplace with a set of a class of four in "set", each with a question on n = cV and one on a limiting reagent (1, 2a, 2b).
struct Marked : Workplace {
  explicit Marked(std::string const& versions = "each") {
    write("class.csv", members);
    write("set.toml", "title = \"Feed\"\nclass = \"class.csv\"\nversions = \"" + versions +
                          "\"\nseed = \"m\"\n[[question]]\nkind = \"precipitate\"\n[[question]]\nkind = \"limiting-reagent\"\n");
    REQUIRE(run({"set", "set.toml", "--out", "set"}).status == 0);
    for (auto const& line : lines_of(read("set/set.jsonl"))) lines.push_back(Json::parse(line));
  }
  /// The part of a student's paper that heads a column; the version's where papers are shared.
  Json part(std::string const& student, std::string const& column) const {
    std::string version;
    for (auto const& each : lines[0]["students"])
      if (each["student"] == student) version = each["version"];
    for (std::size_t i = 1; i < lines.size(); ++i) {
      if (lines[i]["version"] != version || lines[i]["number"] != column.substr(0, 1)) continue;
      return lines[i]["parts"].at(column.size() > 1 ? static_cast<std::size_t>(column[1] - 'a') : 0);
    }
    FAIL("no part " << column << " for " << student);
    return {};
  }
  std::string right(std::string const& student, std::string const& column) const {
    auto const it = part(student, column);
    return it["answer"].get<std::string>() + ' ' + it["unit"].get<std::string>();
  }
  std::vector<Json> marked(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), "mark");
    arguments.push_back("--json");
    std::vector<Json> out;
    for (auto const& line : lines_of(run(arguments).out)) out.push_back(Json::parse(line));
    return out;
  }
  std::vector<Json> lines;
};

inline Json const& of(std::vector<Json> const& all, std::string const& student, std::string const& column) {
  for (auto const& one : all)
    if (one["student"] == student && one["question"].get<std::string>() + one["part"].get<std::string>() == column) return one;
  FAIL("nothing marked for " << student << ' ' << column);
  return all.front();
}
}  // namespace molewright
