#include "app/practise_question.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "app/practise_words.h"
#include "engine/ascii.h"
#include "engine/formula.h"
#include "engine/hint.h"
#include "marker/kept_back.h"
#include "marker/results.h"
#include "templates/reading_table.h"

namespace molewright {
namespace {

enum class Word { help, hint, step, steps, answer, question, another, kinds, quit, back };

std::map<std::string, Word, std::less<>> const& words_known() {
  static std::map<std::string, Word, std::less<>> const known{
      {"help", Word::help},       {"?", Word::help},         {"hint", Word::hint},         {"idk", Word::hint},
      {"don't know", Word::hint}, {"dont know", Word::hint}, {"i don't know", Word::hint}, {"i dont know", Word::hint},
      {"no idea", Word::hint},    {"step", Word::step},      {"steps", Word::steps},       {"answer", Word::answer},
      {"show", Word::answer},     {"working", Word::answer}, {"question", Word::question}, {"repeat", Word::question},
      {"another", Word::another}, {"next", Word::another},   {"skip", Word::another},      {"kinds", Word::kinds},
      {"kind", Word::kinds},      {"quit", Word::quit},      {"stop", Word::quit},         {"exit", Word::quit},
      {"bye", Word::quit},        {"back", Word::back},
  };
  return known;
}

std::optional<Word> word_said(std::string const& said) {
  auto const found = words_known().find(lowered(said));
  return found == words_known().end() ? std::nullopt : std::optional<Word>(found->second);
}

/// A word that was probably meant; empty for none.
std::string word_meant(std::string const& said) {
  constexpr std::size_t least_length = 3;
  if (said.size() < least_length) return "";
  std::vector<std::string> known;
  for (auto const& [word, unused] : words_known()) known.push_back(word);
  auto const near = nearest(lowered(said), known);
  return near.empty() ? "" : near.front();
}

/// What is written for a line of the working, as if a student had written it.
Written as_written(Step const& line) {
  return read_written(line.unit.empty() ? line.value : line.value + ' ' + line.unit, DecimalMark::point);
}

bool is_accepted(Judgement const& judgement) {
  bool const value = judgement.value == ValueVerdict::right || judgement.value == ValueVerdict::follow_through;
  return value && judgement.unit != UnitVerdict::wrong;
}

PracticeTry try_of(Judgement const& judgement) {
  PracticeTry out{judgement.given, std::string(name(judgement.value)), {}};
  if (judgement.value != ValueVerdict::wrong || judgement.candidates.empty()) return out;
  auto const& first = judgement.candidates.front();
  if (first.probability < least_probability_to_count) return out;
  for (auto const& slip : first.slips) out.slips.push_back(slip.id);
  return out;
}
}  // namespace

QuestionTalk::QuestionTalk(Talk const& talk, Question const& question, Course const& course, PracticeEntry& entry,
                           std::function<void()> keep)
    : talk_(talk), question_(question), course_(course), judge_(question, course), entry_(entry), keep_(std::move(keep)) {}

Wanted QuestionTalk::run() {
  talk_.say("");
  talk_.say(with_told_tables(question_.text));
  for (find_ = 0; find_ < entry_.parts.size(); ++find_) {
    if (here().state != PracticePart::State::open) continue;
    switch (part()) {
      case After::next:
        entry_.left = true;
        keep_();
        return Wanted::next;
      case After::kinds:
        entry_.left = true;
        keep_();
        return Wanted::kinds;
      case After::stop:
        return Wanted::stop;
      case After::again:
      case After::shown:
      case After::done:
        break;
    }
  }
  return over();
}

QuestionTalk::After QuestionTalk::part() {
  lines_ = steps(question_.worked, working(), find_, conventions());
  hinted_ = formula_said_ = warned_ = told_to_try_again_ = false;
  last_said_.clear();
  for (;;) {
    auto const said = talk_.ask(prompt());
    if (!said) return After::stop;
    auto const commanded = command(*said);
    auto const after = commanded ? *commanded : answer(*said);
    if (after != After::again) return after;
  }
}

/// Once all parts are done.
Wanted QuestionTalk::over() {
  for (;;) {
    auto const said = talk_.ask(words::done_prompt);
    if (!said) return Wanted::stop;
    if (said->empty()) return Wanted::next;
    auto const word = word_said(*said);
    if (word == Word::another) return Wanted::next;
    if (word == Word::kinds) return Wanted::kinds;
    if (word == Word::quit) return Wanted::stop;
    if (word == Word::question) {
      talk_.say(with_told_tables(question_.text));
    } else if (word == Word::answer) {
      for (find_ = 0; find_ < entry_.parts.size(); ++find_) {
        lines_ = steps(question_.worked, working(), find_, conventions());
        for (auto const& line : lines_) talk_.say(line.text);
        say_answer();
      }
    } else {
      talk_.say(words::when_done);
    }
  }
}

std::optional<QuestionTalk::After> QuestionTalk::command(std::string const& said) {
  if (said.empty()) {
    talk_.say(words::nothing_written);
    return After::again;
  }
  auto const word = word_said(said);
  if (!word) return std::nullopt;
  switch (*word) {
    case Word::help:
      talk_.say(words::help);
      return After::again;
    case Word::hint:
      hint();
      return After::again;
    case Word::step:
      return step();
    case Word::steps:
      return step_by_step();
    case Word::answer:
      return show_all();
    case Word::question:
      talk_.say(with_told_tables(question_.text));
      return After::again;
    case Word::another:
      return After::next;
    case Word::kinds:
      return After::kinds;
    case Word::quit:
      return After::stop;
    case Word::back:
      break;
  }
  return After::again;
}

/// Says why, where what was written cannot be an answer at all.
bool QuestionTalk::is_no_answer(std::string const& said, Written const& written, Find const& find) const {
  bool const number = find.kind == Find::Kind::number;
  bool const by_hand = written.kind == Written::Kind::blank || written.kind == Written::Kind::absent ||
                       written.kind == Written::Kind::ticked || (number && written.kind == Written::Kind::letter);
  bool const fits = number ? written.kind == Written::Kind::number : !by_hand;
  bool const chemistry = find.kind == Find::Kind::name || ok(parse_formula(said));
  if (fits && (number || chemistry || word_meant(said).empty())) return false;
  if (auto const meant = word_meant(said); !meant.empty())
    talk_.say(fmt::format(words::did_you_mean_word, written.raw, meant));
  else
    talk_.say(number ? words::not_read_number : words::not_read_words);
  return true;
}

QuestionTalk::After QuestionTalk::answer(std::string const& said) {
  auto const written = read_written(said, conventions().mark);
  if (is_no_answer(said, written, question_.worked.problem.finds[find_])) return After::again;
  auto script = earlier_answers();
  script.push_back(written);
  auto const judgement = judge_.judge(script).at(find_);
  if (judgement.value == ValueVerdict::unreadable) {
    talk_.say(is_stated(question_.worked.problem.finds[find_].kind) ? words::not_read_words : words::not_read_formula);
    return After::again;
  }
  here().tries.push_back(try_of(judgement));
  bool const accepted = is_accepted(judgement);
  if (accepted) here().state = PracticePart::State::right;
  keep_();
  auto const feedback = feedback_to_try_again(judgement, question_, find_, conventions());
  auto const bare = feedback.rfind(judgement.answer, 0) == 0 ? feedback.substr(judgement.answer.size()) : feedback;
  if (accepted || bare != last_said_)
    talk_.say(feedback);
  else
    lead_on(judgement.answer);
  last_said_ = bare;
  if (accepted) return After::done;
  if (!told_to_try_again_) talk_.say(words::try_again);
  told_to_try_again_ = true;
  return After::again;
}

void QuestionTalk::lead_on(std::string const& given) {
  talk_.say(fmt::format(words::not_yet, given));
  if (formula_said_ || static_cast<std::size_t>(here().steps_shown) >= lines_.size())
    talk_.say(words::step_is_there);
  else
    hint();
}

std::vector<Written> QuestionTalk::earlier_answers() const {
  std::vector<Written> script;
  for (std::size_t f = 0; f < find_; ++f) {
    auto const& part = entry_.parts[f];
    if (part.state == PracticePart::State::right && !part.tries.empty()) {
      script.push_back(read_written(part.tries.back().given, conventions().mark));
      continue;
    }
    auto const& right = working().finds[f];
    auto const unit = working().nodes[static_cast<std::size_t>(right.node)].value.unit.symbol;
    script.push_back(read_written(unit.empty() || right.figures == 0 ? right.text : right.text + ' ' + unit, DecimalMark::point));
  }
  return script;
}

std::string QuestionTalk::prompt() const {
  auto const& find = question_.worked.problem.finds[find_];
  std::string text = words::answer_prompt;
  if (auto const letter = part_letter(question_.worked, find_); !letter.empty()) text += ' ' + letter;
  text += ", " + find_label(find, conventions());
  if (find.kind == Find::Kind::number) {
    auto const& node = working().nodes[static_cast<std::size_t>(working().finds[find_].node)];
    if (auto const unit = unit_text(node.value.unit, conventions()); !unit.empty()) text += fmt::format(words::in_unit, unit);
  }
  return text + ": ";
}

void QuestionTalk::set_shown(std::size_t lines) {
  here().steps_shown = static_cast<int>(lines);
  hinted_ = formula_said_ = false;
  keep_();
}

void QuestionTalk::hint() {
  auto const next = static_cast<std::size_t>(here().steps_shown);
  if (next >= lines_.size()) return talk_.say(words::all_shown);
  auto const said = molewright::hint(question_.worked, working(), lines_[next].node, conventions());
  if (!hinted_)
    talk_.say(said.words);
  else
    talk_.say(said.formula.empty() ? std::string(words::no_formula) : fmt::format(words::formula_is, said.formula));
  formula_said_ = hinted_;
  hinted_ = true;
}

void QuestionTalk::say_answer() const {
  talk_.say(fmt::format(words::the_answer_is, answer_line(question_.worked, working(), find_, conventions())));
}

QuestionTalk::After QuestionTalk::step() {
  auto const next = static_cast<std::size_t>(here().steps_shown);
  if (next >= lines_.size()) return show_all();
  if (lines_.size() == 1 && !warned_) {  // it would give the answer away unasked
    warned_ = true;
    if (!hinted_) hint();
    talk_.say(words::only_step);
    return After::again;
  }
  talk_.say(lines_[next].text);
  set_shown(next + 1);
  if (next + 1 < lines_.size()) return After::again;
  say_answer();
  here().state = PracticePart::State::shown;
  keep_();
  return After::done;
}

QuestionTalk::After QuestionTalk::show_all() {
  for (auto at = static_cast<std::size_t>(here().steps_shown); at < lines_.size(); ++at) talk_.say(lines_[at].text);
  say_answer();
  here().state = PracticePart::State::shown;
  set_shown(lines_.size());
  return After::done;
}

QuestionTalk::After QuestionTalk::step_by_step() {
  auto const stepwise = molewright::stepwise(question_, find_, conventions());
  auto course = course_;
  course.rules.figures = MarkingRules::Figures::at_least_two;  // of steps on the way; guard digits are welcome
  Judge const judge(stepwise.question, course);
  talk_.say(words::step_by_step);
  std::vector<Written> written;
  for (auto at = static_cast<std::size_t>(here().steps_shown); at < lines_.size(); ++at) {
    talk_.say(molewright::hint(question_.worked, working(), lines_[at].node, conventions()).words);
    hinted_ = true;
    if (at + 1 == lines_.size()) return After::again;  // the answer itself is asked for as before
    auto const after = step_of_mine(stepwise, judge, at, written);
    if (after == After::done) continue;
    if (after == After::shown) return After::done;
    if (after == After::again) talk_.say(words::left_steps);
    return after;
  }
  return After::again;
}

/// One step, asked for until it is right, shown, or left: `done`, or what is wanted in its place; `again` leaves the steps.
QuestionTalk::After QuestionTalk::step_of_mine(Stepwise const& stepwise, Judge const& judge, std::size_t line,
                                               std::vector<Written>& written) {
  auto const& step = lines_[line];
  auto const at = std::find(stepwise.nodes.begin(), stepwise.nodes.end(), step.node) - stepwise.nodes.begin();
  auto const index = static_cast<std::size_t>(at);
  bool const asked = index < stepwise.nodes.size();
  for (std::size_t k = 0; k < lines_.size() && written.size() < std::min(index, stepwise.nodes.size()); ++k)
    if (lines_[k].node == stepwise.nodes[written.size()]) written.push_back(as_written(lines_[k]));  // shown before
  auto const symbols = step_in_symbols(question_.worked, working(), step.node, conventions());
  auto const unit = unit_text(working().nodes[static_cast<std::size_t>(step.node)].value.unit, conventions());
  std::string prompt = words::press_enter;
  if (asked && stepwise.question.worked.problem.finds[index].kind == Find::Kind::limiting_reagent)
    prompt = words::which_first;
  else if (asked)
    prompt = symbols.left + (unit.empty() ? "" : fmt::format(words::in_unit, unit)) + ": ";
  int wrong = 0;
  for (;;) {
    auto const said = talk_.ask(prompt);
    if (!said) return After::stop;
    auto const word = word_said(*said);
    if (said->empty() || word == Word::step) {
      talk_.say(step.text);
      if (asked) written.push_back(as_written(step));
      set_shown(line + 1);
      return After::done;
    }
    if (word == Word::back) return After::again;
    if (word == Word::steps) continue;
    if (word) {
      auto const after = *command(*said);
      if (after == After::again) continue;
      return after == After::done ? After::shown : after;
    }
    auto const read = read_written(*said, conventions().mark);
    if (!asked || is_no_answer(*said, read, stepwise.question.worked.problem.finds[index])) continue;
    auto script = written;
    script.push_back(read);
    auto const judgement = judge.judge(script).at(index);
    if (judgement.value == ValueVerdict::unreadable) {
      talk_.say(words::not_read_formula);
      continue;
    }
    bool const accepted = is_accepted(judgement);
    // Said once more it would help nobody: what is said goes on from the words to the formula, and then to the step itself.
    auto const formula = molewright::hint(question_.worked, working(), step.node, conventions()).formula;
    if (accepted || ++wrong == 1)
      talk_.say(feedback_to_try_again(judgement, stepwise.question, index, conventions()));
    else
      talk_.say(wrong == 2 && !formula.empty() ? fmt::format(words::step_formula, formula) : words::step_shown_on_enter);
    if (!accepted) continue;
    written.push_back(read);
    set_shown(line + 1);
    return After::done;
  }
}

}  // namespace molewright
