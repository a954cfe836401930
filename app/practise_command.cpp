#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <random>

#include "app/commands.h"
#include "app/practice_record.h"
#include "app/practise_question.h"
#include "app/practise_words.h"
#include "app/question_templates.h"
#include "app/talk.h"
#include "engine/ascii.h"
#include "generators/kinds.h"

namespace molewright {
namespace {

std::string any_seed() {
  std::random_device device;
  return std::to_string(device()) + '-' + std::to_string(device());
}

std::vector<std::string> parted(std::string_view list) {
  std::vector<std::string> out;
  for (std::size_t begin = 0; begin <= list.size();) {
    auto const end = std::min(list.find_first_of(",;", begin), list.size());
    auto const one = stripped(list.substr(begin, end - begin));
    if (!one.empty()) out.emplace_back(one);
    begin = end + 1;
  }
  return out;
}

class Practice {
 public:
  Practice(Console& console, PractiseOptions const& options, QuestionMaker& maker, PracticeRecord record)
      : console_(console),
        talk_(options.plain),
        maker_(maker),
        record_(std::move(record)),
        seed_(options.seed ? *options.seed : any_seed()),
        kinds_(kinds_of(maker.templates())) {}

  void run(PractiseOptions const& options) {
    if (!take_wish(options)) return;
    talk_.say(words::greeting);
    auto wanted = Wanted::next;
    bool const to_go_on = options.kinds.empty() && !record_.entries.empty() && record_.entries.back().open();
    if (to_go_on)
      wanted = go_on();
    else if (options.kinds.empty() && !record_.found())
      wanted = Wanted::kinds;
    while (wanted != Wanted::stop) {
      auto const chosen = wanted == Wanted::kinds ? ask_for_kinds() : Chosen::kinds;
      if (chosen == Chosen::stop) break;
      wanted = chosen == Chosen::back ? back() : next();
    }
    say_where_it_is_kept();
  }

 private:
  /// What the command line asks for, or else what the record says; false (and a fault) for a kind that is none.
  bool take_wish(PractiseOptions const& options) {
    auto& wish = record_.wish;
    wish.kinds.erase(std::remove_if(wish.kinds.begin(), wish.kinds.end(),
                                    [&](auto const& kind) { return std::count(kinds_.begin(), kinds_.end(), kind) == 0; }),
                     wish.kinds.end());
    if (!options.level.empty()) wish.level = options.level;
    std::vector<std::string> meant;
    for (std::size_t i = 0; i < options.kinds.size(); ++i) {
      auto const& said = options.kinds[i];
      auto const kind = kind_meant(said, kinds_);
      if (kind.empty()) {
        auto const near = kinds_near(said, kinds_);
        console_.report(Fault{"unknown-kind", "there is no kind called \"" + said + '"',
                              near.empty() ? "a kind; practise without one, then list, shows them all" : either(near), 0},
                        Item{said, "argument " + std::to_string(i + 1), 1, false});
        continue;
      }
      meant.push_back(kind);
    }
    if (meant.size() != options.kinds.size()) return false;
    if (!meant.empty()) wish.kinds = meant;
    keep();
    return true;
  }

  enum class Chosen { kinds, back, stop };

  /// Stops at the end of the input, too. Back leads to the question that was left for this.
  Chosen ask_for_kinds() {
    talk_.say(words::which_kinds);
    if (!record_.entries.empty()) talk_.say(words::way_back);
    for (;;) {
      auto const said = talk_.ask(words::kinds_prompt);
      if (!said || lowered(*said) == "quit" || lowered(*said) == "stop" || lowered(*said) == "exit") return Chosen::stop;
      if (lowered(*said) == "back" && !record_.entries.empty()) return Chosen::back;
      if (lowered(*said) == "list" || lowered(*said) == "kinds" || lowered(*said) == "help" || *said == "?") {
        for (std::size_t i = 0; i < kinds_.size(); ++i) talk_.say(fmt::format(words::listed_kind, i + 1, kind_words(kinds_[i])));
        continue;
      }
      if (auto const kinds = kinds_said(*said)) {
        record_.wish.kinds = *kinds;
        keep();
        return Chosen::kinds;
      }
    }
  }

  /// Kinds by name or by their number in the list; nothing (and what is wrong is said) where one is not known.
  std::optional<std::vector<std::string>> kinds_said(std::string const& said) const {
    std::vector<std::string> kinds;
    for (auto const& one : parted(said)) {
      auto kind = kind_meant(one, kinds_);
      bool const number = one.size() <= 3 && std::all_of(one.begin(), one.end(), is_digit);
      if (number && std::stoul(one) >= 1 && std::stoul(one) <= kinds_.size()) kind = kinds_[std::stoul(one) - 1];
      if (kind.empty()) {
        auto near = kinds_near(one, kinds_);
        for (auto& id : near) id = kind_words(id);
        talk_.say(fmt::format(words::no_such_kind, one) +
                  (near.empty() ? std::string() : fmt::format(words::did_you_mean, either(near))) + words::list_for_all);
        return std::nullopt;
      }
      kinds.push_back(kind);
    }
    return kinds;
  }

  /// The last question once more; where it was done, another of the same kinds.
  Wanted back() {
    auto& last = record_.entries.back();
    bool const left = last.left;
    last.left = false;
    if (last.open()) {
      keep();
      return go_on();
    }
    last.left = left;
    return next();
  }

  Wanted go_on() {
    auto const question = maker_.remake(record_.entries.back().code);
    if (!ok(question) || value(question).marks.size() != record_.entries.back().parts.size()) {
      talk_.say(fmt::format(words::cannot_go_on, ok(question) ? words::it_has_changed : fault(question).what));
      record_.entries.back().left = true;
      keep();
      return Wanted::next;
    }
    talk_.say(words::going_on);
    return talk_through(value(question));
  }

  Wanted next() {
    auto const made = next_practice(maker_, record_.wish, record_.past(), seed_);
    if (!ok(made)) {
      console_.at_fault();
      talk_.say(fmt::format(words::no_question, sentence(fault(made))));
      return Wanted::stop;
    }
    auto const& [question, chosen_for] = value(made);
    PracticeEntry entry{question.code, question.template_name, question.kind, chosen_for, false, {}};
    for (std::size_t f = 0; f < question.marks.size(); ++f) entry.parts.push_back({part_name(question, f), {}, 0, {}});
    record_.entries.push_back(std::move(entry));
    keep();
    if (!chosen_for.empty()) talk_.say(fmt::format(words::for_a_slip, words_of(chosen_for).brief));
    return talk_through(question);
  }

  Wanted talk_through(Question const& question) {
    QuestionTalk talk(talk_, question, console_.course, record_.entries.back(), [this] { keep(); });
    return talk.run();
  }

  /// What can be kept is; where it cannot any more, that is said once.
  void keep() {
    auto const found = record_.keep();
    if (!found || cannot_keep_) return;
    cannot_keep_ = true;
    console_.report(*found, record_.path());
    talk_.say(words::cannot_keep);
  }

  void say_where_it_is_kept() const {
    talk_.say("");
    if (record_.path().empty() || cannot_keep_)
      talk_.say(words::not_kept);
    else
      talk_.say(fmt::format(words::kept, record_.path()));
  }

  Console& console_;
  Talk talk_;
  QuestionMaker& maker_;
  PracticeRecord record_;
  std::string seed_;
  std::vector<std::string> kinds_;
  bool cannot_keep_ = false;
};
}  // namespace

void practise_command(Console& console, PractiseOptions const& options) {
  auto read = read_templates(question_templates());
  for (auto const& found : read.faults) console.report(found.fault, found.name);
  QuestionMaker maker(std::move(read.templates), console.course);
  auto record = PracticeRecord::open(options.keep);
  if (auto const* found = std::get_if<PlacedFault>(&record)) return console.report(*found, options.keep);
  Practice(console, options, maker, std::get<PracticeRecord>(std::move(record))).run(options);
}

}  // namespace molewright
