#include "generators/form.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/steps.h"
#include "generators/random.h"
#include "marker/slip_key.h"

namespace molewright {
namespace {

namespace words {
constexpr char const* choose = "Which of these is right?";
constexpr char const* option = "{}:  {}";
constexpr char const* worked = "Here is a worked answer. One line is wrong; the lines below it carry the mistake on.";
constexpr char const* line = "Line {}:  {}";
constexpr char const* which_line = "(a) Which line is the wrong one?";
constexpr char const* what_instead = "(b) What should {} have come to in that line, in {}?";
constexpr char const* what_instead_bare = "(b) What should {} have come to in that line?";
constexpr char const* first_line = "The first line of the working is done for you. Go on from there.";
constexpr char const* first_lines = "The first {} lines of the working are done for you. Go on from there.";
}  // namespace words

constexpr std::size_t most_wrong_options = 3;
constexpr std::size_t least_wrong_options = 2;
constexpr double far_off = 30;         ///< a wrong answer so many times too large or too small is seen through at once
constexpr double most_percent = 1000;  ///< nobody takes 74000 % for the share of anything
constexpr int most_lines_left = 5;

Node const& node_at(Working const& working, int index) { return working.nodes[static_cast<std::size_t>(index)]; }

bool one_number(Question const& question) {
  auto const& finds = question.worked.problem.finds;
  return finds.size() == 1 && finds.front().kind == Find::Kind::number && !finds.front().told;
}

Fault does_not_fit(Question const& question, char const* why) {
  return Fault{"form-does-not-fit", "a question of the template " + question.template_name + " cannot be put so: " + why,
               "another form or another template", 0};
}

/// Every line of the working, all parts together, as it is printed.
std::vector<Step> lines_of(Worked const& worked, Working const& working, Conventions const& conventions) {
  std::vector<Step> all;
  for (std::size_t find = 0; find < working.finds.size(); ++find) {
    auto const more = steps(worked, working, find, conventions);
    all.insert(all.end(), more.begin(), more.end());
  }
  return all;
}

/// Wrong answers to choose from: those that could be believed come first, each group as it stands in the slip key. One that is
/// far off, such as a volume left in mL, stands beside them where it is the commonest slip or they are few.
std::vector<SlipKeyEntry> to_choose_from(std::vector<SlipKeyEntry> wrong, Node const& right) {
  double const value = std::abs(right.value.number.to_double());
  bool const share = right.value.unit.symbol == "%";
  auto const believable = [&](SlipKeyEntry const& one) {
    double const ratio = std::abs(one.value) / value;
    return ratio < far_off && ratio > 1 / far_off && (one.value < 0) == (right.value.number.to_double() < 0) &&
           !(share && one.value > 100 && value <= 100);
  };
  auto const absurd = [&](SlipKeyEntry const& one) { return share && one.value > most_percent && value <= 100; };
  auto const sensible = static_cast<std::size_t>(std::count_if(wrong.begin(), wrong.end(), std::not_fn(absurd)));
  if (sensible >= least_wrong_options) wrong.erase(std::remove_if(wrong.begin(), wrong.end(), absurd), wrong.end());
  bool const commonest_is_far = !wrong.empty() && !believable(wrong.front());
  auto const rest = std::stable_partition(wrong.begin(), wrong.end(), believable);
  auto const near = static_cast<std::size_t>(rest - wrong.begin());
  if (commonest_is_far && near >= most_wrong_options) std::iter_swap(wrong.begin() + most_wrong_options - 1, rest);
  if (wrong.size() > most_wrong_options) wrong.resize(std::max(least_wrong_options, std::min(near + 1, most_wrong_options)));
  return wrong;
}

std::optional<Fault> put_choice(Question& question, Conventions const& conventions) {
  Working const& working = question.worked.accepted.front();
  Answer const& right = working.finds.front();
  Node const& node = node_at(working, right.node);
  std::vector<SlipKeyEntry> wrong = question.slip_key.empty() ? std::vector<SlipKeyEntry>{} : question.slip_key.front();
  wrong.erase(std::remove_if(wrong.begin(), wrong.end(), [&](SlipKeyEntry const& one) { return one.answer == right.text; }),
              wrong.end());
  wrong = to_choose_from(std::move(wrong), node);
  if (wrong.size() < least_wrong_options) return does_not_fit(question, "too few wrong answers come from slips");
  // By size, as numbers to choose from usually stand: then their order tells nothing.
  struct Line {
    double value;
    std::string number;
    SlipKeyEntry const* slip;
  };
  std::vector<Line> lines{{node.value.number.to_double(), right.text, nullptr}};
  for (auto const& one : wrong) lines.push_back({one.value, one.answer, &one});
  std::stable_sort(lines.begin(), lines.end(), [](Line const& a, Line const& b) { return a.value < b.value; });
  std::vector<SlipKeyEntry> key;
  question.text += std::string("\n") + words::choose;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    char const letter = static_cast<char>('A' + static_cast<int>(i));
    auto const unit = node.value.unit.symbol;
    question.options.push_back({letter, lines[i].number + (unit.empty() ? "" : " " + unit), lines[i].slip == nullptr});
    auto const number = read_decimal(lines[i].number, DecimalMark::point);
    auto const shown = ok(number) ? print_as_typed(value(number).number, conventions.mark).pretty : lines[i].number;
    question.text += "\n" + fmt::format(words::option, letter, measure_text(shown, node.value.unit, conventions));
    if (lines[i].slip == nullptr) continue;
    key.push_back(*lines[i].slip);
    key.back().letter = letter;
  }
  question.slip_key = {std::move(key)};
  question.marks = {1};
  return std::nullopt;
}

/// A slip that shows in one printed line of the working, and the lines with it.
struct Planted {
  Application const* slip = nullptr;
  std::vector<Step> lines;  ///< of the working with it
  std::size_t line = 0;     ///< index of the one that is wrong
};

std::vector<Planted> that_can_be_planted(Question const& question, SlipTable const& table, Conventions const& conventions) {
  Worked const& worked = question.worked;
  Working const& working = worked.accepted.front();
  auto const before = lines_of(worked, working, conventions);
  std::vector<Planted> found;
  for (SlipAnswer const& answer : table.by_find.front()) {
    Application const& slip = table.all[answer.application];
    if (slip.slip->reach != Reach::specific || slip.edits.size() != 1) continue;
    auto const* const edit = std::get_if<NodeEdit>(&slip.edits.front());
    if (edit == nullptr) continue;
    Node const& node = node_at(working, edit->node);
    bool const is_number = node.definition.operation == Operation::product || node.definition.operation == Operation::sum;
    if (!is_number || edit->definition.operation == Operation::constant || node.relation == relations::given) continue;
    auto const edited = run(worked, working, slip.edits, conventions);
    if (std::holds_alternative<PlacedFault>(edited)) continue;
    auto const& with_it = std::get<Working>(edited);
    Planted planted{&slip, lines_of(worked, with_it, conventions), 0};
    auto const& after = planted.lines;
    auto const at =
        std::find_if(after.begin(), after.end(), [&](Step const& step) { return node_at(with_it, step.node).id == node.id; });
    if (at == after.end() || after.size() < 2) continue;
    planted.line = static_cast<std::size_t>(at - after.begin());
    // The line must be seen to be wrong: other words than the right one has, and all before it as it should be.
    auto const same = [&](std::size_t i) { return i < before.size() && before[i].text == after[i].text; };
    bool clean = !same(planted.line);
    for (std::size_t i = 0; i < planted.line; ++i)
      clean = clean && std::any_of(before.begin(), before.end(), [&](Step const& one) { return one.text == after[i].text; });
    if (clean) found.push_back(std::move(planted));
  }
  return found;
}

std::optional<Fault> put_mistake(Question& question, SlipTable const& table, Conventions const& conventions, std::uint32_t seed) {
  auto const all = that_can_be_planted(question, table, conventions);
  if (all.empty()) return does_not_fit(question, "no slip shows in one line of its working");
  std::vector<std::size_t> weighted;  // common slips twice as often
  for (std::size_t i = 0; i < all.size(); ++i)
    weighted.insert(weighted.end(), all[i].slip->slip->frequency == Frequency::common ? 2U : 1U, i);
  Planted const& planted = all[weighted[spread(hash_of("mistake", seed)) % weighted.size()]];
  auto const& lines = planted.lines;
  Worked const original = question.worked;
  Working const& right = original.accepted.front();
  int const at = right.find_node(planted.slip->node);
  if (at < 0) return does_not_fit(question, "no slip shows in one line of its working");
  Node const& node = node_at(right, at);

  question.text += std::string("\n") + words::worked;
  for (std::size_t i = 0; i < lines.size(); ++i) question.text += "\n" + fmt::format(words::line, i + 1, lines[i].text);
  question.text += std::string("\n") + words::which_line + "\n";
  auto const unit = unit_text(node.value.unit, conventions);
  question.text += unit.empty() ? fmt::format(words::what_instead_bare, pretty(node.quantity))
                                : fmt::format(words::what_instead, pretty(node.quantity), unit);
  Find line, number;
  line.kind = Find::Kind::line_at_fault;
  number.quantity = node.quantity;
  number.unit = node.value.unit;
  Worked worked = original;
  worked.accepted.resize(1);
  worked.problem.finds = {line, number};
  Working& working = worked.accepted.front();
  working.finds = {Answer{at, 0, 0, false, ""}, Answer{at, 0, 0, false, ""}};
  if (!evaluate(working, conventions.ties, {std::nullopt, std::nullopt}))
    return does_not_fit(question, "its working cannot be run");
  working.finds.front() = Answer{at, 0, 0, false, std::to_string(planted.line + 1)};
  question.planted = std::string(planted.slip->slip->id);
  question.worked = std::move(worked);
  question.marks = {1, 1};
  SlipTable const here = slip_table(question.worked, conventions, false);
  question.slip_key = slip_key(question.worked, here, conventions);
  question.slip_key.resize(2);
  return std::nullopt;
}

/// How many lines of the working a faded question gives: never one that is an answer.
int lines_to_give(Worked const& worked, std::vector<Step> const& lines, FormChoice const& choice) {
  int given = std::max(1, static_cast<int>(lines.size()) - choice.lines_left);
  for (Answer const& answer : worked.accepted.front().finds)
    for (std::size_t i = 0; i < lines.size(); ++i)
      if (lines[i].node == answer.node) given = std::min(given, static_cast<int>(i));
  return given;
}

void put_faded(Question& question, FormChoice const& choice, Conventions const& conventions) {
  auto const lines = lines_of(question.worked, question.worked.accepted.front(), conventions);
  int const given = lines_to_give(question.worked, lines, choice);
  question.text += "\n" + (given == 1 ? std::string(words::first_line) : fmt::format(words::first_lines, given));
  for (int i = 0; i < given; ++i)
    question.text += "\n" + fmt::format(words::line, i + 1, lines[static_cast<std::size_t>(i)].text);
  question.lines_given = given;
  int before = 0;
  for (std::size_t find = 0; find < question.marks.size(); ++find) {
    int const own = static_cast<int>(steps(question.worked, question.worked.accepted.front(), find, conventions).size());
    int const left = own - std::clamp(given - before, 0, own);
    question.marks[find] = std::clamp(question.marks[find], 1, std::max(1, left));
    before += own;
  }
}
}  // namespace

std::uint32_t code_of(FormChoice const& choice) {
  switch (choice.form) {
    case Form::open:
      return 0;
    case Form::choice:
      return 1;
    case Form::mistake:
      return 2;
    case Form::faded:
      return static_cast<std::uint32_t>(2 + std::clamp(choice.lines_left, 1, most_lines_left));
  }
  return 0;
}

FormChoice form_of(std::uint32_t code) {
  if (code == 0) return {};
  if (code == 1) return {Form::choice, 1};
  if (code == 2) return {Form::mistake, 1};
  return {Form::faded, static_cast<int>(code) - 2};
}

bool can_be_put(Question const& question, FormChoice const& choice, Conventions const& conventions) {
  switch (choice.form) {
    case Form::open:
      return true;
    case Form::choice:
    case Form::mistake:
      return one_number(question);
    case Form::faded: {
      auto const& finds = question.worked.problem.finds;
      bool const numbers = std::any_of(finds.begin(), finds.end(), [](Find const& f) { return f.kind == Find::Kind::number; });
      auto const lines = lines_of(question.worked, question.worked.accepted.front(), conventions);
      return numbers && lines_to_give(question.worked, lines, choice) > 0;
    }
  }
  return false;
}

std::optional<Fault> put(Question& question, FormChoice const& choice, SlipTable const& table, Conventions const& conventions,
                         std::uint32_t seed) {
  if (!can_be_put(question, choice, conventions))
    return does_not_fit(question,
                        choice.form == Form::faded ? "its working has too few lines" : "it asks for more than one number");
  question.form = choice.form;
  switch (choice.form) {
    case Form::choice:
      return put_choice(question, conventions);
    case Form::mistake:
      return put_mistake(question, table, conventions, seed);
    case Form::faded:
      put_faded(question, choice, conventions);
      break;
    case Form::open:
      break;
  }
  return std::nullopt;
}

}  // namespace molewright
