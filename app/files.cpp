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
namespace {

/// One file on its way: written beside its place, the old one kept by a second name until all are in place.
struct Move {
  fs::path place, beside, old;
  bool kept = false, done = false;
};

void undo(std::vector<Move> const& moves) {
  std::error_code ignored;
  for (auto const& move : moves) {
    if (move.done && move.kept)
      fs::rename(move.old, move.place, ignored);
    else if (move.done)
      fs::remove(move.place, ignored);
    else if (move.kept)
      fs::remove(move.old, ignored);
    fs::remove(move.beside, ignored);
  }
}

/// The uppermost folder on the way to `path` that is not there yet; empty where all are.
fs::path first_missing(fs::path path) {
  std::error_code ignored;
  if (!path.has_filename()) path = path.parent_path();  // "out/"
  fs::path missing;
  while (!path.empty() && !fs::exists(path, ignored)) {
    missing = path;
    path = path.parent_path();
  }
  return missing;
}
}  // namespace

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
  auto const made = first_missing(path_);
  std::vector<Move> moves;
  auto const give_up = [&](std::string const& why) -> Fault {
    undo(moves);
    std::error_code ignored;
    if (!made.empty()) fs::remove_all(made, ignored);  // it held nothing but what was just made
    return {"cannot-write", why, "a folder that can be written to", 0};
  };
  fs::create_directories(path_, error);
  if (error) return give_up("the folder " + path_ + " cannot be made: " + error.message());
  for (auto const& [name, bytes] : files_) {
    auto const place = fs::path(path_) / name;
    if (fs::is_directory(place, error)) return give_up(place.string() + " is a folder");
    moves.push_back({place, fs::path(path_) / ("." + name + ".part"), fs::path(path_) / ("." + name + ".old")});
    std::ofstream out(moves.back().beside, std::ios::binary | std::ios::trunc);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (!out) return give_up(place.string() + " cannot be written: " + std::strerror(errno));
  }
  for (auto& move : moves) {
    fs::remove(move.old, error);
    fs::create_hard_link(move.place, move.old, error);  // where it cannot be had, the old file is only lost if a rename fails
    move.kept = !error;
    fs::rename(move.beside, move.place, error);
    if (error) return give_up(move.place.string() + " cannot be written: " + error.message());
    move.done = true;
  }
  std::vector<std::string> places;
  for (auto const& move : moves) {
    fs::remove(move.old, error);
    places.push_back(move.place.string());
  }
  return places;
}

}  // namespace molewright
