#pragma once
// A question template: a problem whose values and substances vary, in the problem language with a few lines more.
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/problem.h"
#include "generators/drawn_readings.h"
#include "generators/random.h"

namespace molewright {

/// How one line's value is drawn: one of a list, or a whole number of steps along a range. Or it follows from what was drawn: a
/// product, for data that must fit together (the masses of a hydrate before and after heating).
struct Pick {
  std::vector<std::vector<std::string>> options;  ///< rows of as many words as names are bound; empty for a range
  std::int64_t first = 0, step = 0, count = 0;    ///< range: (first + k * step) * 10^place with k below count
  int place = 0;  ///< power of ten of the last digit, as the range is written: 20.0 to 50.0 by 0.5 -> -1
  std::vector<std::string>
      factors;  ///< product: numbers, {names}, M(formula) in g/mol by the standard weights; rounded to `place`
  std::optional<DrawnReadings> readings;  ///< range: given as readings whose mean or difference it is
  /// How many values there are, and how many ways to draw: one value may be drawn as many a set of readings.
  std::uint32_t values() const {
    if (!factors.empty()) return 1;
    return options.empty() ? static_cast<std::uint32_t>(count) : static_cast<std::uint32_t>(options.size());
  }
  std::uint32_t size() const { return readings ? values() * ways_of_reading : values(); }
};
/// digits * 10^place as a person would type it, each digit a figure: 205 at -1 is "20.5", 250 at 0 "250", 12 at 2 "1.2e3".
/// REQUIRES: digits >= 0.
std::string with_place(std::int64_t digits, int place);
/// The k-th number of a range with its digits: "20.5". REQUIRES: pick.options is empty, k < count.
std::string range_text(Pick const& pick, std::uint32_t k);

/// Names bound to what is drawn. A given whose value varies binds a name that nobody can write: "1", "2" ...
struct Let {
  std::vector<std::string> names;
  Pick pick;
  bool number = false;  ///< one name, all numbers: a draw changes values only, not the way of working
  Place place;
};

/// A line of the problem language with {names} in it.
struct TemplateLine {
  std::string text;
  Place place;
};

/// `require m(AgCl) >= 0.50 g`, `require w({ore}) <= {most} %`, `require V2(KOH) / V1(KOH) >= 4`: on quantities of the worked
/// problem.
struct Requirement {
  std::string quantity;  ///< with {names}
  std::string over;      ///< divisor with {names}; empty for none
  bool at_least = true;
  std::string bound;  ///< a number, or a {name} that stands for one
  Unit unit;
  Place place;
};

struct Template {
  std::string name;
  std::string kind;   ///< a row of kinds.tsv: "n-cV", "hydrate" ...
  std::string level;  ///< plain, standard, stretching
  std::vector<Let> lets;
  std::vector<TemplateLine> lines;     ///< statements in order: reaction, given, excess, find, dilute, mix, title
  std::vector<TemplateLine> wordings;  ///< same chemistry in other words; one is drawn
  std::vector<Requirement> requirements;
  std::vector<std::string> waived;  ///< ids of limits that its numbers may break: `waive school-limit`
};

struct TemplateRead {
  std::optional<Template> read;  ///< nothing where there is a fault
  std::vector<PlacedFault> faults;
};

/// Reads one template. Besides the engine's statements: `template NAME`, `kind KIND`, `level plain|standard|stretching`, `let a =
/// one of X | Y`, `let a, b = one of X, 1 | Y, 2`, `let a = any SET`, ranges `20.0 to 50.0 by 0.5 mL`, `one of 0.100 | 0.150
/// mol/L`, `titres 18.00 to 28.00 by 0.05 mL rough 1 concordant 3 discordant 1 as readings`, `2.00 to 4.00 by 0.01 g as
/// difference`, `any flask from 100.0 to 500.0 mL`, `any pipette from 5.00 to 50.00 mL`, `product of {n} | M({salt}) by 0.01 g`,
/// `require`, `waive school-limit`. Every line is tried with the first
/// of each choice, so that a fault in a statement is found here, at its own column. Fault ids beside the engine's: "no-name",
/// "no-kind", "unknown-level", "unknown-variable", "unused-variable", "bound-twice", "unknown-set", "empty-range",
/// "unequal-choices", "unknown-limit", "no-find", "no-text", "no-question", "text-not-closed".
TemplateRead parse_template(std::string_view text);

/// What stands for each name in one draw.
using Binding = std::map<std::string, std::string, std::less<>>;
/// The number of a product with its digits: "2.51"; nothing where a factor is no number and no molar mass.
std::optional<std::string> product_text(Pick const& pick, Binding const& binding);
/// The k-th draw of a given by readings, with the digits of each number, and as the right side of the given. REQUIRES: what the
/// readings name is bound.
std::vector<std::string> reading_numbers(Pick const& pick, std::uint32_t k, Binding const& binding);
std::string readings_text(Pick const& pick, std::uint32_t k, Binding const& binding);
/// The line with every {name} that is bound filled in; `{{` and the braces of the problem language stay.
std::string filled(std::string_view text, Binding const& binding);

/// Rows of a set that templates may draw from ("precipitation", "hydrate", ...), with the names it binds when it binds several.
struct NamedSet {
  std::string name;
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;
};
std::vector<NamedSet> const& named_sets();
/// Nominal volumes in mL: kind "flask" or "pipette".
std::vector<int> const& glassware(std::string_view kind);
/// Whether there is one of that size.
bool is_nominal(std::string_view kind, double millilitres);

}  // namespace molewright
