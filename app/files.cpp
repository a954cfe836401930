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
  std::string bytes;
  auto const size = fs::file_size(path, error);
  if (!error) bytes.reserve(static_cast<std::size_t>(size));  // what has no size, such as a pipe, is read all the same
  bytes.append(std::istreambuf_iterator<char>(in), {});
  return bytes;
}

/// One file on its way: written beside its place, the old one kept by a second name until all are in place.
struct OutputFolder::Inside {
  struct File {
    std::string name;
    fs::path place, beside, old;
    bool kept = false, done = false;
  };
  std::string path;
  fs::path made;  ///< uppermost folder that was not there before
  bool begun = false;
  std::vector<std::unique_ptr<File>> files;
  std::string why;  ///< of the first thing that went wrong

  bool begin() {
    if (begun) return why.empty();
    begun = true;
    std::error_code error;
    made = first_missing(path);
    fs::create_directories(path, error);
    if (error) why = "the folder " + path + " cannot be made: " + error.message();
    return why.empty();
  }
  File* file(std::string const& name) {
    for (auto const& one : files)
      if (one->name == name) return one.get();
    std::error_code error;
    auto const place = fs::path(path) / name;
    if (fs::is_directory(place, error)) {
      why = place.string() + " is a folder";
      return nullptr;
    }
    auto one = std::make_unique<File>();
    one->name = name;
    one->place = place;
    one->beside = fs::path(path) / ("." + name + ".part");
    one->old = fs::path(path) / ("." + name + ".old");
    fs::remove(one->beside, error);  // of a run that was interrupted
    files.push_back(std::move(one));
    return files.back().get();
  }
  void undo() {
    std::error_code ignored;
    for (auto const& one : files) {
      if (one->done && one->kept)
        fs::rename(one->old, one->place, ignored);
      else if (one->done)
        fs::remove(one->place, ignored);
      else if (one->kept)
        fs::remove(one->old, ignored);
      fs::remove(one->beside, ignored);
    }
    files.clear();
    if (!made.empty()) fs::remove_all(made, ignored);  // it held nothing but what was just made
  }
};

OutputFolder::OutputFolder(std::string path) : inside_(std::make_unique<Inside>()) { inside_->path = std::move(path); }
OutputFolder::~OutputFolder() { inside_->undo(); }

void OutputFolder::add(std::string const& name, std::string_view bytes) {
  if (!inside_->begin()) return;
  auto* const file = inside_->file(name);
  if (file == nullptr) return;
  std::ofstream out(file->beside, std::ios::binary | std::ios::app);  // open only now: there may be more than a system lets be
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out && inside_->why.empty()) inside_->why = file->place.string() + " cannot be written: " + std::strerror(errno);
}

Result<std::vector<std::string>> OutputFolder::write() {
  inside_->begin();
  auto const give_up = [&]() -> Fault {
    inside_->undo();
    return {"cannot-write", inside_->why, "a folder that can be written to", 0};
  };
  if (!inside_->why.empty()) return give_up();
  std::error_code error;
  for (auto const& file : inside_->files) {
    fs::remove(file->old, error);
    fs::create_hard_link(file->place, file->old, error);  // where it cannot be had, the old file is only lost if a rename fails
    file->kept = !error;
    fs::rename(file->beside, file->place, error);
    if (error) {
      inside_->why = file->place.string() + " cannot be written: " + error.message();
      return give_up();
    }
    file->done = true;
  }
  std::vector<std::string> places;
  for (auto const& file : inside_->files) {
    fs::remove(file->old, error);
    places.push_back(file->place.string());
  }
  inside_->files.clear();
  inside_->made.clear();
  return places;
}

}  // namespace molewright
