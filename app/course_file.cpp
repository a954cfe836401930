#include "app/course_file.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <nlohmann/json.hpp>

#include "app/files.h"
#include "app/toml_text.h"
#include "engine/ascii.h"
#include "engine/quantity.h"

namespace molewright {
namespace {

/// One key of a course file: what it may be, and how it is set and told.
struct Key {
  std::string name;
  std::vector<std::string> allowed;                      ///< empty: any text that `set` takes
  std::function<bool(Course&, std::string const&)> set;  ///< false: not a value it can take
  std::function<std::string(Course const&)> tell;        ///< empty: the course says nothing of it
  std::string like = {};                                 ///< what is expected where any text may stand
  std::string expected() const { return allowed.empty() ? like : quoted_list(allowed); }
};

template <class Enum>
Key choice(std::string name, std::vector<std::pair<std::string, Enum>> values, std::function<Enum&(Course&)> where) {
  Key key;
  key.name = std::move(name);
  for (auto const& [word, meaning] : values) key.allowed.push_back(word);
  key.set = [values, where](Course& course, std::string const& word) {
    for (auto const& [known, meaning] : values)
      if (known == word) {
        where(course) = meaning;
        return true;
      }
    return false;
  };
  key.tell = [values, where](Course const& course) {
    auto copy = course;
    for (auto const& [word, meaning] : values)
      if (meaning == where(copy)) return word;
    return std::string();
  };
  return key;
}

Key text(std::string name, std::vector<std::string> const& allowed, std::function<std::string&(Course&)> where) {
  std::vector<std::pair<std::string, std::string>> values;
  for (auto const& word : allowed) values.push_back({word, word});
  return choice<std::string>(std::move(name), values, std::move(where));
}

/// "24.0 L/mol", "22,4 dm3/mol": above zero, and a volume per amount.
bool set_molar_gas_volume(Course& course, std::string const& text) {
  for (auto const mark : {DecimalMark::point, DecimalMark::comma}) {
    auto const read = parse_measured(text, mark);
    if (!ok(read) || !value(read).unit) continue;
    bool const fits = value(read).unit->dimension == working_unit("Vm").dimension && value(read).number.value.sign() > 0;
    if (fits) course.conventions.molar_gas_volume = value(read);
    return fits;
  }
  return false;
}

std::string molar_gas_volume_of(Course const& course) {
  auto const& volume = course.conventions.molar_gas_volume;
  return volume ? volume->number.text + ' ' + volume->unit->symbol : "";
}

/// "2 %", "0.5 %": at most ten.
bool set_tolerance(Course& course, std::string const& text) {
  auto const read = parse_measured(text, DecimalMark::point);
  if (!ok(read) || !value(read).unit || value(read).unit->symbol != "%") return false;
  auto const& share = value(read).number.value;
  if (share.sign() < 0 || Rational(10) < share) return false;
  course.rules.tolerance = share.to_double() / 100;
  return true;
}

std::string tolerance_of(Course const& course) {
  return course.rules.tolerance > 0 ? fmt::format("{:g} %", course.rules.tolerance * 100) : "";
}

std::vector<Key> const& keys() {
  using Rules = MarkingRules;
  static std::vector<Key> const all{
      choice<WeightTable>("atomic_weights",
                          {{"abridged", WeightTable::abridged},
                           {"two decimals", WeightTable::two_decimals},
                           {"one decimal", WeightTable::one_decimal},
                           {"whole", WeightTable::whole}},
                          [](Course& c) -> WeightTable& { return c.conventions.weights.table; }),
      choice<Ties>("ties", {{"half up", Ties::half_up}, {"half to even", Ties::half_even}},
                   [](Course& c) -> Ties& { return c.conventions.ties; }),
      choice<Rules::Figures>("figures",
                             {{"exact", Rules::Figures::exact},
                              {"within one", Rules::Figures::within_one},
                              {"at least two", Rules::Figures::at_least_two},
                              {"once a paper", Rules::Figures::once_a_paper},
                              {"not judged", Rules::Figures::not_judged}},
                             [](Course& c) -> Rules::Figures& { return c.rules.figures; }),
      choice<Rules::Units>("units",
                           {{"required", Rules::Units::required},
                            {"once a paper", Rules::Units::once_a_paper},
                            {"not judged", Rules::Units::not_judged}},
                           [](Course& c) -> Rules::Units& { return c.rules.units; }),
      choice<Rules::States>("states", {{"not judged", Rules::States::not_judged}, {"required", Rules::States::required}},
                            [](Course& c) -> Rules::States& { return c.rules.states; }),
      choice<DecimalMark>("decimal", {{"point", DecimalMark::point}, {"comma", DecimalMark::comma}},
                          [](Course& c) -> DecimalMark& { return c.conventions.mark; }),
      text("concentration_unit", {"mol/L", "mol L-1", "mol dm-3", "mol/dm3", "M"},
           [](Course& c) -> std::string& { return c.conventions.concentration_unit; }),
      text("volume_unit", {"mL", "cm3"}, [](Course& c) -> std::string& { return c.conventions.volume_unit; }),
      choice<Spelling>("spelling", {{"sulfur", Spelling::sulfur}, {"sulphur", Spelling::sulphur}},
                       [](Course& c) -> Spelling& { return c.conventions.naming.spelling; }),
      choice<Aluminium>("aluminium", {{"aluminium", Aluminium::aluminium}, {"aluminum", Aluminium::aluminum}},
                        [](Course& c) -> Aluminium& { return c.conventions.naming.aluminium; }),
      choice<AceticAcid>("acetic_acid", {{"acetic acid", AceticAcid::acetic}, {"ethanoic acid", AceticAcid::ethanoic}},
                         [](Course& c) -> AceticAcid& { return c.conventions.naming.acetic_acid; }),
      choice<Hydrogencarbonate>(
          "hydrogencarbonate",
          {{"hydrogencarbonate", Hydrogencarbonate::hydrogencarbonate}, {"bicarbonate", Hydrogencarbonate::bicarbonate}},
          [](Course& c) -> Hydrogencarbonate& { return c.conventions.naming.hydrogencarbonate; }),
      text("amount_word", {"amount", "number of moles"}, [](Course& c) -> std::string& { return c.conventions.amount_word; }),
      Key{"molar_gas_volume",
          {},
          set_molar_gas_volume,
          molar_gas_volume_of,
          "a volume per amount in quotes, such as \"24.0 L/mol\" or \"22.4 dm3/mol\""},
      choice<Rules::SlipMarks>(
          "marks_for_a_slip",
          {{"none", Rules::SlipMarks::none}, {"suggested", Rules::SlipMarks::suggested}, {"given", Rules::SlipMarks::given}},
          [](Course& c) -> Rules::SlipMarks& { return c.rules.slip_marks; }),
      choice<bool>("follow_through", {{"true", true}, {"false", false}},
                   [](Course& c) -> bool& { return c.rules.follow_through; }),
      Key{"tolerance", {}, set_tolerance, tolerance_of, "a percentage in quotes, from \"0 %\" to \"10 %\""},
      choice<bool>("marks_for_working", {{"true", true}, {"false", false}}, [](Course& c) -> bool& { return c.rules.working; }),
  };
  return all;
}

/// A file of own atomic weights: symbol, a blank or tab, the value; one element a line, # begins a comment.
std::optional<Fault> read_weights(std::string const& path, Course& course) {
  auto const read = read_file(path);
  if (!ok(read))
    return Fault{"cannot-read", "the file of atomic weights " + path + " " + fault(read).what,
                 quoted_list({"abridged", "two decimals", "one decimal", "whole"}) + ", or a file", 0};
  std::string_view rest = value(read);
  std::size_t number = 0;
  while (!rest.empty()) {
    auto line = take_line(rest);
    ++number;
    line = stripped(line.substr(0, line.find('#')));
    if (line.empty()) continue;
    auto const gap = line.find_first_of(" \t");
    auto const symbol = line.substr(0, gap);
    auto const weight = parse_decimal(gap == std::string_view::npos ? std::string_view() : line.substr(gap));
    if (!find_element(symbol) || !ok(weight) || value(weight).value.sign() <= 0)
      return Fault{"bad-weight", path + " line " + std::to_string(number) + " is not an atomic weight",
                   "a symbol and a number, such as Cl 35.5", 0};
    course.conventions.weights.overrides.push_back({std::string(symbol), value(weight)});
  }
  return std::nullopt;
}

class CourseReader {
 public:
  CourseReader(std::string_view text, std::string folder) : text_(text), folder_(std::move(folder)) {}

  CourseRead read() {
    toml::table table;
    try {
      table = toml::parse(text_);
    } catch (toml::parse_error const& error) {
      out_.faults.push_back(toml_syntax(error, text_));
      return std::move(out_);
    }
    for (auto const& [name, node] : table) set(std::string(name.str()), node);
    // The keys come by name; a person reads from the top.
    std::stable_sort(out_.faults.begin(), out_.faults.end(), [](auto const& a, auto const& b) { return a.line < b.line; });
    return std::move(out_);
  }

 private:
  void set(std::string const& name, toml::node const& node) {
    auto const key = std::find_if(keys().begin(), keys().end(), [&](Key const& k) { return k.name == name; });
    if (key == keys().end()) {
      std::vector<std::string> known;
      for (auto const& k : keys()) known.push_back(k.name);
      auto const near = nearest(name, known);
      fault({"unknown-key", "unknown key " + name, near.empty() ? quoted_list(known) : quoted_list(near), 0}, node.source());
      return;
    }
    std::string word;
    if (auto const* flag = node.as_boolean())
      word = flag->get() ? "true" : "false";
    else if (auto const* string = node.as_string())
      word = string->get();
    else {
      fault({"wrong-type", name + " has the wrong type", key->expected(), 0}, node.source());
      return;
    }
    if (key->set(out_.course, word)) return;
    if (name == "atomic_weights" && nearest(word, key->allowed).empty()) {
      if (auto found = read_weights((std::filesystem::path(folder_) / word).string(), out_.course)) fault(*found, node.source());
      return;
    }
    fault({"unknown-value", name + " cannot be \"" + word + '"', key->expected(), 0}, node.source());
  }

  void fault(Fault found, toml::source_region const& where) { out_.faults.push_back(toml_fault(std::move(found), where, text_)); }

  std::string_view text_;
  std::string folder_;
  CourseRead out_;
};
}  // namespace

CourseRead read_course(std::string_view text, std::string const& folder) { return CourseReader(text, folder).read(); }

std::string course_to_json(Course const& course) {
  nlohmann::ordered_json out;
  for (auto const& key : keys()) {
    auto const word = key.tell(course);
    if (word.empty()) continue;
    if (word == "true" || word == "false")
      out[key.name] = word == "true";
    else
      out[key.name] = word;
  }
  if (!course.conventions.weights.overrides.empty()) {
    nlohmann::ordered_json own;
    for (auto const& [symbol, weight] : course.conventions.weights.overrides) own[symbol] = weight.text;
    out["own_atomic_weights"] = own;
  }
  return out.dump();
}

Result<Course> course_from_json(std::string_view json) {
  auto const bad = [](std::string const& what) {
    return Fault{"bad-course", "the set's course " + what, "a set as this program writes it", 0};
  };
  auto const object = nlohmann::ordered_json::parse(json, nullptr, false);
  if (!object.is_object()) return bad("is not an object");
  Course course;
  for (auto const& [name, word] : object.items()) {
    if (name == "own_atomic_weights" && word.is_object()) {
      for (auto const& [symbol, weight] : word.items()) {
        auto const number = parse_decimal(weight.is_string() ? weight.get<std::string>() : "");
        if (!ok(number) || !find_element(symbol)) return bad("has a bad atomic weight");
        course.conventions.weights.overrides.push_back({symbol, value(number)});
      }
      continue;
    }
    auto const key = std::find_if(keys().begin(), keys().end(), [&n = name](Key const& k) { return k.name == n; });
    if (key == keys().end()) return bad("has an unknown key " + name);
    std::string const text = word.is_boolean()  ? (word.get<bool>() ? "true" : "false")
                             : word.is_string() ? word.get<std::string>()
                                                : "";
    if (!key->set(course, text)) return bad("has an unknown value for " + name);
  }
  return course;
}

}  // namespace molewright
