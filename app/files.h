#pragma once
// Reading whole files, and writing several so that they appear whole or not at all.
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/fault.h"

namespace molewright {

/// The bytes of a file; fault "cannot-read" with the system's reason. "-" is standard input.
Result<std::string> read_file(std::string const& path);

/// Files of one output folder: written beside their places first and renamed when all are whole, so that an interruption leaves
/// the old ones as they were. What is added goes to disk at once, so that a file may be larger than the memory.
class OutputFolder {
 public:
  explicit OutputFolder(std::string path);
  ~OutputFolder();
  OutputFolder(OutputFolder const&) = delete;
  OutputFolder& operator=(OutputFolder const&) = delete;

  /// Puts bytes at the end of a file, which begins with the first of them. What cannot be written is told by write().
  void add(std::string const& name, std::string_view bytes);
  /// Puts all files in place; their paths, in the order they were begun. Fault "cannot-write"; nothing new stands in the folder
  /// then.
  Result<std::vector<std::string>> write();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace molewright
