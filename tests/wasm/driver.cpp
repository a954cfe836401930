// Prints what the portable rooms make of fixed inputs: 200 questions, made and made again from their codes, with the judgement of
// right, slipped, badly written and unreadable answers to each. run.sh builds it twice, natively and for WebAssembly, and
// compares the bytes.
#include <cstdint>
#include <cstdio>
#include <memory>
#include <string>
#include <vector>

#include "app/question_templates.h"
#include "engine/equation.h"
#include "engine/fault.h"
#include "engine/formula.h"
#include "engine/steps.h"
#include "generators/question_maker.h"
#include "marker/judge.h"

using namespace molewright;

namespace {
constexpr std::size_t questions = 200;

void say(std::string const& line) { std::printf("%s\n", line.c_str()); }

void show_formula(char const* text) {
  auto const read = parse_formula(text);
  if (!ok(read)) {
    say(std::string(text) + ": " + fault(read).id + " at " + std::to_string(fault(read).offset) + ", " + sentence(fault(read)));
    return;
  }
  auto line = plain(value(read)) + " | " + pretty(value(read));
  for (auto const& [element, atoms] : value(read).composition()) line += " " + element + ":" + std::to_string(atoms);
  say(line + " charge " + std::to_string(value(read).charge));
}

void show_balance(char const* text) {
  auto const read = parse_equation(text);
  if (!ok(read)) {
    say(std::string(text) + ": " + fault(read).id + ", " + sentence(fault(read)));
    return;
  }
  auto const result = balance(value(read));
  auto line = plain(value(read)) + " |";
  for (auto const coefficient : result.coefficients) line += " " + std::to_string(coefficient);
  for (auto const& solution : result.independent) {
    line += " (";
    for (auto const coefficient : solution) line += " " + std::to_string(coefficient);
    line += " )";
  }
  say(line + (result.why.empty() ? "" : " " + result.why));
  auto const whole = balanced(value(read));
  if (ok(whole)) say("  " + pretty(value(whole)));
}

void show_reading() {
  for (auto const* text : {"CuSO4·5H2O", "[Cu(NH3)4]SO4·H2O", "KAl(SO4)2.12H2O(s)", "SO₄²⁻", "SO42-", "Fe3+", "Cr2O7^2-(aq)",
                           "e^-", "Al2(SO4)3", "Xy2", "Ca(OH", "Ca)2", "", "H(("}) {
    show_formula(text);
  }
  std::string const deep = std::string(400, '(') + "H" + std::string(400, ')');
  auto const refused = parse_formula(deep);
  say("400 brackets: " + (ok(refused) ? std::string("read") : fault(refused).id));
  for (auto const* text :
       {"Fe + O2 -> Fe2O3", "KMnO4 + HCl = KCl + MnCl2 + H2O + Cl2", "MnO4^- + H^+ + e^- -> Mn^2+ + H2O", "½O2 + H2 → H2O",
        "BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq)", "H2O2 + KMnO4 + H2SO4 -> MnSO4 + O2 + H2O + K2SO4", "H2 -> O2",
        "Na + -> NaCl", "K4Fe(CN)6 + KMnO4 + H2SO4 -> KHSO4 + Fe2(SO4)3 + MnSO4 + HNO3 + CO2 + H2O"}) {
    show_balance(text);
  }
}

/// A usual course, one that differs from it in everything that is printed, and one that carries less forward.
std::vector<Course> courses() {
  Course usual;
  Course other;
  other.conventions.weights.table = WeightTable::one_decimal;
  other.conventions.ties = Ties::half_even;
  other.conventions.mark = DecimalMark::comma;
  other.conventions.naming.spelling = Spelling::sulphur;
  other.conventions.concentration_unit = "mol dm-3";
  other.conventions.volume_unit = "cm3";
  other.rules.figures = MarkingRules::Figures::exact;
  other.rules.slip_marks = MarkingRules::SlipMarks::given;
  Course plain_numbers;
  plain_numbers.conventions.weights.table = WeightTable::whole;
  plain_numbers.rules.figures = MarkingRules::Figures::not_judged;
  plain_numbers.rules.units = MarkingRules::Units::not_judged;
  plain_numbers.rules.follow_through = false;
  return {usual, other, plain_numbers};
}

/// The unit that a student might answer in instead; empty where there is none worth trying.
std::string other_unit(std::string const& symbol) {
  static std::vector<std::pair<std::string, std::string>> const pairs{{"g", "mg"},     {"mg", "g"},     {"mL", "L"},
                                                                      {"L", "mL"},     {"cm3", "dm3"},  {"dm3", "cm3"},
                                                                      {"mol", "mmol"}, {"mmol", "mol"}, {"mol/L", "mmol/L"}};
  for (auto const& [unit, instead] : pairs) {
    if (unit == symbol) return instead;
  }
  return "";
}

/// Everything that is tried in the box of one part.
std::vector<std::string> answers_to(Question const& question, std::size_t find, Course const& course) {
  Working const& working = question.worked.accepted.front();
  Answer const& right = working.finds[find];
  std::vector<std::string> tried{"", "absent", "a spoonful or so", "17", "B"};
  if (right.figures == 0) {
    for (auto const& formula : working.chosen) tried.push_back(formula);
    return tried;
  }
  Value const& exact = working.nodes[static_cast<std::size_t>(right.node)].value;
  auto const mark = course.conventions.mark;
  auto const rounding = nearest_by(course.conventions.ties);
  auto const written = [&](Rational const& number, int figures) { return print_to_figures(number, figures, rounding, mark); };
  auto const& unit_symbol = exact.unit.symbol;
  auto const whole = written(exact.number, right.figures);
  tried.push_back(right.text + " " + unit_symbol);
  tried.push_back(whole.pretty + " " + pretty(exact.unit));
  tried.push_back(whole.plain);
  tried.push_back(whole.plain + " s");
  tried.push_back(written(exact.number, right.figures > 1 ? right.figures - 1 : 1).plain + " " + unit_symbol);
  tried.push_back(written(exact.number, right.figures + 3).plain + " " + unit_symbol);
  tried.push_back(written(exact.number * Rational(12345, 10007), right.figures).plain + " " + unit_symbol);
  auto const instead = other_unit(unit_symbol);
  if (!instead.empty()) {
    auto const in_other = convert(exact.number, exact.unit, unit(instead));
    tried.push_back(written(in_other, right.figures).plain + " " + instead);
    tried.push_back(written(in_other, right.figures).plain);
  }
  for (auto const& entry : question.slip_key[find]) tried.push_back(entry.answer + " " + unit_symbol);
  return tried;
}

void show(Judgement const& judged) {
  std::string line = "    " + judged.part + " \"" + judged.given + "\" (" + judged.correct +
                     "): " + std::string(name(judged.value)) + ", " + std::string(name(judged.unit)) + ", " +
                     std::string(name(judged.figures)) + "; " + std::to_string(judged.marks) + "/" +
                     std::to_string(judged.out_of) + (judged.suggested ? " or " + std::to_string(judged.marks_if_accepted) : "");
  for (auto const& note : judged.notes) line += " [" + note + "]";
  say(line);
  for (auto const& candidate : judged.candidates) {
    std::string rival = "      ";
    for (auto const& slip : candidate.slips) rival += slip.id + " at " + slip.node + " ";
    char share[16];
    std::snprintf(share, sizeof share, "%.3f", candidate.probability);
    say(rival + share + ": " + candidate.text);
  }
  if (!judged.feedback.empty()) say("      > " + judged.feedback);
}

void show_marking(Question const& question, Course const& course) {
  Working const& working = question.worked.accepted.front();
  Judge const judge(question, course);
  std::vector<std::string> right;
  for (auto const& find : working.finds) {
    auto const& measured = working.nodes[static_cast<std::size_t>(find.node)].value.unit.symbol;
    right.push_back(find.figures == 0 ? find.text : find.text + " " + measured);
  }
  // The other parts are right, so that an answer to one part shows what it does to those after it.
  for (std::size_t find = 0; find < right.size(); ++find) {
    for (auto const& answer : answers_to(question, find, course)) {
      std::vector<Written> script;
      for (std::size_t part = 0; part < right.size(); ++part)
        script.push_back(read_written(part == find ? answer : right[part], course.conventions.mark));
      auto const judged = judge.judge(script);
      for (std::size_t part = find; part < judged.size(); ++part) show(judged[part]);
    }
  }
}

void show_question(Question const& question, Course const& course) {
  Working const& working = question.worked.accepted.front();
  say(question.text);
  for (std::size_t find = 0; find < working.finds.size(); ++find) {
    auto const& answer = working.finds[find];
    say("  " + part_name(question, find) + " " + answer_line(question.worked, working, find, course.conventions) + " | " +
        answer.text + " | " + unrounded(working.nodes[static_cast<std::size_t>(answer.node)].value.number) + " | " +
        std::to_string(question.marks[find]) + " marks");
    for (auto const& step : steps(question.worked, working, find, course.conventions)) say("    " + step.text);
    for (auto const& entry : question.slip_key[find]) {
      std::string line = std::string("    ") + entry.letter + " " + entry.answer;
      for (auto const& id : entry.ids) line += " " + id;
      say(line);
    }
  }
  for (auto const& alike : question.told_apart_not) say("  alike: " + alike);
}

/// Returns how many questions were made; the rest have printed why not.
std::size_t show_questions() {
  auto const read = read_templates(question_templates());
  for (auto const& found : read.faults) say(found.name + ": " + sentence(found.fault.fault));
  std::vector<std::unique_ptr<QuestionMaker>> makers;
  for (auto const& course : courses()) makers.push_back(std::make_unique<QuestionMaker>(read.templates, course));
  std::size_t made_again = 0;
  for (std::size_t q = 0; q < questions; ++q) {
    auto const kinds = read.templates.size();
    auto& maker = *makers[q / kinds % makers.size()];
    auto const& from = maker.templates()[q % kinds];
    auto const made = maker.make(from, static_cast<std::uint32_t>((q * 104729 + 11) % code_seeds));
    if (!ok(made)) {
      say(from.name + ": " + sentence(fault(made)));
      continue;
    }
    auto const& code = value(made).code;
    auto again = maker.remake(code);
    if (!ok(again)) {
      say(code + ": " + sentence(fault(again)));
      continue;
    }
    auto& question = value(again);
    say("");
    say(std::to_string(q + 1) + ". " + code + " " + question.template_name +
        (question.text == value(made).text ? "" : ": made again it differs"));
    maker.add_slip_key(question);
    show_question(question, maker.course());
    show_marking(question, maker.course());
    if (question.text == value(made).text) ++made_again;
  }
  return made_again;
}
}  // namespace

int main() {
  show_reading();
  auto const made = show_questions();
  say(std::to_string(made) + " of " + std::to_string(questions) + " questions made again from their codes");
  return made == questions ? 0 : 1;
}
