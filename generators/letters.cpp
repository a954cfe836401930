#include "generators/letters.h"

#include <algorithm>

namespace molewright {
namespace {

struct Held {
  std::pair<std::string, int> meaning;
  std::size_t papers = 0;
  std::size_t places = 0;  ///< sum of the places on these papers, from 0
};

/// Before in the alphabet. Mean places are compared by products, so that the order is the same on every machine.
bool before(Held const& a, Held const& b) {
  if (a.papers != b.papers) return a.papers > b.papers;
  if (a.places * b.papers != b.places * a.papers) return a.places * b.papers < b.places * a.papers;
  return a.meaning < b.meaning;
}

}  // namespace

std::vector<Letters::Meaning> Letters::meanings_of(std::vector<SlipKeyEntry> const& key) {
  std::map<std::string, int> met;
  std::vector<Meaning> meanings;
  for (SlipKeyEntry const& entry : key) {
    std::string const first = entry.ids.empty() ? std::string() : entry.ids.front();
    meanings.emplace_back(first, met[first]++);
  }
  return meanings;
}

void Letters::settle(std::vector<std::vector<SlipKeyEntry>*> const& keys, std::vector<Meaning>& order) {
  std::vector<Held> held;
  for (auto const* const key : keys) {
    std::vector<Meaning> const meanings = meanings_of(*key);
    for (std::size_t place = 0; place < meanings.size(); ++place) {
      if (std::find(order.begin(), order.end(), meanings[place]) != order.end()) continue;
      auto at = std::find_if(held.begin(), held.end(), [&](Held const& one) { return one.meaning == meanings[place]; });
      if (at == held.end()) at = held.insert(held.end(), Held{meanings[place], 0, 0});
      ++at->papers;
      at->places += place;
    }
  }
  std::sort(held.begin(), held.end(), before);
  for (Held const& one : held)
    if (order.size() < most_letters_of_a_set) order.push_back(one.meaning);
  for (auto* const key : keys) {
    std::vector<Meaning> const meanings = meanings_of(*key);
    std::vector<SlipKeyEntry> lettered;
    for (std::size_t letter = 0; letter < order.size(); ++letter) {
      auto const at = std::find(meanings.begin(), meanings.end(), order[letter]);
      if (at == meanings.end()) continue;
      lettered.push_back(std::move((*key)[static_cast<std::size_t>(at - meanings.begin())]));
      lettered.back().letter = static_cast<char>('A' + static_cast<int>(letter));
    }
    *key = std::move(lettered);
  }
}

void Letters::settle(ProblemSet& set) {
  std::map<Where, std::vector<std::vector<SlipKeyEntry>*>> alike;
  for (Paper& paper : set.papers) {
    for (std::size_t place = 0; place < paper.questions.size(); ++place) {
      Question& question = paper.questions[place];
      if (question.form == Form::choice) continue;  // its letters stand on the paper
      for (std::size_t find = 0; find < question.slip_key.size(); ++find)
        alike[{place, question.template_name, find}].push_back(&question.slip_key[find]);
    }
  }
  for (auto const& [where, keys] : alike) settle(keys, order_[where]);
}

}  // namespace molewright
