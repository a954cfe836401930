#include "generators/sibling_wording.h"

#include <algorithm>
#include <optional>
#include <set>
#include <string_view>

#include "engine/ascii.h"
#include "engine/element.h"
#include "engine/nomenclature.h"
#include "engine/salt.h"
#include "engine/substance.h"
#include "engine/tsv.h"
#include "generators/realism.h"

namespace molewright {
namespace data {
extern std::string_view const sibling_words_tsv;
}  // namespace data

namespace {

struct Spelled {
  std::string text;
  std::size_t substance;
  bool by_name;
};

bool part_of_word(char c) { return is_letter(c) || is_digit(c) || static_cast<unsigned char>(c) > 127; }

/// By whatever course: "aluminum sulphate", "ethanoic acid".
std::set<std::string> every_name_of(std::string const& formula) {
  std::set<std::string> names;
  Naming naming;
  for (auto const spelling : {Spelling::sulfur, Spelling::sulphur})
    for (auto const aluminium : {Aluminium::aluminium, Aluminium::aluminum})
      for (auto const acetic_acid : {AceticAcid::acetic, AceticAcid::ethanoic})
        for (auto const carbonate : {Hydrogencarbonate::hydrogencarbonate, Hydrogencarbonate::bicarbonate}) {
          naming.spelling = spelling;
          naming.aluminium = aluminium;
          naming.acetic_acid = acetic_acid;
          naming.hydrogencarbonate = carbonate;
          names.insert(name_of(formula, naming));
        }
  return names;
}

/// Names and formulas of the substances as a text may have them, the longest first.
std::vector<Spelled> spellings_of(std::vector<std::string> const& substances) {
  std::vector<Spelled> all;
  auto const add = [&](std::string text, std::size_t substance, bool by_name) {
    if (text.empty() || (by_name && text == substances[substance])) return;
    all.push_back({std::move(text), substance, by_name});
  };
  for (std::size_t s = 0; s < substances.size(); ++s) {
    for (auto const& name : every_name_of(substances[s])) add(name, s, true);
    add(substances[s], s, false);
    add(pretty_formula(substances[s]), s, false);
  }
  std::stable_sort(all.begin(), all.end(), [](auto const& a, auto const& b) { return a.text.size() > b.text.size(); });
  return all;
}

/// Whether `spelling` stands at `at`, as words of their own. A name may begin with a capital, a formula may not change.
bool stands_at(std::string_view text, std::size_t at, Spelled const& spelling) {
  auto const here = text.substr(at, spelling.text.size());
  if (here.size() < spelling.text.size()) return false;
  if (spelling.by_name ? lowered(here) != lowered(spelling.text) : here != spelling.text) return false;
  std::size_t const end = at + here.size();
  return end == text.size() || !part_of_word(text[end]);
}

void look_at_article(std::string_view text, Spoken& spoken) {
  auto const before = lowered(text.substr(0, spoken.begin));
  auto const ends_with = [&](std::string_view word) {
    return before.size() >= word.size() && before.compare(before.size() - word.size(), word.size(), word) == 0 &&
           (before.size() == word.size() || !part_of_word(before[before.size() - word.size() - 1]));
  };
  spoken.an = ends_with("an ");
  spoken.article = spoken.an || ends_with("a ");
}

std::optional<std::size_t> place_of(std::string const& formula, std::vector<std::string> const& substances) {
  auto const found = std::find(substances.begin(), substances.end(), formula);
  if (found == substances.end()) return std::nullopt;
  return static_cast<std::size_t>(found - substances.begin());
}

/// What a brace speaks of: `inside` is without the braces.
std::optional<Spoken> in_braces(std::string_view inside, std::vector<std::string> const& substances) {
  Spoken spoken;
  for (std::string const word : {"name ", "formula "}) {
    if (inside.substr(0, word.size()) != word) continue;
    auto const read = identify(inside.substr(word.size()));
    auto const place = ok(read) ? place_of(value(read).formula, substances) : std::nullopt;
    if (!place) return std::nullopt;
    spoken.substance = *place;
    spoken.by_name = word == "name ";
    spoken.with_variable = "{" + word + sibling_variable(*place) + "}";
    return spoken;
  }
  std::string_view constexpr about = "about ";
  auto const prefix = inside.substr(0, about.size()) == about ? about : part_of_readings(inside);
  auto read = parse_quantity(inside.substr(prefix.size()));
  if (!ok(read)) return std::nullopt;
  auto const place = place_of(value(read).substance, substances);
  if (!place) return std::nullopt;
  spoken.substance = *place;
  value(read).substance = sibling_variable(*place);
  spoken.in_quantity = true;
  spoken.with_variable = "{" + std::string(prefix) + plain(value(read)) + "}";
  return spoken;
}

std::size_t end_of_brace(std::string_view text, std::size_t at) {
  if (text.substr(at, 2) == "{{") return at + 2;
  return std::min(text.find('}', at), text.size() - 1) + 1;
}

struct Word {
  std::string text;  ///< lower case
  std::size_t begin = 0, end = 0;
};
/// Words of the text outside braces and outside what is spoken of.
std::vector<Word> other_words(std::string_view text, std::vector<Spoken> const& spoken) {
  std::vector<Word> words;
  auto next = spoken.begin();
  for (std::size_t i = 0; i < text.size();) {
    while (next != spoken.end() && next->begin < i) ++next;
    if (next != spoken.end() && next->begin == i) {
      i = next->end;
    } else if (text[i] == '{') {
      i = end_of_brace(text, i);
    } else if (!is_letter(text[i])) {
      ++i;
    } else {
      std::size_t end = i;
      while (end < text.size() && (part_of_word(text[end]) || text[end] == '-')) ++end;
      words.push_back({lowered(text.substr(i, end - i)), i, end});
      i = end;
    }
  }
  return words;
}

std::vector<std::string> const& words_that_pin() {
  static std::vector<std::string> const all = [] {
    TsvTable const table(data::sibling_words_tsv);
    auto const words = table.column("words");
    std::vector<std::string> result;
    for (std::size_t row = 0; row < table.size(); ++row)
      for (auto const word : split_list(table.cell(row, words))) result.emplace_back(word);
    return result;
  }();
  return all;
}

/// Words for an ion and for the elements in it: "iron", "ferric", "sulphate", "sulfur".
std::vector<std::string> words_for(std::string const& ion) {
  std::vector<std::string> all;
  auto const add = [&](std::string_view words) {
    auto const word = lowered(words.substr(0, words.find_first_of(" (")));
    if (!word.empty()) all.push_back(word);
  };
  auto const formula = parse_formula(ion);
  if (ok(formula))
    for (auto const& [symbol, count] : value(formula).composition())
      if (auto const* const element = find_element(symbol); element != nullptr && symbol != "O" && symbol != "H") {
        add(element->name);
        add(element->other_spelling);
      }
  for (auto const& one : named_ions()) {
    if (one.formula != ion) continue;
    add(one.name);
    for (auto const& other : one.other_names) add(other);
    if (one.name == "sulfate") add("sulphate");
  }
  return all;
}

/// Whether a name was refused as that of a material with one of the substances in it.
bool holds_one_of(Fault const& fault, std::vector<std::string> const& substances) {
  return fault.id == "mixture-name" && std::any_of(substances.begin(), substances.end(), [&](std::string const& one) {
           return (fault.what + fault.expected).find("(" + one + ")") != std::string::npos;
         });
}

/// A formula that is typed by itself, such as MgO or Mg2+: two capitals, or a digit.
bool looks_like_formula(std::string_view text) {
  int capitals = 0;
  bool digit = false;
  for (char const c : text) {
    capitals += c >= 'A' && c <= 'Z' ? 1 : 0;
    digit = digit || is_digit(c);
  }
  return text.front() >= 'A' && text.front() <= 'Z' && (capitals > 1 || digit) && ok(parse_formula(text));
}

}  // namespace

std::string sibling_variable(std::size_t substance) { return "{s" + std::to_string(substance + 1) + "}"; }

std::vector<Spoken> spoken_of(Problem const& problem, std::vector<std::string> const& substances) {
  std::vector<Spoken> all;
  std::string_view const text = problem.text;
  auto const spellings = spellings_of(substances);
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '{') {
      std::size_t const end = end_of_brace(text, i);
      if (auto found = end > i + 2 ? in_braces(text.substr(i + 1, end - i - 2), substances) : std::nullopt) {
        found->begin = i;
        found->end = end;
        if (!found->in_quantity) look_at_article(text, *found);
        all.push_back(*found);
      }
      i = end;
      continue;
    }
    if (i > 0 && part_of_word(text[i - 1])) {
      ++i;
      continue;
    }
    auto const found = std::find_if(spellings.begin(), spellings.end(), [&](auto const& one) { return stands_at(text, i, one); });
    if (found == spellings.end()) {
      ++i;
      continue;
    }
    Spoken spoken;
    spoken.begin = i;
    spoken.end = i + found->text.size();
    spoken.substance = found->substance;
    spoken.by_name = found->by_name;
    spoken.with_variable = std::string(found->by_name ? "{name " : "{formula ") + sibling_variable(found->substance) + "}";
    look_at_article(text, spoken);
    all.push_back(spoken);
    i = spoken.end;
  }
  return all;
}

std::vector<Pin> pins_of(Problem const& problem, std::vector<std::string> const& substances,
                         std::vector<std::string> const& ions) {
  std::vector<Pin> pins;
  std::string_view const text = problem.text;
  auto const words = other_words(text, spoken_of(problem, substances));
  for (std::size_t w = 0; w < words.size(); ++w) {
    auto const& word = words[w];
    auto const typed = [&](std::size_t last) { return std::string(text.substr(word.begin, words[last].end - word.begin)); };
    auto const& always = words_that_pin();
    if (std::find(always.begin(), always.end(), word.text) != always.end()) {
      pins.push_back({{}, {}, typed(w), word.begin});
      continue;
    }
    Pin named{{}, {}, typed(w), word.begin};
    for (auto const& ion : ions)
      for (auto const& one : words_for(ion))
        if (word.text == one || word.text == one + "s") named.ions.push_back(ion);
    if (!named.ions.empty()) {
      pins.push_back(std::move(named));
      continue;
    }
    if (looks_like_formula(typed(w))) {
      pins.push_back({{}, {}, typed(w), word.begin});
      continue;
    }
    // A common name, or a material: chalk, Epsom salt, baking powder.
    for (std::size_t count = 3; count > 0; --count) {
      if (w + count > words.size() || words[w + count - 1].end - word.begin > 40 || word.text.size() < 3) continue;
      auto const phrase = typed(w + count - 1);
      if (phrase.find_first_of("{}.,;:?!\n") != std::string::npos) continue;
      if (lowered(phrase) == "salt") continue;  // any salt
      auto const read = identify(phrase);
      Pin pin{{}, {}, phrase, word.begin};
      if (ok(read))
        for (auto const& one : substances)
          if (anhydrous_plain(one) == anhydrous_plain(value(read).formula)) pin.substances.push_back(one);
      if (pin.substances.empty() && (ok(read) || !holds_one_of(fault(read), substances))) continue;
      pins.push_back(std::move(pin));
      break;
    }
  }
  return pins;
}

}  // namespace molewright
