#include "generators/slip_practice.h"

#include <algorithm>

#include "generators/random.h"

namespace molewright {
namespace {

constexpr std::size_t enough_templates = 4;  ///< that show a slip: more are not looked for
constexpr int most_seeds = 6;                ///< tried for a question in which the slip shows
constexpr std::size_t questions_a_slip = 2;
constexpr int most_tries = 12;  ///< for a wording that has not come before

/// Whether an answer of the question is what the slip leads to. Others may lead to the same number.
bool shows(Question const& question, std::string_view slip) {
  return std::any_of(question.slip_key.begin(), question.slip_key.end(), [&](auto const& key) {
    return std::any_of(key.begin(), key.end(), [&](SlipKeyEntry const& entry) {
      return std::find(entry.ids.begin(), entry.ids.end(), slip) != entry.ids.end();
    });
  });
}

Wordings texts_of(Paper const& paper) {
  Wordings texts;
  for (auto const& question : paper.questions) texts.insert(hash_of(question.text));
  return texts;
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

bool SlipPractice::shows_in(Template const& from, Slip const* slip) {
  auto& keys = keys_[&from];
  for (std::size_t k = 0; k < static_cast<std::size_t>(most_seeds); ++k) {
    if (k == keys.of_questions.size()) {
      if (keys.at_end) return false;
      auto const made = maker_.make(from, static_cast<std::uint32_t>(spread(hash_of(from.name) + k) % code_seeds));
      keys.at_end = !ok(made);
      if (keys.at_end) return false;
      auto& ids = keys.of_questions.emplace_back();
      for (auto const& part : value(made).slip_key)
        for (auto const& entry : part)
          for (auto const& id : entry.ids) ids.push_back(find_slip(id));
    }
    auto const& ids = keys.of_questions[k];
    if (std::find(ids.begin(), ids.end(), slip) != ids.end()) return true;
  }
  return false;
}

/// The template named, those of its kind, and all the others in their order: looked at as far as they are needed.
SlipPractice::Search& SlipPractice::search(ToPractise const& what) {
  auto const [at, fresh] = known_.try_emplace({what.slip, what.template_name});
  auto& search = at->second;
  if (!fresh) return search;
  Template const* const first = maker_.find(what.template_name);
  if (what.slip.empty()) {
    if (first) search.showing.push_back(first);
    return search;
  }
  auto const* const known = find_slip(what.slip);
  if (!known || known->reach != Reach::specific) return search;
  if (first) search.to_look_at.push_back(first);
  for (bool const of_its_kind : {true, false})
    for (Template const& one : maker_.templates()) {
      bool const same_kind = first && one.kind == first->kind;
      if (&one != first && same_kind == of_its_kind) search.to_look_at.push_back(&one);
    }
  return search;
}

Template const* SlipPractice::that_shows(ToPractise const& what, std::size_t nth) {
  auto& here = search(what);
  while (here.showing.size() <= nth && here.showing.size() < enough_templates && here.looked_at < here.to_look_at.size()) {
    auto const* const one = here.to_look_at[here.looked_at++];
    if (shows_in(*one, find_slip(what.slip))) here.showing.push_back(one);
  }
  return here.showing.empty() ? nullptr : here.showing[nth % here.showing.size()];
}

std::optional<Question> SlipPractice::question(ToPractise const& what, std::size_t nth, std::uint64_t salt) {
  for (std::size_t k = 0; k < enough_templates; ++k) {
    auto const* const from = that_shows(what, nth + k);
    if (!from) return std::nullopt;
    if (auto found = showing(*from, what.slip, salt)) return found;
  }
  return std::nullopt;
}

std::optional<Question> SlipPractice::question_for(std::string_view student, ToPractise const& what, std::size_t nth,
                                                   std::string_view seed, Wordings& texts, Wordings& seen) {
  std::optional<Question> best;
  for (int k = 0; k < most_tries; ++k) {
    auto const salt = hash_of(what.slip, hash_of(student, hash_of(seed, nth * 100 + static_cast<std::size_t>(k))));
    auto found = question(what, nth, salt);
    if (!found) break;
    auto const text = hash_of(found->text);
    if (seen.count(text) != 0) continue;
    bool const fresh = texts.count(text) == 0;
    if (fresh || !best) best = std::move(found);
    if (fresh) break;
  }
  if (!best) return best;
  texts.insert(hash_of(best->text));
  seen.insert(hash_of(best->text));
  return best;
}

std::vector<OnSlip> questions_on_slips(StudentResult const& student, Paper const& paper, SlipPractice& practice,
                                       std::string_view seed) {
  constexpr std::size_t most = 3;
  std::vector<OnSlip> fresh;
  Wordings seen = texts_of(paper), texts = seen;
  for (auto const& part : student.parts) {
    auto const slip = part.value == ValueVerdict::wrong ? named_slip(part) : std::string();
    bool const there = std::any_of(fresh.begin(), fresh.end(), [&](OnSlip const& one) { return one.slip == slip; });
    if (slip.empty() || there || fresh.size() == most) continue;
    auto const asked = std::find_if(paper.questions.begin(), paper.questions.end(),
                                    [&](Question const& one) { return one.number == part.question; });
    auto const from = asked == paper.questions.end() ? std::string() : asked->template_name;
    if (auto question = practice.question_for(student.student, {slip, from}, 0, seed, texts, seen))
      fresh.push_back({slip, std::move(*question)});
  }
  return fresh;
}

std::size_t put_practice(Paper& paper, std::vector<ToPractise> const& what, SlipPractice& practice, std::string_view seed,
                         Wordings& texts, Wordings seen) {
  std::size_t place = 0;
  seen.merge(texts_of(paper));
  for (auto const& one : what) {
    for (std::size_t nth = 0; nth < questions_a_slip && place < paper.questions.size(); ++nth) {
      auto question = practice.question_for(paper.student, one, nth, seed, texts, seen);
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
