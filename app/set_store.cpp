#include "app/set_store.h"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "app/course_file.h"
#include "app/files.h"
#include "app/problem_json.h"
#include "engine/ascii.h"
#include "engine/stated.h"
#include "engine/steps.h"
#include "generators/code.h"

namespace molewright {
namespace {

Json given_json(Given const& given) {
  Json out{{"quantity", plain(given.quantity)}};
  if (given.numbers.size() == 1) {
    out["value"] = given.numbers.front().text;
    if (given.form == Given::Form::measured) out["form"] = "measured";
  } else {
    Json readings = Json::array();
    for (std::size_t i = 0; i < given.numbers.size(); i += given.in_pairs ? 2 : 1) {
      if (given.in_pairs)
        readings.push_back({{"final", given.numbers[i].text}, {"initial", given.numbers[i + 1].text}});
      else
        readings.push_back(given.numbers[i].text);
    }
    out["readings"] = readings;
    if (!given.rough.empty()) out["rough"] = given.rough;
    if (!given.discordant.empty()) out["discordant"] = given.discordant;
    out["form"] = given.form == Given::Form::difference ? "difference" : given.form == Given::Form::mean ? "mean" : "measured";
  }
  out["unit"] = given.unit.symbol;
  return out;
}

Json slip_key_json(std::vector<SlipKeyEntry> const& key) {
  Json out = Json::array();
  for (auto const& entry : key)
    out.push_back(
        {{"letter", std::string(1, entry.letter)}, {"ids", entry.ids}, {"answer", entry.answer}, {"value", entry.value}});
  return out;
}

Json parts_json(Question const& question, Ties ties) {
  Json parts = Json::array();
  auto const& working = question.worked.accepted.front();
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    auto const& find = question.worked.problem.finds[f];
    auto const& answer = working.finds[f];
    Json part;
    if (find.kind != Find::Kind::number) {
      part = {{"find", plain(find)}, {"answer", answer.text}, {"unit", ""}};
    } else {
      part = {{"find", plain(find.quantity)},
              {"answer", answer.text},
              {"unit", working.nodes[static_cast<std::size_t>(answer.node)].value.unit.symbol},
              {"significant_figures", answer.figures},
              {"unrounded", unrounded_answer(working, answer)}};
      if (find.told) part["told"] = told_value(working, f, ties).text;
    }
    part["marks"] = question.marks[f];
    part["slip_key"] = slip_key_json(question.slip_key[f]);
    parts.push_back(std::move(part));
  }
  return parts;
}

Json question_json(Question const& question, Ties ties) {
  auto const& problem = question.worked.problem;
  Json reactions = Json::array(), givens = Json::array(), other = Json::array();
  for (auto const& reaction : problem.reactions) reactions.push_back(plain(reaction.equation));
  for (auto const& given : problem.givens) givens.push_back(given_json(given));
  for (std::size_t w = 1; w < question.worked.accepted.size(); ++w) other.push_back(working_json(question.worked.accepted[w]));
  auto const working = working_json(question.worked.accepted.front());
  Json out{
      {"code", question.code},
      {"version", question.version},
      {"student", question.student},
      {"number", question.number},
      {"kind", question.kind},
      {"template", question.template_name},
      {"text", question.text},
      {"reactions", reactions},
      {"excess", problem.excess},
      {"given", givens},
      {"parts", parts_json(question, ties)},
      {"problem", print(problem)},
      {"working", working.at("nodes")},
      {"worked", {{"finds", working.at("finds")}, {"chosen", working.at("chosen")}, {"given_nodes", working.at("given_nodes")}}},
      {"other_workings", other},
      {"not_told_apart", question.told_apart_not},
      {"alike_by_substance", question.alike_by_substance}};
  if (question.form != Form::open) out["form"] = name(question.form);
  for (auto const& option : question.options)
    out["options"].push_back({{"letter", std::string(1, option.letter)}, {"answer", option.answer}, {"right", option.right}});
  if (!question.planted.empty()) out["planted"] = question.planted;
  if (question.lines_given > 0) out["lines_given"] = question.lines_given;
  return out;
}

constexpr int most_marks = 1000;
constexpr int most_power = 1000;

/// Whether every value is what its definition makes of the nodes before it: a line changed by hand is not marked by.
bool adds_up(Working const& stored) {
  auto const count = static_cast<int>(stored.nodes.size());
  for (auto const& node : stored.nodes) {
    auto const& terms = node.definition.terms;
    if (node.definition.operation == Operation::choose && terms.size() > stored.chosen.size()) return false;
    if (node.definition.operation ==
        Operation::multiple) {  // a molar mass, a proportion, and the molar mass of each of its parts
      if (terms.size() < 3) return false;
      auto const& proportion = stored.nodes[static_cast<std::size_t>(terms[1].node)].definition;
      if (proportion.operation != Operation::proportion || proportion.terms.size() + 2 != terms.size()) return false;
    }
    if (node.definition.operation != Operation::pick) continue;
    auto const& by = stored.nodes[static_cast<std::size_t>(terms.front().node)];
    if (by.definition.operation != Operation::choose || by.definition.terms.size() != terms.size() - 1) return false;
  }
  for (auto const& term : stored.nodes)
    for (auto const& read : term.definition.terms)
      if (read.node >= count || read.weight < -most_power || read.weight > most_power) return false;
  Working again = stored;
  if (!evaluate(again, Ties::half_up, std::vector<std::optional<int>>(stored.finds.size()))) return false;
  for (std::size_t i = 0; i < stored.nodes.size(); ++i)
    if (again.nodes[i].value.number != stored.nodes[i].value.number) return false;
  for (std::size_t f = 0; f < stored.finds.size(); ++f) {
    auto const& answer = stored.nodes[static_cast<std::size_t>(stored.finds[f].node)];
    if (answer.definition.operation == Operation::stated && answer.says != stored.finds[f].text) return false;
  }
  return true;
}

/// The author's reaction stands in the problem as it was written; the balanced one that the question was worked by stands beside
/// it.
bool take_reactions(Json const& balanced, Problem& problem) {
  if (!balanced.is_array() || balanced.size() != problem.reactions.size()) return false;
  for (std::size_t i = 0; i < problem.reactions.size(); ++i) {
    bool const nothing_happens = asks_what_happens(problem);  // perhaps: then there is no right side
    auto const equation = parse_equation(balanced.at(i).get<std::string>(), nothing_happens, unknown_letters);
    if (!ok(equation)) return false;
    problem.reactions[i].equation = value(equation);
  }
  return true;
}

/// What can go wrong in one line is told as one fault; the reader of the file gives it a place.
Result<Question> read_question(std::string_view line) {
  Question question;
  auto const bad = [&](std::string const& what) {
    auto const which = question.number.empty()    ? std::string("this question ")
                       : question.student.empty() ? "question " + question.number + " of version " + question.version + ' '
                                                  : "question " + question.number + " of " + question.student + ' ';
    return Fault{"bad-question", which + what, "a line as this program writes it", 0};
  };
  auto const json = Json::parse(line, nullptr, false);
  if (!json.is_object()) return bad("is not a JSON object");
  try {
    question.code = json.at("code").get<std::string>();
    question.version = json.at("version").get<std::string>();
    question.student = json.at("student").get<std::string>();
    question.number = json.at("number").get<std::string>();
    question.kind = json.at("kind").get<std::string>();
    question.template_name = json.at("template").get<std::string>();
    question.text = json.at("text").get<std::string>();
    question.told_apart_not = json.value("not_told_apart", std::vector<std::string>{});
    question.alike_by_substance = json.value("alike_by_substance", std::vector<std::string>{});
    auto const form = form_named(json.value("form", std::string("open")));
    if (!form) return bad("is put in a form that this program does not know");
    question.form = *form;
    for (auto const& option : json.value("options", Json::array()))
      question.options.push_back(
          {option.at("letter").get<std::string>().at(0), option.at("answer").get<std::string>(), option.at("right").get<bool>()});
    question.planted = json.value("planted", std::string());
    question.lines_given = json.value("lines_given", 0);
    auto const file = parse_problems(json.at("problem").get<std::string>());
    if (file.problems.size() != 1) return bad("holds a problem that cannot be read");
    question.worked.problem = file.problems.front();
    if (!take_reactions(json.at("reactions"), question.worked.problem)) return bad("holds a reaction that cannot be read");
    Json first = json.at("worked");
    first["nodes"] = json.at("working");
    auto working = working_from_json(first);
    if (!ok(working)) return fault(working);
    question.worked.accepted.push_back(std::move(value(working)));
    for (auto const& other : json.at("other_workings")) {
      auto another = working_from_json(other);
      if (!ok(another)) return fault(another);
      question.worked.accepted.push_back(std::move(value(another)));
    }
    for (auto const& part : json.at("parts")) {
      question.marks.push_back(part.at("marks").get<int>());
      question.slip_key.emplace_back();
      for (auto const& entry : part.at("slip_key"))
        question.slip_key.back().push_back({entry.at("letter").get<std::string>().at(0),
                                            entry.at("ids").get<std::vector<std::string>>(),
                                            entry.at("answer").get<std::string>(), entry.at("value").get<double>()});
    }
    auto const finds = question.worked.problem.finds.size();
    for (auto const& working_of_it : question.worked.accepted)
      if (question.marks.size() != finds || working_of_it.finds.size() != finds ||
          working_of_it.given_nodes.size() != question.worked.problem.givens.size())
        return bad("has parts that do not fit its problem");
    for (std::size_t f = 0; f < finds; ++f)
      if (json.at("parts").at(f).at("answer") != question.worked.accepted.front().finds[f].text)
        return bad("has an answer that is not the one of its working");
    if (std::any_of(question.marks.begin(), question.marks.end(), [](int marks) { return marks < 1 || marks > most_marks; }))
      return bad("has marks that cannot be");
    for (auto const& working_of_it : question.worked.accepted)
      if (!adds_up(working_of_it)) return bad("has a working that does not add up");
  } catch (std::exception const&) {
    return bad("lacks something or holds something of the wrong type");
  }
  if (!question.code.empty()) {
    auto const code = parse_code(question.code);
    if (!ok(code)) return fault(code);
  }
  return question;
}

std::string text_of(Json const& object, char const* key) {
  auto const at = object.find(key);
  return at != object.end() && at->is_string() ? at->get<std::string>() : std::string();
}

void read_header(Json const& json, StoredSet& out) {
  out.set.title = text_of(json, "title");
  out.set.seed = text_of(json, "seed");
  if (json.contains("course")) {
    auto course = course_from_json(json.at("course").dump());
    if (ok(course))
      out.set.course = value(course);
    else
      out.faults.push_back({fault(course), 1, 1, ""});
  }
  auto const students = json.find("students");
  if (students == json.end() || !students->is_array()) return;
  for (auto const& student : *students)
    if (student.is_object()) {
      out.set.class_order.push_back(text_of(student, "student"));
      out.set.class_versions.push_back(text_of(student, "version"));
    }
}
}  // namespace

std::string set_header(ProblemSet const& set) {
  Json students = Json::array();
  for (std::size_t i = 0; i < set.class_order.size(); ++i)
    students.push_back(
        {{"student", set.class_order[i]}, {"version", i < set.class_versions.size() ? set.class_versions[i] : ""}});
  Json const header{{"format", set_format},
                    {"title", set.title},
                    {"seed", set.seed},
                    {"course", Json::parse(course_to_json(set.course))},
                    {"students", students}};
  return header.dump() + '\n';
}

std::string question_lines(ProblemSet const& set) {
  std::string out;
  for (auto const& paper : set.papers)
    for (auto const& question : paper.questions) out += question_line(question, set.course.conventions.ties) + '\n';
  return out;
}

std::string question_line(Question const& question, Ties ties) { return question_json(question, ties).dump(); }

std::string set_lines(ProblemSet const& set) { return set_header(set) + question_lines(set); }

StoredSet read_set(std::string_view text) {
  StoredSet out;
  std::map<std::pair<std::string, std::string>, std::size_t> paper_of;
  for (std::size_t number = 1; !text.empty(); ++number) {
    auto const line = take_line(text);
    if (number == 1) {
      auto const header = Json::parse(line, nullptr, false);
      auto const format = header.is_object() ? text_of(header, "format") : std::string();
      if (format.rfind("molewright-set/", 0) != 0) {
        out.faults.push_back({{"not-a-set", "this is not a problem set",
                               std::string("a file that begins with {\"format\": \"") + set_format + "\"", 0},
                              1,
                              1,
                              ""});
        return out;
      }
      if (format != set_format) {
        out.faults.push_back({{"newer-set", "this set has the format " + format, set_format, 0}, 1, 1, ""});
        return out;
      }
      read_header(header, out);
      continue;
    }
    if (line.empty()) continue;
    auto question = read_question(line);
    if (!ok(question)) {
      out.faults.push_back({fault(question), number, 1, ""});
      continue;
    }
    auto const [at, fresh] = paper_of.try_emplace({value(question).version, value(question).student}, out.set.papers.size());
    if (fresh) out.set.papers.push_back({value(question).version, value(question).student, false, {}});
    out.set.papers[at->second].questions.push_back(std::move(value(question)));
  }
  if (out.set.title.empty() && out.set.papers.empty() && out.faults.empty())
    out.faults.push_back({{"not-a-set", "this file is empty", "a problem set", 0}, 1, 1, ""});
  return out;
}

std::optional<ProblemSet> read_set_file(Console& console, std::string const& path) {
  auto const text = read_file(path);
  if (!ok(text)) {
    console.report(fault(text), path);
    return std::nullopt;
  }
  auto stored = read_set(value(text));
  for (auto const& found : stored.faults) console.report(found, path);
  return std::move(stored.set);
}

}  // namespace molewright
