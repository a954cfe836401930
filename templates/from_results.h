#pragma once
// From a class's results to its report and to the students' feedback.
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
/// of the files that its places are in; `conventions` those of the course.
ClassReport class_report(ClassResults const& results, std::vector<std::string> const& answers_files,
                         Conventions const& conventions = {});
/// A student's page, with new questions on the slips of their work. `set` and its questions say what a letter of the slip key
/// stands for, where a script was marked with letters.
FeedbackPage feedback_page(StudentResult const& student, ProblemSet const& set, QuestionsByCode const& questions,
                           std::vector<OnSlip> const& fresh = {});

/// What the student wrote; where a script was marked with a letter or a tick, what they must have written.
std::string what_was_written(Judgement const& judgement, QuestionsByCode const& questions, Conventions const& conventions);

}  // namespace molewright
