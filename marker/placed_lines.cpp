#include "marker/placed_lines.h"

#include <algorithm>
#include <cmath>

#include "engine/steps.h"

namespace molewright {
namespace {

/// Of a line's unit in the node's, where it can be one of the node's.
std::optional<Rational> factor_to(WorkingLine const& line, Node const& node) {
  if (!line.unit) return Rational(1);
  auto const& unit = node.value.unit;
  if (line.unit->dimension != unit.dimension || line.unit->offset != unit.offset) return std::nullopt;
  return line.unit->factor / unit.factor;
}

bool could_be(WorkingLine const& line, Node const& node) {
  if (!line.symbol.empty() && line.symbol != node.quantity.symbol) return false;
  if (line.stage != 0 && line.stage != node.quantity.stage) return false;
  if (!line.word.empty() && line.word != node.quantity.word) return false;
  return line.substance.empty() || line.substance == node.quantity.substance;
}

/// What a line may be a value of: whatever is worked out, and changes of unit.
bool is_worked_out(Anatomy const& anatomy, int i) {
  switch (anatomy.kind(i)) {
    case NodeKind::given:
    case NodeKind::reading:
    case NodeKind::atomic_weight:
    case NodeKind::group_mass:
    case NodeKind::coefficient:
    case NodeKind::table_value:
    case NodeKind::limiting:
      return false;
    default:
      return anatomy.used(i) && anatomy.node(i).definition.operation != Operation::constant;
  }
}

class Placing {
 public:
  Placing(Anatomy const& anatomy, Estimator& estimator, std::size_t find, std::vector<Estimator::Change> const& earlier,
          Explained const& explained, PlacedLines& placed, std::vector<Rational> const& scales)
      : anatomy_(anatomy), estimator_(estimator), earlier_(earlier), explained_(explained), placed_(placed), scales_(scales) {
    auto const order = order_of_work(anatomy.working, find);
    for (int const i : order)
      if (is_worked_out(anatomy, i)) steps_.push_back(i);
    of_the_way_taken_ = steps_.size();
    std::vector<char> behind(anatomy.working.nodes.size(), 0);  // the branches of a choice that are not taken
    for (int const i : order) behind[static_cast<std::size_t>(i)] = 1;
    for (int i = anatomy.size(); i-- > 0;) {
      if (behind[static_cast<std::size_t>(i)] == 0) continue;
      if (std::find(order.begin(), order.end(), i) == order.end() && is_worked_out(anatomy, i)) steps_.push_back(i);
      for (auto const& term : anatomy.node(i).definition.terms) behind[static_cast<std::size_t>(term.node)] = 1;
    }
  }

  void put(WorkingLine const& line, bool superseded) {
    PlacedLine out{line, LineVerdict::not_placed, -1, false};
    if (!superseded) {
      // "used" says which of several amounts is meant; where no step is called so, it is a word like any other.
      auto meant = line;
      if (std::none_of(steps_.begin(), steps_.end(), [&](int i) { return anatomy_.node(i).quantity.word == line.word; }))
        meant.word.clear();
      if (!stands(meant, out) && !stands_in_other_units(meant, out)) departs(meant, out);
    }
    placed_.lines.push_back(std::move(out));
  }

  /// One step alone is called so, and a later line gives it another value.
  bool superseded(WorkingLine const& line, std::vector<WorkingLine> const& all, std::size_t at) const {
    if (line.symbol.empty() || line.substance.empty()) return false;
    std::vector<double> values;
    for (int const i : steps_)
      if (auto const factor = factor_to(line, anatomy_.node(i)); factor && could_be(line, anatomy_.node(i)))
        values.push_back(estimator_.base(i) / factor->to_double());
    auto const one = [&](double value) { return std::abs(value - values.front()) <= 1e-6 * std::abs(value); };
    if (values.empty() || !line.unit || !std::all_of(values.begin(), values.end(), one)) return false;
    return std::any_of(all.begin() + static_cast<std::ptrdiff_t>(at) + 1, all.end(), [&](WorkingLine const& later) {
      return later.symbol == line.symbol && later.substance == line.substance && later.stage == line.stage && later.unit &&
             later.unit->dimension == line.unit->dimension &&
             !is_near(written_number(later.number, later.unit->factor / line.unit->factor), line.number.value.to_double());
    });
  }

 private:
  /// "c = ..." where the solubility is s: the letter says nothing here.
  bool is_a_letter_of_steps(WorkingLine const& line) const {
    return std::any_of(steps_.begin(), steps_.end(), [&](int i) { return anatomy_.symbol(i, line.symbol); });
  }

  /// Right, or following from what went before.
  bool stands(WorkingLine const& line, PlacedLine& out) {
    bool const by_value = line.symbol.empty() || (line.unit && !is_a_letter_of_steps(line));
    for (bool const named : {true, false}) {  // the quantity that the line names before any other
      if (!named && !by_value) break;
      for (int const i : steps_) {
        if (placed_.holds(i) || named != could_be(line, anatomy_.node(i))) continue;
        for (auto const& factor : factors(line, i))
          if (stands_at(i, line, factor, out)) return true;
      }
    }
    return false;
  }

  /// What departed without a unit may have stood in the printed units: then this line follows from it.
  bool stands_in_other_units(WorkingLine const& line, PlacedLine& out) {
    if (!otherwise_) return false;
    auto& carried = placed_.carried[otherwise_->carried];
    auto const as_it_was = carried;
    carried.number = otherwise_->number;
    carried.definition = constant_of(carried.number.value);
    if (!stands(line, out)) {
      carried = as_it_was;
      return false;
    }
    in_printed_units_ = true;
    otherwise_.reset();
    return true;
  }

  bool stands_at(int i, WorkingLine const& line, Rational const& factor, PlacedLine& out) {
    auto const here = written_number(line.number, factor);
    bool const right = is_right(here, i);
    if (!right && !follows(here, i)) return false;
    out.node = right ? chosen_of(i, line, here) : i;
    out.verdict = right ? LineVerdict::right : LineVerdict::follows;
    if (right) placed_.right.push_back(out.node);
    if (right) placed_.as_written.push_back({out.node, here, constant_of(here.value)});
    in_printed_units_ = in_printed_units_ || (!line.unit && factor != Rational(1));
    return true;
  }

  /// What a line's number is times in the unit of a step; without a unit, as it stands or in the units that are printed.
  std::vector<Rational> factors(WorkingLine const& line, int i) const {
    std::vector<Rational> all;
    if (auto const factor = factor_to(line, anatomy_.node(i))) all.push_back(*factor);
    if (!line.unit && !scales_.empty() && scales_[static_cast<std::size_t>(i)] != Rational(1))
      all.push_back(scales_[static_cast<std::size_t>(i)]);
    return all;
  }

  /// The same for a line that departs: as the lines before it.
  std::optional<Rational> factor_of_departing(WorkingLine const& line, int i) const {
    auto const all = factors(line, i);
    if (all.empty()) return std::nullopt;
    return in_printed_units_ ? all.back() : all.front();
  }

  /// The value of a step, or what comes of the numbers on the right lines as they were rounded.
  bool is_right(WrittenNumber const& number, int step) const {
    if (is_near(number, estimator_.base(step)) || is_a_right_answer(number, step)) return true;
    if (placed_.as_written.empty()) return false;
    std::vector<Estimator::Change> rounded;
    for (auto const& line : placed_.as_written) rounded.push_back({line.node, &line.definition});
    return is_near(number, estimator_.with(rounded, step));
  }

  /// What would be right in an answer's box is right in a line.
  bool is_a_right_answer(WrittenNumber const& number, int step) const {
    auto const& working = anatomy_.working;
    return std::any_of(working.finds.begin(), working.finds.end(), [&](Answer const& answer) {
      if (answer.node != step || answer.figures == 0) return false;
      auto const& value = working.nodes[static_cast<std::size_t>(step)].value.number;
      auto const due = due_of(answer, value);
      return agrees(number, value, due) || agrees_within_one(number, value, due);
    });
  }

  /// What comes of what went astray before: of lines, or of earlier parts.
  bool follows(WrittenNumber const& number, int step) const {
    for (auto changes : {placed_.changes(), placed_.changes_as_written()}) {
      changes.insert(changes.end(), earlier_.begin(), earlier_.end());
      bool const astray = !placed_.carried.empty() || !earlier_.empty();
      if (astray && is_near(number, estimator_.with(changes, step))) return true;
    }
    return false;
  }

  /// What comes of the reagent that limits is what forms: the line says that much, unless another has said it.
  int chosen_of(int branch, WorkingLine const& line, WrittenNumber const& here) const {
    for (int const i : steps_) {
      auto const& terms = anatomy_.node(i).definition.terms;
      bool const chooses = anatomy_.kind(i) == NodeKind::from_limiting &&
                           std::any_of(terms.begin(), terms.end(), [&](Term const& term) { return term.node == branch; });
      if (chooses && !placed_.holds(i) && could_be(line, anatomy_.node(i)) && is_near(here, estimator_.base(i))) return i;
    }
    return branch;
  }

  /// A line that names a quantity which is worked out, with another value: here the working departs. Of several steps that are
  /// called so (the branches of a choice), the one that a slip explains, or else the last. A line whose own sum is right and
  /// whose number is not belongs to the step that its sum is of, whatever it names: "0.002352/2 = 0.001167".
  void departs(WorkingLine const& line, PlacedLine& out) {
    auto const has_its_sum = [&](int i) {
      auto const factor = factor_of_departing(line, i);
      return factor && !placed_.holds(i) && could_be(line, anatomy_.node(i)) &&
             is_right_but_for_arithmetic(line, i, factor->to_double());
    };
    bool const known_by_sum = std::any_of(steps_.begin(), steps_.end(), has_its_sum);
    if (line.symbol.empty() && line.word.empty() && !known_by_sum) return;
    for (std::size_t k = 0; k < steps_.size(); ++k) {
      int const i = steps_[k];
      auto const factor = factor_of_departing(line, i);
      if (!factor || placed_.holds(i) || !could_be(line, anatomy_.node(i)) || (known_by_sum && !has_its_sum(i))) continue;
      if (out.node >= 0 && k >= of_the_way_taken_) break;
      int const before = out.node;
      out.node = i;
      // A change of unit at the end is where the working departs only if a slip says so: else it is what it was made from.
      if (before >= 0 && only_changes_unit_of(before, i) && placed_.carried.empty() &&
          !explained_(i, written_number(line.number, *factor))) {
        out.node = before;
        explained_(before, written_number(line.number, *factor_of_departing(line, before)));
        break;
      }
      if (!placed_.carried.empty() || explained_(i, written_number(line.number, *factor))) break;
    }
    if (out.node < 0) return;
    auto const factor = *factor_of_departing(line, out.node);
    auto const number = written_number(line.number, factor);
    out.verdict = LineVerdict::departs;
    out.method = is_right_but_for_arithmetic(line, out.node, factor.to_double());
    otherwise_.reset();
    if (auto const all = factors(line, out.node); all.size() > 1 && !in_printed_units_)
      otherwise_ = Otherwise{placed_.carried.size(), written_number(line.number, all.back())};
    placed_.carried.push_back({out.node, number, constant_of(number.value)});
  }

  bool only_changes_unit_of(int node, int i) const {
    auto const& terms = anatomy_.node(i).definition.terms;
    return anatomy_.kind(i) == NodeKind::conversion && terms.size() == 1 && terms[0].node == node;
  }

  /// "n = 0.15 × 0.040 = 0.060": worked out rightly, it would be the value, or the one that follows.
  bool is_right_but_for_arithmetic(WorkingLine const& line, int node, double factor) const {
    if (line.worked_out || !line.comes_to) return false;
    auto changes = placed_.changes();
    changes.insert(changes.end(), earlier_.begin(), earlier_.end());
    constexpr double rounding = 0.005;
    for (double const value : {*line.comes_to, *line.comes_to * factor})
      for (double const due : {estimator_.base(node), changes.empty() ? estimator_.base(node) : estimator_.with(changes, node)})
        if (std::abs(value - due) <= rounding * std::abs(due)) return true;
    return false;
  }

  Anatomy const& anatomy_;
  Estimator& estimator_;
  std::vector<Estimator::Change> const& earlier_;
  Explained const& explained_;
  PlacedLines& placed_;
  std::vector<Rational> const& scales_;
  bool in_printed_units_ = false;  ///< some line stands in them
  struct Otherwise {
    std::size_t carried;
    WrittenNumber number;
  };
  std::optional<Otherwise> otherwise_;  ///< the last line that departed, had it stood in the printed units
  std::vector<int> steps_;
  std::size_t of_the_way_taken_ = 0;  ///< how many of the steps stand in the printed order; behind them the branches not taken
};
}  // namespace

bool PlacedLines::holds(int node) const {
  return std::any_of(lines.begin(), lines.end(), [&](auto const& one) { return one.node == node; });
}

std::vector<Estimator::Change> PlacedLines::changes() const {
  std::vector<Estimator::Change> changes;
  for (auto const& line : carried) changes.push_back({line.node, &line.definition});
  return changes;
}

std::vector<Estimator::Change> PlacedLines::changes_as_written() const {
  std::vector<Estimator::Change> all;
  for (auto const& line : as_written) all.push_back({line.node, &line.definition});
  auto const astray = changes();
  all.insert(all.end(), astray.begin(), astray.end());
  return all;
}

bool is_near(WrittenNumber const& number, double value) {
  double const band = number.figures < 3 ? 0.5 * number.step : std::max(number.step, 0.002 * std::abs(value));
  return std::abs(number.approximate - value) <= band * (1 + 1e-9);
}

void place_lines(std::vector<WorkingLine> const& lines, Anatomy const& anatomy, Estimator& estimator, std::size_t find,
                 std::vector<Estimator::Change> const& earlier, Explained const& explained, PlacedLines& placed,
                 std::vector<Rational> const& scales) {
  Placing placing(anatomy, estimator, find, earlier, explained, placed, scales);
  for (std::size_t k = 0; k < lines.size(); ++k) placing.put(lines[k], placing.superseded(lines[k], lines, k));
}

std::vector<Rational> scales_of_printed_units(Anatomy const& anatomy, Estimator& estimator) {
  Rational const thousandth(1, 1000);
  std::vector<Definition> left_out;
  std::vector<int> conversions;
  for (int const i : anatomy.all(NodeKind::conversion)) {
    auto const& definition = anatomy.node(i).definition;
    if (!anatomy.used(i) || definition.terms.size() != 1 || !anatomy.printed(definition.terms[0].node)) continue;
    if (definition.factor != thousandth) continue;
    left_out.push_back(with_factor(definition, Rational(1)));
    conversions.push_back(i);
  }
  std::vector<Rational> scales;
  if (conversions.empty()) return scales;
  std::vector<Estimator::Change> changes;
  for (std::size_t k = 0; k < conversions.size(); ++k) changes.push_back({conversions[k], &left_out[k]});
  for (int i = 0; i < anatomy.size(); ++i) {
    double const printed = estimator.with(changes, i), own = estimator.base(i);
    scales.emplace_back(1);
    for (auto const& scale : {thousandth, Rational(1000)})
      if (own != 0 && std::isfinite(printed) && !changes_answer(printed * scale.to_double(), own)) scales.back() = scale;
  }
  return scales;
}

}  // namespace molewright
