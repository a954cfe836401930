#include "app/explain_further.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/plain_text.h"
#include "engine/steps.h"
#include "marker/words.h"
#include "templates/from_set.h"

namespace molewright {
namespace {

namespace words {
constexpr char const* ask_several = "To tell these apart, ask: {}";
constexpr char const* ask_one = "To be surer, ask: {}";
constexpr char const* ask_none = "To find the place, ask: {}";
constexpr char const* what_did_you_get = "What did you get for {}?";
constexpr char const* how_did_you = "How did you work out {}? Read the line out to me.";
constexpr char const* reply = "    {}: {}";
constexpr char const* right_value = "{}, which is right";
constexpr char const* anything_else = "anything else";
constexpr char const* later = "it went astray after this step";
constexpr char const* here_or_before = "it went astray here or before";
constexpr char const* either = ", or ";
constexpr char const* with = " together with ";
constexpr char const* place = " ({})";
constexpr char const* next_question = "A fresh question that shows which it was:";
constexpr char const* next_if_any = "A fresh question, which tells them apart as far as numbers can:";
constexpr char const* next_of_kind = "A fresh question of the same kind:";
constexpr char const* next_apart_by_none =
    "A fresh question of the same kind; no number tells the likeliest of them apart from the others:";
constexpr char const* next_in_part = "What they hand in for ({}) says it:";
constexpr char const* next_says = "What they hand in says it:";
constexpr char const* nearly = "Not all of them can be told apart by a number here.";
constexpr char const* code = "Code: {}";
constexpr char const* is_right = "the right answer";
}  // namespace words

std::string brief_of(Candidate const& candidate) {
  std::string out;
  for (auto const& slip : candidate.slips) out += (out.empty() ? "" : words::with) + std::string(words_of(slip.id).brief);
  return out;
}

std::string meaning(Probe::Reply const& reply, Judgement const& judgement) {
  std::vector<std::string> causes;  // each once, wherever it was made
  for (auto const c : reply.candidates)
    if (auto brief = brief_of(judgement.candidates[c]); std::find(causes.begin(), causes.end(), brief) == causes.end())
      causes.push_back(std::move(brief));
  if (reply.right) causes.emplace_back(words::later);
  std::string out;
  for (auto const& cause : causes) out += (out.empty() ? "" : words::either) + cause;
  return out.empty() ? words::here_or_before : out;
}

std::string question_text(Probe const& probe) {
  return fmt::format(fmt::runtime(probe.replies.empty() ? words::how_did_you : words::what_did_you_get), probe.step);
}
}  // namespace

void print_probe(Console& console, Probe const& probe, Judgement const& judgement) {
  auto const count = judgement.candidates.size();
  console.print("");
  console.print(fmt::format(fmt::runtime(count > 1    ? words::ask_several
                                         : count == 1 ? words::ask_one
                                                      : words::ask_none),
                            question_text(probe)));
  bool open = false;  // a reply that stands for all other numbers
  for (auto const& reply : probe.replies) {
    open = open || reply.value.empty();
    auto const value = reply.value.empty() ? std::string(words::anything_else)
                       : reply.right       ? fmt::format(words::right_value, reply.value)
                                           : reply.value;
    console.print(fmt::format(words::reply, value, meaning(reply, judgement)));
  }
  if (!probe.replies.empty() && !open) console.print(fmt::format(words::reply, words::anything_else, words::here_or_before));
}

Json probe_json(Probe const& probe, Judgement const& judgement) {
  Json replies = Json::array();
  for (auto const& reply : probe.replies) {
    Json slips = Json::array();
    for (auto const c : reply.candidates) {
      Json ids = Json::array();
      for (auto const& slip : judgement.candidates[c].slips) ids.push_back(slip.id);
      slips.push_back(std::move(ids));
    }
    replies.push_back({{"value", plain_text(reply.value)}, {"right", reply.right}, {"slips", slips}});
  }
  return {{"node", probe.node}, {"text", plain_text(question_text(probe))}, {"replies", replies}};
}

namespace {
std::string unit_of(TellingApart const& next) {
  auto const& working = next.question.worked.accepted.front();
  return working.nodes[static_cast<std::size_t>(working.finds[next.find].node)].value.unit.symbol;
}
std::string with_unit(std::string const& number, TellingApart const& next) {
  auto const unit = unit_of(next);
  return unit.empty() || next.question.worked.accepted.front().finds[next.find].figures == 0 ? number : number + ' ' + unit;
}

/// One slip may be among the causes twice, made at two steps.
bool is_made_in_two_places(std::string const& slip, TellingApart const& next) {
  std::ptrdiff_t times = 0;
  for (auto const& one : next.wrong) times += std::count(one.slips.begin(), one.slips.end(), slip);
  return times > 1;
}
}  // namespace

void print_next(Console& console, TellingApart const& next, bool remakeable) {
  auto const& conventions = console.course.conventions;
  console.print("");
  bool const any_cause = !next.wrong.empty();
  console.print(!any_cause             ? words::next_of_kind
                : next.all_apart       ? words::next_question
                : next.likeliest_apart ? words::next_if_any
                                       : words::next_apart_by_none);
  console.print(next.question.text);
  if (remakeable) console.print(fmt::format(words::code, next.question.code));
  auto const part = part_name(next.question, next.find);
  auto const& right = next.question.worked.accepted.front().finds[next.find].text;
  if (!any_cause) return console.print("    " + answers_line(next.question, conventions));
  console.print(part.empty() ? std::string(words::next_says) : fmt::format(words::next_in_part, part));
  console.print(fmt::format(words::reply, pretty_answer(with_unit(right, next), conventions), words::is_right));
  for (auto const& wrong : next.wrong) {
    std::string slips;
    for (std::size_t k = 0; k < wrong.slips.size(); ++k) {
      slips += (slips.empty() ? "" : words::either) + std::string(words_of(wrong.slips[k]).brief);
      if (is_made_in_two_places(wrong.slips[k], next))
        slips += fmt::format(words::place, step_words(next.question.worked.accepted.front(), wrong.nodes[k]));
    }
    console.print(fmt::format(words::reply, pretty_answer(with_unit(wrong.answer, next), conventions), slips));
  }
  if (any_cause && next.likeliest_apart && !next.all_apart) console.print(words::nearly);
}

Json next_json(TellingApart const& next, bool remakeable) {
  Json wrong = Json::array();
  for (auto const& one : next.wrong) wrong.push_back({{"slips", one.slips}, {"answer", one.answer}});
  Json out;
  if (remakeable) out["code"] = next.question.code;
  out["text"] = plain_text(next.question.text);
  out["part"] = part_name(next.question, next.find);
  out["answer"] = next.question.worked.accepted.front().finds[next.find].text;
  out["unit"] = unit_of(next);
  out["wrong"] = wrong;
  out["all_apart"] = next.all_apart;
  return out;
}

}  // namespace molewright
