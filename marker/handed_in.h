#pragma once
// What a class handed in, out of one answers file or several: a late script or another version joins without disturbing the rest.
#include <cstddef>
#include <cstdint>
#include <deque>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "marker/answers_file.h"

namespace molewright {

/// A fault and which of the files it is in.
struct FiledFault {
  PlacedFault placed;
  std::size_t file = 0;
};

/// What was handed in, out of all files; `file` says which one a row stands in.
struct Joined {
  std::vector<HandedIn> answers, readings;
  std::vector<FiledFault> faults;
};

/// Cell by cell, the first file that says something counts: an answer before "absent", "absent" before a blank cell
/// (but whoever wrote something in a file was there for what is blank in it). Marks, a
/// reading and lines of working are taken from wherever they stand first. Fault "given-twice" where two files hold different
/// answers. `files` in their order, each with its rows of the students in question.
Joined join(std::vector<RowsRead> files);

/// The answers of a class where they stand in their files. Each row is found once, which leaves 24 bytes of it, and read again
/// whenever its student is asked for.
class AllHandedIn {
 public:
  /// `students`: the class, as the files name it.
  AllHandedIn(std::vector<std::string> const& students, AnswerColumns columns);
  AllHandedIn(AllHandedIn const&) = delete;
  AllHandedIn& operator=(AllHandedIn const&) = delete;

  /// One more file; `whose` as for AnswersFile. REQUIRES: the text outlives this.
  void add(std::string_view text, std::string const& whose = "");
  /// What a student handed in, by their place in the class, with the faults between files.
  Joined of(std::size_t student);
  /// What others handed in: rows that nobody of the class is named in.
  Joined of_strangers() const;
  /// Whether anybody handed in anything, and whether anybody of the class did.
  bool anything() const { return anything_; }
  bool anything_of_the_class() const { return of_the_class_; }
  /// Which questions any file has room for.
  std::set<std::string> const& questions() const { return questions_; }
  /// Whose rows could not be used, as they are named there.
  std::vector<std::string> const& not_used() const { return not_used_; }
  /// Of the files, one after the other.
  std::vector<FiledFault> const& faults() const { return faults_; }

 private:
  struct Place {
    std::size_t at;
    std::uint32_t line, student, file;
  };

  AnswerColumns columns_;
  NameNumbers names_;
  std::vector<std::uint32_t> students_;  ///< numbers of the class's names
  std::size_t class_numbers_;            ///< numbers from here on are of others
  std::deque<AnswersFile> files_;
  std::vector<Place> places_;  ///< by student, file and place in it, once a student was asked for
  bool sorted_ = true;
  std::vector<RowsRead> strangers_;  ///< by file
  bool anything_ = false, of_the_class_ = false;
  std::vector<std::string> not_used_;
  std::set<std::string> questions_;
  std::vector<FiledFault> faults_;
};

}  // namespace molewright
