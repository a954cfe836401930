#include "app/problem_json.h"

#include <array>
#include <nlohmann/json.hpp>

#include "app/plain_text.h"
#include "engine/relation.h"
#include "engine/steps_answer.h"

namespace molewright {
namespace {

constexpr int unrounded_figures = 12;
constexpr std::array operation_names{"constant",  "product",    "sum",      "choose",      "pick",
                                     "logarithm", "proportion", "multiple", "exponential", "stated"};
constexpr int highest_root = 100;

Fault bad(std::string const& what) {
  return {"bad-working", "the working of a question " + what, "a set as this program writes it", 0};
}

Json definition_json(Definition const& definition) {
  Json terms = Json::array();
  for (auto const& term : definition.terms) terms.push_back(Json::array({term.node, term.weight}));
  Json out{{"operation", operation_names[static_cast<std::size_t>(definition.operation)]}};
  if (!definition.terms.empty()) out["reads"] = terms;
  if (definition.operation == Operation::constant || definition.factor != Rational(1)) out["factor"] = definition.factor.text();
  if (definition.root != 1) out["root"] = definition.root;
  return out;
}

Json quantity_json(Quantity const& quantity) {
  Json out{{"symbol", std::string_view(quantity.symbol)}};
  if (quantity.stage > 0) out["stage"] = quantity.stage;
  if (!quantity.substance.empty()) out["of"] = quantity.substance;
  if (!quantity.word.empty()) out["word"] = quantity.word;
  if (!quantity.part.empty()) out["part"] = quantity.part;
  return out;
}

bool read_definition(Json const& json, int index, Definition& definition) {
  auto const name = json.value("operation", "");
  std::size_t operation = 0;
  while (operation < operation_names.size() && name != operation_names[operation]) ++operation;
  if (operation == operation_names.size()) return false;
  definition.operation = static_cast<Operation>(operation);
  if (json.contains("factor")) definition.factor = Rational::from_text(json.at("factor").get<std::string>());
  if (json.contains("reads"))
    for (auto const& term : json.at("reads")) {
      definition.terms.push_back({term.at(0).get<int>(), term.at(1).get<int>()});
      if (definition.terms.back().node < 0 || definition.terms.back().node >= index) return false;
    }
  definition.root = json.value("root", 1);
  if (definition.root < 1 || definition.root > highest_root) return false;
  if (definition.operation == Operation::logarithm && definition.terms.size() != 1) return false;
  if (definition.operation == Operation::stated) return true;  // some rest on nothing
  bool const needs_terms = definition.operation != Operation::constant;
  return needs_terms != definition.terms.empty();
}

bool read_node(Json const& json, int index, Node& node) {
  node.id = json.at("node").get<std::string>();
  node.relation = json.at("relation").get<std::string>();
  if (json.contains("quantity")) {
    auto const& q = json.at("quantity");
    auto const symbol = q.value("symbol", "");
    if (symbol.size() > Symbol::longest) return false;
    node.quantity = {Symbol(symbol), q.value("stage", 0), q.value("of", ""), q.value("word", ""), q.value("part", "")};
  }
  if (!read_definition(json, index, node.definition)) return false;
  node.says = json.value("says", "");
  node.value.number = Rational::from_text(json.at("value").get<std::string>());
  if (auto const symbol = json.value("unit", ""); !symbol.empty()) {
    auto const unit = parse_unit(symbol);
    if (!ok(unit)) return false;
    node.value.unit = value(unit);
  }
  if (json.contains("last_place")) node.value.last_place = json.at("last_place").get<int>();
  return true;
}

Json step_json(Working const& working, Step const& step) {
  Json out{{"node", working.nodes[static_cast<std::size_t>(step.node)].id}, {"relation", step.relation}};
  if (auto const* const relation = relation_of(step.relation)) {
    out["relation_name"] = relation->name;
    if (!relation->conditions.empty()) out["conditions"] = relation->conditions;
    if (auto const units = usual_units(*relation); !units.empty()) out["usual_units"] = units;
  }
  out["text"] = plain_text(step.text);
  out["result"] = Json{{"symbol", step.symbol}, {"value", step.value}, {"unit", step.unit}};
  return out;
}
}  // namespace

std::string unrounded_answer(Working const& working, Answer const& answer) {
  return unrounded(working.nodes[static_cast<std::size_t>(answer.node)].value.number, unrounded_figures);
}

Json worked_json(Worked const& worked, Conventions const& conventions) {
  auto const& working = worked.accepted.front();
  Json answers = Json::array(), lines = Json::array();
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    auto const& find = worked.problem.finds[f];
    auto const& answer = working.finds[f];
    if (find.kind != Find::Kind::number) {
      answers.push_back({{"find", plain(find)}, {"value", answer.text}, {"unit", ""}});
    } else {
      answers.push_back({{"find", plain(find.quantity)},
                         {"value", answer.text},
                         {"unit", working.nodes[static_cast<std::size_t>(answer.node)].value.unit.symbol},
                         {"significant_figures", answer.figures},
                         {"unrounded", unrounded_answer(working, answer)}});
      if (find.told) answers.back()["told"] = told_value(working, f, conventions.ties).text;
    }
    for (auto const& step : steps(worked, working, f, conventions)) lines.push_back(step_json(working, step));
    if (auto const last = rounding_step(worked, working, f, conventions)) lines.push_back(step_json(working, *last));
  }
  return {{"problem", worked.problem.id}, {"answers", answers}, {"steps", lines}, {"warnings", worked.warnings}};
}

Json working_json(Working const& working) {
  Json nodes = Json::array();
  for (auto const& node : working.nodes) {
    Json line{{"node", node.id}, {"relation", node.relation}};
    if (!node.quantity.symbol.empty() || !node.quantity.substance.empty()) line["quantity"] = quantity_json(node.quantity);
    line.update(definition_json(node.definition));
    if (!node.says.empty()) line["says"] = node.says;
    line["value"] = node.value.number.text();
    if (!node.value.unit.symbol.empty()) line["unit"] = node.value.unit.symbol;
    if (node.value.last_place) line["last_place"] = *node.value.last_place;
    nodes.push_back(std::move(line));
  }
  Json finds = Json::array();
  for (auto const& find : working.finds)
    finds.push_back({{"node", find.node},
                     {"answer", find.text},
                     {"figures", find.figures},
                     {"place", find.place},
                     {"by_place", find.by_place}});
  return {{"nodes", nodes}, {"finds", finds}, {"chosen", working.chosen}, {"given_nodes", working.given_nodes}};
}

Result<Working> working_from_json(Json const& json) {
  Working working;
  try {
    for (auto const& line : json.at("nodes")) {
      Node node;
      if (!read_node(line, static_cast<int>(working.nodes.size()), node)) return bad("has a node that cannot be read");
      working.nodes.push_back(std::move(node));
    }
    auto const count = static_cast<int>(working.nodes.size());
    for (auto const& line : json.at("finds")) {
      Answer answer{line.at("node").get<int>(), line.at("figures").get<int>(), line.at("place").get<int>(),
                    line.at("by_place").get<bool>(), line.at("answer").get<std::string>()};
      if (answer.node < 0 || answer.node >= count) return bad("points at no node");
      working.finds.push_back(std::move(answer));
    }
    working.chosen = json.at("chosen").get<std::vector<std::string>>();
    working.given_nodes = json.at("given_nodes").get<std::vector<std::vector<int>>>();
    for (auto const& given : working.given_nodes)
      for (int node : given)
        if (node < 0 || node >= count) return bad("points at no node");
  } catch (std::exception const&) {
    return bad("cannot be read");
  }
  return working;
}

Fault no_problem() { return {"no-problem", "there is no problem in this file", "a line such as: problem my-problem", 0}; }

}  // namespace molewright
