#pragma once
// What a student practised, in a file that they name: molewright-practice/1, one JSON object a line. Nothing is kept elsewhere,
// and no name is in it.
#include <string>
#include <vector>

#include "engine/fault.h"
#include "generators/practice.h"

namespace molewright {

/// An answer to one part, in the order of trying.
struct PracticeTry {
  std::string given;
  std::string value;               ///< "right", "wrong" ... as in the contract
  std::vector<std::string> slips;  ///< named with enough confidence to be spoken of
};

struct PracticePart {
  std::string part;  ///< "a"; empty where there is one
  enum class State { open, right, shown } state = State::open;
  int steps_shown = 0;
  std::vector<PracticeTry> tries;
};

struct PracticeEntry {
  std::string code, template_name, kind, chosen_for;
  bool left = false;  ///< another was asked for before it was done
  std::vector<PracticePart> parts;
  bool open() const;
};
/// What the choice of the next question needs to know of it.
Practised practised(PracticeEntry const& entry);

/// The record of one student. With an empty path it lives for the session only.
class PracticeRecord {
 public:
  /// Reads the file, or begins one where there is none, and sees to it that it can be written. Fault ids: "cannot-read",
  /// "cannot-write", "not-a-practice-record", "newer-practice-record", "bad-practice-line". A file at fault is left as it is.
  static std::variant<PracticeRecord, PlacedFault> open(std::string path);

  PracticeWish wish;
  std::vector<PracticeEntry> entries;
  std::string const& path() const { return path_; }
  /// Whether there was a record before this session.
  bool found() const { return found_; }
  std::vector<Practised> past() const;
  /// The file appears whole or stays as it was. Fault "cannot-write".
  std::optional<Fault> keep() const;

 private:
  std::string path_;
  bool found_ = false;
};

}  // namespace molewright
