#include "generators/question_maker.h"

#include <algorithm>

#include "generators/rejections.h"
#include "marker/slip_key.h"

namespace molewright {
namespace {

/// Of a limiting reagent the comparison is one step and the mole ratio that is followed another; every n/nu belongs to the
/// first, and taking up the branch that was worked is none.
bool is_step(Node const& node) {
  if (node.definition.operation == Operation::stated && leads_on(node)) return false;
  for (char const* none : {relations::given, relations::reading, relations::titre, relations::atomic_weight,
                           relations::group_mass, relations::coefficient, relations::table_value, relations::course_value,
                           relations::convert, relations::batches, relations::from_limiting}) {
    if (node.relation == none) return false;
  }
  return true;
}

std::vector<int> marks_of(Worked const& worked) {
  std::vector<int> marks, counted;
  for (std::size_t f = 0; f < worked.problem.finds.size(); ++f) {
    int const usual = default_marks(worked.accepted.front(), f, counted);
    marks.push_back(worked.problem.finds[f].marks.value_or(usual));
  }
  return marks;
}

Result<Question> question_of(Worked worked, Result<std::string> text) {
  if (!ok(text)) return fault(text);
  Question question;
  question.text = std::move(value(text));
  question.marks = marks_of(worked);
  question.worked = std::move(worked);
  return question;
}

Course with_usual_names(Course course) {
  course.conventions.naming = Naming(course.conventions.naming.spelling);
  return course;
}

/// Conventions that differ from `from` in one choice, with words for the choice.
std::vector<std::pair<std::string, Conventions>> neighbours(Conventions const& from) {
  std::vector<std::pair<std::string, Conventions>> all;
  auto const add = [&](std::string words, auto change) {
    Conventions other = from;
    change(other);
    if (fingerprint(other) != fingerprint(from)) all.push_back({std::move(words), other});
  };
  add("atomic_weights = \"abridged\"", [](Conventions& c) { c.weights = AtomicWeights{}; });
  add("atomic_weights = \"two decimals\"", [](Conventions& c) { c.weights = AtomicWeights{WeightTable::two_decimals, {}}; });
  add("atomic_weights = \"one decimal\"", [](Conventions& c) { c.weights = AtomicWeights{WeightTable::one_decimal, {}}; });
  add("atomic_weights = \"whole\"", [](Conventions& c) { c.weights = AtomicWeights{WeightTable::whole, {}}; });
  add("ties = \"half up\"", [](Conventions& c) { c.ties = Ties::half_up; });
  add("ties = \"half to even\"", [](Conventions& c) { c.ties = Ties::half_even; });
  add("decimal = \"point\"", [](Conventions& c) { c.mark = DecimalMark::point; });
  add("decimal = \"comma\"", [](Conventions& c) { c.mark = DecimalMark::comma; });
  add("spelling = \"sulfur\"", [](Conventions& c) { c.naming.spelling = Spelling::sulfur; });
  add("spelling = \"sulphur\"", [](Conventions& c) { c.naming.spelling = Spelling::sulphur; });
  for (char const* symbol : {"mol/L", "mol/dm3", "M", "mol dm-3", "mol L-1"}) {
    add("concentration_unit = \"" + std::string(symbol) + "\"", [&](Conventions& c) { c.concentration_unit = symbol; });
  }
  for (char const* symbol : {"mL", "cm3"})
    add("volume_unit = \"" + std::string(symbol) + "\"", [&](Conventions& c) { c.volume_unit = symbol; });
  return all;
}

}  // namespace

TemplatesRead read_templates(std::vector<std::pair<std::string_view, std::string_view>> const& texts) {
  TemplatesRead result;
  for (auto const& [name, text] : texts) {
    TemplateRead read = parse_template(text);
    for (PlacedFault const& fault : read.faults) result.faults.push_back({std::string(name), fault});
    if (!read.read) continue;
    bool taken = false;
    for (Template const& other : result.templates) {
      bool const same = other.name == read.read->name;
      if (!same && template_hash(other.name) != template_hash(read.read->name)) continue;
      taken = true;
      result.faults.push_back({std::string(name), PlacedFault{{same ? "name-taken" : "hash-taken",
                                                               same ? "a template " + other.name + " is there already"
                                                                    : "in a code this name looks like " + other.name,
                                                               "another name", 0},
                                                              1,
                                                              1,
                                                              ""}});
    }
    if (!taken) result.templates.push_back(std::move(*read.read));
  }
  return result;
}

int default_marks(Working const& working, std::size_t find, std::vector<int>& counted) {
  int steps = 0;
  for (int const node : order_of_work(working, find)) {
    if (!is_step(working.nodes[static_cast<std::size_t>(node)])) continue;
    if (std::find(counted.begin(), counted.end(), node) != counted.end()) continue;
    counted.push_back(node);
    ++steps;
  }
  return std::clamp(steps, 1, 5);
}

std::uint32_t outcome_check(Question const& question) {
  std::uint64_t hash = hash_of(question.text);
  Working const& working = question.worked.accepted.front();
  for (Answer const& answer : working.finds) {
    Node const& node = working.nodes[static_cast<std::size_t>(answer.node)];
    hash = hash_of("\n" + node.id + "=" + answer.text + " " + node.value.unit.symbol + " " + node.value.number.text(), hash);
  }
  return static_cast<std::uint32_t>((hash ^ (hash >> 22U) ^ (hash >> 44U)) & (code_checks - 1));
}

QuestionMaker::QuestionMaker(std::vector<Template> templates, Course course, std::size_t most_plans)
    : templates_(std::move(templates)), course_(std::move(course)), most_plans_(most_plans) {}

Template const* QuestionMaker::find(std::string_view name) const {
  for (Template const& one : templates_) {
    if (one.name == name) return &one;
  }
  return nullptr;
}

Result<Plan*> QuestionMaker::plan_of(Template const& from, Drawn const& drawn) {
  Key key{static_cast<std::size_t>(&from - templates_.data()), {}};
  for (std::size_t i = 0; i < from.lets.size(); ++i) {
    if (!from.lets[i].number) key.second.push_back(drawn.picks[i]);
  }
  auto found = plans_.find(key);
  if (found == plans_.end()) {
    if (plans_.size() >= most_plans_) plans_.clear();
    auto made = Plan::make(from, drawn, course_);
    if (auto const* placed = std::get_if<PlacedFault>(&made)) {
      if (depends_on_numbers(placed->fault)) return placed->fault;
      found = plans_.emplace(key, placed->fault).first;
    } else {
      found = plans_.emplace(key, std::move(std::get<0>(made))).first;
    }
  }
  if (auto const* fault = std::get_if<Fault>(&found->second)) return *fault;
  return std::get<0>(found->second).get();
}

Result<Question> QuestionMaker::make(Template const& from, std::uint32_t seed, FormChoice const& form) {
  struct Kept {
    std::uint32_t draw;
    std::size_t avoidable;
  };
  std::optional<Kept> best;
  Rejections thrown_out;
  Drawn drawn;
  Plan* plan = nullptr;
  for (std::uint32_t k = 0; k < code_draws && !(best && best->avoidable == 0); ++k) {
    drawn = draw(from, seed, k);
    auto planned = plan_of(from, drawn);
    if (!ok(planned)) {
      if (!depends_on_numbers(fault(planned))) return fault(planned);
      thrown_out.take(fault(planned).what);
      continue;
    }
    plan = value(planned);
    plan->put(drawn);
    if (plan->broken() != nullptr) {
      thrown_out.take(plan->all_broken());
      continue;
    }
    std::size_t const avoidable = plan->alike(false).avoidable;
    if (!best || avoidable < best->avoidable) best = Kept{k, avoidable};
  }
  if (!best) {
    return Fault{"nothing-fits", "no draw of the template " + from.name + " is fit to be used; most often: " + thrown_out.words(),
                 "wider ranges or another limit", 0};
  }
  // Where all slips part, the search ended with the draw that is kept: its numbers and its slips stand in the plan.
  std::vector<std::string> told_apart_not;
  if (best->avoidable > 0) {
    drawn = draw(from, seed, best->draw);
    plan = value(plan_of(from, drawn));
    plan->put(drawn);
    told_apart_not = plan->alike(true).pairs;
  }
  auto question = finish(from, *plan, drawn, Code{template_hash(from.name), code_of(form), seed, best->draw, 0});
  if (!ok(question)) return question;
  value(question).told_apart_not = std::move(told_apart_not);
  value(question).alike_by_substance = plan->alike_by_substance();
  if (form.form == Form::open || form.form == Form::faded)
    value(question).slip_key = slip_key(value(question).worked, plan->slips(), course_.conventions);
  return question;
}

double QuestionMaker::questions_of(Template const& from) {
  constexpr std::uint32_t trials = 200;
  double all = 1;
  for (Let const& let : from.lets) all *= let.pick.values();
  int fit = 0;
  for (std::uint32_t seed = 0; seed < trials; ++seed) {
    Drawn const drawn = draw(from, seed, 0);
    auto plan = plan_of(from, drawn);
    if (!ok(plan)) continue;
    value(plan)->put(drawn);
    if (value(plan)->broken() == nullptr) ++fit;
  }
  return all * fit / trials;
}

std::uint32_t QuestionMaker::check_of(Question const& question, Code const& code) {
  Course const usual = with_usual_names(course_);
  if (usual.conventions.naming == course_.conventions.naming) return outcome_check(question);
  if (!with_usual_names_) with_usual_names_ = std::make_unique<QuestionMaker>(templates_, usual, most_plans_);
  auto const same = with_usual_names_->remake(code);
  return outcome_check(ok(same) ? value(same) : question);
}

Result<Question> QuestionMaker::finish(Template const& from, Plan& plan, Drawn const& drawn, Code code) {
  WorkedResult worked = plan.worked(drawn);
  if (auto const* placed = std::get_if<PlacedFault>(&worked)) return placed->fault;
  auto text = plan.text(std::get<Worked>(worked), drawn);
  auto question = question_of(std::get<Worked>(std::move(worked)), std::move(text));
  if (!ok(question)) return question;
  value(question).kind = from.kind;
  value(question).template_name = from.name;
  if (FormChoice const form = form_of(code.form); form.form != Form::open) {
    SlipTable table;
    if (form.form != Form::faded) {
      table = slip_table(value(question).worked, course_.conventions, false);
      value(question).slip_key = slip_key(value(question).worked, table, course_.conventions);
    }
    if (auto const found = put(value(question), form, table, course_.conventions, code.seed)) return *found;
  }
  code.check = check_of(value(question), code);
  value(question).code = print_code(code);
  return question;
}

Result<Question> QuestionMaker::remake(Code const& code) {
  for (Template const& from : templates_) {
    if (template_hash(from.name) != code.template_hash) continue;
    Drawn const drawn = draw(from, code.seed, code.draw);
    auto plan = plan_of(from, drawn);
    if (!ok(plan)) return fault(plan);
    value(plan)->put(drawn);
    return finish(from, *value(plan), drawn, code);
  }
  return Fault{"unknown-template", "the code belongs to no template that is here", "the templates that the set was made from", 0};
}

std::string QuestionMaker::setting_of(Code const& code) const {
  Template const* from = nullptr;
  for (Template const& one : templates_) {
    if (template_hash(one.name) == code.template_hash) from = &one;
  }
  for (auto const& [words, conventions] : neighbours(course_.conventions)) {
    QuestionMaker other({*from}, Course{conventions, course_.rules});
    auto const question = other.remake(code);
    if (ok(question) && value(question).code == print_code(code)) return words;
  }
  return "";
}

Result<Question> QuestionMaker::remake(std::string_view text) {
  auto const code = parse_code(text);
  if (!ok(code)) {
    Fault found = fault(code);
    for (std::string const& near : near_codes(text)) {
      // One near code in millions fits a template and its check by chance.
      auto const near_code = value(parse_code(near));
      auto const question = remake(near_code);
      if (ok(question) && value(question).code == print_code(near_code)) {
        found.expected = near;
        break;
      }
    }
    return found;
  }
  auto question = remake(value(code));
  if (!ok(question) || value(question).code == print_code(value(code))) return question;
  std::string const setting = setting_of(value(code));
  return Fault{"changed",
               setting.empty() ? "the template or the tables have changed since this code was given out"
                               : "the code was given out under another course setting",
               setting.empty() ? "the version of the program that made the set" : setting, 0};
}

void QuestionMaker::add_slip_key(Question& question) const {
  if (question.form == Form::choice) return;  // its key is what it offers to choose
  question.slip_key = slip_key(question.worked, slip_table(question.worked, course_.conventions, false), course_.conventions);
  if (question.form == Form::mistake) question.slip_key.resize(question.worked.problem.finds.size());
}

Result<Question> QuestionMaker::own(Problem const& problem) const {
  WorkedResult worked = solve(problem, course_.conventions);
  if (auto const* placed = std::get_if<PlacedFault>(&worked)) return placed->fault;
  auto const& solved = std::get<Worked>(worked);
  auto text = wording(solved.problem, course_.conventions, &solved.accepted.front());
  auto question = question_of(std::get<Worked>(std::move(worked)), std::move(text));
  if (!ok(question)) return question;
  value(question).kind = "own";
  Course const usual = with_usual_names(course_);
  if (usual.conventions.naming == course_.conventions.naming) {
    value(question).code = print_code(Code{template_hash(print(problem)), 0, 0, 0, outcome_check(value(question))});
  } else {
    auto const same = QuestionMaker({}, usual).own(problem);
    if (!ok(same)) return fault(same);
    value(question).code = value(same).code;
  }
  add_slip_key(value(question));
  return question;
}

}  // namespace molewright
