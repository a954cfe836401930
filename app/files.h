#pragma once
// Reading whole files, and writing several so that they appear whole or not at all.
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/fault.h"

namespace molewright {

/// The bytes of a file; fault "cannot-read" with the system's reason. "-" is standard input.
Result<std::string> read_file(std::string const& path);

/// Files of one output folder: gathered first, then written beside their places and renamed, so that an interruption leaves the
/// old ones whole.
class OutputFolder {
 public:
  explicit OutputFolder(std::string path) : path_(std::move(path)) {}
  void add(std::string name, std::string bytes) { files_.push_back({std::move(name), std::move(bytes)}); }
  /// Fault "cannot-write"; nothing new stands in the folder then.
  Result<std::vector<std::string>> write() const;

 private:
  std::string path_;
  std::vector<std::pair<std::string, std::string>> files_;
};

}  // namespace molewright
