#include "generators/slip_practice.h"

#include <algorithm>

#include "generators/random.h"

namespace molewright {
namespace {

constexpr std::size_t enough_templates = 4;  ///< that show a slip: more are not looked for
constexpr int most_seeds = 6;                ///< tried for a question in which the slip shows
constexpr std::size_t questions_a_slip = 2;
constexpr int most_tries = 12;  ///< for a wording that has not come before

/// Whether an answer of the question is what the slip leads to, and the first thing that it stands for.
bool shows(Question const& question, std::string_view slip) {
  return std::any_of(question.slip_key.begin(), question.slip_key.end(), [&](auto const& key) {
    return std::any_of(key.begin(), key.end(),
                       [&](SlipKeyEntry const& entry) { return !entry.ids.empty() && entry.ids.front() == slip; });
  });
}
}  // namespace

Template const* template_of(QuestionMaker const& maker, std::string_view code) {
  auto const read = parse_code(code);
  if (!ok(read)) return nullptr;
  auto const& all = maker.templates();
  auto const at = std::find_if(all.begin(), all.end(),
                               [&](Template const& one) { return template_hash(one.name) == value(read).template_hash; });
  return at == all.end() ? nullptr : &*at;
}

std::optional<Question> SlipPractice::showing(Template const& from, std::string_view slip, std::uint64_t salt) {
  for (int k = 0; k < most_seeds; ++k) {
    auto made = maker_.make(from, static_cast<std::uint32_t>(spread(salt + static_cast<std::uint64_t>(k)) % code_seeds));
    if (!ok(made)) return std::nullopt;
    if (slip.empty() || shows(value(made), slip)) return std::move(value(made));
  }
  return std::nullopt;
}

/// Looked for once: the template named, those of its kind, and all the others in their order.
std::vector<Template const*> const& SlipPractice::that_show(ToPractise const& what) {
  auto const [at, fresh] = known_.try_emplace({what.slip, what.template_name});
  if (!fresh) return at->second;
  auto& found = at->second;
  Template const* const first = maker_.find(what.template_name);
  if (what.slip.empty()) {
    if (first) found.push_back(first);
    return found;
  }
  auto const look_at = [&](Template const& one) {
    if (found.size() < enough_templates && showing(one, what.slip, hash_of(one.name))) found.push_back(&one);
  };
  if (first) look_at(*first);
  for (bool const of_its_kind : {true, false})
    for (Template const& one : maker_.templates()) {
      bool const same_kind = first && one.kind == first->kind;
      if (&one != first && same_kind == of_its_kind) look_at(one);
    }
  return found;
}

std::optional<Question> SlipPractice::question(ToPractise const& what, std::size_t nth, std::uint64_t salt) {
  auto const& templates = that_show(what);
  for (std::size_t k = 0; k < templates.size(); ++k)
    if (auto found = showing(*templates[(nth + k) % templates.size()], what.slip, salt)) return found;
  return std::nullopt;
}

std::optional<Question> SlipPractice::question_for(std::string_view student, ToPractise const& what, std::size_t nth,
                                                   std::string_view seed, Wordings& texts) {
  std::optional<Question> found;
  for (int k = 0; k < most_tries; ++k) {
    auto const salt = hash_of(what.slip, hash_of(student, hash_of(seed, nth * 100 + static_cast<std::size_t>(k))));
    found = question(what, nth, salt);
    if (!found || texts.count(hash_of(found->text)) == 0) break;
  }
  if (found) texts.insert(hash_of(found->text));
  return found;
}

std::vector<OnSlip> questions_on_slips(StudentResult const& student, Paper const& paper, SlipPractice& practice,
                                       std::string_view seed) {
  constexpr std::size_t most = 3;
  std::vector<OnSlip> fresh;
  Wordings texts;
  for (auto const& question : paper.questions) texts.insert(hash_of(question.text));
  for (auto const& part : student.parts) {
    auto const slip = part.value == ValueVerdict::wrong ? named_slip(part) : std::string();
    bool const there = std::any_of(fresh.begin(), fresh.end(), [&](OnSlip const& one) { return one.slip == slip; });
    if (slip.empty() || there || fresh.size() == most) continue;
    auto const asked = std::find_if(paper.questions.begin(), paper.questions.end(),
                                    [&](Question const& one) { return one.number == part.question; });
    auto const from = asked == paper.questions.end() ? std::string() : asked->template_name;
    if (auto question = practice.question_for(student.student, {slip, from}, 0, seed, texts))
      fresh.push_back({slip, std::move(*question)});
  }
  return fresh;
}

std::size_t put_practice(Paper& paper, std::vector<ToPractise> const& what, SlipPractice& practice, std::string_view seed,
                         Wordings& texts) {
  std::size_t place = 0;
  for (auto const& one : what) {
    for (std::size_t nth = 0; nth < questions_a_slip && place < paper.questions.size(); ++nth) {
      auto question = practice.question_for(paper.student, one, nth, seed, texts);
      if (!question) break;
      auto& old = paper.questions[place++];
      question->number = old.number;
      question->version = old.version;
      question->student = old.student;
      old = std::move(*question);
    }
  }
  return place;
}

}  // namespace molewright
