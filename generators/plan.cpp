#include "generators/plan.h"

#include <algorithm>

#include "generators/code.h"

namespace molewright {
namespace {

constexpr int probes = 10;       ///< draws that say which slips are one class,
constexpr int more_probes = 30;  ///< and that are asked besides where these do not settle it
constexpr int most_tries = 400;  ///< to come by them

std::uint32_t draw_of(Pick const& pick, Random& random) { return random.below(pick.size()); }

/// What a let stands for in a draw; the names before it are bound.
std::string text_of(Let const& let, std::uint32_t k, std::size_t name, Binding const& before) {
  if (!let.pick.factors.empty()) return product_text(let.pick, before).value_or("?");
  if (let.pick.readings) return readings_text(let.pick, k, before);
  return let.pick.options.empty() ? range_text(let.pick, k) : let.pick.options[k][name];
}

int let_of(Template const& from, std::string_view name) {
  for (std::size_t i = 0; i < from.lets.size(); ++i) {
    auto const& names = from.lets[i].names;
    if (std::find(names.begin(), names.end(), name) != names.end()) return static_cast<int>(i);
  }
  return -1;
}

/// The numbers of a given line in order, as lets: "{a} - 1.20 mL" has a's let and -1.
std::vector<int> lets_in(Template const& from, std::string_view line, std::size_t numbers) {
  std::vector<int> lets;
  std::string_view rest = line.substr(std::min(line.size(), line.find('=')));
  std::string_view const parts = numbers > 1 && rest.find('|') != std::string_view::npos ? "|" : "-";
  for (std::size_t i = 0; i < numbers; ++i) {
    auto const end = i + 1 < numbers ? rest.find(parts.front(), 1) : std::string_view::npos;
    std::string_view const piece = rest.substr(0, end);
    auto const open = piece.find('{');
    auto const close = piece.find('}');
    int let = -1;
    if (open != std::string_view::npos && close != std::string_view::npos)
      let = let_of(from, piece.substr(open + 1, close - open - 1));
    // Of a row of several values the plan knows which: its substances hang on it.
    if (let >= 0 && !from.lets[static_cast<std::size_t>(let)].number) let = -1;
    lets.push_back(let);
    if (end == std::string_view::npos) break;
    rest.remove_prefix(end);
  }
  lets.resize(numbers, -1);
  return lets;
}

PlacedFault at(Place place, Fault fault) { return PlacedFault{std::move(fault), place.line, place.column, ""}; }

/// The node that a requirement speaks of: by id, else the first that is a value of the quantity.
int node_of(Working const& working, Quantity const& quantity) {
  int const by_id = working.find_node(plain(quantity));
  if (by_id >= 0) return by_id;
  for (std::size_t i = 0; i < working.nodes.size(); ++i) {
    if (working.nodes[i].quantity == quantity) return static_cast<int>(i);
  }
  return -1;
}

}  // namespace

bool depends_on_numbers(Fault const& fault) {
  return fault.id == "more-than-all" || fault.id == "not-positive" || fault.id == "too-dilute";
}

Drawn draw(Template const& from, std::uint32_t seed, std::uint32_t draw) {
  Random random(spread((static_cast<std::uint64_t>(seed) << 6U) | draw), template_hash(from.name));
  Drawn drawn;
  for (Let const& let : from.lets) drawn.picks.push_back(draw_of(let.pick, random));
  drawn.wording = random.below(static_cast<std::uint32_t>(from.wordings.size()));
  return drawn;
}

Binding binding_of(Template const& from, Drawn const& drawn) {
  Binding binding;
  for (std::size_t i = 0; i < from.lets.size(); ++i) {
    for (std::size_t n = 0; n < from.lets[i].names.size(); ++n)
      binding[from.lets[i].names[n]] = text_of(from.lets[i], drawn.picks[i], n, binding);
  }
  return binding;
}

std::variant<std::unique_ptr<Plan>, PlacedFault> Plan::make(Template const& from, Drawn const& drawn, Course const& course) {
  Binding const binding = binding_of(from, drawn);
  Problem problem;
  problem.id = from.name;
  std::vector<int> line_of_given;
  for (std::size_t i = 0; i < from.lines.size(); ++i) {
    if (auto found = add_statement(problem, filled(from.lines[i].text, binding))) {
      found->offset = 0;
      return at(from.lines[i].place, *found);
    }
    line_of_given.resize(problem.givens.size(), static_cast<int>(i));
  }
  problem.text = filled(from.wordings[drawn.wording].text, binding);
  auto solved = solve(problem, course.conventions);
  if (auto const* fault = std::get_if<PlacedFault>(&solved)) return at(Place{1, 1}, fault->fault);
  std::unique_ptr<Plan> plan(new Plan(from, course, std::get<Worked>(std::move(solved))));
  plan->last_ = drawn;
  if (auto fault = plan->prepare(line_of_given)) return *fault;
  return plan;
}

std::optional<PlacedFault> Plan::prepare(std::vector<int> const& line_of_given) {
  auto const chemistry = chemistry_faults(worked_);
  if (!chemistry.empty()) return at(Place{1, 1}, {"chemistry", chemistry.front(), "substances that behave so", 0});
  numbers_ = worked_.problem;
  line_of_given_ = line_of_given;
  for (Find const& find : numbers_.finds) asked_figures_.push_back(find.figures);
  for (std::size_t g = 0; g < numbers_.givens.size() && g < line_of_given.size(); ++g) {
    Source source{
        g, lets_in(from_, from_.lines[static_cast<std::size_t>(line_of_given[g])].text, numbers_.givens[g].numbers.size())};
    if (std::any_of(source.lets.begin(), source.lets.end(), [](int let) { return let >= 0; })) sources_.push_back(source);
  }
  limits_ = limits_of(worked_);
  std::erase_if(limits_, [&](Limit const& limit) {
    return std::find(from_.waived.begin(), from_.waived.end(), limit.id) != from_.waived.end();
  });
  Working const& working = worked_.accepted.front();
  Binding const binding = binding_of(from_, last_);
  for (Requirement const& requirement : from_.requirements) {
    Limit limit;
    limit.id = "require";
    std::string const written =
        filled(requirement.quantity, binding) + (requirement.over.empty() ? "" : " / " + filled(requirement.over, binding));
    limit.line = requirement.place.line;
    limit.what = "require " + requirement.quantity + (requirement.over.empty() ? "" : " / " + requirement.over) +
                 (requirement.at_least ? " >= " : " <= ") + requirement.bound +
                 (requirement.unit.symbol.empty() ? "" : " " + requirement.unit.symbol);
    for (bool const divisor : {false, true}) {
      if (divisor && requirement.over.empty()) continue;
      auto const quantity = parse_quantity(filled(divisor ? requirement.over : requirement.quantity, binding));
      if (!ok(quantity)) return at(requirement.place, fault(quantity));
      int const node = node_of(working, value(quantity));
      if (node < 0) {
        return at(requirement.place, {"require", plain(value(quantity)) + " does not come up in the working",
                                      "a quantity that is given, found or worked on the way", 0});
      }
      Unit const& unit_here = working.nodes[static_cast<std::size_t>(node)].value.unit;
      (divisor ? limit.over : limit.node) = node;
      if (divisor) {
        if (!convertible(working.nodes[static_cast<std::size_t>(limit.node)].value.unit, unit_here)) {
          return at(requirement.place, {"require", written + " is no pure number", "two quantities of one kind", 0});
        }
        limit.factor = conversion_factor(working.nodes[static_cast<std::size_t>(limit.node)].value.unit, unit_here).to_double();
      } else if (requirement.over.empty()) {
        if (!convertible(unit_here, requirement.unit)) {
          return at(requirement.place, {"require", plain(value(quantity)) + " cannot be in " + requirement.unit.symbol,
                                        "a unit of " + dimension_name(unit_here.dimension), 0});
        }
        limit.factor = conversion_factor(unit_here, requirement.unit).to_double();
      }
    }
    auto const bound = parse_decimal(filled(requirement.bound, binding));
    if (!ok(bound)) return at(requirement.place, fault(bound));
    double const number = value(bound).value.to_double();
    limit.least = requirement.at_least ? number : -1e300;
    limit.most = requirement.at_least ? 1e300 : number;
    limits_.push_back(limit);
  }
  return std::nullopt;
}

void Plan::put(Drawn const& drawn) {
  last_ = drawn;
  for (Source const& source : sources_) {
    auto& given = numbers_.givens[source.given];
    for (std::size_t i = 0; i < source.lets.size(); ++i) {
      if (source.lets[i] < 0) continue;
      auto const let = static_cast<std::size_t>(source.lets[i]);
      auto const& pick = from_.lets[let].pick;
      if (pick.readings) {
        auto const numbers = reading_numbers(pick, drawn.picks[let], binding_of(from_, drawn));
        for (std::size_t n = 0; n < numbers.size(); ++n) given.numbers[n] = value(parse_decimal(numbers[n]));
        continue;
      }
      Binding const before = pick.factors.empty() ? Binding{} : binding_of(from_, drawn);
      given.numbers[i] = value(parse_decimal(text_of(from_.lets[let], drawn.picks[let], 0, before)));
    }
  }
  put_numbers(worked_.accepted.front(), numbers_);
  evaluate(worked_.accepted.front(), course_.conventions.ties, asked_figures_);
}

Limit const* Plan::broken() const {
  Working const& working = worked_.accepted.front();
  int const index = first_broken(
      limits_, working, [&](int node) { return working.nodes[static_cast<std::size_t>(node)].value.number.to_double(); });
  return index < 0 ? nullptr : &limits_[static_cast<std::size_t>(index)];
}

std::vector<Limit const*> Plan::all_broken() const {
  Working const& working = worked_.accepted.front();
  std::vector<Limit const*> all;
  for (Limit const& limit : limits_)
    if (is_broken(limit, working,
                  [&](int node) { return working.nodes[static_cast<std::size_t>(node)].value.number.to_double(); }))
      all.push_back(&limit);
  return all;
}

int Plan::branch() const {
  int branch = 0;
  auto const& nodes = worked_.accepted.front().nodes;
  auto const number = [&](int node) { return nodes[static_cast<std::size_t>(node)].value.number; };
  for (Node const& node : nodes) {
    if (node.definition.operation != Operation::choose) continue;
    // Who leaves the coefficients out compares the amounts themselves: which is the least of these parts branches, too.
    int fewest = 0;
    auto const amount = [&](int term) {
      auto const batch = static_cast<std::size_t>(node.definition.terms[static_cast<std::size_t>(term)].node);
      return number(nodes[batch].definition.terms.empty() ? static_cast<int>(batch) : nodes[batch].definition.terms.front().node);
    };
    for (int i = 1; i < static_cast<int>(node.definition.terms.size()); ++i) {
      if (amount(i) < amount(fewest)) fewest = i;
    }
    branch = (branch * 8 + static_cast<int>(node.value.number.to_double())) * 8 + fewest + 1;
  }
  return branch;
}

Separation const& Plan::separation() {
  int const here = branch();
  auto found = separations_.find(here);
  if (found == separations_.end()) found = separations_.emplace(here, learn(here)).first;
  return found->second;
}

/// A few draws with the same substances and limiting reagents, such as might be kept. The numbers of the draw in hand are among
/// them.
Separation Plan::learn(int branch_wanted) {
  Separation separation;
  Random random(template_hash(from_.name));
  Drawn const kept = last_;
  Drawn drawn = last_;
  for (int tries = 0, learned = 0;
       tries < most_tries && (learned < probes || (learned < probes + more_probes && separation.undecided())); ++tries) {
    if (tries > 0) {
      for (std::size_t let = 0; let < from_.lets.size(); ++let) {
        if (from_.lets[let].number) drawn.picks[let] = draw_of(from_.lets[let].pick, random);
      }
    }
    put(drawn);
    if (tries > 0 && (broken() != nullptr || branch() != branch_wanted)) continue;
    renew(slips_, worked_, course_.conventions);
    separation.learn(worked_.accepted.front(), slips_);
    ++learned;
  }
  separation.settle();
  put(kept);
  return separation;
}

Separation::Alike Plan::alike(bool with_names) {
  Separation const& known = separation();
  renew(slips_, worked_, course_.conventions);
  return known.alike(worked_.accepted.front(), slips_, with_names);
}

WorkedResult Plan::worked(Drawn const& drawn) const {
  Problem numbers = numbers_;
  numbers.text = filled(from_.wordings[drawn.wording].text, binding_of(from_, drawn));
  return rework(worked_, numbers, course_.conventions);
}

Result<std::string> Plan::text(Worked const& worked, Drawn const& drawn) {
  Working const& working = worked.accepted.front();
  auto known = wordings_.find(drawn.wording);
  if (known == wordings_.end() || known->second.written() != worked.problem.text) {  // a number may stand in it
    auto read = Wording::read(worked.problem, course_.conventions, &working);
    if (!ok(read)) return fault(read);
    known = wordings_.insert_or_assign(drawn.wording, std::move(value(read))).first;
  }
  return known->second.with(worked.problem, course_.conventions, &working);
}

}  // namespace molewright
