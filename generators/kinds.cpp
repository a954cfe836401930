#include "generators/kinds.h"

#include <algorithm>

#include "engine/ascii.h"
#include "engine/tsv.h"

namespace molewright {
namespace data {
extern std::string_view const kinds_tsv;
}  // namespace data

namespace {

struct Kind {
  std::string id, words;
  std::vector<std::string> said;
};

std::vector<Kind> const& known_kinds() {
  static std::vector<Kind> const kinds = [] {
    TsvTable const table(data::kinds_tsv);
    auto const id = table.column("kind"), words = table.column("words"), said = table.column("said");
    std::vector<Kind> all;
    for (std::size_t row = 0; row < table.size(); ++row) {
      Kind kind{std::string(table.cell(row, id)), std::string(table.cell(row, words)), {}};
      for (auto const item : split_list(table.cell(row, said))) kind.said.emplace_back(item);
      all.push_back(std::move(kind));
    }
    return all;
  }();
  return kinds;
}

std::string bare(std::string_view text) {
  std::string result;
  for (char const c : text) {
    if (c == ' ' || c == '-' || c == '_') continue;
    result += lower(c);
  }
  if (result.size() > 3 && result.back() == 's') result.pop_back();
  return result;
}

std::size_t place_of(std::string_view kind) {
  auto const& all = known_kinds();
  return static_cast<std::size_t>(std::find_if(all.begin(), all.end(), [&](Kind const& one) { return one.id == kind; }) -
                                  all.begin());
}

}  // namespace

std::vector<std::string> kinds_of(std::vector<Template> const& templates) {
  std::vector<std::string> kinds;
  for (Template const& one : templates) {
    if (std::find(kinds.begin(), kinds.end(), one.kind) == kinds.end()) kinds.push_back(one.kind);
  }
  std::sort(kinds.begin(), kinds.end(), [](std::string const& a, std::string const& b) {
    auto const x = place_of(a), y = place_of(b);
    return x != y ? x < y : a < b;
  });
  return kinds;
}

std::string kind_meant(std::string_view said, std::vector<std::string> const& kinds) {
  std::string const wanted = bare(said);
  auto const there = [&](std::string const& kind) { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); };
  for (std::string const& kind : kinds)
    if (bare(kind) == wanted) return kind;
  for (Kind const& kind : known_kinds())
    if (there(kind.id) && bare(kind.words) == wanted) return kind.id;
  for (Kind const& kind : known_kinds())
    for (std::string const& word : kind.said)
      if (there(kind.id) && bare(word) == wanted) return kind.id;
  return "";
}

std::string kind_words(std::string_view kind) {
  auto const at = place_of(kind);
  return at < known_kinds().size() ? known_kinds()[at].words : std::string(kind);
}

}  // namespace molewright
