// The wordings of a template under review: does each ask what the finds want, in their units, and do all tell the same?
#include <algorithm>
#include <map>
#include <set>

#include "engine/ascii.h"
#include "engine/substance.h"
#include "engine/tsv.h"
#include "generators/mention.h"
#include "generators/review_parts.h"

namespace molewright {
namespace data {
extern std::string_view const asking_words_tsv;
}
namespace reviewing {
namespace {

using AskingWords = std::map<std::string, std::vector<std::string>, std::less<>>;
AskingWords const& asking_words() {
  static AskingWords const all = [] {
    AskingWords read;
    TsvTable const table(data::asking_words_tsv);
    for (std::size_t row = 0; row < table.size(); ++row)
      for (std::string_view const word : split_list(table.cell(row, table.column("words"))))
        read[std::string(table.cell(row, table.column("asked")))].push_back(lowered(word));
    return read;
  }();
  return all;
}
/// The words for a find; of a statement those of the longest row that it begins with ("formula of", "empirical formula").
std::vector<std::string> const& words_for(Find const& find) {
  static std::vector<std::string> const none;
  std::string const what = find.kind == Find::Kind::number ? std::string(find.quantity.symbol) : plain(find);
  std::vector<std::string> const* best = &none;
  std::size_t length = 0;
  for (auto const& [asked, words] : asking_words()) {
    bool const fits = find.kind == Find::Kind::number ? asked == what : what.compare(0, asked.size(), asked) == 0;
    if (!fits || asked.size() < length) continue;
    best = &words;
    length = asked.size();
  }
  return *best;
}

/// The text with each {...} blanked, so that no hole is taken for a word.
std::string without_holes(std::string text) {
  int depth = 0;
  for (char& c : text) {
    if (c == '{') ++depth;
    bool const inside = depth > 0;
    if (c == '}' && depth > 0) --depth;
    if (inside) c = ' ';
  }
  return text;
}

std::string asking_sentences(std::string_view text) {
  std::string all;
  for (auto const sentence : sentences(text))
    if (molewright::asks(sentence)) all.append(sentence).append(" ");
  return all;
}

std::string marker(std::size_t part) { return std::string("(") + static_cast<char>('a' + static_cast<int>(part)) + ")"; }

/// What asks for each find: the part (a), (b) ... where the text has them all, else the sentences that ask.
std::vector<std::string> asked_in(std::string const& text, std::size_t finds) {
  std::vector<std::size_t> begins;
  for (std::size_t f = 0; f < finds; ++f) {
    auto const at = text.find(marker(f), begins.empty() ? 0 : begins.back());
    if (at == std::string::npos) return std::vector<std::string>(finds, asking_sentences(text));
    begins.push_back(at);
  }
  std::vector<std::string> parts;
  for (std::size_t f = 0; f < finds; ++f) {
    auto const end = f + 1 < finds ? begins[f + 1] : text.size();
    parts.push_back(text.substr(begins[f], end - begins[f]));
  }
  return parts;
}

class Wording {
 public:
  Wording(Review& review, Problem const& problem, std::size_t line) : review_(review), problem_(problem), line_(line) {
    parts_ = asked_in(without_holes(problem.text), problem.finds.size());
  }

  bool asks(std::size_t f) const {
    Find const& find = problem_.finds[f];
    auto const low = lowered(parts_[f]);
    auto const& words = words_for(find);
    if (words.empty() || std::any_of(words.begin(), words.end(), [&](auto const& word) { return holds_word(low, word); }))
      return true;
    auto const units = asked_units(parts_[f]);
    Unit const due = unit_of(find);
    return find.kind == Find::Kind::number && !due.symbol.empty() &&
           std::any_of(units.begin(), units.end(), [&](AskedUnit const& one) { return one.unit == due; });
  }

  void look_at_units() {
    for (std::size_t f = 0; f < problem_.finds.size(); ++f) {
      Find const& find = problem_.finds[f];
      if (find.kind != Find::Kind::number) continue;
      Unit const due = unit_of(find);
      auto const units = asked_units(parts_[f]);
      if (std::any_of(units.begin(), units.end(), [&](AskedUnit const& one) { return one.unit == due; })) continue;
      for (auto const& [unit, begin] : units)
        if (unit.dimension == due.dimension)
          review_.say("text-differs", line_,
                      {{"text", unit.symbol}, {"data", plain(find) + " in " + due.symbol}, {"hint", "the unit of the find"}});
    }
  }

  void look_at_parts() {
    std::size_t const finds = problem_.finds.size();
    if (problem_.text.find(marker(0)) == std::string::npos || problem_.text.find(marker(finds)) == std::string::npos) return;
    review_.say("part-without-find", line_,
                {{"part", marker(finds)}, {"finds", std::to_string(finds) + (finds == 1 ? " find" : " finds")}});
  }

  /// Data, equations and substances that the text tells.
  std::set<std::string> told() const {
    std::set<std::string> all;
    for (Mention const& mention : mentions_of(problem_))
      for (Given const& given : problem_.givens)
        if (mention.given == &given || (mention.typed && tells(mention, given))) all.insert(plain(given.quantity));
    std::string const& text = problem_.text;
    if (text.find("{equation") != std::string::npos) all.insert("the equation");
    return all;
  }

 private:
  Review& review_;
  Problem const& problem_;
  std::size_t line_;
  std::vector<std::string> parts_;
};

}  // namespace

void look_at_wordings(Review& review, std::vector<Problem> const& wordings) {
  auto const line_of = [](Problem const& problem) { return problem.place.line; };
  std::vector<Wording> all;
  for (auto const& problem : wordings) all.emplace_back(review, problem, line_of(problem));
  for (std::size_t f = 0; !wordings.empty() && f < wordings.front().finds.size(); ++f) {
    Find const& find = wordings.front().finds[f];
    if (std::none_of(all.begin(), all.end(), [&](Wording const& one) { return one.asks(f); })) {
      review.say("find-in-no-text", find.place.line, {{"find", plain(find)}});
      continue;
    }
    for (std::size_t w = 0; w < all.size(); ++w)
      if (!all[w].asks(f)) review.say("find-not-asked", line_of(wordings[w]), {{"find", plain(find)}});
  }
  std::set<std::string> somewhere;
  std::vector<std::set<std::string>> told;
  for (auto& one : all) {
    one.look_at_units();
    one.look_at_parts();
    told.push_back(one.told());
    somewhere.insert(told.back().begin(), told.back().end());
  }
  for (std::size_t w = 0; w < all.size(); ++w)
    for (auto const& what : somewhere)
      if (told[w].count(what) == 0) review.say("wordings-differ", line_of(wordings[w]), {{"what", what}});
}

}  // namespace reviewing
}  // namespace molewright
