#include "generators/variant.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>

#include "engine/substance.h"
#include "generators/difficulty.h"
#include "generators/mention.h"
#include "generators/question_maker.h"
#include "generators/realism.h"
#include "generators/sibling_wording.h"
#include "generators/siblings.h"

namespace molewright {
namespace {

std::string spaced_unit(Given const& given) { return given.unit.symbol.empty() ? "" : ' ' + given.unit.symbol; }

/// How the problem's own numbers stand; its variants may be as they are.
struct Standing {
  bool yields_as_usual = false;     ///< every yield that is asked is that of a preparation that went well enough: 40 to 98 %
  std::vector<std::string> broken;  ///< ids of the limits they break: a solution stronger than schools keep to
};

Standing standing_of(Problem const& problem) {
  Standing standing;
  auto const solved = solve(problem, Conventions{});
  auto const* const worked = std::get_if<Worked>(&solved);
  if (worked == nullptr) return standing;
  auto const& working = worked->accepted.front();
  auto const number = [&](int node) { return working.nodes[static_cast<std::size_t>(node)].value.number.to_double(); };
  standing.yields_as_usual = true;
  for (std::size_t f = 0; f < working.finds.size(); ++f) {
    if (problem.finds[f].quantity.symbol != "yield") continue;
    auto const& node = working.nodes[static_cast<std::size_t>(working.finds[f].node)].value;
    double const percent = 100 * (node.number * node.unit.factor).to_double();
    if (percent < 40 || percent > 98) standing.yields_as_usual = false;
  }
  for (auto const& limit : limits_of(*worked)) {
    auto const& all = waivable_limits();
    bool const waivable = std::find(all.begin(), all.end(), limit.id) != all.end();
    bool const known = std::find(standing.broken.begin(), standing.broken.end(), limit.id) != standing.broken.end();
    if (waivable && !known && is_broken(limit, working, number)) standing.broken.push_back(limit.id);
  }
  return standing;
}

class Varying {
 public:
  /// `siblings`: what stands for {s1}, {s2} ... in the problem; none where only numbers vary.
  Varying(Problem const& problem, std::string const& name, Siblings const& siblings, Standing standing)
      : problem_(problem), name_(name), siblings_(siblings), standing_(std::move(standing)) {}

  Result<std::string> text() {
    if (problem_.finds.empty()) return Fault{"no-find", "nothing is asked", "a line such as find m(AgCl) in g", 0};
    out_ = "template " + name_ + "\nkind own\nlevel standard\n" + substances();
    for (auto const& reaction : problem_.reactions) out_ += "reaction " + reaction.written + '\n';
    for (auto const& given : problem_.givens) out_ += varied(given);
    for (auto const& limit : standing_.broken) out_ += "waive " + limit + '\n';
    auto wording = worded();
    if (!ok(wording)) return fault(wording);
    for (auto const& find : problem_.finds)
      if (find.quantity.symbol == "yield" && standing_.yields_as_usual)
        for (char const* limit : {" >= 40 %", " <= 98 %"}) out_ += "require " + plain(find.quantity) + limit + '\n';
    // The rest of the problem as it prints itself.
    Problem rest = problem_;
    rest.reactions.clear();
    rest.givens.clear();
    rest.stated.clear();
    rest.text.clear();
    auto const printed = print(rest);
    out_ += printed.substr(printed.find('\n') + 1) + "text\n" + value(wording) + "\nend\n";
    return out_;
  }

 private:
  /// "let s1, s2 = one of KCl, KNO3 | NaCl, NaNO3"
  std::string substances() const {
    if (siblings_.substances.empty()) return "";
    std::string line = "let ";
    for (std::size_t s = 0; s < siblings_.substances.size(); ++s) line += (s == 0 ? "s" : ", s") + std::to_string(s + 1);
    line += " = one of ";
    for (std::size_t r = 0; r < siblings_.rows.size(); ++r) {
      line += r == 0 ? "" : " | ";
      for (std::size_t s = 0; s < siblings_.substances.size(); ++s) line += (s == 0 ? "" : ", ") + siblings_.rows[r][s];
    }
    return line + '\n';
  }
  /// The substance as the teacher's problem has it.
  std::string as_given(std::string const& substance) const {
    for (std::size_t s = 0; s < siblings_.substances.size(); ++s)
      if (substance == sibling_variable(s)) return siblings_.substances[s];
    return substance;
  }

  bool dilution_to(Given const& given) const {
    if (!given.quantity.word.empty()) return false;
    for (auto const& handling : problem_.handlings)
      if (handling.kind == Handling::Kind::dilute && handling.to == given.quantity.stage) return true;
    return problem_.handlings.empty() && given.quantity.stage == 2;
  }
  /// A range round a number of so many digits, in steps that leave the figures as they are: from `low` to `high` times it.
  static std::string range(Decimal const& number, double low, double high, double most = 1e300) {
    double const unit_of_last = std::pow(10.0, number.last_place);
    double const here = number.value.to_double();
    // Not over a power of ten: one figure more or fewer would come with it.
    double const decade = std::pow(10.0, std::floor(std::log10(here) + 1e-12));
    auto const digits = [&](double x) { return static_cast<std::int64_t>(std::llround(x / unit_of_last)); };
    std::int64_t const own = digits(here);
    std::int64_t step = 1;
    while ((digits(here * high) - digits(here * low)) / step > 400) step *= 10;
    std::int64_t first = digits(std::max(here * low, decade)),
                 last = digits(std::min({here * high, decade * 10 - unit_of_last, most}));
    first = own - (own - first) / step * step;
    last = std::max(own, last);
    last = own + (last - own) / step * step;
    first = std::min(first, own);
    return with_place(first, number.last_place) + " to " + with_place(last, number.last_place) + " by " +
           with_place(step, number.last_place);
  }

  std::string volume(Given const& given) const {
    auto const& number = given.numbers.front();
    double const size = number.value.to_double();
    auto const line = [&](char const* kind, int least, int most) {
      std::string const decimals =
          number.last_place < 0 ? "." + std::string(static_cast<std::size_t>(-number.last_place), '0') : "";
      return "any " + std::string(kind) + " from " + std::to_string(least) + decimals + " to " + std::to_string(most) + decimals;
    };
    bool const in_mL = given.unit == unit("mL") || given.unit == unit("cm3");
    if (in_mL && is_nominal("flask", size) && size >= 100 && number.last_place < 0) return line("flask", 100, 500);
    if (in_mL && dilution_to(given) && is_nominal("flask", size)) return line("flask", 100, 500);
    if (in_mL && number.last_place == -2 && is_nominal("pipette", size)) return line("pipette", 5, 25);
    if (in_mL && number.last_place == -2) {  // a titre
      double const step = std::fmod(std::round(size * 100), 5) == 0 ? 0.05 : 0.01;
      return std::string("15.00 to 30.00 by ") + (step > 0.04 ? "0.05" : "0.01");
    }
    return range(number, 0.6, 1.6);
  }

  bool is_broken_by_problem(char const* limit) const {
    return std::find(standing_.broken.begin(), standing_.broken.end(), limit) != standing_.broken.end();
  }
  std::string concentration(Given const& given) const {
    auto const& number = given.numbers.front();
    if (is_broken_by_problem("school-limit") || is_broken_by_problem("solubility"))
      return range(number, 0.6, 1.0, number.value.to_double());
    double most = 1e300;
    auto const limit = school_limit(anhydrous_plain(as_given(given.quantity.substance)));
    if (limit && given.unit.dimension == unit("mol/L").dimension)
      most = std::max(*limit / given.unit.factor.to_double(), number.value.to_double());
    return range(number, 0.6, 1.6, most);
  }

  /// The right side of a given; empty where the value stays.
  std::string pick(Given const& given) const {
    auto const& symbol = given.quantity.symbol;
    auto const& number = given.numbers.front();
    if (number.value.sign() <= 0) return "";
    if (symbol == "V") return volume(given);
    if (symbol == "c" || symbol == "gamma") return concentration(given);
    if (symbol == "m" || symbol == "n" || symbol == "N") return range(number, 0.6, 1.6);
    if (symbol == "yield" || symbol == "w" || symbol == "x" || symbol == "phi") {
      bool const percent = given.unit == unit("%");
      bool const alone = symbol == "yield" || std::count_if(problem_.givens.begin(), problem_.givens.end(),
                                                            [&](Given const& g) { return g.quantity.symbol == symbol; }) == 1;
      // Fractions that belong together (a compound's elements) do not move apart; an element's share is a fact.
      if (!alone || (symbol == "w" && !problem_.finds.empty() && problem_.finds.front().kind != Find::Kind::number)) return "";
      return range(number, 0.75, 1.15, percent ? 98.0 : symbol == "yield" ? 1.0 : 1e300);
    }
    return "";
  }

  std::string varied(Given const& given) {
    std::string const head = "given " + plain(given.quantity) + " = ";
    auto const typed = [](Decimal const& number) { return print_as_typed(number).plain; };
    if (given.form == Given::Form::difference && given.quantity.symbol == "V") {
      auto const name = "v" + std::to_string(++variables_);
      double const start = given.numbers[1].value.to_double();
      auto const digits = [&](double x) {
        return with_place(static_cast<std::int64_t>(std::llround(x / std::pow(10.0, given.numbers[0].last_place))),
                          given.numbers[0].last_place);
      };
      std::string const step = given.numbers[0].last_place <= -2 ? "0.05" : "0.1";
      out_ += "let " + name + " = " + digits(start + 15) + " to " + digits(start + 30) + " by " + step + '\n';
      return head + "{" + name + "} - " + typed(given.numbers[1]) + spaced_unit(given) + '\n';
    }
    bool const some_are_to_choose = given.in_pairs || !given.discordant.empty();
    if (some_are_to_choose && is_drawn_as_titres(given)) return head + titres_like(given) + '\n';
    if (given.form == Given::Form::mean && !some_are_to_choose) return readings(given, head);
    if (given.form == Given::Form::value) {
      auto const right = pick(given);
      if (!right.empty()) return head + right + spaced_unit(given) + '\n';
    }
    Problem one;
    one.id = "x";
    one.givens.push_back(given);
    auto const printed = print(one);
    return printed.substr(printed.find('\n') + 1);
  }

  /// Whether a template's titres have this shape: at most one rough, and that first, at most one discordant.
  static bool is_drawn_as_titres(Given const& given) {
    bool const rough_first = given.rough.empty() || (given.rough.size() == 1 && given.rough.front() == 0);
    std::size_t const concordant = titres(given) - given.rough.size() - given.discordant.size();
    bool const burette =
        std::all_of(given.numbers.begin(), given.numbers.end(), [](Decimal const& n) { return n.last_place == -2; });
    return given.quantity.symbol == "V" && given.unit == unit("mL") && burette && rough_first && given.discordant.size() <= 1 &&
           concordant >= 2 && concordant <= 6;
  }
  static std::string titres_like(Given const& given) {
    std::size_t const concordant = titres(given) - given.rough.size() - given.discordant.size();
    return "titres 15.50 to 29.00 by 0.05 mL rough " + std::to_string(given.rough.size()) + " concordant " +
           std::to_string(concordant) + " discordant " + std::to_string(given.discordant.size()) +
           (given.in_pairs ? " as readings" : "");
  }

  /// All readings of a mean move together, so that they stay as concordant as they were.
  std::string readings(Given const& given, std::string const& head) {
    std::string names, rows, right;
    int place = 0;
    for (auto const& number : given.numbers) place = std::min(place, number.last_place);
    constexpr int most_rows = 40;
    double const unit_of_last = std::pow(10.0, place);
    double const first = given.numbers.front().value.to_double();
    bool const titre = given.quantity.symbol == "V" && given.unit == unit("mL");
    double const from = titre ? 15.5 : first * 0.7, to = titre ? 29.0 : first * 1.4;
    for (int row = 0; row < most_rows; ++row) {
      auto const shift =
          static_cast<std::int64_t>(std::llround((from + (to - from) * row / most_rows - first) / unit_of_last / 5)) * 5;
      rows += row == 0 ? "" : " | ";
      for (std::size_t i = 0; i < given.numbers.size(); ++i) {
        auto const digits = static_cast<std::int64_t>(std::llround(given.numbers[i].value.to_double() / unit_of_last)) + shift;
        rows += (i == 0 ? "" : ", ") + with_place(digits, place);
      }
    }
    for (std::size_t i = 0; i < given.numbers.size(); ++i) {
      auto const name = "v" + std::to_string(++variables_);
      bool const rough = std::find(given.rough.begin(), given.rough.end(), i) != given.rough.end();
      names += (i == 0 ? "" : ", ") + name;
      right += (i == 0 ? "" : " | ") + ("{" + name + "}") + (rough ? " rough" : "");
    }
    out_ += "let " + names + " = one of " + rows + '\n';
    return head + "mean of " + right + spaced_unit(given) + '\n';
  }

  Result<std::string> worded() const {
    if (problem_.text.empty()) return plain_wording();
    std::string words;
    std::size_t at = 0;
    for (auto const& mention : mentions_of(problem_)) {
      if (!mention.typed) continue;
      Given const* own = nullptr;
      Given const* alike = nullptr;
      for (auto const& given : problem_.givens) {
        if (own == nullptr && tells(mention, given)) own = &given;
        if (given.unit.dimension == mention.unit.dimension) alike = &given;
      }
      if (own == nullptr && alike == nullptr) continue;
      auto const said = problem_.text.substr(mention.begin, mention.end - mention.begin);
      if (own == nullptr || own->form != Given::Form::value)
        return Fault{
            "variant-would-lie",
            "the text says " + said + ", which would stay when " + plain((own != nullptr ? own : alike)->quantity) + " changes",
            "{" + plain((own != nullptr ? own : alike)->quantity) + "} in the text", mention.begin};
      words += problem_.text.substr(at, mention.begin - at) + "{" + plain(own->quantity) + "}";
      at = mention.end;
    }
    return words + problem_.text.substr(at);
  }

  std::string plain_wording() const {
    std::string words;
    for (auto const& given : problem_.givens)
      words += (words.empty() ? "" : ", ") + plain(given.quantity) + " = {" + plain(given.quantity) + "}";
    words = "Given are " + words + ".";
    if (!problem_.reactions.empty()) words += " The reaction is {equation}.";
    for (auto const& one : problem_.excess) words += " There is an excess of {formula " + one + "}.";
    words += "\nCalculate ";
    for (std::size_t f = 0; f < problem_.finds.size(); ++f)
      words += (f == 0 ? "" : ", ") + plain(problem_.finds[f]) +
               (problem_.finds[f].unit && !problem_.finds[f].unit->symbol.empty() ? " in " + problem_.finds[f].unit->symbol : "");
    return words + ".";
  }

  Problem const& problem_;
  std::string name_;
  Siblings siblings_;
  Standing standing_;
  std::string out_;
  int variables_ = 0;
};

Result<std::string> text_of(Problem const& problem, std::string const& name, Siblings const& siblings) {
  Problem const moving = siblings.substances.empty() ? problem : with_variables(problem, siblings.substances);
  return Varying(moving, name, siblings, standing_of(problem)).text();
}

Result<Template> template_of(std::string const& text) {
  auto read = parse_template(text);
  if (!read.read) return read.faults.empty() ? Fault{"no-variants", "no variants can be made", "", 0} : read.faults.front().fault;
  return std::move(*read.read);
}

/// How one row is worked, relation by relation; nothing where no draw of it fits.
std::optional<std::string> working_of(Problem const& problem, std::vector<std::string> const& moving,
                                      std::vector<std::string> const& row) {
  auto const text = text_of(problem, "one-row", Siblings{moving, {row}});
  if (!ok(text)) return std::nullopt;
  auto const read = template_of(value(text));
  if (!ok(read)) return std::nullopt;
  QuestionMaker maker({value(read)}, Course{});
  auto const question = maker.make(maker.templates().front(), 0);
  if (!ok(question)) return std::nullopt;
  auto const& working = value(question).worked.accepted.front();
  std::string way;
  for (std::size_t f = 0; f < working.finds.size(); ++f)
    for (int const node : order_of_work(working, f)) {
      auto const& relation = working.nodes[static_cast<std::size_t>(node)].relation;
      // A formula may have more elements than another: their weights are no steps.
      if (relation != relations::atomic_weight && relation != relations::group_mass) way += relation + "; ";
    }
  auto const difficulty = difficulty_of(value(question));
  return way + std::to_string(difficulty.ratios) + " " + std::to_string(difficulty.total());
}

/// Those of the rows that are worked as the problem itself is.
Result<Siblings> worked_alike(Problem const& problem, Siblings const& all) {
  Siblings alike{all.substances, {all.rows.front()}};
  auto const own = working_of(problem, all.substances, all.rows.front());
  for (std::size_t r = 1; own && r < all.rows.size(); ++r)
    if (working_of(problem, all.substances, all.rows[r]) == own) alike.rows.push_back(all.rows[r]);
  if (alike.rows.size() < 2)
    return Fault{"cannot-move",
                 "the substances cannot be moved to others: with none of them the numbers of this problem could be met at school",
                 "other numbers, or vary = true", 0};
  return alike;
}

}  // namespace

Result<std::string> variant_text(Problem const& problem, std::string const& name, Vary vary) {
  auto const numbers = text_of(problem, name, {});
  if (vary == Vary::numbers || !ok(numbers)) return numbers;
  auto const found = siblings_of(problem);
  if (!ok(found)) return fault(found);
  auto const alike = worked_alike(problem, value(found));
  return ok(alike) ? text_of(problem, name, value(alike)) : Result<std::string>(fault(alike));
}

Result<Template> variant_of(Problem const& problem, std::string const& name, Vary vary) {
  auto const text = variant_text(problem, name, vary);
  if (!ok(text)) return fault(text);
  return template_of(value(text));
}

}  // namespace molewright
