#include "engine/problem.h"

#include <algorithm>

#include "engine/ascii.h"
#include "engine/statement.h"
#include "engine/substance.h"

namespace molewright {
namespace {

struct Line {
  std::string_view text;
  std::size_t number = 0;
};

std::vector<Line> lines_of(std::string_view text) {
  std::vector<Line> lines;
  std::size_t number = 1;
  while (true) {
    auto const end = text.find('\n');
    auto line = text.substr(0, end);
    while (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    lines.push_back({line, number++});
    if (end == std::string_view::npos) return lines;
    text.remove_prefix(end + 1);
  }
}

/// Gathers the statements of a file into problems; a problem with a fault is dropped when it ends.
class FileReader {
 public:
  FileReader(ProblemFile& file, DecimalMark mark) : file_(file), mark_(mark) {}

  void read(Line const& line) {
    if (auto const bad = first_invalid_utf8(line.text); bad != std::string_view::npos) {
      fault({"invalid-utf8", "these bytes are not UTF-8 text", "UTF-8", bad}, line);
      return;
    }
    if (in_text_) {
      read_text(line);
      return;
    }
    auto const whole = without_comment(line.text);
    std::size_t at = 0;
    while (at <= whole.size()) {
      auto const end = std::min(whole.size(), whole.find(';', at));
      piece(line, at, whole.substr(at, end - at));
      if (at == 0 && in_text_ && end == whole.size()) return;  // a text block that goes on over the next lines
      at = end + 1;
    }
    if (in_text_ && whole.find(';') != std::string_view::npos) {
      fault({"text-not-closed", "the text has no end", "'end' after the text", line.text.size()}, line);
      in_text_ = false;
    }
  }

  void finish(Line const& last) {
    if (in_text_)
      fault({"text-not-closed", "the text that began in line " + std::to_string(text_began_) + " has no end", "a line 'end'", 0},
            last);
    in_text_ = false;
    close();
  }

 private:
  void read_text(Line const& line) {
    if (stripped(line.text) == "end") {
      in_text_ = false;
      return;
    }
    if (!problem_.text.empty()) problem_.text += '\n';
    problem_.text += stripped(line.text);
  }

  void piece(Line const& line, std::size_t at, std::string_view text) {
    auto const start = statement_start(text);
    if (in_text_) {  // only inside one line with `;`
      if (stripped(text) == "end") {
        in_text_ = false;
      } else {
        if (!problem_.text.empty()) problem_.text += '\n';
        problem_.text += stripped(text);
      }
      return;
    }
    if (start.keyword.empty()) return;
    if (start.keyword == "problem") {
      close();
      open(line);
    } else if (!open_) {
      open(line);
    }
    if (start.keyword == "text") {
      in_text_ = true;
      text_began_ = line.number;
      if (auto const rest = stripped(text.substr(start.rest)); !rest.empty()) problem_.text = std::string(rest);
      return;
    }
    if (start.keyword == "end") {
      fault({"end-without-text", "there is no text to end here", "a statement", at + start.rest}, line);
      return;
    }
    Place const place{line.number, column(line.text, at + start.rest)};
    auto const before = counts();
    if (auto found = add_statement(problem_, text, mark_)) {
      found->offset += at;
      fault(*found, line);
      return;
    }
    set_place(before, place);
    for (auto i = before.unknowns; i < problem_.unknowns.size(); ++i) {
      auto& unknown = problem_.unknowns[i];
      unknown.fault.offset += at;
      unknown.place = {line.number, column(line.text, unknown.fault.offset)};
    }
  }

  struct Counts {
    std::size_t reactions, givens, finds, handlings, stated, unknowns;
  };
  Counts counts() const {
    return {problem_.reactions.size(), problem_.givens.size(), problem_.finds.size(),
            problem_.handlings.size(), problem_.stated.size(), problem_.unknowns.size()};
  }
  void set_place(Counts const& before, Place const& place) {
    if (problem_.reactions.size() > before.reactions) problem_.reactions.back().place = place;
    if (problem_.givens.size() > before.givens) problem_.givens.back().place = place;
    if (problem_.finds.size() > before.finds) problem_.finds.back().place = place;
    if (problem_.handlings.size() > before.handlings) problem_.handlings.back().place = place;
    if (problem_.stated.size() > before.stated) problem_.stated.back().place = place;
  }

  void open(Line const& line) {
    problem_ = Problem{};
    problem_.place = {line.number, 1};
    problem_.id = "problem-" + std::to_string(++opened_);
    open_ = true;
    faulty_ = false;
  }
  void close() {
    if (open_ && !faulty_) file_.problems.push_back(std::move(problem_));
    open_ = false;
  }
  void fault(Fault found, Line const& line) {
    faulty_ = true;
    PlacedFault placed{std::move(found), line.number, 0, std::string(line.text)};
    placed.column = column(line.text, placed.fault.offset);
    file_.faults.push_back(std::move(placed));
  }

  ProblemFile& file_;
  DecimalMark mark_;
  Problem problem_;
  bool open_ = false, faulty_ = false, in_text_ = false;
  std::size_t text_began_ = 0, opened_ = 0;
};

/// A number that was drawn, not typed, has no text of its own.
std::string typed(Decimal const& number) { return number.text.empty() ? print_as_typed(number).plain : number.text; }

std::string printed_given(Given const& given) {
  std::string out = "given " + plain(given.quantity) + " = ";
  if (given.form == Given::Form::measured) {
    out += given.numbers.empty() ? "measured" : "measured about " + typed(given.numbers[0]);
  } else if (given.form == Given::Form::mean) {
    out += "mean of ";
    for (std::size_t i = 0; i < titres(given); ++i) {
      out += i == 0 ? "" : " | ";
      out += given.in_pairs ? typed(given.numbers[2 * i]) + " - " + typed(given.numbers[2 * i + 1]) : typed(given.numbers[i]);
      out += is_rough(given, i) ? " rough" : is_discordant(given, i) ? " discordant" : "";
    }
  } else {
    out += typed(given.numbers[0]);
    if (given.form == Given::Form::difference) out += " - " + typed(given.numbers[1]);
  }
  if (!given.unit.symbol.empty()) out += ' ' + given.unit.symbol;
  return out;
}

std::string printed_find(Find const& find) {
  std::string out = (find.told ? "show " : "find ") + plain(find);
  if (find.unit && !find.unit->symbol.empty()) out += " in " + find.unit->symbol;
  if (find.figures) out += " to " + std::to_string(*find.figures) + " figures";
  if (find.marks) out += " marks " + std::to_string(*find.marks);
  return out;
}

std::string printed_handling(Handling const& handling) {
  std::string out = handling.kind == Handling::Kind::mix      ? "mix "
                    : handling.kind == Handling::Kind::dilute ? "dilute "
                                                              : "evaporate ";
  for (std::size_t i = 0; i < handling.from.size(); ++i) out += (i ? " + " : "") + std::to_string(handling.from[i]);
  return out + " -> " + std::to_string(handling.to);
}
}  // namespace

ProblemFile parse_problems(std::string_view text, DecimalMark mark) {
  ProblemFile file;
  FileReader reader(file, mark);
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  auto const lines = lines_of(text);
  for (auto const& line : lines) reader.read(line);
  reader.finish(lines.back());
  return file;
}

ProblemFile parse_problems(std::string_view text) { return parse_problems(text, DecimalMark::point); }

namespace {
std::string joined(std::vector<std::string> const& items, char const* between) {
  std::string out;
  for (auto const& item : items) out += (out.empty() ? "" : between) + item;
  return out;
}
}  // namespace

std::string plain(Find const& find) {
  auto const of_elements = [&](std::string out) {
    for (std::size_t i = 0; i < find.elements.size(); ++i) out += (i == 0 ? " of " : ", ") + find.elements[i];
    return out;
  };
  switch (find.kind) {
    case Find::Kind::number:
      break;
    case Find::Kind::limiting_reagent:
      return "limiting reagent";
    case Find::Kind::empirical_formula:
      return of_elements("empirical formula");
    case Find::Kind::molecular_formula:
      return of_elements("molecular formula");
    case Find::Kind::hydrate_formula:
      return of_elements("formula of the hydrate");
    case Find::Kind::line_at_fault:
      return "line at fault";
    case Find::Kind::reaction:
      return "reaction";
    case Find::Kind::ionic_equation:
      return "ionic equation";
    case Find::Kind::name:
      return "name of " + find.substance;
    case Find::Kind::formula: {
      auto const name = name_of(find.substance);
      return "formula of " + (name.empty() ? find.substance : name);
    }
    case Find::Kind::precipitate:
      return "precipitate";
    case Find::Kind::reagent: {
      auto out = "reagent from " + joined(find.reagents, " | ") + " to precipitate " + joined(find.with, ", ");
      return find.without.empty() ? out : out + " but not " + joined(find.without, ", ");
    }
  }
  return plain(find.quantity);
}

bool is_stated(Find::Kind kind) {
  switch (kind) {
    case Find::Kind::reaction:
    case Find::Kind::ionic_equation:
    case Find::Kind::name:
    case Find::Kind::formula:
    case Find::Kind::precipitate:
    case Find::Kind::reagent:
      return true;
    default:
      return false;
  }
}

std::string print(Problem const& problem) {
  std::string out = "problem " + problem.id + '\n';
  if (!problem.title.empty()) out += "title " + problem.title + '\n';
  for (auto const& reaction : problem.reactions) out += "reaction " + reaction.written + '\n';
  for (auto const& given : problem.givens) out += printed_given(given) + '\n';
  if (!problem.empirical.empty()) out += "given empirical formula = " + problem.empirical + '\n';
  for (std::size_t i = 0; i < problem.excess.size(); ++i) out += (i ? ", " : "excess ") + problem.excess[i];
  if (!problem.excess.empty()) out += '\n';
  for (auto const& handling : problem.handlings) out += printed_handling(handling) + '\n';
  for (auto const& find : problem.finds) out += printed_find(find) + '\n';
  for (auto const& stated : problem.stated)
    out += "answer " + plain(stated.quantity) + " = " + typed(stated.number) +
           (stated.unit.symbol.empty() ? "" : ' ' + stated.unit.symbol) + '\n';
  if (!problem.text.empty()) out += "text\n" + problem.text + "\nend\n";
  return out;
}

}  // namespace molewright
