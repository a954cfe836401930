#pragma once
// Which questions misfired: whether a part tells those who can from those who cannot, and wrong answers that many share though no
// slip explains them.
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "marker/results.h"

namespace molewright {

/// Below so many students a discrimination says more of chance than of the question (common practice, no source).
inline constexpr int least_students_for_discrimination = 20;
/// A wrong answer without a cause that so many share points at the key or the wording (common practice, no source).
inline constexpr int least_students_for_a_shared_answer = 3;

/// Counts the wrong answers of a class for which no cause is named, text by text. Of a part's texts the first
/// `most_texts_counted` are: an answer that many share is among them unless that many others were written before it first was.
class WrongAnswers {
 public:
  void add(StudentResult const& student);
  /// The one that most share, if enough do; the first of those that as many share.
  std::optional<SharedAnswer> most_shared(std::string const& column) const;

 private:
  struct Texts {
    std::vector<SharedAnswer> answers;
    std::map<std::string, std::size_t> places;  ///< of a text in these
  };
  std::map<std::string, Texts> columns_;
};
inline constexpr std::size_t most_texts_counted = 10000;

/// For a class that all had one paper: where they had not, neither numbers nor answers compare, and this is not to be called.
/// Fills in `discrimination` of every part: the correlation (Pearson) of the marks for the part with the marks for the rest of
/// the paper, over those present (corrected item-total correlation; common practice, no source). Nothing where fewer than
/// least_students_for_discrimination are present or where one of the two does not vary. Fills in `shared_wrong` likewise, and
/// sets `one_paper`.
void analyse_items(ClassResults& results, WrongAnswers const& wrong);

}  // namespace molewright
