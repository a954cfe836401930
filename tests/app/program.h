#pragma once
// Runs the program in a folder of its own, as a person would, and keeps what it said.
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace molewright {

using Json = nlohmann::ordered_json;

struct Said {
  int status = -1;
  std::string out, err;
};

inline std::string shell_quoted(std::string_view text) {
  std::string result = "'";
  for (char c : text) result += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return result + "'";
}

inline std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    auto const end = text.find('\n');
    lines.emplace_back(text.substr(0, end));
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
  }
  return lines;
}

inline std::vector<std::string> keys_of(Json const& object) {
  std::vector<std::string> keys;
  for (auto const& [key, unused] : object.items()) keys.push_back(key);
  return keys;
}

/// A folder that is there as long as the test: files are written and read in it, and the program runs in it.
class Workplace {
 public:
  Workplace() {
    std::string pattern = (std::filesystem::temp_directory_path() / "molewright-XXXXXX").string();
    REQUIRE(mkdtemp(pattern.data()) != nullptr);
    path_ = pattern;
  }
  ~Workplace() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Workplace(Workplace const&) = delete;
  Workplace& operator=(Workplace const&) = delete;

  std::string at(std::string const& name) const { return (path_ / name).string(); }
  void write(std::string const& name, std::string const& bytes) const {
    std::filesystem::create_directories((path_ / name).parent_path());
    std::ofstream(path_ / name, std::ios::binary) << bytes;
  }
  std::string read(std::string const& name) const {
    INFO(name);
    std::ifstream in(path_ / name, std::ios::binary);
    REQUIRE(in.good());
    return {std::istreambuf_iterator<char>(in), {}};
  }
  /// Every file below a folder, hidden ones too, with its bytes; a folder that is empty or not there gives none.
  std::map<std::string, std::string> all(std::string const& folder) const {
    std::map<std::string, std::string> files;
    if (!std::filesystem::exists(path_ / folder)) return files;
    for (auto const& entry : std::filesystem::recursive_directory_iterator(path_ / folder))
      if (entry.is_regular_file())
        files[entry.path().filename().string()] = read(std::filesystem::relative(entry.path(), path_).string());
    return files;
  }
  bool there(std::string const& name) const { return std::filesystem::exists(path_ / name); }

  Said run(std::vector<std::string> const& arguments, std::string const& input = "") const {
    write(".stdin", input);
    std::string command = "cd " + shell_quoted(path_.string()) + " && " + shell_quoted(MOLEWRIGHT_PROGRAM);
    for (auto const& argument : arguments) command += ' ' + shell_quoted(argument);
    int const raw = std::system((command + " <.stdin >.stdout 2>.stderr").c_str());
    REQUIRE(WIFEXITED(raw));
    return {WEXITSTATUS(raw), read(".stdout"), read(".stderr")};
  }

 private:
  std::filesystem::path path_;
};

}  // namespace molewright
