#pragma once
// From a class's results to its report and to the students' feedback.
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "generators/set.h"
#include "generators/slip_practice.h"
#include "marker/results.h"
#include "templates/feedback.h"
#include "templates/report.h"

namespace molewright {

/// Of a class beyond a volume (volumes.h) nobody is named in it: rows of marks stand elsewhere. `answers_files` are the names
/// that stand before the rows that could not be marked; `mark` the course's, for mean and spread.
ClassReport class_report(ClassResults const& results, std::vector<std::string> const& answers_files,
                         DecimalMark mark = DecimalMark::point);
/// New questions on the slips of a student's work.
using NewOnSlips = std::function<std::vector<OnSlip>(StudentResult const&)>;
/// A page for each of these students, but for those whose row stands in the wrong place. `set` and its questions say what a
/// letter of the slip key stands for, where a script was marked with letters.
FeedbackDocument feedback_document(std::vector<StudentResult> const& students, ProblemSet const& set,
                                   QuestionsByCode const& questions, NewOnSlips const& new_questions = {});

/// What the student wrote; where a script was marked with a letter or a tick, what they must have written.
std::string what_was_written(Judgement const& judgement, QuestionsByCode const& questions, Conventions const& conventions);

}  // namespace molewright
