#include "generators/kinds.h"

#include <algorithm>

#include "engine/ascii.h"
#include "engine/fault.h"
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

std::vector<std::string> kinds_near(std::string_view said, std::vector<std::string> const& kinds) {
  std::vector<std::string> names;
  for (auto const& kind : kinds)
    for (auto const& name : {kind, kind_words(kind)}) names.push_back(name);
  std::vector<std::string> near;
  for (auto const& name : nearest(said, names))
    if (auto const kind = kind_meant(name, kinds); std::find(near.begin(), near.end(), kind) == near.end()) near.push_back(kind);
  if (!near.empty()) return near;
  constexpr std::size_t shortest = 3, most = 3;
  for (auto const& kind : kinds) {
    auto const words = ' ' + lowered(kind_words(kind));
    bool holds = false;
    for (std::string_view rest = said; !rest.empty();) {
      auto const end = std::min(rest.find_first_of(" -"), rest.size());
      auto const word = bare(rest.substr(0, end));
      holds = holds || (word.size() >= shortest && words.find(' ' + word) != std::string::npos);
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    if (holds && near.size() < most) near.push_back(kind);
  }
  return near;
}

std::string kind_words(std::string_view kind) {
  auto const at = place_of(kind);
  return at < known_kinds().size() ? known_kinds()[at].words : std::string(kind);
}

}  // namespace molewright
