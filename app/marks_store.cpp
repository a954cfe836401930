#include "app/marks_store.h"

#include <algorithm>
#include <filesystem>
#include <initializer_list>
#include <nlohmann/json.hpp>

#include "app/console.h"
#include "engine/ascii.h"

namespace molewright {
namespace {

constexpr int most_marks = 1000;

template <class Verdict>
Verdict verdict_named(std::string const& word, std::initializer_list<Verdict> all) {
  for (Verdict const one : all)
    if (name(one) == word) return one;
  throw std::invalid_argument(word);
}

/// Throws where something is missing or of another type.
Judgement judgement_of(Json const& json) {
  Judgement out;
  out.student = json.at("student").get<std::string>();
  out.question = json.at("question").get<std::string>();
  out.part = json.at("part").get<std::string>();
  out.code = json.at("code").get<std::string>();
  out.given = json.at("given").get<std::string>();
  out.correct = json.at("correct").get<std::string>();
  out.marks = json.at("marks").get<int>();
  out.out_of = json.at("out_of").get<int>();
  if (out.out_of < 0 || out.out_of > most_marks || out.marks < 0 || out.marks > out.out_of) throw std::invalid_argument("marks");
  using V = ValueVerdict;
  out.value = verdict_named(json.at("value").get<std::string>(),
                            {V::right, V::wrong, V::follow_through, V::blank, V::absent, V::unreadable});
  using U = UnitVerdict;
  out.unit = verdict_named(json.at("unit").get<std::string>(), {U::right, U::wrong, U::missing, U::equivalent, U::not_judged});
  using F = FiguresVerdict;
  out.figures =
      verdict_named(json.at("significant_figures").get<std::string>(), {F::right, F::too_few, F::too_many, F::not_judged});
  for (auto const& one : json.at("candidates")) {
    Candidate candidate;
    for (auto const& slip : one.at("slips"))
      candidate.slips.push_back({slip.at("id").get<std::string>(), slip.at("node").get<std::string>()});
    candidate.probability = one.at("probability").get<double>();
    candidate.text = one.at("text").get<std::string>();
    out.candidates.push_back(std::move(candidate));
  }
  out.feedback = json.at("feedback").get<std::string>();
  out.suggested = json.contains("marks_if_accepted");
  out.marks_if_accepted = std::clamp(json.value("marks_if_accepted", out.marks), 0, out.out_of);
  out.by_hand = json.value("by_hand", false);
  out.new_question = json.value("new_question", "");
  out.notes = json.value("notes", std::vector<std::string>{});
  return out;
}
}  // namespace

std::string marks_header(std::string const& title) { return json_line(Json{{"format", marks_format}, {"title", title}}); }

std::string marks_path(std::string const& path) {
  std::error_code ignored;
  return std::filesystem::is_directory(path, ignored) ? (std::filesystem::path(path) / "marks.jsonl").string() : path;
}

void MarksReader::refuse(char const* id, std::string what, std::string expected) {
  faults_.push_back({{id, std::move(what), std::move(expected), 0}, line_, 1, ""});
}

std::optional<Judgement> MarksReader::take(std::string_view line) {
  ++line_;
  if (refused_) return std::nullopt;
  auto const json = Json::parse(line, nullptr, false);
  if (line_ == 1) {
    auto const at = json.is_object() ? json.find("format") : json.end();
    std::string const format = json.is_object() && at != json.end() && at->is_string() ? at->get<std::string>() : "";
    if (format == marks_format) {
      if (json.contains("title") && json.at("title").is_string()) title_ = json.at("title").get<std::string>();
      return std::nullopt;
    }
    refused_ = true;
    if (format.rfind("molewright-marks/", 0) == 0)
      refuse("newer-marks", "these marks have the format " + format, marks_format);
    else
      refuse("not-marks", "these are no marks", "the marks.jsonl of a class, or the folder that holds it");
    return std::nullopt;
  }
  if (line.empty()) return std::nullopt;
  try {
    return judgement_of(json);
  } catch (std::exception const&) {
    refuse("bad-judgement", "this line is no judgement", "a line as this program writes it");
    return std::nullopt;
  }
}

void each_judgement(std::istream& in, MarksReader& reader, std::function<void(Judgement const&)> const& take) {
  std::string line;
  for (bool first = true; (std::getline(in, line) || first) && !reader.refused(); first = false) {
    if (line.ends_with('\r')) line.pop_back();
    if (auto const judgement = reader.take(line)) take(*judgement);
  }
}

StoredMarks read_marks(std::string_view text) {
  MarksReader reader;
  StoredMarks out;
  do {
    if (auto judgement = reader.take(take_line(text))) out.judgements.push_back(std::move(*judgement));
  } while (!text.empty() && !reader.refused());
  out.title = reader.title();
  out.faults = reader.faults();
  return out;
}

}  // namespace molewright
