// Names near to one that could not be read.
#include <algorithm>

#include "engine/element.h"
#include "engine/nomenclature_parts.h"
#include "engine/nomenclature_words.h"

namespace molewright::naming {
namespace {

/// Every name that is listed, and the words that others are made of, each as it is printed.
struct KnownWords {
  std::vector<std::string> whole, cations, anions;
};

KnownWords const& known_words() {
  static KnownWords const made = [] {
    KnownWords result;
    for (Listed const& row : listed()) {
      result.whole.push_back(row.name);
      result.whole.insert(result.whole.end(), row.other_names.begin(), row.other_names.end());
    }
    for (Acid const& acid : acids()) result.whole.push_back(acid.name);
    for (Element const& element : elements()) result.whole.push_back(element.name);
    for (NamedIon const& ion : named_ions()) {
      auto& words = ion.charge > 0 ? result.cations : result.anions;
      words.push_back(ion.name);
      words.insert(words.end(), ion.other_names.begin(), ion.other_names.end());
      if (ion.charge < 0) result.whole.push_back(ion.name);
    }
    for (ElementName const& element : element_names()) {
      if (!element.usual.empty()) result.cations.push_back(find_element(element.symbol)->name);
      for (int const state : element.states)
        if (element.number) result.cations.push_back(metal_name(element, state));
      for (std::int64_t number = 1; number <= 10 && !element.ending.empty(); ++number)
        result.anions.push_back(with_prefix(number, element.ending));
    }
    return result;
  }();
  return made;
}

std::string folded(std::string_view text) {  // blanks stay: they part the words
  std::string result;
  std::string word;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    if (i < text.size() && text[i] != ' ') {
      word += text[i];
      continue;
    }
    if (!word.empty()) result += (result.empty() ? "" : " ") + key_of(word);
    word.clear();
  }
  return result;
}

std::vector<std::string> near(std::string_view word, std::vector<std::string> const& known) {
  if (std::find(known.begin(), known.end(), word) != known.end()) return {std::string(word)};
  return nearest(word, known);
}

/// A word of four letters or more that stands in both.
bool shares_word(std::string_view one, std::string_view other) {
  for (std::size_t begin = 0; begin < one.size();) {
    std::size_t const end = std::min(one.find(' ', begin), one.size());
    auto const word = one.substr(begin, end - begin);
    std::size_t const at = word.size() < 4 ? std::string_view::npos : other.find(word);
    if (at != std::string_view::npos && (at == 0 || other[at - 1] == ' ') &&
        (at + word.size() == other.size() || other[at + word.size()] == ' '))
      return true;
    begin = end + 1;
  }
  return false;
}

}  // namespace

std::vector<std::string> nearest_names(std::string_view name) {
  std::string const text = folded(name.substr(0, words::longest_name));
  std::vector<std::string> candidates;
  std::string salt = text, water;
  if (auto const last = text.rfind(' '); last != std::string::npos) {
    std::vector<std::string> hydrates;
    for (std::int64_t number = 1; number <= 12; ++number) hydrates.push_back(std::string(multiplying_prefix(number)) + "hydrate");
    auto const close = near(std::string_view(text).substr(last + 1), hydrates);
    if (!close.empty()) {
      water = ' ' + close.front();
      salt = text.substr(0, last);
    }
  }
  for (std::size_t at = salt.find(' '); at != std::string::npos; at = salt.find(' ', at + 1)) {
    auto const anions = near(std::string_view(salt).substr(at + 1), known_words().anions);
    auto const cations = anions.empty() ? anions : near(std::string_view(salt).substr(0, at), known_words().cations);
    for (auto const& cation : cations)
      for (auto const& anion : anions) {
        std::string const candidate = cation + ' ' + anion + water;
        if (!read_name(candidate).formulas.empty()) candidates.push_back(candidate);
      }
  }
  for (auto const& whole : nearest(text, known_words().whole)) candidates.push_back(whole);
  std::vector<std::string> best;
  for (auto const& candidate : nearest(text, candidates)) {
    auto const reading = read_name(candidate);
    for (auto const& formula : reading.formulas) {  // of a name that fits two, both
      std::string const full = reading.formulas.size() == 1 ? candidate : composed_name(value(parse_formula(formula)));
      if (best.size() < 3 && std::find(best.begin(), best.end(), full) == best.end()) best.push_back(full);
    }
  }
  // Fewer than three near ones: those that share a word, "caustic soda" for "bakin soda".
  if (!best.empty())
    for (auto const& whole : known_words().whole)
      if (best.size() < 3 && shares_word(text, folded(whole)) && std::find(best.begin(), best.end(), whole) == best.end())
        best.push_back(whole);
  return best;
}

std::vector<std::string> three_nearest(std::string_view name) {
  auto best = nearest_names(name);
  constexpr std::size_t wanted = 3;
  for (auto const& whole : nearest_of_all(folded(name), known_words().whole, 2 * wanted))
    if (best.size() < wanted && std::find(best.begin(), best.end(), whole) == best.end()) best.push_back(whole);
  return best;
}

}  // namespace molewright::naming
