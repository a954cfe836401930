#include "marker/spreadsheet.h"

#include <algorithm>
#include <array>
#include <string>

#include "engine/ascii.h"
#include "marker/table.h"

namespace molewright {
namespace {

/// Beginnings of the months' names in English, German, French and Spanish, as far as they differ.
constexpr std::array<std::string_view, 26> months = {"jan", "feb", "mar",  "apr",  "may", "jun", "jul", "aug", "sep",
                                                     "oct", "nov", "dec",  "mär",  "mrz", "mai", "okt", "dez", "janv",
                                                     "fév", "avr", "juin", "juil", "aoû", "déc", "ene", "ago"};
constexpr std::size_t longest_date = 32;  // bytes

struct Piece {
  enum class Kind { digits, word, mark } kind;
  std::string_view text;
};

/// Runs of digits, runs of letters, and single marks; blanks are passed over.
std::vector<Piece> pieces_of(std::string_view text) {
  auto const kind_of = [](char c) {
    bool const letter = is_letter(c) || static_cast<unsigned char>(c) >= 0x80U;
    return is_digit(c) ? Piece::Kind::digits : letter ? Piece::Kind::word : Piece::Kind::mark;
  };
  std::vector<Piece> pieces;
  for (std::size_t at = 0; at < text.size();) {
    if (text[at] == ' ') {
      ++at;
      continue;
    }
    auto const kind = kind_of(text[at]);
    std::size_t end = at + 1;
    while (kind != Piece::Kind::mark && end < text.size() && kind_of(text[end]) == kind) ++end;
    pieces.push_back({kind, text.substr(at, end - at)});
    at = end;
  }
  return pieces;
}

bool is_month(std::string_view word) {
  auto const low = lowered(word);
  return word.size() <= 10 && std::any_of(months.begin(), months.end(), [&](std::string_view month) {
           return std::string_view(low).substr(0, month.size()) == month;
         });
}
bool is_number_of(Piece const& piece, std::size_t least, std::size_t most) {
  return piece.kind == Piece::Kind::digits && piece.text.size() >= least && piece.text.size() <= most;
}

/// "03-Apr", "3. Apr 26", "Apr-25".
bool day_and_month(std::vector<Piece> pieces) {
  pieces.erase(std::remove_if(pieces.begin(), pieces.end(),
                              [](Piece const& piece) {
                                return piece.kind == Piece::Kind::mark &&
                                       std::string_view("-./").find(piece.text) != std::string_view::npos;
                              }),
               pieces.end());
  if (pieces.size() < 2 || pieces.size() > 3) return false;
  std::size_t const month = pieces[0].kind == Piece::Kind::word ? 0 : 1;
  if (pieces[month].kind != Piece::Kind::word || !is_month(pieces[month].text)) return false;
  for (std::size_t i = 0; i < pieces.size(); ++i)
    if (i != month && !is_number_of(pieces[i], 1, 4)) return false;
  return true;
}

/// "03/04/2026", "2026-04-03", "12:30:00", a date with a time behind it.
bool in_digits(std::vector<Piece> const& pieces) {
  if (pieces.size() < 5) return false;
  auto const mark = pieces[1].text;
  bool const marks = pieces[1].kind == Piece::Kind::mark && pieces[3].text == mark;
  if (!marks) return false;
  bool const rest_is_time = pieces.size() == 5 || (pieces.size() >= 8 && pieces[6].text == ":");
  if (mark == ":")
    return pieces.size() == 5 && is_number_of(pieces[0], 1, 2) && is_number_of(pieces[2], 2, 2) && is_number_of(pieces[4], 2, 2);
  if (std::string_view("-./").find(mark) == std::string_view::npos || !rest_is_time || !is_number_of(pieces[2], 1, 2))
    return false;
  bool const day_first = is_number_of(pieces[0], 1, 2) && (is_number_of(pieces[4], 4, 4) || is_number_of(pieces[4], 2, 2));
  bool const year_first = is_number_of(pieces[0], 4, 4) && is_number_of(pieces[4], 1, 2);
  return day_first || year_first;
}
}  // namespace

bool looks_like_a_date(std::string_view cell) {
  auto const text = trimmed(cell);
  if (text.empty() || text.size() > longest_date) return false;
  if (text.size() > 2 && text.find_first_not_of('#') == std::string_view::npos) return true;
  auto const pieces = pieces_of(text);
  return day_and_month(pieces) || in_digits(pieces);
}

bool looks_like_a_formula(std::string_view cell, Written const& written) {
  auto const text = trimmed(cell);
  if (written.kind != Written::Kind::unreadable || text.size() < 2) return false;
  bool const error = text[0] == '#' && is_letter(text[1]);
  return text[0] == '=' || text[0] == '@' || error;
}

bool number_alone(Written const& written) {
  return written.kind == Written::Kind::number && !written.unit && written.unit_text.empty();
}

void KeptZeros::look_at(Written const& written) {
  if (kept_ || !number_alone(written) || written.number.last_place >= 0) return;
  kept_ = (written.number.value * Rational::power_of_ten(-written.number.last_place - 1)).is_integer();
}

}  // namespace molewright
