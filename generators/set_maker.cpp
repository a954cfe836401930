#include "generators/set_maker.h"

#include <algorithm>
#include <map>
#include <set>

#include "generators/letters.h"

namespace molewright {
namespace {

constexpr int most_papers = 100000;
constexpr int most_questions = 200;  ///< of one line of the order
constexpr int most_seeds = 60;       ///< tried for a question that nobody on the paper or in the class has

struct Words {
  std::string_view said;
  std::string_view kind;
};
/// How people call the kinds. Compared in small letters, without blanks, hyphens and a plural s.
constexpr Words spoken[] = {
    {"n=cv", "n-cV"},
    {"cv", "n-cV"},
    {"ncv", "n-cV"},
    {"concentration", "n-cV"},
    {"amountconcentration", "n-cV"},
    {"solution", "n-cV"},
    {"amountinsolution", "n-cV"},
    {"molarity", "n-cV"},
    {"mass", "mass-from-amount"},
    {"amount", "mass-from-amount"},
    {"n=m/m", "mass-from-amount"},
    {"molarmass", "mass-from-amount"},
    {"hydrate", "mass-from-amount"},
    {"weighing", "mass-from-amount"},
    {"massfrommole", "mass-from-amount"},
    {"mole", "mass-from-amount"},
    {"diluting", "dilution"},
    {"serialdilution", "dilution"},
    {"c1v1=c2v2", "dilution"},
    {"precipitation", "precipitate"},
    {"precipitatemass", "precipitate"},
    {"gravimetric", "precipitate"},
    {"limiting", "limiting-reagent"},
    {"limitingreactant", "limiting-reagent"},
    {"excess", "limiting-reagent"},
    {"excessreagent", "limiting-reagent"},
};

std::string bare(std::string_view text) {
  std::string result;
  for (char const c : text) {
    if (c == ' ' || c == '-' || c == '_') continue;
    result += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  if (result.size() > 3 && result.back() == 's') result.pop_back();
  return result;
}

std::string list(std::vector<std::string> const& names) {
  std::string text;
  for (std::string const& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

Fault unknown(char const* id, std::string const& what, std::string const& name, std::vector<std::string> const& known) {
  auto const near = nearest(name, known);
  return Fault{id, "unknown " + what + " \"" + name + "\"", list(near.empty() ? known : near), 0};
}

/// A place on the paper: the line of the order it comes from, and the templates that may fill it.
struct Slot {
  SetItem const* item = nullptr;
  std::vector<Template const*> fit;
  FormChoice form;
};

struct Reader {  ///< whoever gets a paper of their own
  std::string version, student, level;
  bool large_print = false;
  std::string salt;  ///< what tells their numbers from others'
};

class SetBuilder {
 public:
  SetBuilder(SetPlan const& plan, std::string const& seed, QuestionMaker& maker)
      : plan_(plan), seed_(hash_of(seed)), maker_(maker) {}

  std::optional<Fault> prepare() {
    if (plan_.items.empty()) return Fault{"no-questions", "the set asks for no question", "a [[question]] or a kind", 0};
    std::vector<std::string> const kinds = kinds_of(maker_.templates());
    for (SetItem const& item : plan_.items) {
      if (item.count < 1 || item.count > most_questions) {
        return Fault{"bad-count", "count is " + std::to_string(item.count), "1 to " + std::to_string(most_questions), 0};
      }
      if (!item.level.empty() && item.level != "plain" && item.level != "standard" && item.level != "stretching") {
        return unknown("unknown-level", "level", item.level, {"plain", "standard", "stretching"});
      }
      Slot slot{&item, {}, {item.form, 1}};
      if (item.own) {
        slots_.push_back(slot);
        continue;
      }
      if (!item.template_name.empty()) {
        Template const* found = maker_.find(item.template_name);
        if (found == nullptr) return unknown_template(item.template_name);
        slot.fit.push_back(found);
      } else {
        std::string const kind = kind_meant(item.kind, kinds);
        if (kind.empty()) return unknown("unknown-kind", "kind", item.kind, kinds);
        for (Template const& one : maker_.templates()) {
          if (one.kind == kind && can_be_put(one, slot.form)) slot.fit.push_back(&one);
        }
        if (slot.fit.empty()) {
          return Fault{"form-does-not-fit", "no question of the kind " + kind + " can be put as " + std::string(name(item.form)),
                       "another form", 0};
        }
      }
      for (int i = 0; i < item.count; ++i) {
        slot.form.lines_left = i + 1;  // a faded working fades: each leaves one line more
        slots_.push_back(slot);
      }
    }
    return std::nullopt;
  }

  std::optional<Fault> paper(Reader const& reader, ProblemSet& set) {
    Paper paper{reader.version, reader.student, reader.large_print, {}};
    std::set<std::string> texts;  ///< of this paper
    std::vector<Template const*> const chosen = templates_for(reader.level);
    for (std::size_t s = 0; s < slots_.size(); ++s) {
      auto question = slots_[s].item->own ? maker_.own(*slots_[s].item->own) : fresh(*chosen[s], s, reader, texts);
      if (!ok(question)) return fault(question);
      Question& made = value(question);
      made.version = reader.version;
      made.student = reader.student;
      made.number = std::to_string(s + 1);
      if (auto const found = spread_marks(*slots_[s].item, made)) return found;
      texts.insert(made.text);
      taken_[s].insert(hash_of(made.text));
      for (std::string const& pair : made.told_apart_not) ++alike_[made.template_name + ": " + pair];
      paper.questions.push_back(std::move(made));
    }
    set.papers.push_back(std::move(paper));
    return std::nullopt;
  }

  void notes(ProblemSet& set) const {
    for (auto const& [pair, times] : alike_) {
      set.notes.push_back("not told apart in " + std::to_string(times) + (times == 1 ? " question: " : " questions: ") + pair);
    }
    if (repeated_ > 0) {
      set.notes.push_back(std::to_string(repeated_) + (repeated_ == 1 ? " question is" : " questions are") +
                          " the same as another student's: the template has no more to give");
    }
    set.notes.insert(set.notes.end(), level_notes_.begin(), level_notes_.end());
  }

 private:
  /// Whether questions of a template take the form, tried on a few of them.
  bool can_be_put(Template const& from, FormChoice const& form) {
    if (form.form == Form::open) return true;
    constexpr std::uint32_t trials = 3;
    for (std::uint32_t seed = 0; seed < trials; ++seed) {
      if (ok(maker_.make(from, seed, form))) return true;
    }
    return false;
  }

  Fault unknown_template(std::string const& name) const {
    std::vector<std::string> known;
    for (Template const& one : maker_.templates()) known.push_back(one.name);
    return unknown("unknown-template", "template", name, known);
  }

  /// One template a place, the same for all of one level; a kind gives all of its templates before it gives one again.
  std::vector<Template const*> const& templates_for(std::string const& student_level) {
    auto const known = chosen_.find(student_level);
    if (known != chosen_.end()) return known->second;
    std::vector<Template const*> chosen;
    std::map<std::string, std::vector<Template const*>> left;  ///< by kind and level: those not used since all were there
    Random random(spread(seed_), 1);
    for (Slot const& slot : slots_) {
      if (slot.fit.size() < 2) {
        chosen.push_back(slot.fit.empty() ? nullptr : slot.fit.front());
        continue;
      }
      std::string const level = slot.item->level.empty() ? student_level : slot.item->level;
      std::vector<Template const*> fit;
      for (Template const* one : slot.fit) {
        if (level.empty() || one->level == level) fit.push_back(one);
      }
      if (fit.empty()) {
        fit = slot.fit;
        level_notes_.insert("no question of the kind " + slot.fit.front()->kind + " has the level " + level +
                            ": another level was taken");
      }
      auto& rest = left[slot.fit.front()->kind + "/" + level];
      if (rest.empty()) rest = fit;
      auto const at = static_cast<std::ptrdiff_t>(random.below(static_cast<std::uint32_t>(rest.size())));
      chosen.push_back(rest[static_cast<std::size_t>(at)]);
      rest.erase(rest.begin() + at);
    }
    return chosen_.emplace(student_level, std::move(chosen)).first->second;
  }

  /// A question that is not on this paper yet, and as far as can be on nobody else's at this place.
  Result<Question> fresh(Template const& from, std::size_t slot, Reader const& reader, std::set<std::string> const& texts) {
    std::uint64_t hash = hash_of(reader.salt, seed_);
    hash = spread(hash_of(std::to_string(slot), hash));
    std::optional<Question> second_best;
    Fault last{"nothing-fits", "no question could be made of the template " + from.name, "", 0};
    for (int tries = 0; tries < most_seeds; ++tries) {
      auto const seed = static_cast<std::uint32_t>(spread(hash + static_cast<std::uint64_t>(tries)) % code_seeds);
      auto question = maker_.make(from, seed, slots_[slot].form);
      if (!ok(question)) {
        last = fault(question);
        if ((last.id != "nothing-fits" && last.id != "form-does-not-fit") || tries >= 5) return last;
        continue;
      }
      if (texts.count(value(question).text) != 0) continue;
      if (taken_[slot].count(hash_of(value(question).text)) == 0) return question;
      if (!second_best) second_best = std::move(value(question));
    }
    if (!second_best) {
      if (last.what.find("could be made") == std::string::npos) return last;
      return Fault{"nothing-fits", "the template " + from.name + " has too few different questions for one paper",
                   "a smaller count", 0};
    }
    ++repeated_;
    return std::move(*second_best);
  }

  static std::optional<Fault> spread_marks(SetItem const& item, Question& question) {
    if (!item.marks) return std::nullopt;
    int const parts = static_cast<int>(question.marks.size());
    if (*item.marks < parts || *item.marks > 100) {
      return Fault{"bad-marks",
                   "a question of " + std::to_string(parts) + (parts == 1 ? " part has " : " parts has ") +
                       std::to_string(*item.marks) + " marks",
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

  SetPlan const& plan_;
  std::uint64_t seed_;
  QuestionMaker& maker_;
  std::vector<Slot> slots_;
  std::map<std::string, std::vector<Template const*>> chosen_;  ///< by student level
  std::map<std::size_t, std::set<std::uint64_t>> taken_;        ///< texts given out at each place
  std::map<std::string, int> alike_;
  std::set<std::string> level_notes_;
  int repeated_ = 0;
};

}  // namespace

std::vector<std::string> kinds_of(std::vector<Template> const& templates) {
  std::vector<std::string> kinds;
  for (Template const& one : templates) {
    if (std::find(kinds.begin(), kinds.end(), one.kind) == kinds.end()) kinds.push_back(one.kind);
  }
  std::sort(kinds.begin(), kinds.end());
  return kinds;
}

std::string kind_meant(std::string_view said, std::vector<std::string> const& kinds) {
  std::string const wanted = bare(said);
  for (std::string const& kind : kinds) {
    if (bare(kind) == wanted) return kind;
  }
  for (Words const& words : spoken) {
    if (bare(words.said) == wanted && std::find(kinds.begin(), kinds.end(), words.kind) != kinds.end())
      return std::string(words.kind);
  }
  return "";
}

Result<ProblemSet> make_set(SetPlan const& plan, std::vector<ClassMember> const& members, std::string const& seed,
                            QuestionMaker& maker) {
  SetBuilder builder(plan, seed, maker);
  if (auto const found = builder.prepare()) return *found;
  if (plan.copies && (*plan.copies < 1 || *plan.copies > most_papers)) {
    return Fault{"no-versions", std::to_string(*plan.copies) + " versions cannot be made", "1 to " + std::to_string(most_papers),
                 0};
  }
  ProblemSet set;
  set.title = plan.title;
  set.seed = seed;
  set.course = maker.course();
  for (ClassMember const& member : members) {
    set.class_order.push_back(member.student);
    bool const a_or_b = member.version == "A" || member.version == "B";
    bool const even = set.class_order.size() % 2 == 0;
    set.class_versions.push_back(plan.versions == SetPlan::Versions::one  ? "1"
                                 : plan.versions == SetPlan::Versions::ab ? (a_or_b ? member.version
                                                                             : even ? "B"
                                                                                    : "A")
                                 : member.version.empty()                 ? std::to_string(set.class_order.size())
                                                                          : member.version);
  }
  if (members.empty() && !plan.copies)
    return Fault{"empty-class", "the class has no students", "a class list, or a number of versions", 0};
  std::vector<Reader> readers;
  if (plan.versions == SetPlan::Versions::one) {
    readers.push_back({"1", "", "", false, "one"});
  } else if (plan.versions == SetPlan::Versions::ab) {
    readers.push_back({"A", "", "", false, "A"});
    readers.push_back({"B", "", "", false, "B"});
  } else if (!members.empty()) {
    for (std::size_t i = 0; i < members.size(); ++i) {
      readers.push_back({set.class_versions[i], members[i].student, members[i].level, members[i].print == "large",
                         "student " + members[i].student});
    }
  } else {
    for (int i = 1; i <= *plan.copies; ++i) readers.push_back({std::to_string(i), "", "", false, "version " + std::to_string(i)});
  }
  for (Reader const& reader : readers) {
    if (auto const found = builder.paper(reader, set)) return *found;
  }
  builder.notes(set);
  settle_letters(set);
  return set;
}

}  // namespace molewright
