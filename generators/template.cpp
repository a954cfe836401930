#include "generators/template.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

#include "engine/ascii.h"
#include "engine/statement.h"
#include "generators/mention.h"
#include "generators/realism.h"
#include "generators/template_grammar.h"
#include "generators/template_picks.h"

namespace molewright {
namespace {

bool small_letter(char c) { return c >= 'a' && c <= 'z'; }
bool name_character(char c) { return small_letter(c) || (c >= '0' && c <= '9') || c == '_'; }

struct Hole {
  std::size_t begin = 0, end = 0;  ///< of the whole {name}
  std::string_view name;
};
/// Every {name} in a line, also where it stands within other braces; `{{` opens none.
std::vector<Hole> holes_of(std::string_view text) {
  std::vector<Hole> holes;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '{') continue;
    if (i + 1 < text.size() && text[i + 1] == '{') {
      ++i;
      continue;
    }
    std::size_t end = i + 1;
    if (end < text.size() && text[end] == '#') ++end;
    while (end < text.size() && name_character(text[end])) ++end;
    if (end < text.size() && text[end] == '}' && end > i + 1) holes.push_back({i, end + 1, text.substr(i + 1, end - i - 1)});
  }
  return holes;
}

/// A filled line, and for each byte of it the byte of the template's line that it came from.
struct Traced {
  std::string text;
  std::vector<std::size_t> origin;
};
Traced traced(std::string_view text, Binding const& binding) {
  Traced result;
  auto const copy = [&](std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i) {
      result.text += text[i];
      result.origin.push_back(i);
    }
  };
  std::size_t at = 0;
  for (Hole const& hole : holes_of(text)) {
    auto const bound = binding.find(hole.name);
    if (bound == binding.end()) continue;
    copy(at, hole.begin);
    result.text += bound->second;
    result.origin.insert(result.origin.end(), bound->second.size(), hole.begin);
    at = hole.end;
  }
  copy(at, text.size());
  result.origin.push_back(text.size());
  return result;
}

bool is_number(std::string const& text) { return ok(parse_decimal(text)); }

/// Whether any sentence of a text asks for something.
bool asks_anything(std::string const& text) {
  auto const all = sentences(text);
  return std::any_of(all.begin(), all.end(), asks);
}

class Reader {
 public:
  explicit Reader(TemplateRead& out) : out_(out) {}

  void line(std::string_view text, std::size_t number) {
    line_ = text;
    number_ = number;
    if (auto const bad = first_invalid_utf8(text); bad != std::string_view::npos) {
      fault({"invalid-utf8", "these bytes are not UTF-8 text", "UTF-8", bad});
      return;
    }
    if (in_text_) {
      text_line();
      return;
    }
    std::string_view const whole = without_comment(text);
    StatementStart const start = statement_start(whole);
    if (start.keyword.empty()) return;
    std::string_view const body = whole.substr(std::min(start.rest, whole.size()));
    auto const keyword_at = static_cast<std::size_t>(start.keyword.data() - whole.data());
    if (start.keyword == "text") {
      in_text_ = true;
      made_.wordings.push_back({std::string(body), {number, column(text, keyword_at)}});
      return;
    }
    if (body.empty()) {
      fault({"bad-statement", "nothing stands after " + std::string(start.keyword), "what it is about", whole.size()});
      return;
    }
    statement(std::string(start.keyword), whole, start.rest, keyword_at);
  }

  void finish() {
    if (in_text_) fault({"text-not-closed", "the text has no end", "a line 'end'", 0});
    if (made_.name.empty()) fault_at({1, 1}, {"no-name", "the template has no name", "template NAME", 0});
    if (made_.kind.empty()) fault_at({1, 1}, {"no-kind", "the template has no kind", "kind KIND", 0});
    if (made_.wordings.empty()) fault_at({1, 1}, {"no-text", "the template has no text", "text ... end", 0});
    if (!has_find_) fault_at({1, 1}, {"no-find", "the template asks for nothing", "find Q in UNIT", 0});
    check_names();
    settle_numbers();
    if (out_.faults.empty()) try_lines();
    if (out_.faults.empty()) out_.read = made_;
  }

 private:
  void statement(std::string const& keyword, std::string_view whole, std::size_t rest, std::size_t keyword_at) {
    std::string_view const body = whole.substr(rest);
    Place const place{number_, column(line_, keyword_at)};
    if (keyword == "template") {
      made_.name = std::string(body);
    } else if (keyword == "kind") {
      made_.kind = std::string(body);
    } else if (keyword == "level") {
      made_.level = std::string(body);
      if (body != "plain" && body != "standard" && body != "stretching") {
        fault({"unknown-level", "unknown level \"" + made_.level + "\"", "plain, standard or stretching", rest});
      }
    } else if (keyword == "let") {
      auto const read = parse_let(body);
      if (!ok(read)) {
        fault(molewright::fault(read), rest);
        return;
      }
      bind(value(read).names, value(read).pick, place, rest);
    } else if (keyword == "require") {
      require(body, rest, place);
    } else if (keyword == "waive") {
      auto const& known = waivable_limits();
      if (std::find(known.begin(), known.end(), body) == known.end()) {
        auto const near = nearest(body, known);
        fault({"unknown-limit", "no limit \"" + std::string(body) + "\" can be waived",
               near.empty() ? either(known) : near.front(), rest});
        return;
      }
      made_.waived.emplace_back(body);
    } else if (keyword == "given" && varies(body)) {
      auto const read = parse_varying_given(body);
      if (!ok(read)) {
        fault(molewright::fault(read), rest);
        return;
      }
      if (value(read).pick.discordant > 0) place_of_discordant(value(read).pick, place);
      std::string const name = "#" + std::to_string(made_.lets.size());
      if (!bind({name}, value(read).pick, place, rest, value(read).quantity)) return;
      made_.lines.push_back({"given " + value(read).quantity + " = {" + name + "} " + value(read).pick.unit, place});
    } else if (keyword == "problem" || keyword == "end" || keyword == "answer") {
      fault({"unknown-statement", "a template has no line \"" + keyword + "\" here",
             "a statement of the problem language, let, require or waive", keyword_at});
    } else {
      auto known = statement_words();
      if (std::find(known.begin(), known.end(), keyword) == known.end()) {
        for (char const* word : {"template", "kind", "level", "let", "require", "waive"}) known.emplace_back(word);
        auto const near = nearest(keyword, known);
        fault({"unknown-statement", "unknown statement \"" + keyword + "\"", near.empty() ? either(known) : near.front(),
               keyword_at});
        return;
      }
      has_find_ = has_find_ || keyword == "find";
      made_.lines.push_back({std::string(stripped(whole)), place});
    }
  }

  /// Which of the accurate titres is the discordant one is drawn apart: the working hangs on it.
  void place_of_discordant(PickText const& text, Place place) {
    Let which{{"#" + std::to_string(made_.lets.size())}, {}, false, place};
    int const accurate = text.discordant + (text.concordant < 0 ? 3 : text.concordant);
    for (int i = 1; i <= accurate; ++i) which.pick.options.push_back({std::to_string(i)});
    made_.lets.push_back(which);
  }

  bool bind(std::vector<std::string> names, PickText const& text, Place place, std::size_t offset,
            std::string_view quantity = {}) {
    auto pick = pick_of(text, names, quantity.substr(0, quantity.find_first_of("(0123456789")));
    if (ok(pick) && value(pick).readings && value(pick).readings->discordant > 0)
      value(pick).readings->place_of_discordant = made_.lets.back().names.front();
    if (!ok(pick)) {
      Fault found = molewright::fault(pick);
      found.offset = line_.find('=', offset);
      found.offset = found.offset == std::string_view::npos ? offset : line_.find_first_not_of(" \t", found.offset + 1);
      fault(found);
      return false;
    }
    for (Let const& let : made_.lets) {
      for (std::string const& name : names) {
        if (std::find(let.names.begin(), let.names.end(), name) == let.names.end()) continue;
        fault({"bound-twice", "the name " + name + " is bound twice", "another name", offset});
        return false;
      }
    }
    for (std::string const& factor : value(pick).factors) {
      for (Hole const& hole : holes_of(factor)) {
        bool const bound = std::any_of(made_.lets.begin(), made_.lets.end(), [&](Let const& let) {
          return std::find(let.names.begin(), let.names.end(), hole.name) != let.names.end();
        });
        if (bound) continue;
        fault({"unknown-variable", "{" + std::string(hole.name) + "} is bound by no let above", "a name bound by let", offset});
        return false;
      }
    }
    Let let{names, value(pick), names.size() == 1, place};
    for (auto const& row : let.pick.options) let.number = let.number && is_number(row.front());
    made_.lets.push_back(let);
    return true;
  }

  void require(std::string_view body, std::size_t offset, Place place) {
    auto const read = parse_require(body);
    if (!ok(read)) {
      fault(molewright::fault(read), offset);
      return;
    }
    RequireText const& text = value(read);
    Requirement made{text.quantity, text.over, text.at_least, text.bound, Unit{}, place};
    if (!text.unit.empty()) {
      auto const unit = parse_unit(text.unit);
      if (!ok(unit)) {
        fault(molewright::fault(unit), line_.rfind(text.unit));
        return;
      }
      made.unit = value(unit);
    }
    made_.requirements.push_back(made);
  }

  void text_line() {
    std::string& text = made_.wordings.back().text;
    if (stripped(line_) == "end") {
      in_text_ = false;
      if (!asks_anything(text))
        fault_at(made_.wordings.back().place,
                 {"no-question", "the text asks no question", "a question mark, or a word such as Calculate", 0});
      return;
    }
    if (!text.empty()) text += '\n';
    text += stripped(line_);
  }

  /// A quantity of small letters alone, such as cp or yield, is given by this name.
  bool is_given(std::string_view name) const {
    return std::any_of(made_.lines.begin(), made_.lines.end(), [&](TemplateLine const& line) {
      std::string_view rest = line.text;
      if (rest.substr(0, 6) != "given ") return false;
      rest = stripped(rest.substr(6));
      return rest.substr(0, name.size()) == name && stripped(rest.substr(name.size())).substr(0, 1) == "=";
    });
  }

  /// Every {name} is bound, and every name that is bound is used.
  void check_names() {
    std::set<std::string, std::less<>> bound, used;
    for (Let const& let : made_.lets) bound.insert(let.names.begin(), let.names.end());
    std::vector<std::string> known;  // without the names that given lines make for themselves, such as #0
    std::copy_if(bound.begin(), bound.end(), std::back_inserter(known), [](auto const& name) { return name.front() != '#'; });
    auto const look = [&](std::string const& text, Place place, bool wording) {
      for (Hole const& hole : holes_of(text)) {
        used.emplace(hole.name);
        if (bound.count(hole.name) != 0 || (wording && (hole.name == "equation" || is_given(hole.name)))) continue;
        auto const near = nearest(hole.name, known);
        std::string const expected = !near.empty() ? near.front() : known.empty() ? "a name bound by let" : either(known);
        fault_at(place, {"unknown-variable", "{" + std::string(hole.name) + "} is bound by no let", expected, 0});
      }
    };
    for (Let const& let : made_.lets) {
      for (std::string const& factor : let.pick.factors) look(factor, let.place, false);
      if (let.pick.readings) used.insert(let.pick.readings->place_of_discordant);
    }
    for (TemplateLine const& line : made_.lines) look(line.text, line.place, false);
    for (TemplateLine const& wording : made_.wordings) look(wording.text, wording.place, true);
    for (Requirement const& requirement : made_.requirements) {
      look(requirement.quantity, requirement.place, false);
      look(requirement.over, requirement.place, false);
      look(requirement.bound, requirement.place, false);
    }
    for (Let const& let : made_.lets) {
      bool any = false;
      for (std::string const& name : let.names) any = any || used.count(name) != 0;
      if (!any) fault_at(let.place, {"unused-variable", "nothing uses " + listed(let.names), "", 0});
    }
  }

  /// A let stays a number only where it is the whole number of a given: what is a part of one ({lead}{tail}e-10), or settles a
  /// limit, makes another plan.
  void settle_numbers() {
    auto const whole = [](std::string_view text, Hole const& hole) {
      char const before = hole.begin == 0 ? ' ' : text[hole.begin - 1], after = hole.end == text.size() ? ' ' : text[hole.end];
      return text.substr(0, 6) == "given " && (before == ' ' || before == '=' || before == '|') && (after == ' ' || after == '|');
    };
    auto const look = [&](std::string const& text, bool statement) {
      for (Hole const& hole : holes_of(text))
        for (Let& let : made_.lets)
          if (let.number && let.names.front() == hole.name) let.number = statement && whole(text, hole);
    };
    for (TemplateLine const& line : made_.lines) look(line.text, true);
    for (Requirement const& requirement : made_.requirements) look(requirement.bound, false);
  }

  /// The statements with the first of each choice put in, as the engine reads them.
  void try_lines() {
    Binding binding;
    for (Let const& let : made_.lets) {
      if (!let.pick.factors.empty()) {
        auto const product = product_text(let.pick, binding);
        if (!product) {
          fault_at(let.place, {"bad-given", "a factor of this product is no number", "a number, a {name} or M(formula)", 0});
          return;
        }
        binding[let.names.front()] = *product;
      } else if (let.pick.readings) {
        binding[let.names.front()] = readings_text(let.pick, 0, binding);
      } else if (let.pick.options.empty()) {
        binding[let.names.front()] = range_text(let.pick, 0);
      } else {
        for (std::size_t i = 0; i < let.names.size(); ++i) binding[let.names[i]] = let.pick.options.front()[i];
      }
    }
    Problem problem;
    for (TemplateLine const& line : made_.lines) {
      Traced const trial = traced(line.text, binding);
      auto const found = add_statement(problem, trial.text);
      if (!found) continue;
      Fault moved = *found;
      moved.offset = trial.origin[std::min(found->offset, trial.text.size())];
      // A varying given was written anew: only its beginning can be pointed at.
      if (line.text.find("{#") != std::string::npos) moved.offset = 0;
      fault_at(line.place, moved);
    }
  }

  void fault(Fault found, std::size_t offset = 0) {
    found.offset += offset;
    PlacedFault placed{found, number_, column(line_, found.offset), std::string(line_)};
    out_.faults.push_back(placed);
  }
  /// `found.offset` counts from the place, which stands in a line read before.
  void fault_at(Place place, Fault found) {
    PlacedFault placed{std::move(found), place.line, place.column, ""};
    placed.line_text = place.line <= lines.size() && place.line > 0 ? std::string(lines[place.line - 1]) : "";
    std::size_t const start = placed.line_text.find_first_not_of(" \t");
    placed.fault.offset += start == std::string::npos ? 0 : start;
    placed.column = column(placed.line_text, placed.fault.offset);
    out_.faults.push_back(placed);
  }

  TemplateRead& out_;
  Template made_;
  std::string_view line_;
  std::size_t number_ = 0;
  bool in_text_ = false, has_find_ = false;

 public:
  std::vector<std::string_view> lines;  ///< all of the file
};

}  // namespace

std::string filled(std::string_view text, Binding const& binding) {
  std::string result;
  std::size_t at = 0;
  for (Hole const& hole : holes_of(text)) {
    auto const bound = binding.find(hole.name);
    if (bound == binding.end()) continue;
    result.append(text.substr(at, hole.begin - at));
    result += bound->second;
    at = hole.end;
  }
  result.append(text.substr(at));
  return result;
}

TemplateRead parse_template(std::string_view text) {
  TemplateRead result;
  Reader reader(result);
  std::string_view rest = text;
  for (;;) {
    auto const end = rest.find('\n');
    std::string_view line = rest.substr(0, end);
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    reader.lines.push_back(line);
    if (end == std::string_view::npos) break;
    rest.remove_prefix(end + 1);
  }
  for (std::size_t i = 0; i < reader.lines.size(); ++i) reader.line(reader.lines[i], i + 1);
  reader.finish();
  return result;
}

}  // namespace molewright
