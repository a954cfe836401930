// Any bytes as a question template: faults point into it, and what is read gives questions that are made again from their codes.
#include "generators/question_maker.h"
#include "tests/fuzz/check.h"

using namespace molewright;

namespace {
void look_at_question(QuestionMaker& maker, Question const& question) {
  auto const& working = question.worked.accepted.front();
  demand(!question.text.empty() && first_invalid_utf8(question.text) == std::string_view::npos, "a question has a text");
  demand(question.marks.size() == working.finds.size(), "each part has marks");
  demand(question.slip_key.size() == working.finds.size(), "each part has a slip key");
  auto const again = maker.remake(question.code);
  demand(ok(again), "a question is made again from its code");
  demand(value(again).text == question.text && value(again).code == question.code, "made again it is the same");
  for (std::size_t f = 0; f < working.finds.size(); ++f)
    demand(value(again).worked.accepted.front().finds[f].text == working.finds[f].text, "made again it has the same answers");
}
}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const text = as_text(data, size);
  auto const read = parse_template(text);
  for (auto const& found : read.faults) {
    demand(!found.fault.id.empty() && !found.fault.what.empty(), "a fault has an id and says what is wrong");
    demand(first_invalid_utf8(show(found, "file")) == std::string_view::npos, "what is shown is UTF-8, whatever was read");
  }
  demand(read.read.has_value() != !read.faults.empty(), "a template is read or is at fault");
  if (!read.read) return 0;
  QuestionMaker maker({*read.read}, Course{});
  for (std::uint32_t const seed : {0U, 77777U}) {
    auto const made = maker.make(maker.templates().front(), seed);
    if (ok(made))
      look_at_question(maker, value(made));
    else
      demand(!fault(made).id.empty() && !fault(made).what.empty(), "a fault has an id and says what is wrong");
  }
  return 0;
}
