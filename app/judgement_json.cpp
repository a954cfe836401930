#include "app/judgement_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "app/plain_text.h"
#include "marker/marks.h"

namespace molewright {

Json judgement_json(Judgement const& judgement) {
  Json candidates = Json::array();
  for (auto const& candidate : judgement.candidates) {
    Json slips = Json::array();
    for (auto const& slip : candidate.slips) slips.push_back({{"id", slip.id}, {"node", slip.node}});
    candidates.push_back({{"slips", slips},
                          {"probability", std::round(candidate.probability * 1000) / 1000},
                          {"text", plain_text(candidate.text)}});
  }
  Json out{{"student", judgement.student},
           {"question", judgement.question},
           {"part", judgement.part},
           {"code", judgement.code},
           {"given", judgement.given},
           {"correct", judgement.correct},
           {"marks", judgement.marks},
           {"out_of", judgement.out_of},
           {"value", name(judgement.value)},
           {"unit", name(judgement.unit)},
           {"significant_figures", name(judgement.figures)},
           {"candidates", candidates},
           {"feedback", plain_text(judgement.feedback)}};
  if (judgement.suggested) out["marks_if_accepted"] = judgement.marks_if_accepted;
  if (judgement.by_hand) out["by_hand"] = true;
  if (!judgement.lines.empty()) {
    Json lines = Json::array();
    for (auto const& line : judgement.lines)
      lines.push_back({{"text", line.text}, {"value", name(line.verdict)}, {"node", line.node}});
    out["lines"] = lines;
  }
  Json given = Json::array();
  for (auto const& one : account_of_marks(judgement))
    given.push_back({{"node", one.node}, {"marks", one.marks}, {"out_of", one.out_of}, {"why", name(one.reason)}});
  out["marks_given"] = given;
  if (!judgement.new_question.empty()) out["new_question"] = judgement.new_question;
  if (!judgement.notes.empty()) out["notes"] = judgement.notes;
  return out;
}

}  // namespace molewright
