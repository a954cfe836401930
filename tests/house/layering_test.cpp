// The rooms know only the rooms before them: engine <- marker <- generators <- templates <- app. The static libraries catch a
// call the wrong way; this reads every #include and catches the rest, headers above all.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace {
namespace fs = std::filesystem;

std::vector<std::string> const rooms{"engine", "marker", "generators", "templates", "app"};
std::size_t const portable_rooms = 3;  // engine, marker and generators also run in a browser's page

/// Place of a room in the row; rooms.size() for a path outside the rooms.
std::size_t rank(std::string_view path) {
  auto const room = path.substr(0, path.find('/'));
  return static_cast<std::size_t>(std::find(rooms.begin(), rooms.end(), room) - rooms.begin());
}

bool is_header(std::string_view path) { return path.size() > 2 && path.substr(path.size() - 2) == ".h"; }

/// What an #include line names, or nothing: `#include "a.h"`, `# include <a>`.
std::string_view included(std::string_view line) {
  auto at = line.find_first_not_of(" \t");
  if (at == std::string_view::npos || line[at] != '#') return {};
  at = line.find_first_not_of(" \t", at + 1);
  if (at == std::string_view::npos || line.substr(at, 7) != "include") return {};
  auto const open = line.find_first_of("<\"", at);
  if (open == std::string_view::npos) return {};
  auto const close = line.find_first_of(">\"", open + 1);
  return close == std::string_view::npos ? std::string_view{} : line.substr(open + 1, close - open - 1);
}

bool starts(std::string_view text, std::string_view with) { return text.substr(0, with.size()) == with; }

/// Headers that the page's compiler lacks, that touch files or threads, or whose results differ by vendor.
bool barred_from_portable_rooms(std::string_view header) {
  static std::vector<std::string_view> const barred{
      "fstream", "filesystem", "iostream", "thread", "mutex", "future", "ranges",  "source_location", "memory_resource",
      "random",  "format",     "unistd.h", "regex",  "ctime", "chrono", "fcntl.h", "hpdf.h"};
  return std::find(barred.begin(), barred.end(), header) != barred.end() || starts(header, "sys/");
}

/// Why a file at `path` (from the project's root) must not include `header`; empty where it may.
std::string complaint(std::string_view path, std::string_view header) {
  auto const own = rank(path), other = rank(header);
  if (other < rooms.size() && header.find('/') != std::string_view::npos && other > own) {
    return rooms[own] + "/ must not know " + rooms[other] + "/";
  }
  if (starts(header, "tests/")) return "a room must not know the tests";
  if (is_header(path) && starts(header, "boost/spirit")) return "a grammar stays in one .cpp";
  if (is_header(path) && starts(header, "boost/multiprecision")) return "big numbers stay behind rational.h";
  if (starts(header, "nlohmann/json.hpp") && rooms[own] != "app") return "JSON stays in app/";
  if (starts(header, "nlohmann/json.hpp") && is_header(path)) return "headers take json_fwd.hpp";
  if (starts(header, "catch2/")) return "a room must not know the tests";
  if (own < portable_rooms && barred_from_portable_rooms(header)) return rooms[own] + "/ runs in a page, too";
  return {};
}

std::vector<std::string> complaints(std::string const& path, std::string const& text) {
  std::vector<std::string> found;
  std::istringstream lines(text);
  std::string line;
  for (std::size_t number = 1; std::getline(lines, line); ++number) {
    auto const header = included(line);
    if (header.empty()) continue;
    auto const why = complaint(path, header);
    if (!why.empty()) found.push_back(path + ":" + std::to_string(number) + ": " + std::string(header) + ": " + why);
  }
  if (is_header(path) && !starts(text, "#pragma once\n//"))
    found.push_back(path + ":1: a header opens with #pragma once and what it is for");
  return found;
}

struct Source {
  std::string path, text;
};

std::vector<Source> sources_of(std::string const& room) {
  fs::path const root = MOLEWRIGHT_SOURCE_DIR;
  std::vector<Source> sources;
  for (auto const& entry : fs::recursive_directory_iterator(root / room)) {
    auto const ending = entry.path().extension();
    if (ending != ".h" && ending != ".cpp" && ending != ".in") continue;
    std::ifstream file(entry.path(), std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    sources.push_back({fs::relative(entry.path(), root).generic_string(), text.str()});
  }
  return sources;
}
}  // namespace

TEST_CASE("layering: every include in the rooms goes one way", "[house][layering]") {
  std::vector<std::string> found;
  for (auto const& room : rooms) {
    auto const sources = sources_of(room);
    CAPTURE(room);
    CHECK(!sources.empty());
    for (auto const& source : sources) {
      auto const more = complaints(source.path, source.text);
      found.insert(found.end(), more.begin(), more.end());
    }
  }
  std::string all;
  for (auto const& line : found) all += line + "\n";
  CHECK_THAT(all, Catch::Equals(""));
}

struct Row {
  char const* path;
  char const* text;
  std::vector<std::string> found;
};

TEST_CASE("layering: the check itself sees what is wrong", "[house][layering]") {
  auto const row = GENERATE(values<Row>({
      {"engine/a.cpp", "#include \"engine/b.h\"\n#include <vector>\n", {}},
      {"marker/a.cpp", "#include \"engine/b.h\"\n", {}},
      {"app/a.cpp", "#include \"templates/b.h\"\n#include <nlohmann/json.hpp>\n#include <fstream>\n", {}},
      {"engine/a.cpp", "#include <boost/spirit/home/x3.hpp>\n#include <boost/multiprecision/cpp_int.hpp>\n", {}},
      {"engine/a.cpp", "// as #include <fstream> would\n#pragma omp\n", {}},
      {"engine/a.cpp", "\n#include \"marker/b.h\"\n", {"engine/a.cpp:2: marker/b.h: engine/ must not know marker/"}},
      {"marker/a.cpp", "  #  include \"generators/b.h\"", {"marker/a.cpp:1: generators/b.h: marker/ must not know generators/"}},
      {"generators/a.cpp",
       "#include \"app/question_templates.h\"\n",
       {"generators/a.cpp:1: app/question_templates.h: generators/ must not know app/"}},
      {"templates/a.cpp", "#include \"app/b.h\"\r\n", {"templates/a.cpp:1: app/b.h: templates/ must not know app/"}},
      {"templates/a.cpp", "#include <nlohmann/json.hpp>\n", {"templates/a.cpp:1: nlohmann/json.hpp: JSON stays in app/"}},
      {"app/a.h",
       "#pragma once\n// A.\n#include <nlohmann/json.hpp>\n",
       {"app/a.h:3: nlohmann/json.hpp: headers take json_fwd.hpp"}},
      {"engine/a.h",
       "#pragma once\n// A.\n#include <boost/spirit/home/x3.hpp>\n",
       {"engine/a.h:3: boost/spirit/home/x3.hpp: a grammar stays in one .cpp"}},
      {"engine/a.h",
       "#pragma once\n// A.\n#include <boost/multiprecision/cpp_int.hpp>\n",
       {"engine/a.h:3: boost/multiprecision/cpp_int.hpp: big numbers stay behind rational.h"}},
      {"engine/a.h", "#include <vector>\n", {"engine/a.h:1: a header opens with #pragma once and what it is for"}},
      {"engine/a.cpp",
       "#include <fstream>\n#include <sys/stat.h>\n",
       {"engine/a.cpp:1: fstream: engine/ runs in a page, too", "engine/a.cpp:2: sys/stat.h: engine/ runs in a page, too"}},
      {"generators/a.cpp", "#include <random>\n", {"generators/a.cpp:1: random: generators/ runs in a page, too"}},
      {"app/a.cpp", "#include \"tests/b.h\"\n", {"app/a.cpp:1: tests/b.h: a room must not know the tests"}},
  }));
  CAPTURE(row.path, row.text);
  CHECK(complaints(row.path, row.text) == row.found);
}

namespace {
/// The types that a header defines in its own namespaces, with them before the name: "molewright::naming::Reading". A header of
/// this project opens a namespace at the beginning of a line and closes it there.
std::vector<std::string> types_of(std::string const& header) {
  std::vector<std::string> found, within;
  std::istringstream lines(header);
  std::string line;
  while (std::getline(lines, line)) {
    std::istringstream words(line);
    std::string word, name;
    words >> word >> name;
    if (starts(line, "namespace ") && line.back() == '{') within.push_back(name);
    if (starts(line, "}  // namespace") && !within.empty()) within.pop_back();
    bool const defines =
        (starts(line, "struct ") || starts(line, "class ") || starts(line, "enum ")) && line.find('{') != std::string::npos;
    if (!defines) continue;
    if (word == "enum") words >> name;  // enum class
    found.push_back((within.empty() ? "" : within.back()) + "::" + name);
  }
  return found;
}
}  // namespace

// The linker merges what two definitions of one name make of a template, and says nothing: the program then reads past the
// smaller one.
TEST_CASE("house: no two headers define a type of one name", "[house]") {
  CHECK(types_of("namespace a::b {\nstruct C {\n};\nstruct D;\nenum class E { f };\n}  // namespace a::b\n") ==
        std::vector<std::string>{"a::b::C", "a::b::E"});
  std::vector<std::pair<std::string, std::string>> all;
  for (auto const& room : rooms)
    for (auto const& source : sources_of(room))
      if (is_header(source.path))
        for (auto& type : types_of(source.text)) all.emplace_back(std::move(type), source.path);
  REQUIRE(all.size() > 100);
  std::sort(all.begin(), all.end());
  for (std::size_t i = 1; i < all.size(); ++i) {
    INFO(all[i - 1].second << " and " << all[i].second);
    CHECK(all[i - 1].first != all[i].first);
  }
}
