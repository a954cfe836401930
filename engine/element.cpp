#include "engine/element.h"

#include <array>
#include <cstdint>
#include <stdexcept>

#include "engine/tsv.h"

namespace molewright {
namespace data {
extern std::string_view const atomic_weights_tsv;
}

namespace {

/// One slot for each "X" and "Xy": no search while a formula is read.
using Slots = std::array<std::int16_t, 26 * 27>;

int slot(std::string_view symbol) {
  if (symbol.empty() || symbol.size() > 2 || symbol[0] < 'A' || symbol[0] > 'Z') return -1;
  if (symbol.size() == 1) return (symbol[0] - 'A') * 27;
  if (symbol[1] < 'a' || symbol[1] > 'z') return -1;
  return (symbol[0] - 'A') * 27 + 1 + (symbol[1] - 'a');
}

std::vector<Element> read_elements() {
  TsvTable const table(data::atomic_weights_tsv);
  auto const symbol = table.column("symbol"), name = table.column("name"), other = table.column("other_spelling"),
             number = table.column("atomic_number"), abridged = table.column("abridged"), mass = table.column("mass_number"),
             one = table.column("one_decimal"), two = table.column("two_decimals");
  std::vector<Element> elements;
  for (std::size_t row = 0; row < table.size(); ++row) {
    auto const text = [&](std::size_t column) { return std::string(table.cell(row, column)); };
    Element element;
    element.symbol = text(symbol);
    element.name = text(name);
    element.other_spelling = text(other);
    element.atomic_number = std::stoi(text(number));
    element.abridged = text(abridged);
    element.two_decimals = text(two);
    element.one_decimal = text(one);
    element.mass_number = text(mass);
    if (element.atomic_number != static_cast<int>(row) + 1) throw std::invalid_argument("atomic weights out of order");
    elements.push_back(element);
  }
  return elements;
}

Slots const& slots() {
  static Slots const table = [] {
    Slots made{};
    made.fill(-1);
    for (std::size_t i = 0; i < elements().size(); ++i)
      made[static_cast<std::size_t>(slot(elements()[i].symbol))] = static_cast<std::int16_t>(i);
    return made;
  }();
  return table;
}

Decimal read_weight(std::string const& text) {
  auto const read = parse_decimal(text);
  if (!ok(read)) throw std::invalid_argument("atomic weight " + text);
  return value(read);
}

/// Cl 35.5 and Cu 63.5 are kept where all other weights are whole, as school tables print them.
/// Source: common practice, no source.
Decimal whole_weight(Element const& element) {
  if (element.symbol == "Cl") return read_weight("35.5");
  if (element.symbol == "Cu") return read_weight("63.5");
  Decimal const abridged = read_weight(element.abridged);
  return read_weight(round_to_place(abridged.value, 0, Rounding::half_up).integer_digits());
}

std::vector<Decimal> read_weights(WeightTable table) {
  std::vector<Decimal> weights;
  for (Element const& element : elements()) {
    if (element.abridged.empty())
      weights.push_back(read_weight(element.mass_number));
    else if (table == WeightTable::abridged)
      weights.push_back(read_weight(element.abridged));
    else if (table == WeightTable::two_decimals)
      weights.push_back(read_weight(element.two_decimals));
    else if (table == WeightTable::one_decimal)
      weights.push_back(read_weight(element.one_decimal));
    else
      weights.push_back(whole_weight(element));
  }
  return weights;
}

}  // namespace

std::vector<Element> const& elements() {
  static std::vector<Element> const table = read_elements();
  return table;
}

Element const* find_element(std::string_view symbol) {
  int const at = slot(symbol);
  if (at < 0) return nullptr;
  std::int16_t const index = slots()[static_cast<std::size_t>(at)];
  return index < 0 ? nullptr : &elements()[static_cast<std::size_t>(index)];
}

Decimal AtomicWeights::weight(std::string_view symbol) const {
  for (auto const& [overridden, value] : overrides)
    if (overridden == symbol) return value;
  static std::array<std::vector<Decimal>, 4> const tables = {
      read_weights(WeightTable::abridged), read_weights(WeightTable::two_decimals), read_weights(WeightTable::one_decimal),
      read_weights(WeightTable::whole)};
  Element const* const element = find_element(symbol);
  if (element == nullptr) throw std::invalid_argument("no element " + std::string(symbol));
  return tables[static_cast<std::size_t>(table)][static_cast<std::size_t>(element->atomic_number - 1)];
}

}  // namespace molewright
