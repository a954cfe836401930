#pragma once
// What a spreadsheet does to answers behind a teacher's back: zeros at the end dropped, cells turned into dates.
#include <string_view>
#include <vector>

#include "marker/written.h"

namespace molewright {

/// True for what a spreadsheet makes of 3/4 or 1-2: "03-Apr", "Apr 25", "03/04/2026", "3.4.2026", "2026-04-03", a time with
/// seconds; also for a cell of # signs only (a column too narrow).
bool looks_like_a_date(std::string_view cell);

/// What a spreadsheet would have worked out, or failed to: "=1+1", "@SUM(A1)", "#REF!". `written`: the same cell, read.
bool looks_like_a_formula(std::string_view cell, Written const& written);

/// A number with nothing behind it: the only kind of answer from which a spreadsheet takes zeros.
bool number_alone(Written const& written);

/// Looks at the numbers of a whole file that stand alone: if not one of them has a zero at its end behind the point, such zeros
/// may have been dropped. A tenth of all numbers of students would end in one.
class KeptZeros {
 public:
  void look_at(Written const& written);
  bool may_be_lost() const { return !kept_; }

 private:
  bool kept_ = false;
};

}  // namespace molewright
