#include "program.h"

using namespace molewright;

// The answers of the sample class were written for the questions that its set draws: where a template or a draw changes, they are
// to be written anew, for what they come to is the first thing that a visitor sees. Each answer was chosen with what is counted
// here in mind.
TEST_CASE("sample: what the class handed in still belongs to its questions", "[app][sample]") {
  std::string const sample = std::string(MOLEWRIGHT_SOURCE_DIR) + "/samples/greenhouse/";
  Workplace const place;
  REQUIRE(place.run({"set", sample + "set.toml", "--out", "made"}).status == 0);
  CHECK(place.run({"mark", "made/set.jsonl", sample + "answers.csv", "--out", "marked"}).status == 0);
  std::map<std::string, int> verdicts, slips;
  for (auto const& line : lines_of(place.read("marked/marks.jsonl"))) {
    auto const one = Json::parse(line);
    if (!one.contains("value")) continue;
    ++verdicts[one.at("value").get<std::string>()];
    if (auto const& all = one.at("candidates"); !all.empty() && all.front().at("probability").get<double>() > 0.5)
      ++slips[all.front().at("slips").front().at("id").get<std::string>()];
  }
  CHECK(verdicts == std::map<std::string, int>{
                        {"right", 43}, {"wrong", 19}, {"absent", 6}, {"blank", 2}, {"follow-through", 1}, {"unreadable", 1}});
  CHECK(slips == std::map<std::string, int>{{"hydrate-water-forgotten", 3},
                                            {"volume-left-in-mL", 3},
                                            {"added-volume-as-final-volume", 2},
                                            {"amount-divided-by-molar-mass", 2},
                                            {"millimole-taken-as-mole", 1},
                                            {"dilution-factor-inverted", 1},
                                            {"volume-as-n-times-c", 1}});
}
