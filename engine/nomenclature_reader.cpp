// From a name to formulas: the listed names, then ions, salts, hydrates and compounds of two elements put together as their names
// say.
#include <algorithm>
#include <map>
#include <utility>

#include "engine/ascii.h"
#include "engine/element.h"
#include "engine/formula_index.h"
#include "engine/lists.h"
#include "engine/nomenclature_parts.h"
#include "engine/nomenclature_words.h"

namespace molewright::naming {
namespace {

bool begins(std::string_view text, std::string_view with) { return text.substr(0, with.size()) == with; }

bool drop_end(std::string& text, std::string_view end) {
  if (text.size() <= end.size() || std::string_view(text).substr(text.size() - end.size()) != end) return false;
  text.resize(text.size() - end.size());
  return true;
}

/// "calcium sulfate" and "penta": the formula of the hydrate; empty where there is none.
std::string hydrate_of(std::string const& dry, std::string_view prefix) {
  Formula const formula = parsed(dry);
  if (formula.parts.size() > 1 || formula.charge != 0) return "";
  if (prefix == "hemi") return '(' + dry + ")2·H2O";
  if (prefix == "sesqui") return '(' + dry + ")2·3H2O";
  auto const number = prefix_number(prefix);
  return number ? dry + "·" + (*number == 1 ? "" : std::to_string(*number)) + "H2O" : "";
}

/// How many water molecules a key ends with, as a prefix; what stands before is left in `key`.
std::string take_water(std::string& key) {
  for (std::string_view const word : {"hemi", "sesqui"})
    if (drop_end(key, std::string(word) + "hydrate")) return std::string(word);
  for (std::int64_t number = 20; number >= 1; --number)  // longest first: tetradeca before deca
    if (drop_end(key, std::string(multiplying_prefix(number)) + "hydrate")) return std::string(multiplying_prefix(number));
  std::string rest = key;
  bool const closed = drop_end(rest, ")");
  bool const in_words = drop_end(rest, "water") || drop_end(rest, "hydrate");
  if (!in_words && !drop_end(rest, "h2o")) return "";
  std::size_t digits = rest.size();
  while (digits > 0 && is_digit(rest[digits - 1])) --digits;
  std::string const number = rest.substr(digits);
  rest.resize(digits);
  std::size_t const before = rest.size();
  while (!rest.empty() && (rest.back() == '.' || rest.back() == '*' || (closed && rest.back() == '('))) rest.pop_back();
  drop_end(rest, "·");
  bool const dotted = rest.size() < before;  // "sodium chloride water" is no hydrate
  if (number.size() > 2 || rest.empty() || (number.empty() && (in_words || !dotted))) return "";
  auto const prefix = multiplying_prefix(number.empty() ? 1 : std::stoi(number));
  if (!prefix.empty()) key = rest;
  return std::string(prefix);
}

/// An ion that a word may mean. A metal without a number may be in several states, of which some are usual.
struct Candidate {
  NamedIon ion;
  bool usual = true;
};
using Words = std::map<std::string, std::vector<Candidate>>;

class Lexicon {
 public:
  Lexicon() {
    add_whole();
    add_ions();
    add_metals();
    for (NamedIon const& ion : named_ions()) add(ion_words_, key_of(ion.name), ion.formula);
    Names others;
    for (NamedIon const& ion : named_ions())
      for (auto const& other : ion.other_names) others[key_of(other)].push_back(ion.formula);
    for (auto const& [key, formulas] : others)
      if (ion_words_.count(key) == 0) ion_words_[key] = formulas;
    for (auto const& [key, candidates] : cations_)
      if (ion_words_.count(key) == 0)
        for (auto const& candidate : candidates)
          if (candidate.usual) add(ion_words_, key, candidate.ion.formula);
    add_doubles();
  }

  Formulas read(std::string key) const {
    if (auto const found = whole_.find(key); found != whole_.end()) return found->second;
    std::string bare = key;
    for (char const* const word : {"ions", "ion", "anion", "cation", "radical"})
      if (drop_end(bare, word)) {
        auto const found = ion_words_.find(bare);
        if (found != ion_words_.end()) return found->second;
        bare = key;
      }
    if (auto const prefix = take_water(key); !prefix.empty()) return hydrates(read_dry(key), prefix);
    auto const found = ion_words_.find(key);
    return found != ion_words_.end() ? found->second : read_dry(key);
  }

 private:
  using Names = std::map<std::string, Formulas>;

  static void add(Names& names, std::string const& key, std::string const& formula) { add_once(names[key], formula); }

  /// Names that stand for a substance as they are. A first name goes before another substance's second one.
  void add_whole() {
    Names others;
    for (Listed const& row : listed()) {
      auto& formulas = whole_[key_of(row.name)];
      if (formulas.empty()) formulas.push_back(row.formula);  // sulfur is S, not S8
      for (auto const& other : row.other_names) add(others, key_of(other), row.formula);
    }
    for (Element const& element : elements()) whole_.insert({key_of(element.name), {element.symbol}});
    for (Acid const& acid : acids()) whole_.insert({key_of(acid.name), {as_listed(acid.formula)}});
    for (auto const& [key, formulas] : others) whole_.insert({key, formulas});
    whole_.insert({"electron", {"e^-"}});
  }

  void add_ions() {
    for (NamedIon const& ion : named_ions()) (ion.charge > 0 ? cations_ : anions_)[key_of(ion.name)].push_back({ion, true});
    Words more;
    for (NamedIon const& ion : named_ions())
      for (auto const& other : ion.other_names) {
        auto const key = key_of(other);
        if ((ion.charge > 0 ? cations_ : anions_).count(key) == 0) more[key].push_back({ion, true});
      }
    for (auto const& [key, candidates] : more) (candidates.front().ion.charge > 0 ? cations_ : anions_)[key] = candidates;
    for (ElementName const& element : element_names()) {
      if (element.anion_charge == 0 || anions_.count(key_of(element.ending)) != 0) continue;
      anions_[key_of(element.ending)].push_back({ion_of(element.symbol, element.ending, -element.anion_charge), true});
    }
  }

  static NamedIon ion_of(std::string const& symbol, std::string const& name, int charge) {
    NamedIon ion;
    int const size = charge < 0 ? -charge : charge;
    ion.formula = symbol + '^' + (size == 1 ? "" : std::to_string(size)) + (charge < 0 ? '-' : '+');
    ion.name = name;
    ion.charge = charge;
    ion.inside = symbol;
    if (is_metal(symbol)) ion.metal = symbol;
    return ion;
  }

  /// Every metal with its number, "sodium(I)" too, and without.
  void add_metals() {
    for (ElementName const& metal : element_names()) {
      if (metal.usual.empty()) continue;
      std::string const name = find_element(metal.symbol)->name;
      std::vector<Candidate> any;
      for (int const state : metal.states) {
        auto const key = key_of(name + '(' + std::string(roman(state)) + ')');
        bool const bare = !metal.number && state == metal.states.front();
        auto& numbered = cations_[key];
        if (numbered.empty() && bare && cations_.count(key_of(name)) != 0) numbered = cations_.at(key_of(name));
        if (numbered.empty()) numbered.push_back({ion_of(metal.symbol, metal_name(metal, state), state), true});
        bool const usual = std::find(metal.usual.begin(), metal.usual.end(), state) != metal.usual.end();
        for (auto candidate : numbered) {
          candidate.usual = usual;
          any.push_back(candidate);
        }
      }
      cations_[key_of(name)] = any;
    }
  }

  /// Listed salts of three kinds of ion: their names give the ions in one order, people in any.
  void add_doubles() {
    for (Listed const& row : listed()) {
      auto const ions = ions_of(row.formula);
      if (ions.size() != 3 || parsed(row.formula).parts.size() > 1) continue;
      std::vector<std::string> formulas;
      for (auto const& ion : ions) formulas.push_back(ion.ion);
      add(doubles_, joined(formulas), row.formula);
    }
  }

  static std::string joined(std::vector<std::string> texts) {
    std::sort(texts.begin(), texts.end());
    std::string result;
    for (auto const& text : texts) result += text + ' ';
    return result;
  }

  /// Of a salt without its metal's number only the listed hydrate is meant, where one alone is listed.
  static Formulas hydrates(Formulas const& dry, std::string const& prefix) {
    Formulas all, known;
    for (auto const& formula : dry) {
      std::string const wet = hydrate_of(formula, prefix);
      if (wet.empty()) continue;
      add_once(all, as_listed(wet));
      if (find_listed(parsed(wet)) != nullptr) add_once(known, as_listed(wet));
    }
    return known.size() == 1 ? known : all;
  }

  Formulas read_dry(std::string const& key) const {
    if (auto const found = whole_.find(key); found != whole_.end()) return found->second;
    Formulas formulas = read_salt(key);
    if (!formulas.empty()) add_mixed(key, formulas);
    if (formulas.empty()) formulas = read_double(key);
    if (formulas.empty()) formulas = read_two_elements(key);
    return formulas;
  }

  /// "iron(II,III) oxide", "dilead(II) lead(IV) oxide".
  static bool in_two_states(std::string const& name) {
    return name.find(',') != std::string::npos || std::count(name.begin(), name.end(), '(') > 1;
  }

  /// "iron oxide" may also be the listed oxide that holds iron in two states.
  static void add_mixed(std::string const& key, Formulas& formulas) {
    for (ElementName const& metal : element_names()) {
      std::string const name = key_of(find_element(metal.symbol)->name);
      if (!metal.number || metal.usual.empty() || !begins(key, name) || key.find('(') != std::string::npos) continue;
      for (Listed const& row : listed()) {
        auto const atoms = parsed(row.formula).composition();
        if (atoms.size() != 2 || atoms.count(metal.symbol) == 0 || !in_two_states(row.name)) continue;
        std::string const ending = row.name.substr(row.name.rfind(' ') + 1);
        if (key == name + ending) add_once(formulas, row.formula);
      }
    }
  }

  /// The candidates of "disodium" and of "sodium", with the number that was said.
  std::vector<std::pair<std::int64_t, Candidate>> cations_of(std::string const& word) const {
    std::vector<std::pair<std::int64_t, Candidate>> result;
    if (auto const found = cations_.find(word); found != cations_.end())
      for (auto const& candidate : found->second) result.push_back({0, candidate});
    for (std::int64_t number = 1; number <= 6; ++number) {
      auto const prefix = multiplying_prefix(number);
      if (!begins(word, prefix)) continue;
      auto const found = cations_.find(word.substr(prefix.size()));
      if (found == cations_.end()) continue;
      for (auto const& candidate : found->second) result.push_back({number, candidate});
    }
    return result;
  }

  /// Whether a salt is what its name says, by the rules that name formulas.
  static bool is_named(std::string const& formula, NamedIon const& cation, NamedIon const& anion) {
    std::string const name = composed_name(parsed(formula));
    if (name.empty()) return false;
    if (key_of(name) == key_of(cation.name + ' ' + anion.name)) return true;
    if (cation.formula == "H^+") return true;
    // Named otherwise in the table; but tin(II) peroxide is not tin(IV) oxide, though they have the same atoms.
    auto const pair = salt_pair(parsed(formula));
    return pair && named_ions()[pair->cation].formula == cation.formula && named_ions()[pair->anion].formula == anion.formula;
  }

  Formulas read_salt(std::string const& key) const {
    Formulas all, known;
    bool several_anions = false, of_oxoanion = false;
    for (std::size_t at = 1; at < key.size(); ++at) {
      auto const anions = anions_.find(key.substr(at));
      if (anions == anions_.end()) continue;
      several_anions = several_anions || anions->second.size() > 1;
      for (auto const& anion : anions->second) {
        auto const atoms = parsed(anion.ion.formula).composition();
        of_oxoanion = of_oxoanion || (atoms.count("O") == 1 && atoms.size() > 1 && atoms.count("H") == 0);
      }
      for (auto const& [number, cation] : cations_of(key.substr(0, at)))
        for (auto const& anion : anions->second) {
          std::string const formula = salt_formula(cation.ion, anion.ion);
          Listed const* const row = find_listed(parsed(formula));
          if ((!cation.usual && row == nullptr) || !is_named(formula, cation.ion, anion.ion)) continue;
          if (number != 0 && number != number_of(formula, cation.ion)) continue;
          add_once(all, as_listed(formula));
          if (row != nullptr) add_once(known, row->formula);
        }
    }
    if (several_anions && !known.empty()) return known;
    // Copper sulfate is the copper(II) salt: of the salts of an oxoacid only those that are met count.
    if (of_oxoanion && known.size() == 1) return known;
    std::stable_partition(all.begin(), all.end(),
                          [](std::string const& formula) { return find_listed(parsed(formula)) != nullptr; });
    return all;
  }

  static std::int64_t number_of(std::string const& formula, NamedIon const& cation) {
    auto const atoms = parsed(formula).composition(), one = parsed(cation.formula).composition();
    return atoms.at(one.begin()->first) / one.begin()->second;
  }

  Formulas read_double(std::string const& key) const {
    Formulas all;
    for (std::size_t second = 2; second < key.size(); ++second) {
      auto const last = anions_.find(key.substr(second));
      if (last == anions_.end()) continue;
      for (std::size_t first = 1; first < second; ++first) {
        auto const one = cations_.find(key.substr(0, first));
        if (one == cations_.end()) continue;
        std::string const middle = key.substr(first, second - first);
        for (auto const* const words : {&cations_, &anions_}) {
          auto const two = words->find(middle);
          if (two == words->end()) continue;
          for (auto const& a : one->second)
            for (auto const& b : two->second)
              for (auto const& c : last->second) try_double({a.ion, b.ion, c.ion}, a.usual && b.usual, all);
        }
      }
    }
    return all;
  }

  /// The listed salt of these ions; else with one of each of the two of one sign, where that is named so.
  void try_double(std::vector<NamedIon> const& ions, bool usual, Formulas& all) const {
    if (auto const found = doubles_.find(joined({ions[0].formula, ions[1].formula, ions[2].formula})); found != doubles_.end()) {
      for (auto const& formula : found->second) add_once(all, formula);
      return;
    }
    if (!usual || ions[0].formula == ions[1].formula || ions[1].formula == ions[2].formula) return;
    bool const two_cations = ions[1].charge > 0;
    NamedIon both = two_cations ? ions[0] : ions[1];
    NamedIon const& partner = two_cations ? ions[1] : ions[2];
    both.charge += partner.charge;
    both.inside += parsed(partner.inside).parts[0].groups.size() > 1 ? '(' + partner.inside + ')' : partner.inside;
    NamedIon const& other = two_cations ? ions[2] : ions[0];
    if (both.charge % other.charge != 0 && other.charge % both.charge != 0) return;
    if (std::abs(both.charge) < std::abs(other.charge)) return;
    std::string const formula = two_cations ? salt_formula(both, other) : salt_formula(other, both);
    std::vector<std::string> cations{ions[0].name}, anions{ions[2].name};
    (two_cations ? cations : anions).push_back(ions[1].name);
    std::sort(cations.begin(), cations.end());
    std::sort(anions.begin(), anions.end());
    std::string name;
    for (auto const& list : {cations, anions})
      for (auto const& ion : list) name += ion;
    if (key_of(composed_name(parsed(formula))) == key_of(name)) add_once(all, formula);
  }

  Names whole_, ion_words_, doubles_;
  Words cations_, anions_;
};

Lexicon const& lexicon() {
  static Lexicon const made;
  return made;
}

/// The state behind a name, which is taken off.
State take_state(std::string& key) {
  static std::pair<char const*, State> const ends[] = {
      {"(s)", State::solid}, {"(l)", State::liquid}, {"(g)", State::gas}, {"(aq)", State::aqueous}};
  for (auto const& [end, state] : ends)
    if (drop_end(key, end)) return state;
  return State::none;
}

}  // namespace

Reading read_name(std::string_view name) {
  Reading reading;
  std::string key = key_of(name);
  while (!key.empty() && (key.back() == '.' || key.back() == ',' || key.back() == ';')) key.pop_back();
  if (key.empty() || key.size() > words::longest_name) return reading;
  for (auto const& [own, state] : words::own_state)
    if (key == own) reading.state = state;
  reading.formulas = lexicon().read(key);
  if (!reading.formulas.empty()) return reading;
  reading.state = take_state(key);
  // Words that say how a substance is at hand, not which it is.
  bool found = true;
  while (found) {
    found = false;
    for (auto const& [word, state] : words::at_hand) {
      bool const in_front = begins(key, word) && key.size() > word.size();
      if (in_front) key.erase(0, word.size());
      if (!in_front && !drop_end(key, word)) continue;
      if (reading.state == State::none) reading.state = state;
      found = true;
    }
  }
  reading.formulas = lexicon().read(key);
  return reading;
}

}  // namespace molewright::naming
