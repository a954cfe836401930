#include "generators/set_places.h"

#include <algorithm>

#include "engine/lists.h"
#include "generators/kinds.h"

namespace molewright {
namespace {

constexpr int most_questions = 200;  ///< of one line of the order

std::string list(std::vector<std::string> const& names) {
  std::string text;
  for (std::string const& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

Fault unknown(char const* id, std::string const& what, std::string const& name, std::vector<std::string> const& known,
              std::string const& otherwise) {
  auto const near = nearest(name, known);
  return Fault{id, "unknown " + what + " \"" + name + "\"", near.empty() ? otherwise : list(near), 0};
}

/// Whether questions of a template take the form, tried on a few of them.
bool can_be_put(Template const& from, FormChoice const& form, QuestionMaker& maker) {
  if (form.form == Form::open) return true;
  constexpr std::uint32_t trials = 3;
  for (std::uint32_t seed = 0; seed < trials; ++seed) {
    if (ok(maker.make(from, seed, form))) return true;
  }
  return false;
}

/// The kinds that have a template for this form.
std::string kinds_for(FormChoice const& form, QuestionMaker& maker) {
  std::vector<std::string> able;
  for (std::string const& kind : kinds_of(maker.templates()))
    if (std::any_of(maker.templates().begin(), maker.templates().end(),
                    [&](Template const& one) { return one.kind == kind && can_be_put(one, form, maker); }))
      able.push_back(kind);
  return able.empty() ? "a template of your own" : "one of " + list(able);
}

Fault unknown_template(std::string const& name, QuestionMaker const& maker) {
  std::vector<std::string> known;
  for (Template const& one : maker.templates()) known.push_back(one.name);
  return unknown("unknown-template", "template", name, known, "a template that set --kinds lists");
}

/// The templates that one line of the order means.
Result<std::vector<Template const*>> templates_meant(SetItem const& item, std::vector<std::string> const& kinds,
                                                     QuestionMaker& maker) {
  if (!item.template_name.empty()) {
    Template const* found = maker.find(item.template_name);
    if (found == nullptr) return unknown_template(item.template_name, maker);
    return std::vector<Template const*>{found};
  }
  std::string const kind = kind_meant(item.kind, kinds);
  if (kind.empty()) return unknown("unknown-kind", "kind", item.kind, kinds, "a kind that set --kinds lists");
  FormChoice const form{item.form, 1};
  std::vector<Template const*> fit;
  for (Template const& one : maker.templates()) {
    if (one.kind == kind && can_be_put(one, form, maker)) fit.push_back(&one);
  }
  if (fit.empty()) {
    return Fault{"form-does-not-fit",
                 "no question of the kind " + kind + " can be put as " + std::string(name(item.form)) +
                     ": each has several parts, or an answer that is no number",
                 "another form, or " + kinds_for(form, maker), 0};
  }
  return fit;
}

}  // namespace

Result<std::vector<QuestionPlace>> places_of(std::vector<SetItem> const& items, QuestionMaker& maker) {
  if (items.empty()) return Fault{"no-questions", "the set asks for no question", "a [[question]] or a kind", 0};
  std::vector<std::string> const kinds = kinds_of(maker.templates());
  std::vector<std::string> const levels{"plain", "standard", "stretching"};
  std::vector<QuestionPlace> places;
  for (SetItem const& item : items) {
    if (item.count < 1 || item.count > most_questions)
      return Fault{"bad-count", "count is " + std::to_string(item.count), "1 to " + std::to_string(most_questions), 0};
    if (!item.level.empty() && !contains(levels, item.level))
      return unknown("unknown-level", "level", item.level, levels, list(levels));
    if (item.own) {
      places.push_back({item, {}, {item.form, 1}});
      continue;
    }
    auto const fit = templates_meant(item, kinds, maker);
    if (!ok(fit)) return fault(fit);
    // A faded working fades: each of a count leaves one line more.
    for (int i = 0; i < item.count; ++i) places.push_back({item, value(fit), {item.form, i + 1}});
  }
  return places;
}

std::vector<SetItem> items_like(ProblemSet const& earlier) {
  std::vector<SetItem> items;
  if (earlier.papers.empty()) return items;
  for (Question const& question : earlier.papers.front().questions) {
    SetItem& item = items.emplace_back();
    item.template_name = question.template_name;
    item.form = question.form;
    if (question.template_name.empty()) item.own = question.worked.problem;
  }
  return items;
}

}  // namespace molewright
