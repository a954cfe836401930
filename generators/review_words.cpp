// How the findings are worded, and what the checks share.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "engine/statement.h"
#include "engine/tsv.h"
#include "generators/review_parts.h"

namespace molewright {
namespace data {
extern std::string_view const review_words_tsv;
}
namespace reviewing {
namespace {

struct Words {
  std::string what, why, mend;
};

std::map<std::string, Words, std::less<>> const& words() {
  static auto const all = [] {
    std::map<std::string, Words, std::less<>> read;
    TsvTable const table(data::review_words_tsv);
    for (std::size_t row = 0; row < table.size(); ++row) {
      auto const cell = [&](std::string_view column) { return std::string(table.cell(row, table.column(column))); };
      read[cell("kind")] = {cell("what"), cell("why"), cell("mend")};
    }
    return read;
  }();
  return all;
}
}  // namespace

void Review::say(std::string const& kind, std::size_t line, Binding const& holes, std::string slip) {
  for (auto const& other : findings)
    if (other.kind == kind && other.line == line) return;
  auto const found = words().find(kind);
  Finding finding{kind, line, "", "", "", std::move(slip)};
  if (found != words().end()) {
    finding.text = filled(found->second.what, holes);
    finding.why = filled(found->second.why, holes);
    finding.mend = filled(found->second.mend, holes);
  } else {  // a fault of the engine: it brings its own words
    auto const hole = [&](char const* name) {
      auto const at = holes.find(name);
      return at == holes.end() ? std::string() : at->second;
    };
    finding.text = hole("what");
    finding.why = "the problem cannot be worked as it stands";
    finding.mend = hole("enough");
  }
  findings.push_back(std::move(finding));
}

bool Review::said(std::string_view kind) const {
  return std::any_of(findings.begin(), findings.end(), [&](Finding const& f) { return f.kind == kind; });
}

std::size_t Review::line_of(std::string_view word) const {
  for (std::size_t i = std::max<std::size_t>(problem.place.line, 1) - 1; i < lines.size(); ++i) {
    auto const start = statement_start(lines[i]);
    if (i + 1 > problem.place.line && start.keyword == "problem") break;
    if (start.keyword == word) return i + 1;
  }
  return problem.place.line;
}

Given const* Review::given_of(std::string_view symbol, std::string const& substance) const {
  for (auto const& given : data().givens)
    if (given.quantity.symbol == symbol && anhydrous_plain(given.quantity.substance) == anhydrous_plain(substance)) return &given;
  return nullptr;
}

double in_base(Value const& value) { return (value.number * value.unit.factor + value.unit.offset).to_double(); }

std::string shown(double number, int figures) { return fmt::format("{:.{}g}", number, figures); }

}  // namespace reviewing
}  // namespace molewright
