#pragma once
// From a class's results to what is done with them next: corrections, and the page for the next morning.
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "generators/set.h"
#include "marker/results.h"
#include "marker/wrong_working.h"
#include "templates/corrections.h"
#include "templates/next_morning.h"

namespace molewright {

/// A page for whoever of these students was there and lost marks.
CorrectionsDocument corrections_document(std::vector<StudentResult> const& students, ProblemSet const& set,
                                         QuestionsByCode const& questions);

/// A student of the class, by their place in it, marked once more: only the marks of a class are kept.
using MarkAgain = std::function<StudentResult(std::size_t student)>;

/// A slip of the class as one of those who made it wrote it.
struct SlipShown {
  std::string id;
  int students = 0;                     ///< how many made it
  Question const* question = nullptr;   ///< where; nullptr where no question of the set fits
  std::string instead;                  ///< what the slip is, in words for the tutor; for where no line shows it
  std::optional<WrongWorking> working;  ///< line by line, where it can be shown so
  std::string last_line{};              ///< of the right working, for a working that stops short
};
/// The three commonest slips, those that explain almost any number (a power of ten, two digits exchanged) behind every other that
/// two or more made; each in the first part in class order that can be shown line by line, else in the first at all.
/// Those who made a slip are looked at up to the five hundredth.
std::vector<SlipShown> slips_of_the_morning(ClassResults const& results, ProblemSet const& set, QuestionsByCode const& questions,
                                            MarkAgain const& mark_again);
/// `starter`: fresh questions, made for the slips above. Who might sit with whom is said of a class up to a volume (volumes.h):
/// more do not sit in one room.
NextMorning next_morning(ClassResults const& results, ProblemSet const& set, std::vector<SlipShown> const& slips,
                         std::vector<Question> const& starter);

}  // namespace molewright
