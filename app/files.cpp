#include "app/files.h"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <system_error>

namespace molewright {
namespace fs = std::filesystem;

Result<std::string> read_file(std::string const& path) {
  if (path == "-") return std::string(std::istreambuf_iterator<char>(std::cin), {});
  std::error_code error;
  if (fs::is_directory(path, error)) return Fault{"cannot-read", "this is a folder, not a file", "a file", 0};
  std::ifstream in(path, std::ios::binary);
  if (!in) return Fault{"cannot-read", std::string("cannot be read: ") + std::strerror(errno), "", 0};
  return std::string(std::istreambuf_iterator<char>(in), {});
}

Result<std::vector<std::string>> OutputFolder::write() const {
  std::error_code error;
  fs::create_directories(path_, error);
  if (error)
    return Fault{"cannot-write", "the folder " + path_ + " cannot be made: " + error.message(), "a folder that can be written to",
                 0};
  std::vector<std::pair<fs::path, fs::path>> renames;
  auto const give_up = [&](std::string const& why) -> Fault {
    for (auto const& [from, to] : renames) fs::remove(from, error);
    return {"cannot-write", why, "a folder that can be written to", 0};
  };
  for (auto const& [name, bytes] : files_) {
    auto const place = fs::path(path_) / name;
    auto const beside = fs::path(path_) / ("." + name + ".part");
    renames.push_back({beside, place});
    std::ofstream out(beside, std::ios::binary | std::ios::trunc);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (!out) return give_up(place.string() + " cannot be written: " + std::strerror(errno));
    if (fs::is_directory(place, error)) return give_up(place.string() + " is a folder");
  }
  std::vector<std::string> places;
  for (auto const& [from, to] : renames) {
    fs::rename(from, to, error);
    if (error) return give_up(to.string() + " cannot be written: " + error.message());
    places.push_back(to.string());
  }
  return places;
}

}  // namespace molewright
