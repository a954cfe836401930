#include "generators/set_maker.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>

#include "generators/difficulty.h"
#include "generators/letters.h"
#include "generators/set_places.h"

namespace molewright {
namespace {

constexpr int most_papers = 100000;
constexpr int most_seeds = 60;         ///< tried for a question that nobody on the paper or in the class has
constexpr int seeds_for_fit = 12;      ///< of these, for one that is as hard as the others'
constexpr int enough_to_give_up = 10;  ///< questions in a row that nothing new was found for: the template has no more to give
constexpr int seeds_when_dry = 4;
constexpr int most_misfits = 5;  ///< seeds in a row, from the first on, that nothing fit could be drawn of
/// Beyond that, three figures do not go round.
constexpr std::size_t most_papers_with_own_answers = 200;

struct Reader {  ///< whoever gets a paper of their own
  std::string version, student, level;
  bool large_print = false;
  std::string salt;  ///< what tells their numbers from others'
};

/// What has been given out at one place.
struct GivenOut {
  std::unordered_set<std::uint64_t> texts;
  std::unordered_set<std::uint64_t> answers;
  std::map<std::string, int> difficulty;          ///< of the first question of each template
  std::map<std::string, std::vector<int>> marks;  ///< likewise, a part each: a formula with a bracket more is not worth more
  int run_dry = 0;                                ///< questions in a row for which nothing new was found
  int answers_run_dry = 0;                        ///< questions in a row whose answers somebody else has, too
};

/// A question at one place, weighed against what others have there.
struct Candidate {
  Question question;
  int penalty = 0;  ///< 0 where nothing is amiss
};
constexpr int had_before = 100000;  ///< by the very student
constexpr int same_wording = 1000;  ///< as another student's, or as one that was set before
constexpr int same_answer = 100;

std::vector<std::uint64_t> answers_of(Question const& question) {
  std::vector<std::uint64_t> hashes;
  Working const& working = question.worked.accepted.front();
  for (std::size_t find = 0; find < working.finds.size(); ++find)
    if (working.finds[find].figures > 0) hashes.push_back(hash_of(working.finds[find].text, find));
  return hashes;
}

class Builder final : public SetMaker {
 public:
  Builder(SetPlan plan, std::vector<ClassMember> members, std::string const& seed, QuestionMaker& maker, SetHistory history)
      : plan_(std::move(plan)),
        members_(std::move(members)),
        seed_text_(seed),
        seed_(hash_of(seed)),
        maker_(maker),
        history_(std::move(history)) {}

  std::optional<Fault> prepare() {
    std::vector<SetItem> const items =
        plan_.items.empty() && history_.resit_of != nullptr ? items_like(*history_.resit_of) : plan_.items;
    auto places = places_of(items, maker_);
    if (!ok(places)) return fault(places);
    places_ = std::move(value(places));
    if (plan_.copies && (*plan_.copies < 1 || *plan_.copies > most_papers)) {
      return Fault{"no-versions", std::to_string(*plan_.copies) + " versions cannot be made",
                   "1 to " + std::to_string(most_papers), 0};
    }
    if (members_.empty() && !plan_.copies && plan_.versions == SetPlan::Versions::each)
      return Fault{"empty-class", "the class has no students", "a class list, or a number of versions", 0};
    take_readers();
    given_out_.resize(places_.size());
    note_what_is_too_small();
    return std::nullopt;
  }

  std::size_t papers() const override { return readers_.size(); }

  Result<ProblemSet> next(std::size_t most, MakeMany const& make_many) override {
    ProblemSet set;
    set.title = plan_.title;
    set.seed = seed_text_;
    set.course = maker_.course();
    set.class_order = class_order_;
    set.class_versions = class_versions_;
    std::size_t const end = std::min(readers_.size(), made_ + std::min(most, readers_.size()));
    std::vector<std::optional<Result<Question>>> first;
    if (make_many) first = first_tries(made_, end, make_many);
    for (std::size_t at = 0; made_ < end; ++made_, at += places_.size()) {
      if (auto const found = paper(readers_[made_], first.empty() ? nullptr : &first[at], set)) return *found;
    }
    letters_.settle(set);
    return set;
  }

  std::vector<std::string> notes() const override {
    std::vector<std::string> notes;
    for (auto const& [pair, times] : alike_) {
      notes.push_back("not told apart in " + std::to_string(times) + (times == 1 ? " question: " : " questions: ") + pair);
    }
    if (repeated_ > 0) {
      notes.push_back(std::to_string(repeated_) + (repeated_ == 1 ? " question is" : " questions are") +
                      " the same as another student's or one set before: the template has no more to give");
    }
    if (had_ > 0) {
      notes.push_back(std::to_string(had_) + (had_ == 1 ? " question is one" : " questions are ones") +
                      " that the student has had before: the template has no more to give");
    }
    notes.insert(notes.end(), other_notes_.begin(), other_notes_.end());
    return notes;
  }

 private:
  /// A template that has fewer questions to give than there are papers is named before all are made.
  void note_what_is_too_small() {
    std::set<std::string> looked_at;
    for (QuestionPlace const& place : places_)
      for (Template const* one : place.fit) {
        double all = 1;
        for (Let const& let : one->lets) all *= let.pick.size();
        if (all > 20.0 * static_cast<double>(readers_.size()) || !looked_at.insert(one->name).second) continue;
        double const fit = maker_.questions_of(*one);
        if (fit >= static_cast<double>(readers_.size())) continue;
        other_notes_.insert("the template " + one->name + " has about " + std::to_string(static_cast<long long>(fit)) +
                            " different questions to give, for " + std::to_string(readers_.size()) + " papers");
      }
  }

  void take_readers() {
    for (ClassMember const& member : members_) {
      class_order_.push_back(member.student);
      bool const a_or_b = member.version == "A" || member.version == "B";
      bool const even = class_order_.size() % 2 == 0;
      class_versions_.push_back(plan_.versions == SetPlan::Versions::one  ? "1"
                                : plan_.versions == SetPlan::Versions::ab ? (a_or_b ? member.version
                                                                             : even ? "B"
                                                                                    : "A")
                                : member.version.empty()                  ? std::to_string(class_order_.size())
                                                                          : member.version);
    }
    if (plan_.versions == SetPlan::Versions::one) {
      readers_.push_back({"1", "", "", false, "one"});
    } else if (plan_.versions == SetPlan::Versions::ab) {
      readers_.push_back({"A", "", "", false, "A"});
      readers_.push_back({"B", "", "", false, "B"});
    } else if (!members_.empty()) {
      for (std::size_t i = 0; i < members_.size(); ++i) {
        readers_.push_back({class_versions_[i], members_[i].student, members_[i].level, members_[i].print == "large",
                            "student " + members_[i].student});
      }
    } else {
      for (int i = 1; i <= *plan_.copies; ++i)
        readers_.push_back({std::to_string(i), "", "", false, "version " + std::to_string(i)});
    }
    if (!members_.empty()) return;
    for (Reader const& reader : readers_) {  // nobody is known by name: a paper's answers are handed in under its version
      class_order_.push_back("version " + reader.version);
      class_versions_.push_back(reader.version);
    }
  }

  std::optional<Fault> paper(Reader const& reader, std::optional<Result<Question>>* first, ProblemSet& set) {
    Paper paper{reader.version, reader.student, reader.large_print, {}};
    std::set<std::string> texts;  ///< of this paper
    std::vector<Template const*> const& chosen = templates_for(reader);
    Paper const* const earlier = earlier_paper(reader);
    for (std::size_t s = 0; s < places_.size(); ++s) {
      auto question = places_[s].item.own ? maker_.own(*places_[s].item.own)
                                          : fresh(*chosen[s], s, reader, first == nullptr ? nullptr : &first[s], texts);
      if (!ok(question)) return fault(question);
      Question& made = value(question);
      made.version = reader.version;
      made.student = reader.student;
      made.number = std::to_string(s + 1);
      bool const as_before = earlier != nullptr && s < earlier->questions.size() &&
                             earlier->questions[s].template_name == made.template_name &&
                             earlier->questions[s].marks.size() == made.marks.size();
      if (as_before)
        made.marks = earlier->questions[s].marks;
      else if (auto const found = spread_marks(places_[s].item, made))
        return found;
      texts.insert(made.text);
      GivenOut& out = given_out_[s];
      auto const& usual = out.marks.emplace(made.template_name, made.marks).first->second;
      if (!as_before && usual.size() == made.marks.size()) made.marks = usual;
      out.texts.insert(hash_of(made.text));
      for (auto const hash : answers_of(made)) out.answers.insert(hash);
      if (out.difficulty.count(made.template_name) == 0) out.difficulty.emplace(made.template_name, difficulty_of(made).total());
      for (std::string const& pair : made.told_apart_not) ++alike_[made.template_name + ": " + pair];
      paper.questions.push_back(std::move(made));
    }
    set.papers.push_back(std::move(paper));
    return std::nullopt;
  }

  /// The earlier paper that a reader's stands in for; nullptr where it is none.
  Paper const* earlier_paper(Reader const& reader) const {
    if (history_.resit_of == nullptr || history_.resit_of->papers.empty()) return nullptr;
    auto const& papers = history_.resit_of->papers;
    for (Paper const& paper : papers)
      if (reader.student.empty() ? paper.version == reader.version : paper.student == reader.student) return &paper;
    return &papers.front();
  }

  /// One template a place, the same for all of one level; a kind gives all of its templates before it gives one again.
  std::vector<Template const*> const& templates_for(Reader const& reader) {
    Paper const* const earlier = earlier_paper(reader);
    std::string const key = earlier != nullptr ? "resit " + earlier->version + ' ' + earlier->student : reader.level;
    auto const known = chosen_.find(key);
    if (known != chosen_.end()) return known->second;
    std::vector<Template const*> chosen;
    std::map<std::string, std::vector<Template const*>> left;  ///< by kind and level: those not used since all were there
    Random random(spread(seed_), 1);
    for (std::size_t s = 0; s < places_.size(); ++s) {
      QuestionPlace const& place = places_[s];
      if (earlier != nullptr && s < earlier->questions.size()) {
        if (Template const* same = maker_.find(earlier->questions[s].template_name)) {
          chosen.push_back(same);
          given_out_[s].difficulty.emplace(same->name, difficulty_of(earlier->questions[s]).total());
          continue;
        }
      }
      if (place.fit.size() < 2) {
        chosen.push_back(place.fit.empty() ? nullptr : place.fit.front());
        continue;
      }
      std::string const level = place.item.level.empty() ? reader.level : place.item.level;
      std::vector<Template const*> fit;
      for (Template const* one : place.fit) {
        if (level.empty() || one->level == level) fit.push_back(one);
      }
      if (fit.empty()) {
        fit = place.fit;
        other_notes_.insert("no question of the kind " + place.fit.front()->kind + " has the level " + level +
                            ": another level was taken");
      }
      auto& rest = left[place.fit.front()->kind + "/" + level];
      if (rest.empty()) rest = fit;
      auto const at = static_cast<std::ptrdiff_t>(random.below(static_cast<std::uint32_t>(rest.size())));
      chosen.push_back(rest[static_cast<std::size_t>(at)]);
      rest.erase(rest.begin() + at);
    }
    return chosen_.emplace(key, std::move(chosen)).first->second;
  }

  std::uint32_t seed_of(std::size_t place, Reader const& reader, int tries) const {
    std::uint64_t hash = hash_of(reader.salt, seed_);
    hash = spread(hash_of(std::to_string(place), hash));
    return static_cast<std::uint32_t>(spread(hash + static_cast<std::uint64_t>(tries)) % code_seeds);
  }

  std::vector<std::optional<Result<Question>>> first_tries(std::size_t begin, std::size_t end, MakeMany const& make_many) {
    std::vector<Ask> asks;
    for (std::size_t r = begin; r < end; ++r) {
      auto const& chosen = templates_for(readers_[r]);
      for (std::size_t s = 0; s < places_.size(); ++s)
        if (chosen[s] != nullptr) asks.push_back({chosen[s]->name, seed_of(s, readers_[r], 0), places_[s].form});
    }
    auto made = make_many(asks);
    std::vector<std::optional<Result<Question>>> first;
    auto next = made.begin();
    for (std::size_t r = begin; r < end; ++r) {
      auto const& chosen = templates_for(readers_[r]);
      for (std::size_t s = 0; s < places_.size(); ++s) {
        if (chosen[s] != nullptr && next != made.end())
          first.emplace_back(std::move(*next++));
        else
          first.emplace_back();
      }
    }
    return first;
  }

  int penalty_of(Question const& question, std::size_t place, Reader const& reader) const {
    GivenOut const& out = given_out_[place];
    auto const text = hash_of(question.text);
    int penalty = out.texts.count(text) + history_.texts.count(text) > 0 ? same_wording : 0;
    auto const* seen = history_.seen_by(reader.student);
    if (seen != nullptr && seen->count(text) > 0) penalty += had_before;
    if (readers_.size() <= most_papers_with_own_answers) {
      for (auto const hash : answers_of(question))
        if (out.answers.count(hash) != 0) penalty += same_answer;
    }
    auto const target = out.difficulty.find(question.template_name);
    if (target != out.difficulty.end()) penalty += std::abs(target->second - difficulty_of(question).total());
    return penalty;
  }

  /// A question that is not on this paper yet, and as far as can be on nobody else's at this place.
  Result<Question> fresh(Template const& from, std::size_t place, Reader const& reader, std::optional<Result<Question>>* first,
                         std::set<std::string> const& texts) {
    std::optional<Candidate> best;
    Fault last{"nothing-fits", "no question could be made of the template " + from.name, "", 0};
    GivenOut& out = given_out_[place];
    int const most_tries = out.run_dry < enough_to_give_up ? most_seeds : seeds_when_dry;
    int const for_answers = out.answers_run_dry < enough_to_give_up ? most_seeds : seeds_for_fit;
    for (int tries = 0; tries < most_tries; ++tries) {
      if (best && best->penalty < same_wording && tries >= (best->penalty < same_answer ? seeds_for_fit : for_answers)) break;
      auto question = tries == 0 && first != nullptr && *first
                          ? std::move(**first)
                          : maker_.make(from, seed_of(place, reader, tries), places_[place].form);
      if (!ok(question)) {
        last = fault(question);
        bool const another_may = last.id == "nothing-fits" || last.id == "form-does-not-fit";
        if (!another_may || (!best && tries >= most_misfits)) return last;
        continue;
      }
      if (texts.count(value(question).text) != 0) continue;
      int const penalty = penalty_of(value(question), place, reader);
      if (!best || penalty < best->penalty) best = Candidate{std::move(value(question)), penalty};
      if (penalty == 0) break;
    }
    if (!best) {
      if (last.what.find("could be made") == std::string::npos) return last;
      return Fault{"nothing-fits", "the template " + from.name + " has too few different questions for one paper",
                   "a smaller count", 0};
    }
    out.run_dry = best->penalty >= same_wording ? out.run_dry + 1 : 0;
    out.answers_run_dry = best->penalty >= same_answer ? out.answers_run_dry + 1 : 0;
    if (best->penalty >= had_before)
      ++had_;
    else if (best->penalty >= same_wording)
      ++repeated_;
    return std::move(best->question);
  }

  static std::optional<Fault> spread_marks(SetItem const& item, Question& question) {
    if (!item.marks) return std::nullopt;
    int const parts = static_cast<int>(question.marks.size());
    if (*item.marks < parts || *item.marks > 100) {
      return Fault{"bad-marks",
                   "a question of " + std::to_string(parts) + (parts == 1 ? " part has " : " parts has ") +
                       std::to_string(*item.marks) + (*item.marks == 1 ? " mark" : " marks"),
                   "at least one a part, and 100 at most", 0};
    }
    // Each part has one; what is left goes one by one to the part that has fewest for its steps.
    std::vector<int> const usual = question.marks;
    std::fill(question.marks.begin(), question.marks.end(), 1);
    for (int left = *item.marks - parts; left > 0; --left) {
      std::size_t poorest = 0;
      for (std::size_t i = 1; i < usual.size(); ++i) {
        if (question.marks[i] * usual[poorest] < question.marks[poorest] * usual[i]) poorest = i;
      }
      ++question.marks[poorest];
    }
    return std::nullopt;
  }

  SetPlan plan_;
  std::vector<ClassMember> members_;
  std::string seed_text_;
  std::uint64_t seed_;
  QuestionMaker& maker_;
  SetHistory history_;
  std::vector<QuestionPlace> places_;
  std::vector<Reader> readers_;
  std::vector<std::string> class_order_, class_versions_;
  std::size_t made_ = 0;                                        ///< papers
  std::map<std::string, std::vector<Template const*>> chosen_;  ///< by student level, or earlier paper
  std::vector<GivenOut> given_out_;                             ///< at each place
  Letters letters_;
  std::map<std::string, int> alike_;
  std::set<std::string> other_notes_;
  int repeated_ = 0, had_ = 0;
};

}  // namespace

void note_texts(ProblemSet const& earlier, SetHistory& history) {
  for (Paper const& paper : earlier.papers)
    for (Question const& question : paper.questions) history.texts.insert(hash_of(question.text));
}

Result<std::unique_ptr<SetMaker>> SetMaker::begin(SetPlan const& plan, std::vector<ClassMember> const& members,
                                                  std::string const& seed, QuestionMaker& maker, SetHistory const& history) {
  auto builder = std::make_unique<Builder>(plan, members, seed, maker, history);
  if (auto const found = builder->prepare()) return *found;
  return std::unique_ptr<SetMaker>(std::move(builder));
}

Result<ProblemSet> make_set(SetPlan const& plan, std::vector<ClassMember> const& members, std::string const& seed,
                            QuestionMaker& maker, SetHistory const& history) {
  auto begun = SetMaker::begin(plan, members, seed, maker, history);
  if (!ok(begun)) return fault(begun);
  auto set = value(begun)->next(value(begun)->papers());
  if (ok(set)) value(set).notes = value(begun)->notes();
  return set;
}

}  // namespace molewright
