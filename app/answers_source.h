#pragma once
// Where answers come from: files, and folders of files.
#include <cstddef>
#include <deque>
#include <string>
#include <vector>

#include "app/console.h"
#include "generators/set.h"
#include "marker/handed_in.h"

namespace molewright {

struct AnswersSource {
  /// Reads files and, of folders, every .csv, .tsv and .txt file in them by name (hidden ones apart). A file in a folder that has
  /// no column `student` is that of the student it is named after ("Bo Sedge.csv"). What cannot be read is reported. `-` is
  /// standard input. `students`: the class, as the files name it.
  AnswersSource(Console& console, std::vector<std::string> const& paths, ProblemSet const& set,
                std::vector<std::string> const& students);

  std::vector<std::string> paths;  ///< of every file read, as faults name them
  std::deque<std::string> texts;
  AllHandedIn handed_in;

  /// One more, whose text is known.
  void add(std::string path, std::string text, std::string const& whose = "");
  /// The names without folders.
  std::vector<std::string> names() const;
  /// A fault with its line of its file. Faults in the order of the files are found in one go.
  PlacedFault with_line(FiledFault const& fault);

 private:
  struct {
    std::size_t file = 0, line = 1, at = 0;
  } reached_;  ///< the line of the last fault and where it begins
};

}  // namespace molewright
