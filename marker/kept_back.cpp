#include "marker/kept_back.h"

#include <algorithm>

#include "engine/steps.h"
#include "engine/steps_stated.h"
#include "marker/words.h"

namespace molewright {
namespace {

/// Whether what an application changes is the answer itself.
bool is_at_the_answer(Application const& application, Working const& working, std::size_t find) {
  int const answer = working.finds[find].node;
  return std::any_of(application.edits.begin(), application.edits.end(), [&](Edit const& edit) {
    auto const* const node = std::get_if<NodeEdit>(&edit);
    auto const* const pointer = std::get_if<AnswerEdit>(&edit);
    return (node != nullptr && node->node == answer) || (pointer != nullptr && pointer->find == find);
  });
}

void replace_all(std::string& text, std::string const& what, std::string const& by) {
  if (what.empty()) return;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
    text.replace(at, what.size(), by);
}
}  // namespace

std::string feedback_to_try_again(Judgement const& judgement, Question const& question, std::size_t find,
                                  Conventions const& conventions) {
  auto const& working = question.worked.accepted.front();
  std::string text = judgement.feedback;
  if (judgement.value != ValueVerdict::wrong) return text;
  auto const& asked = question.worked.problem.finds[find];
  if (auto const at = text.find(say::compared("").substr(0, say::compared("").size() - 1));
      asked.kind == Find::Kind::limiting_reagent && at != std::string::npos)
    return text.substr(0, at);  // the numbers would name it
  bool const silent = judgement.candidates.empty() && text.rfind(say::not_right(judgement.answer), 0) == 0;
  if (silent) {
    auto const unit = unit_text(working.nodes[static_cast<std::size_t>(working.finds[find].node)].value.unit, conventions);
    auto const said = say::not_right_yet(judgement.answer);
    if (judgement.unit == UnitVerdict::missing) return said + say::add_unit(unit);
    auto const written = read_written(judgement.answer, conventions.mark);
    bool const of_another = judgement.unit == UnitVerdict::wrong && written.unit;
    return of_another ? said + say::not_the_unit_either(written.unit_text, unit) : said;
  }
  replace_all(text, say::not_right_in_words(judgement.answer), say::not_right_yet(judgement.answer));
  if (is_stated(asked.kind)) {
    auto const& says = working.finds[find].text;
    for (auto const& spelling : {pretty_stated(says), says}) {
      for (char const* before : {":", ", and it should be"}) replace_all(text, before + (' ' + spelling) + ".", ".");
      for (char const* before : {" Here it is", " The formula is"}) replace_all(text, before + (' ' + spelling) + ".", "");
      replace_all(text, spelling, say::the_answer());
    }
    return text;
  }
  if (judgement.candidates.empty() || judgement.candidates.front().slips.size() != 1) return text;
  auto const& named = judgement.candidates.front().slips.front();
  auto const words = words_of(named.id).student;
  for (auto const& application : value_applications(question.worked, working, conventions)) {
    if (application.slip->id != named.id || application.node != named.node || !is_at_the_answer(application, working, find))
      continue;
    auto numbers = slip_numbers(working, application, find, conventions);
    numbers.given = judgement.answer;
    auto const full = in_units_of_course(filled(words, numbers), conventions);
    if (text.compare(0, full.size(), full) != 0) continue;
    numbers.right = say::the_answer();
    auto kept = in_units_of_course(filled(words, numbers), conventions);
    for (auto const& [tail, end] : say::empty_tails()) replace_all(kept, tail, end);
    return kept + text.substr(full.size());
  }
  return text;
}

}  // namespace molewright
