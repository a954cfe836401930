// Slips with the readings of a titration or a weighing: which titres are averaged, and a first reading not taken off.
#include "marker/slip_library.h"

namespace molewright {
namespace {

/// A mean of other nodes.
Definition mean_of(std::vector<int> const& nodes) {
  Definition definition;
  definition.operation = Operation::sum;
  for (int const node : nodes) definition.terms.push_back({node, 1});
  definition.factor = Rational(1, static_cast<std::int64_t>(nodes.size()));
  return definition;
}

/// The titres of a mean by what they are, each a node.
struct Titres {
  std::vector<int> all, counted, with_rough, with_discordant;
  std::vector<int> finals;  ///< final readings of those that count, where they stand in pairs
};

Titres titres_of(Anatomy const& anatomy, Given const& given, std::string const& id) {
  Titres out;
  for (std::size_t i = 0; i < titres(given); ++i) {
    int const node = anatomy.working.find_node(id + (given.in_pairs ? " titre " : " reading ") + std::to_string(i + 1));
    if (node < 0) return {};
    out.all.push_back(node);
    if (!is_discordant(given, i)) out.with_rough.push_back(node);
    if (!is_rough(given, i)) out.with_discordant.push_back(node);
    if (!counts(given, i)) continue;
    out.counted.push_back(node);
    if (given.in_pairs) out.finals.push_back(anatomy.term(node, 0).node);
  }
  return out;
}

void mean_slips(Anatomy const& anatomy, Sink& sink, int i) {
  static auto const* const rough = find_slip("rough-titre-in-the-mean");
  static auto const* const discordant = find_slip("discordant-titre-in-the-mean");
  static auto const* const every = find_slip("every-titre-in-the-mean");
  static auto const* const first = find_slip("first-titre-alone");
  static auto const* const final_reading = find_slip("final-reading-as-titre");
  static auto const* const sum = find_slip("titres-not-averaged");
  auto const* given = given_named(anatomy.worked.problem, anatomy.node(i).quantity);
  if (given == nullptr || given->form != Given::Form::mean) return;
  auto const all = titres_of(anatomy, *given, anatomy.node(i).id);
  if (all.all.empty()) return;
  bool const some_rough = !given->rough.empty(), some_discordant = !given->discordant.empty();
  if (some_rough) sink.node(rough, i, mean_of(all.with_rough));
  if (some_discordant) sink.node(discordant, i, mean_of(all.with_discordant));
  if (some_rough && some_discordant) sink.node(every, i, mean_of(all.all));
  sink.node(first, i, copy_of(all.with_discordant.front()));
  if (all.counted.size() > 1) sink.node(sum, i, with_factor(mean_of(all.counted), Rational(1)));
  if (given->in_pairs) sink.node(final_reading, i, mean_of(all.finals));
}
}  // namespace

void titration_slips(Anatomy const& anatomy, Sink& sink) {
  static auto const* const final_reading = find_slip("final-reading-as-titre");
  static auto const* const container = find_slip("container-not-taken-off");
  for (int const i : anatomy.all(NodeKind::difference))
    if (anatomy.used(i) && anatomy.node(i).definition.terms.size() == 2)
      sink.node(anatomy.symbol(i, "m") ? container : final_reading, i, copy_of(anatomy.term(i, 0).node));
  for (int const i : anatomy.all(NodeKind::mean))
    if (anatomy.used(i)) mean_slips(anatomy, sink, i);
}

}  // namespace molewright
