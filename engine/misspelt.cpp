#include "engine/misspelt.h"

#include <algorithm>
#include <array>

#include "engine/ascii.h"
#include "engine/network.h"
#include "engine/nomenclature.h"
#include "engine/nomenclature_parts.h"
#include "engine/outcome.h"

namespace molewright {
namespace {

// What samples are called most often: they are near to no name, and need not be looked up. Common practice, no source.
constexpr std::array<std::string_view, 16> usual_words{"sample",   "solution", "mixture", "tablet", "flask",   "stock",
                                                       "alloy",    "ore",      "rock",    "tank",   "vinegar", "aliquot",
                                                       "crucible", "hydrate",  "residue", "feed"};

struct Label {
  std::string word;
  Place place;
};

/// The small words that stand for a substance, each where it stands first.
std::vector<Label> labels_of(Problem const& problem) {
  std::vector<Label> out;
  auto const look = [&](Quantity const& q, Place const& place) {
    for (auto const* word : {&q.substance, &q.part}) {
      bool const seen = std::any_of(out.begin(), out.end(), [&](Label const& label) { return label.word == *word; });
      bool const usual = std::find(usual_words.begin(), usual_words.end(), *word) != usual_words.end();
      if (is_whole(*word) && !counts_entities(*word) && !usual && !seen) out.push_back({*word, place});
    }
  };
  for (auto const& given : problem.givens) look(given.quantity, given.place);
  for (auto const& find : problem.finds)
    if (find.kind == Find::Kind::number) look(find.quantity, find.place);
  return out;
}

Problem with_formula(Problem problem, std::string const& word, std::string const& formula) {
  each_quantity(problem, [&](Quantity& q) {
    if (q.substance == word) q.substance = formula;
    if (q.part == word) q.part = formula;
  });
  return problem;
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> out;
  while (!(text = stripped(text)).empty()) {
    auto const end = std::min(text.size(), text.find(' '));
    out.push_back(text.substr(0, end));
    text.remove_prefix(end);
  }
  return out;
}

/// "soduim chloride" and "sodium chloride": as many words, more than one, and each near to its like.
bool near_word_by_word(std::string_view label, std::string_view name) {
  auto const typed = words_of(label), known = words_of(name);
  if (typed.size() < 2 || typed.size() != known.size()) return false;
  for (std::size_t i = 0; i < typed.size(); ++i)
    if (nearest(typed[i], {std::string(known[i])}).empty()) return false;
  return true;
}
}  // namespace

std::string name_of_a_sample(Problem const& problem, std::function<bool(Problem const&)> const& works) {
  for (auto const& [word, place] : labels_of(problem)) {
    auto const read = identify(word);
    if (!ok(read) || !works(with_formula(problem, word, value(read).formula))) continue;
    return " (" + word + " is what a sample is called, and is not taken for " + value(read).formula + ")";
  }
  return {};
}

std::optional<PlacedFault> misspelt_name(Problem const& problem, std::function<bool(Problem const&)> const& works) {
  for (auto const& [word, place] : labels_of(problem)) {
    auto const read = identify(word);
    if (ok(read)) continue;  // limestone: what a sample is called
    auto const is_meant = [&, &word = word](std::string const& formula) { return works(with_formula(problem, word, formula)); };
    if (fault(read).id == "ambiguous-name") {
      auto const meanings = naming::read_name(word).formulas;
      if (std::any_of(meanings.begin(), meanings.end(), is_meant)) return at(place, fault(read));
    }
    if (fault(read).id != "unknown-name" && fault(read).id != "unknown-element") continue;
    auto const near = naming::nearest_names(word);
    bool const meant = std::any_of(near.begin(), near.end(), [&, &word = word](std::string const& name) {
      if (near_word_by_word(word, name)) return true;
      auto const named = identify(name);
      return ok(named) && is_meant(value(named).formula);
    });
    if (meant) return at(place, with_nearest_names(fault(read), word));
  }
  return std::nullopt;
}

}  // namespace molewright
