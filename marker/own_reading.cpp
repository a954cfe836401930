#include "marker/own_reading.h"

#include <algorithm>
#include <set>

#include "engine/ascii.h"
#include "marker/slip_key.h"
#include "marker/table.h"

namespace molewright {
namespace {

/// "24,65" as the problem language writes it.
std::string with_points(std::string_view text, DecimalMark mark) {
  std::string out(text);
  for (std::size_t i = 1; mark == DecimalMark::comma && i + 1 < out.size(); ++i)
    if (out[i] == ',' && is_digit(out[i - 1]) && is_digit(out[i + 1])) out[i] = '.';
  return out;
}

std::string name_of_reading(Problem const& problem, std::size_t given) { return plain(problem.givens[given].quantity); }

Fault no_reading(Problem const& problem, std::vector<std::size_t> const& missing) {
  std::string which;
  for (auto const g : missing) which += (which.empty() ? "" : " and ") + name_of_reading(problem, g);
  return {"no-reading", "the student's own reading of " + which + " is missing",
          "a value such as 24.65 mL in the column measured", 0};
}

/// The slip key of new numbers, each entry under the letter that its slip has in the printed key.
std::vector<std::vector<SlipKeyEntry>> relettered(std::vector<std::vector<SlipKeyEntry>> const& printed,
                                                  std::vector<std::vector<SlipKeyEntry>> const& fresh) {
  auto key = printed;
  for (std::size_t f = 0; f < key.size(); ++f)
    for (auto& entry : key[f])
      for (auto const& other : f < fresh.size() ? fresh[f] : std::vector<SlipKeyEntry>{}) {
        if (std::find(other.ids.begin(), other.ids.end(), entry.ids.empty() ? "" : entry.ids.front()) == other.ids.end())
          continue;
        entry.answer = other.answer;
        entry.value = other.value;
        break;
      }
  return key;
}
}  // namespace

std::vector<std::size_t> readings_of(Problem const& problem) {
  std::vector<std::size_t> out;
  for (std::size_t g = 0; g < problem.givens.size(); ++g)
    if (problem.givens[g].form == Given::Form::measured) out.push_back(g);
  return out;
}

std::string reading_column(Question const& question) { return question.number + " measured"; }

bool rests_on_reading(Question const& question, std::size_t find) {
  auto const readings = readings_of(question.worked.problem);
  if (readings.empty()) return false;
  auto const& working = question.worked.accepted.front();
  // Of a choice every branch counts: another reading may limit otherwise.
  std::vector<bool> needed(working.nodes.size(), false);
  needed[static_cast<std::size_t>(working.finds[find].node)] = true;
  for (std::size_t i = working.nodes.size(); i-- > 0;)
    if (needed[i])
      for (auto const& term : working.nodes[i].definition.terms) needed[static_cast<std::size_t>(term.node)] = true;
  for (auto const g : readings)
    for (int const node : working.given_nodes[g])
      if (needed[static_cast<std::size_t>(node)]) return true;
  return false;
}

Result<Problem> with_readings(Problem const& problem, std::string_view cell, DecimalMark mark) {
  auto const asked = readings_of(problem);
  Problem out = problem;
  std::set<std::size_t> put;
  while (!trimmed(cell).empty()) {
    auto const end = std::min(cell.size(), cell.find(';'));
    auto text = with_points(trimmed(cell.substr(0, end)), mark);
    cell.remove_prefix(std::min(cell.size(), end + 1));
    if (text.empty()) continue;
    std::size_t given = asked.front();
    if (auto const equals = text.find('='); equals != std::string::npos) {
      auto const quantity = parse_quantity(trimmed(std::string_view(text).substr(0, equals)));
      auto const* const named = ok(quantity) ? given_named(problem, value(quantity)) : nullptr;
      given = named ? static_cast<std::size_t>(named - problem.givens.data()) : problem.givens.size();
      text = std::string(trimmed(std::string_view(text).substr(equals + 1)));
    } else if (asked.size() > 1) {
      given = problem.givens.size();
    }
    if (std::find(asked.begin(), asked.end(), given) == asked.end()) {
      std::vector<std::string> names;
      for (auto const g : asked) names.push_back(name_of_reading(problem, g) + " = ...");
      return Fault{"unknown-reading", "\"" + text + "\" is no reading that is asked for", either(names), 0};
    }
    if (!put.insert(given).second)
      return Fault{"given-twice", name_of_reading(problem, given) + " is given twice", "one value", 0};
    auto& target = out.givens[given];
    if (!text.empty() && is_digit(text.back())) text += ' ' + target.unit.symbol;
    Problem read;
    if (auto fault = add_statement(read, "given " + name_of_reading(problem, given) + " = " + text)) {
      bool const of_language = fault->id == "bad-statement" || fault->id == "not-a-number";
      if (of_language) return Fault{"unknown-reading", "\"" + text + "\" is no reading", "a value such as 24.65 mL", 0};
      fault->offset = 0;
      return *fault;
    }
    auto const place = target.place;
    target = read.givens.front();
    target.place = place;
    if (target.form == Given::Form::measured) put.erase(given);  // "measured" is no value
  }
  std::vector<std::size_t> missing;
  for (auto const g : asked)
    if (put.count(g) == 0) missing.push_back(g);
  if (!missing.empty()) return no_reading(problem, missing);
  return out;
}

Result<Question> with_readings(Question const& question, std::string_view cell, Conventions const& conventions) {
  auto problem = with_readings(question.worked.problem, cell, conventions.mark);
  if (!ok(problem)) return fault(problem);
  auto worked = solve(value(problem), conventions);
  if (auto const* placed = std::get_if<PlacedFault>(&worked)) return placed->fault;
  Question own = question;
  own.worked = std::get<Worked>(std::move(worked));
  if (!question.slip_key.empty())
    own.slip_key = relettered(question.slip_key, slip_key(own.worked, slip_table(own.worked, conventions, false), conventions));
  return own;
}

}  // namespace molewright
