#include "templates/from_set.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include "engine/ascii.h"
#include "engine/formula.h"
#include "engine/quantity.h"
#include "engine/steps.h"
#include "engine/steps_stated.h"
#include "engine/substance.h"
#include "engine/unit.h"
#include "marker/marks.h"
#include "marker/own_reading.h"
#include "marker/slip.h"
#include "marker/words.h"

namespace molewright {
namespace {

namespace words {
constexpr char const* defer =
    "Wear eye protection. These are reminders for the reagents as bought, not all there is to know: check the safety data sheet, "
    "the school’s risk assessment and local rules first.";
constexpr char const* not_told_apart = "Not told apart here: ";
constexpr char const* or_ = " or ";
constexpr char const* formula = "formula";
constexpr char const* equation = "equation";
constexpr char const* name = "name";
constexpr char const* formula_or_name = "formula or name";
constexpr char const* letter = "letter";
constexpr char const* line = "line";
constexpr char const* choose = "your choice";
constexpr char const* own_reading = "Your own reading: ";
constexpr char const* with_own_reading = "With each student’s own reading. For example at ";
constexpr char const* example = "e.g. ";
}  // namespace words

std::string in_round_brackets(std::string const& letter) { return letter.empty() ? letter : "(" + letter + ")"; }

Working const& printed(Question const& question) { return question.worked.accepted.front(); }
Find const& find_of(Question const& question, std::size_t find) { return question.worked.problem.finds[find]; }
int marks_at(Question const& question, std::size_t find) { return find < question.marks.size() ? question.marks[find] : 0; }

/// "B: " where the question is a choice and B is right.
std::string letter_of_answer(Question const& question) {
  auto const letter = right_letter(question);
  return letter ? std::string(1, *letter) + ": " : std::string();
}

std::string unit_of_answer(Question const& question, std::size_t find, Conventions const& conventions) {
  if (find_of(question, find).kind != Find::Kind::number) return {};
  Answer const& answer = printed(question).finds[find];
  return unit_text(printed(question).nodes[static_cast<std::size_t>(answer.node)].value.unit, conventions);
}

/// What stands in the one wide box of an answer that is no number.
char const* caption_of(Find::Kind kind) {
  switch (kind) {
    case Find::Kind::line_at_fault:
      return words::line;
    case Find::Kind::reaction:
    case Find::Kind::ionic_equation:
      return words::equation;
    case Find::Kind::name:
      return words::name;
    case Find::Kind::precipitate:
    case Find::Kind::reagent:
      return words::formula_or_name;
    default:
      return words::formula;
  }
}

/// "1.72 g": as the card and the key print it.
std::string right_answer(Question const& question, std::size_t find, Conventions const& conventions) {
  std::string text = pretty_answer(printed(question).finds[find].text, conventions);
  std::string const unit = unit_of_answer(question, find, conventions);
  return letter_of_answer(question) + (unit.empty() ? text : text + " " + unit);
}

std::string figures_note(Question const& question, std::size_t find) {
  if (find_of(question, find).kind != Find::Kind::number) return {};
  Answer const& answer = printed(question).finds[find];
  if (auto const places = answer.decimal_places())
    return "to " + std::to_string(*places) + (*places == 1 ? " decimal place" : " decimal places");
  return std::to_string(answer.figures) + (answer.figures == 1 ? " significant figure" : " significant figures");
}

std::vector<SlipKeyEntry> const& key_of(Question const& question, std::size_t find) {
  static std::vector<SlipKeyEntry> const none;
  return find < question.slip_key.size() ? question.slip_key[find] : none;
}

/// The words for a class of slips: at most two, for more help nobody.
std::string meaning_of(SlipKeyEntry const& entry, Conventions const& conventions) {
  std::string text;
  for (std::size_t i = 0; i < std::min<std::size_t>(entry.ids.size(), 2); ++i) {
    text += (i > 0 ? words::or_ : "") + short_words(entry.ids[i], conventions);
  }
  if (entry.ids.size() > 2) text += " …";
  return text;
}

/// Marks of the printed lines. A mark whose step has no line of its own (it stood in an earlier part, or only repeats another)
/// goes to the last line that has none yet, or else to the last.
/// None goes to the first `given` lines, which stand in the question.
std::vector<int> marks_of_lines(Question const& question, std::size_t find, int marks, std::vector<Step> const& lines,
                                std::size_t given) {
  std::vector<int> result(lines.size(), 0);
  if (lines.empty()) return result;
  int without_line = 0;
  for (StepMark const& mark : marks_of_steps(question.worked, printed(question), find, marks)) {
    auto const line = std::find_if(lines.begin(), lines.end(), [&](Step const& step) { return step.node == mark.node; });
    (line == lines.end() ? without_line : result[static_cast<std::size_t>(line - lines.begin())]) += mark.marks;
  }
  given = std::min(given, lines.size() - 1);
  for (std::size_t i = 0; i < given; ++i) without_line += std::exchange(result[i], 0);
  for (std::size_t i = result.size(); i-- > given && without_line > 0;) {
    if (result[i] > 0) continue;
    ++result[i];
    --without_line;
  }
  result.back() += without_line;
  return result;
}

/// "\nYour own reading: V(HCl) = ________ mL": a line of its own; empty where nothing is measured.
std::string place_for_readings(Question const& question, Conventions const& conventions) {
  std::string text;
  for (std::size_t const g : readings_of(question.worked.problem)) {
    Given const& given = question.worked.problem.givens[g];
    text += (text.empty() ? std::string("\n") + words::own_reading : "; ") + pretty(given.quantity) + " = ________ " +
            unit_text(given.unit, conventions);
  }
  return text;
}

/// "With each student's own reading. For example at V(HCl) = 24.60 mL:"
std::string example_readings(Question const& question, Conventions const& conventions) {
  std::string text;
  for (std::size_t const g : readings_of(question.worked.problem)) {
    Given const& given = question.worked.problem.givens[g];
    text += (text.empty() ? words::with_own_reading : ", ") + pretty(given.quantity) + " = " +
            measure_text(print_as_typed(given.numbers.front(), conventions.mark).pretty, given.unit, conventions);
  }
  return text + ":";
}

/// Where entries of a key have one meaning ("element left out of molar mass": which?), each also says what it came to at its
/// step.
void tell_apart(std::vector<SlipKeyLine>& slips, Question const& question, std::size_t find, Conventions const& conventions) {
  std::map<std::string, int> times;
  for (auto const& slip : slips) ++times[slip.meaning];
  if (std::all_of(times.begin(), times.end(), [](auto const& one) { return one.second == 1; })) return;
  auto const table = slip_table(question.worked, conventions);
  auto const& keys = key_of(question, find);
  for (std::size_t k = 0; k < slips.size(); ++k) {
    if (times[slips[k].meaning] == 1) continue;
    auto const& answers = table.by_find[find];
    auto const at = std::find_if(answers.begin(), answers.end(), [&](SlipAnswer const& one) {
      return one.slip->id == keys[k].ids.front() && !changes_answer(one.value, keys[k].value);
    });
    if (at == answers.end()) continue;
    auto const numbers = slip_numbers(printed(question), table.all[at->application], find, conventions);
    if (!numbers.wrong.empty()) slips[k].meaning += " (" + numbers.step + " = " + numbers.wrong + ")";
  }
}

AnswerPart answer_part(Question const& question, std::size_t find, Conventions const& conventions) {
  AnswerPart part;
  part.letter = in_round_brackets(part_name(question, find));
  part.marks = marks_at(question, find);
  part.answer = letter_of_answer(question) + answer_line(question.worked, printed(question), find, conventions);
  part.figures = figures_note(question, find);
  std::vector<Step> const all = steps(question.worked, printed(question), find, conventions);
  std::size_t before = 0;
  for (std::size_t f = 0; f < find; ++f) before += steps(question.worked, printed(question), f, conventions).size();
  auto const given = static_cast<std::size_t>(question.lines_given);
  std::vector<int> const marks = marks_of_lines(question, find, part.marks, all, given > before ? given - before : 0);
  if (rests_on_reading(question, find)) part.steps.push_back({example_readings(question, conventions), 0});
  for (std::size_t i = 0; i < all.size(); ++i) part.steps.push_back({all[i].text, marks[i]});
  for (SlipKeyEntry const& entry : key_of(question, find)) {
    part.slips.push_back(
        {std::string(1, entry.letter), pretty_answer(entry.answer, conventions), meaning_of(entry, conventions)});
  }
  tell_apart(part.slips, question, find, conventions);
  return part;
}

/// "volume-left-in-mL = power-of-ten" in words; what is no slip's id stays as it is.
std::string in_words(std::string_view ids, Conventions const& conventions) {
  std::string text;
  while (true) {
    std::size_t const end = ids.find(" = ");
    text += short_words(ids.substr(0, end), conventions);
    if (end == std::string_view::npos) return text;
    text += " = ";
    ids.remove_prefix(end + 3);
  }
}

/// A formula once, in the order met.
void note(std::vector<std::string>& formulas, std::string const& formula) {
  if (!formula.empty() && std::find(formulas.begin(), formulas.end(), formula) == formulas.end()) formulas.push_back(formula);
}

/// Is this the symbol of an element, as Na is? O2 and CO are not.
bool is_symbol(std::string const& formula) {
  auto const small = [](char c) { return c >= 'a' && c <= 'z'; };
  return (formula.size() == 1 || (formula.size() == 2 && small(formula[1]))) && formula[0] >= 'A' && formula[0] <= 'Z';
}

/// An element that is told as a share of something, or as one of three and more that a compound is made of, is not there as
/// itself.
bool only_a_part(Given const& given, Problem const& problem) {
  if (!is_symbol(given.quantity.substance)) return false;
  auto const elements = std::count_if(problem.givens.begin(), problem.givens.end(),
                                      [](Given const& other) { return is_symbol(other.quantity.substance); });
  return given.quantity.symbol == "w" || elements > 2;
}

}  // namespace

std::string pretty_answer(std::string_view plain, Conventions const& conventions) {
  DecimalMark const mark = conventions.mark;
  auto const number = read_decimal(plain, mark);
  bool const equation = plain.find("->") != std::string_view::npos;  // it may begin with a number, too
  if (equation || !ok(number)) return pretty_stated(plain);
  std::string text = print_as_typed(value(number).number, mark).pretty;
  auto const rest = stripped(plain.substr(value(number).length));
  if (rest.empty()) return text;
  auto const unit = parse_unit(rest);
  return text + " " + (ok(unit) ? unit_text(value(unit), conventions) : std::string(rest));
}

std::string answers_line(Question const& question, Conventions const& conventions) {
  std::string line;
  for (std::size_t find = 0; find < printed(question).finds.size(); ++find)
    line += (find > 0 ? "; " : "") + answer_line(question.worked, printed(question), find, conventions);
  return line;
}

std::string short_words(std::string_view slip_id, Conventions const& conventions) {
  std::string_view const brief = words_of(slip_id).brief;
  return brief.empty() ? std::string(slip_id) : in_units_of_course(brief, conventions);
}

std::string cautions_for(std::vector<Question> const& questions, Naming naming) {
  std::vector<std::string> formulas;
  for (Question const& question : questions) {
    Problem const& problem = question.worked.problem;
    for (Reaction const& reaction : problem.reactions) {
      for (Species const& species : reaction.equation.left) note(formulas, plain(species.formula));
    }
    for (std::string const& formula : problem.excess) note(formulas, formula);
    for (Given const& given : problem.givens)
      if (!only_a_part(given, problem)) note(formulas, given.quantity.substance);
    for (Find const& find : problem.finds)  // substances to choose from; a name or a formula is asked on paper only
      for (auto const* some : {&find.reagents, &find.with, &find.without})
        for (std::string const& formula : *some) note(formulas, formula);
  }
  std::string text;
  for (std::string const& formula : formulas) {
    Caution const caution = caution_to_print(formula);
    bool const harmless = caution.listed && caution.hazards.empty();
    bool const portion = !caution.listed && is_symbol(formula);  // of an element, nothing to take from a bottle
    if (harmless || portion || caution.text.empty()) continue;
    std::string name = name_of(formula, naming);
    if (name.empty()) name = pretty_formula(formula);
    text += capitalized(std::move(name)) + ": " + caution.text + (caution.text.back() == '.' ? " " : ". ");
  }
  return text.empty() ? text : text + words::defer;
}

SheetDocument sheet_document(ProblemSet const& set) {
  Conventions const& conventions = set.course.conventions;
  SheetDocument document{set.title, {}, {}};
  for (Paper const& paper : set.papers) {
    Sheet sheet{paper.student, paper.version, paper.large_print, {}, cautions_for(paper.questions, conventions.naming)};
    for (Question const& question : paper.questions) {
      SheetQuestion shown{question.number, question.code, question.text + place_for_readings(question, conventions), {}, 0};
      for (std::size_t find = 0; find < question.worked.problem.finds.size(); ++find) {
        Find const& f = find_of(question, find);
        bool const number = f.kind == Find::Kind::number;
        std::string label = in_round_brackets(part_name(question, find));
        if (!label.empty()) label += " ";
        bool const choice = question.form == Form::choice;
        label += choice ? words::choose : find_label(f, conventions);
        shown.parts.push_back(
            {std::move(label), number && !choice, marks_at(question, find), choice ? words::letter : caption_of(f.kind)});
        shown.steps += static_cast<int>(steps(question.worked, printed(question), find, conventions).size());
      }
      sheet.questions.push_back(std::move(shown));
    }
    document.sheets.push_back(std::move(sheet));
  }
  return document;
}

AnswersDocument answers_document(ProblemSet const& set) {
  AnswersDocument document{set.title, set.seed, {}, set.notes};
  for (Paper const& paper : set.papers) {
    AnswerPaper shown{paper.student, paper.version, {}};
    for (Question const& question : paper.questions) {
      AnswerQuestion worked{question.number, question.code, question.text, {}, {}};
      for (std::size_t find = 0; find < question.worked.problem.finds.size(); ++find) {
        worked.parts.push_back(answer_part(question, find, set.course.conventions));
      }
      if (!question.told_apart_not.empty()) {
        std::string line = words::not_told_apart;
        for (std::size_t i = 0; i < question.told_apart_not.size(); ++i)
          line += (i > 0 ? "; " : "") + in_words(question.told_apart_not[i], set.course.conventions);
        worked.notes.push_back(line + ".");
      }
      shown.questions.push_back(std::move(worked));
    }
    document.papers.push_back(std::move(shown));
  }
  return document;
}

namespace {

/// What each letter of a column means, where one template serves every paper; else nothing. A letter's slips are those that at
/// least half of its entries hold.
std::vector<CardLegend::Line> legend_of(std::vector<std::pair<Question const*, std::size_t>> const& column,
                                        Conventions const& conventions) {
  struct Meaning {
    std::size_t entries = 0;
    std::vector<std::pair<std::string, std::size_t>> slips;  // and on how many papers
  };
  std::map<char, Meaning> meanings;
  for (auto const& [question, find] : column) {
    if (question->template_name != column.front().first->template_name) return {};
    for (SlipKeyEntry const& entry : key_of(*question, find)) {
      Meaning& meaning = meanings[entry.letter];
      ++meaning.entries;
      for (std::string const& id : entry.ids) {
        auto at = std::find_if(meaning.slips.begin(), meaning.slips.end(), [&](auto const& slip) { return slip.first == id; });
        if (at == meaning.slips.end()) at = meaning.slips.insert(at, {id, 0});
        ++at->second;
      }
    }
  }
  std::vector<CardLegend::Line> lines;
  for (auto const& [letter, meaning] : meanings) {
    SlipKeyEntry usual;
    for (auto const& [id, papers] : meaning.slips) {
      if (2 * papers >= meaning.entries) usual.ids.push_back(id);
    }
    std::string const text = meaning_of(usual, conventions);
    auto const same =
        std::find_if(lines.begin(), lines.end(), [&](CardLegend::Line const& line) { return line.meaning == text; });
    if (same != lines.end()) {
      same->letters += std::string(" ") + letter;
    } else {
      lines.push_back({std::string(1, letter), text});
    }
  }
  return lines;
}

}  // namespace

std::vector<std::string> answer_columns(ProblemSet const& set) {
  std::set<std::tuple<std::size_t, std::size_t, std::string>> columns;  // by place on the paper, then by letter: z before aa
  for (Paper const& paper : set.papers) {
    for (std::size_t place = 0; place < paper.questions.size(); ++place) {
      Question const& question = paper.questions[place];
      for (std::size_t find = 0; find < question.worked.problem.finds.size(); ++find)
        columns.emplace(place, column_name(question, find).size(), column_name(question, find));
    }
  }
  std::vector<std::string> names;
  for (auto const& [place, length, name] : columns) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return names;
}

std::vector<std::string> reading_columns(ProblemSet const& set) {
  std::vector<std::string> names;
  for (Paper const& paper : set.papers)
    for (Question const& question : paper.questions)
      if (!readings_of(question.worked.problem).empty()) note(names, reading_column(question));
  return names;
}

MarkingCard marking_card(ProblemSet const& set) {
  Conventions const& conventions = set.course.conventions;
  MarkingCard card{set.title, {}, {}, {}, {}};
  card.columns = answer_columns(set);
  card.marks.assign(card.columns.size(), 0);
  for (Paper const& paper : set.papers) {
    CardRow row{paper.student, paper.version.empty() ? "" : "version " + paper.version,
                std::vector<CardCell>(card.columns.size())};
    for (Question const& question : paper.questions) {
      for (std::size_t find = 0; find < question.worked.problem.finds.size(); ++find) {
        auto const at = std::find(card.columns.begin(), card.columns.end(), column_name(question, find)) - card.columns.begin();
        CardCell& cell = row.cells[static_cast<std::size_t>(at)];
        int& marks = card.marks[static_cast<std::size_t>(at)];
        if (marks == 0) marks = marks_at(question, find);
        cell.answer = (rests_on_reading(question, find) ? words::example : "") + right_answer(question, find, conventions);
        for (SlipKeyEntry const& entry : key_of(question, find)) {
          cell.slips.push_back({std::string(1, entry.letter), pretty_answer(entry.answer, conventions)});
        }
      }
    }
    card.rows.push_back(std::move(row));
  }
  for (std::string const& column : card.columns) {
    std::vector<std::pair<Question const*, std::size_t>> asked;
    bool lettered = false;
    for (Paper const& paper : set.papers) {
      for (Question const& question : paper.questions) {
        for (std::size_t find = 0; find < question.worked.problem.finds.size(); ++find) {
          if (column_name(question, find) != column) continue;
          asked.emplace_back(&question, find);
          lettered = lettered || !key_of(question, find).empty();
        }
      }
    }
    if (lettered) card.legend.push_back({column, legend_of(asked, conventions)});
  }
  return card;
}

}  // namespace molewright
