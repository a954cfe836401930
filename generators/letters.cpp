#include "generators/letters.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace molewright {
namespace {

/// First slip of an entry, and how many entries with that first slip stand before it on its paper.
using Meaning = std::pair<std::string, int>;

std::vector<Meaning> meanings_of(std::vector<SlipKeyEntry> const& key) {
  std::map<std::string, int> met;
  std::vector<Meaning> meanings;
  for (SlipKeyEntry const& entry : key) {
    std::string const first = entry.ids.empty() ? std::string() : entry.ids.front();
    meanings.emplace_back(first, met[first]++);
  }
  return meanings;
}

struct Held {
  Meaning meaning;
  std::size_t papers = 0;
  std::size_t places = 0;  ///< sum of the places on these papers, from 0
};

/// Before in the alphabet. Mean places are compared by products, so that the order is the same on every machine.
bool before(Held const& a, Held const& b) {
  if (a.papers != b.papers) return a.papers > b.papers;
  if (a.places * b.papers != b.places * a.papers) return a.places * b.papers < b.places * a.papers;
  return a.meaning < b.meaning;
}

void settle(std::vector<std::vector<SlipKeyEntry>*> const& keys) {
  std::vector<Held> held;
  for (auto const* const key : keys) {
    std::vector<Meaning> const meanings = meanings_of(*key);
    for (std::size_t place = 0; place < meanings.size(); ++place) {
      auto at = std::find_if(held.begin(), held.end(), [&](Held const& one) { return one.meaning == meanings[place]; });
      if (at == held.end()) at = held.insert(held.end(), Held{meanings[place], 0, 0});
      ++at->papers;
      at->places += place;
    }
  }
  std::sort(held.begin(), held.end(), before);
  if (held.size() > most_letters_of_a_set) held.resize(most_letters_of_a_set);
  for (auto* const key : keys) {
    std::vector<Meaning> const meanings = meanings_of(*key);
    std::vector<SlipKeyEntry> lettered;
    for (std::size_t letter = 0; letter < held.size(); ++letter) {
      auto const at = std::find(meanings.begin(), meanings.end(), held[letter].meaning);
      if (at == meanings.end()) continue;
      lettered.push_back(std::move((*key)[static_cast<std::size_t>(at - meanings.begin())]));
      lettered.back().letter = static_cast<char>('A' + static_cast<int>(letter));
    }
    *key = std::move(lettered);
  }
}

}  // namespace

void settle_letters(ProblemSet& set) {
  using Where = std::pair<std::size_t, std::string>;  // place on the paper, template
  std::map<Where, std::vector<Question*>> alike;
  for (Paper& paper : set.papers) {
    for (std::size_t place = 0; place < paper.questions.size(); ++place) {
      Question& question = paper.questions[place];
      if (question.form == Form::choice) continue;  // its letters stand on the paper
      alike[{place, question.template_name}].push_back(&question);
    }
  }
  for (auto const& [where, questions] : alike) {
    std::size_t finds = 0;
    for (Question const* const question : questions) finds = std::max(finds, question->slip_key.size());
    for (std::size_t find = 0; find < finds; ++find) {
      std::vector<std::vector<SlipKeyEntry>*> keys;
      for (Question* const question : questions) {
        if (find < question->slip_key.size()) keys.push_back(&question->slip_key[find]);
      }
      settle(keys);
    }
  }
}

}  // namespace molewright
