// The text under review: its numbers against the data, its names against the formulas, its claims against the working.
#include <algorithm>
#include <cmath>

#include "engine/ascii.h"
#include "engine/nomenclature.h"
#include "engine/substance.h"
#include "generators/mention.h"
#include "generators/review_parts.h"

namespace molewright::reviewing {
namespace {

class Text {
 public:
  explicit Text(Review& review) : review_(review), text_(review.problem.text), first_line_(review.line_of("text")) {
    auto const& line = review.lines[first_line_ - 1];
    // Words behind "text" in its own line are the first line of the wording.
    auto const at = line.find("text");
    auto rest = at == std::string_view::npos ? std::string_view() : line.substr(at + 4);
    rest = rest.substr(0, rest.find('#'));
    same_line_ = std::any_of(rest.begin(), rest.end(), [](char c) { return c != ' ' && c != '\t' && c != '\r'; });
  }

  void look() {
    mentions_ = mentions_of(review_.problem, review_.course.conventions.mark);
    look_at_braces();
    compare_numbers();
    look_at_doubled_units();
    look_at_asked_units();
    look_at_names();
    look_at_claims();
    look_at_glassware();
  }

 private:
  std::size_t line_at(std::size_t offset) const {
    auto const breaks = std::count(text_.begin(), text_.begin() + static_cast<std::ptrdiff_t>(offset), '\n');
    return first_line_ + static_cast<std::size_t>(breaks) + (same_line_ ? 0 : 1);
  }
  static std::string as_text(Given const& given) {
    return given.numbers.empty() ? "" : given.numbers.front().text + (given.unit.symbol.empty() ? "" : ' ' + given.unit.symbol);
  }

  /// What stands in braces and cannot be filled in.
  void look_at_braces() {
    if (review_.worked == nullptr) return;
    auto const filled_in = wording(review_.data(), review_.course.conventions, &review_.working());
    if (ok(filled_in)) return;
    auto const& found = fault(filled_in);
    review_.say(found.id, line_at(std::min(found.offset, text_.size())), {{"what", found.what}, {"enough", found.expected}});
  }

  void differs(Mention const& mention, Given const& given) {
    review_.say("text-differs", line_at(mention.begin),
                {{"text", text_.substr(mention.begin, mention.end - mention.begin)},
                 {"data", plain(given.quantity) + " = " + as_text(given)},
                 {"hint", "{" + plain(given.quantity) + "}"}});
  }

  void compare_numbers() {
    std::vector<Given const*> untold;
    for (auto const& given : review_.problem.givens) {
      if (given.numbers.empty()) continue;
      bool told = false;
      for (auto& mention : mentions_) {
        if (!mention.typed && mention.given == &given) told = true;
        if (mention.typed && tells(mention, given)) {
          mention.given = &given;
          told = true;
        }
      }
      if (!told) untold.push_back(&given);
    }
    for (auto const& mention : mentions_) {
      if (!mention.typed || mention.given != nullptr) continue;
      auto const fits = [&](Given const* given) { return given->unit.dimension == mention.unit.dimension; };
      auto const same_digits = [&](Given const* given) { return given->numbers.front().value == mention.number.value; };
      auto found = std::find_if(untold.begin(), untold.end(), fits);
      if (found == untold.end()) found = std::find_if(untold.begin(), untold.end(), same_digits);
      if (found != untold.end()) {
        differs(mention, **found);
        untold.erase(found);
        continue;
      }
      // "the 25.00 mL": spoken of as if it were known.
      auto const before = text_.substr(0, mention.begin);
      bool const known = before.size() > 4 && lowered(before.substr(before.size() - 5)) == " the ";
      for (auto const& given : review_.problem.givens)
        if (known && !given.numbers.empty() && fits(&given)) {
          differs(mention, given);
          break;
        }
    }
    static std::vector<std::string> const told_always{"m", "V", "c", "n", "N", "w", "yield", "gamma"};
    for (auto const* given : untold)
      if (std::find(told_always.begin(), told_always.end(), given->quantity.symbol) != told_always.end())
        review_.say(
            "not-in-text", first_line_,
            {{"quantity", plain(given->quantity)}, {"value", as_text(*given)}, {"hint", "{" + plain(given->quantity) + "}"}});
  }

  /// "{V(HCl)} mL" prints 25.0 mL mL.
  void look_at_doubled_units() {
    for (auto const& mention : mentions_) {
      if (mention.typed || mention.unit.symbol.empty() || mention.unit.dimension == Dimension{}) continue;
      auto rest = std::string_view(text_).substr(mention.end);
      if (rest.empty() || rest.front() != ' ') continue;
      rest.remove_prefix(1);
      auto const read = read_unit(rest);
      if (!ok(read) || value(read).length == 0 || value(read).unit.dimension != mention.unit.dimension) continue;
      if (value(read).unit.symbol.empty() || (value(read).length < rest.size() && is_letter(rest[value(read).length]))) continue;
      review_.say("unit-twice", line_at(mention.begin),
                  {{"what", plain(mention.given->quantity)}, {"unit", value(read).unit.symbol}});
    }
  }

  /// "Find the mass in kg" where the data ask for g.
  void look_at_asked_units() {
    for (auto const& [unit, at] : asked_units(text_)) {
      Find const* same_kind = nullptr;
      bool fine = false;
      for (auto const& find : review_.problem.finds) {
        if (find.kind != Find::Kind::number) continue;
        Unit const asked = unit_of(find);
        if (asked.dimension != unit.dimension) continue;
        same_kind = &find;
        fine = fine || asked == unit;
      }
      if (same_kind != nullptr && !fine)
        review_.say("text-differs", line_at(at),
                    {{"text", unit.symbol},
                     {"data", plain(*same_kind) + " in " + unit_of(*same_kind).symbol},
                     {"hint", "the unit of the find"}});
    }
  }

  std::vector<std::string> substances() const {
    std::vector<std::string> all;
    auto const add = [&](std::string const& text) {
      if (text.empty() || !ok(parse_formula(text))) return;
      auto const one = anhydrous_plain(text);
      if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
    };
    for (auto const& given : review_.problem.givens) add(given.quantity.substance);
    for (auto const& find : review_.problem.finds) add(find.quantity.substance);
    for (auto const& reaction : review_.problem.reactions)
      for (auto const* side : {&reaction.equation.left, &reaction.equation.right})
        for (auto const& species : *side) add(plain(species.formula));
    for (auto const& one : review_.problem.excess) add(one);
    return all;
  }

  struct Named {
    std::string words, formula;
    std::size_t begin, end;
  };
  /// Names of two words and more, the longest at each place.
  std::vector<Named> names() const {
    std::vector<std::pair<std::size_t, std::size_t>> words;
    for (std::size_t i = 0; i < text_.size();) {
      if (text_[i] == '{') i = std::min(text_.find('}', i), text_.size() - 1);
      if (!is_letter(text_[i])) {
        ++i;
        continue;
      }
      std::size_t end = i;
      while (end < text_.size() && (is_letter(text_[end]) || (text_[end] == '(' && end > i) || (text_[end] == ')' && end > i)))
        ++end;
      while (end > i &&
             (text_[end - 1] == '(' || (text_[end - 1] == ')' && text_.substr(i, end - i).find('(') == std::string::npos)))
        --end;
      words.emplace_back(i, std::max(end, i + 1));
      i = std::max(end, i + 1);
    }
    std::vector<Named> found;
    for (std::size_t w = 0; w < words.size(); ++w)
      for (std::size_t count = 4; count >= 2; --count) {
        if (w + count > words.size()) continue;
        std::size_t const begin = words[w].first, end = words[w + count - 1].second;
        auto const phrase = text_.substr(begin, end - begin);
        if (phrase.find_first_of("{}.,;:?!\n0123456789") != std::string::npos) continue;
        auto const read = identify(phrase);
        if (!ok(read)) continue;
        found.push_back({phrase, value(read).formula, begin, end});
        w += count - 1;
        break;
      }
    return found;
  }

  static bool related(std::string const& one, std::string const& other) {
    auto const a = ions_of(one), b = ions_of(other);
    return std::any_of(a.begin(), a.end(),
                       [&](IonCount const& x) {
                         return std::any_of(b.begin(), b.end(), [&](IonCount const& y) { return x.ion == y.ion; });
                       }) ||
           [&] {
             auto const f = parse_formula(one), g = parse_formula(other);
             if (!ok(f) || !ok(g)) return false;
             auto const x = value(f).composition(), y = value(g).composition();
             return x.size() == y.size() &&
                    std::equal(x.begin(), x.end(), y.begin(), [](auto const& p, auto const& q) { return p.first == q.first; });
           }();
  }

  /// (CH3CO)2O and C4H6O3: one substance, as far as a formula tells.
  static bool same_atoms(std::string const& one, std::string const& other) {
    auto const a = parse_formula(one), b = parse_formula(other);
    return ok(a) && ok(b) && value(a).charge == value(b).charge && value(a).composition() == value(b).composition();
  }

  void wrong_name(Named const& named, std::string const& other) {
    review_.say("wrong-name", line_at(named.begin),
                {{"name", named.words},
                 {"formula", named.formula},
                 {"other", other},
                 {"right", name_of(other, review_.course.conventions.naming)}});
  }

  void look_at_names() {
    auto const known = substances();
    auto const here = names();
    auto const is_known = [&](std::string const& formula) {
      auto const one = anhydrous_plain(formula);
      return std::any_of(known.begin(), known.end(), [&](auto const& other) { return one == other || same_atoms(one, other); });
    };
    // Potassium iodide brings the iodide of an ionic equation.
    auto const brings_an_ion = [&](std::string const& formula) {
      auto const ions = ions_of(formula);
      return std::any_of(ions.begin(), ions.end(),
                         [&](IonCount const& one) { return std::find(known.begin(), known.end(), one.ion) != known.end(); });
    };
    auto const low = lowered(text_);
    auto const mentioned = [&](std::string const& substance) {
      auto const name = lowered(name_of(substance));
      if (!name.empty() && low.find(name) != std::string::npos) return true;
      for (auto const* word : {"{name ", "{formula "})
        for (std::size_t at = text_.find(word); at != std::string::npos; at = text_.find(word, at + 1)) {
          auto const begin = at + std::string_view(word).size();
          if (anhydrous_plain(text_.substr(begin, text_.find('}', begin) - begin)) == substance) return true;
        }
      return std::any_of(here.begin(), here.end(),
                         [&](Named const& named) { return anhydrous_plain(named.formula) == substance; });
    };
    for (auto const& named : here) {
      // "potassium nitrite (KNO3)", "sugar, C12H22O11": name and formula side by side.
      std::size_t at = named.end;
      while (at < text_.size() && (text_[at] == ' ' || text_[at] == '(' || text_[at] == ',')) ++at;
      std::size_t end = at;
      while (end < text_.size() && (is_letter(text_[end]) || is_digit(text_[end]) ||
                                    (at > 0 && text_[at - 1] != '(' && (text_[end] == '(' || text_[end] == ')'))))
        ++end;
      auto const beside = text_.substr(at, end - at);
      bool const formula_like =
          beside.size() > 1 && std::any_of(beside.begin(), beside.end(), is_digit) && ok(parse_formula(beside));
      if (formula_like && anhydrous_plain(beside) != anhydrous_plain(named.formula) && is_known(beside)) {
        wrong_name(named, anhydrous_plain(beside));
        continue;
      }
      if (is_known(named.formula) || brings_an_ion(named.formula)) continue;
      auto const formula = parse_formula(named.formula);
      if (!ok(formula) || value(formula).charge != 0) continue;
      for (auto const& other : known)
        if (related(anhydrous_plain(named.formula), other) && !mentioned(other)) {
          wrong_name(named, other);
          break;
        }
    }
  }

  /// A formula that stands alone: not the S of "State".
  static bool has_word(std::string_view words, std::string_view formula) {
    auto const part_of_word = [](char c) { return is_letter(c) || is_digit(c); };
    for (auto at = words.find(formula); at != std::string_view::npos; at = words.find(formula, at + 1)) {
      auto const end = at + formula.size();
      bool const apart = (at == 0 || !part_of_word(words[at - 1])) && (end == words.size() || !part_of_word(words[end]));
      if (apart) return true;
    }
    return false;
  }

  /// "Magnesium is the limiting reagent", "zinc is in excess": against the working.
  void look_at_claims() {
    if (review_.worked == nullptr) return;
    auto const& working = review_.working();
    auto const choice = std::find_if(working.nodes.begin(), working.nodes.end(),
                                     [](Node const& node) { return node.definition.operation == Operation::choose; });
    if (choice == working.nodes.end()) return;
    auto const right = chosen_formula(working, *choice);
    for (auto const said : sentences(text_)) {
      auto const sentence = lowered(said);
      auto const has = [&](char const* words) { return sentence.find(words) != std::string::npos; };
      bool const question = said.ends_with('?');
      bool const limits = has("limiting") || has("used up") || has("runs out") || has("limits");
      bool const excess = has("in excess");
      if (!question && !has("which") && limits != excess) {
        std::vector<std::string> claimed;
        for (auto const& species : review_.data().reactions.front().equation.left) {
          Formula formula = species.formula;
          formula.state = State::none;
          auto const name = lowered(name_of(plain(formula)));
          bool const there = (!name.empty() && sentence.find(name) != std::string::npos) || has_word(said, plain(formula));
          if (there) claimed.push_back(plain(formula));
        }
        if (claimed.size() == 1 && (limits ? claimed.front() != right : claimed.front() == right)) {
          auto const at = text_.find_first_not_of(" \n", static_cast<std::size_t>(said.data() - text_.data()));
          review_.say("wrong-limiting-reagent", line_at(std::min(at, text_.size())),
                      {{"claimed", limits ? claimed.front() : "another reagent"}, {"right", right}});
        }
      }
    }
  }

  void odd_size(Mention const& mention, char const* because, char const* mend) {
    review_.say(
        "unmeasurable-volume", line_at(mention.begin),
        {{"quantity", "V"}, {"value", mention.number.text + ' ' + mention.unit.symbol}, {"because", because}, {"mend", mend}});
  }
  /// "with a pipette and fills a flask to" speaks of the flask.
  static bool pipetted(std::string const& before) {
    auto const at = before.find("pipet");
    return at != std::string::npos && before.find('.', at) == std::string::npos && before.find("flask", at) == std::string::npos;
  }
  void look_at_glassware() {
    Dimension volume;
    dimension_of("V", volume);
    auto const low = lowered(text_);
    bool const graduated = low.find("graduated") != std::string::npos;
    std::size_t done = 0;  // the first volume after a word is meant
    for (auto const& mention : mentions_) {
      if (mention.unit.dimension != volume || mention.unit.factor.sign() <= 0) continue;
      double const size = mention.base() * 1000;
      auto const is_one_of = [&](std::initializer_list<int> more, char const* kind) {
        auto const is = [&](int nominal) { return std::abs(size - nominal) < 1e-6; };
        return is_nominal(kind, size) || std::any_of(more.begin(), more.end(), is);
      };
      constexpr std::size_t reach = 45;
      std::size_t const from = std::max(done, mention.begin > reach ? mention.begin - reach : 0);
      auto const before = low.substr(from, mention.begin - from);
      auto const after = low.substr(mention.end, 18);
      if (pipetted(before) && !graduated && !is_one_of({15, 100}, "pipette"))
        odd_size(mention, "no one-mark pipette has that volume", "take 1, 2, 5, 10, 20, 25 or 50 mL, or a burette");
      if (after.compare(0, 17, " volumetric flask") == 0 && !is_one_of({5, 10, 20, 25}, "flask"))
        odd_size(mention, "no volumetric flask has that volume", "take 50, 100, 200, 250, 500, 1000 or 2000 mL");
      done = mention.end;
    }
  }

  Review& review_;
  std::string const& text_;
  std::size_t first_line_;
  bool same_line_ = false;
  std::vector<Mention> mentions_;
};
}  // namespace

void look_at_text(Review& review) {
  if (review.problem.text.empty()) return;
  Text(review).look();
}

}  // namespace molewright::reviewing
