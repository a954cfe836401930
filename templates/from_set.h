#pragma once
// From a problem set to what its pages need: strings, marks and steps. The only place where the layouts' room reads a working.
#include <string>
#include <string_view>
#include <vector>

#include "generators/set.h"
#include "templates/answers.h"
#include "templates/marking_card.h"
#include "templates/sheet.h"

namespace molewright {

SheetDocument sheet_document(ProblemSet const& set);
AnswersDocument answers_document(ProblemSet const& set);
/// Columns of answers ("1", "2a", "2b"), as the marking card and the answers file have them: in the order of the questions, also
/// where papers have different parts.
std::vector<std::string> answer_columns(ProblemSet const& set);
/// Columns of a wide answers file for the students' own readings ("1 measured"), each once.
std::vector<std::string> reading_columns(ProblemSet const& set);
/// A row a student, in class order; a row a version where papers are shared.
MarkingCard marking_card(ProblemSet const& set);

/// A number with its unit, or a formula, in plain spelling ("1.20e3 g", "BaCl2") as people read it ("1.20 × 10³ g", "BaCl₂").
/// What is neither comes back unchanged.
std::string pretty_answer(std::string_view plain, Conventions const& conventions = {});

/// The answers to all parts of a question, in a line: "c(HCl) = 0.102 mol/L; m(NaCl) = 1.2 g".
std::string answers_line(Question const& question, Conventions const& conventions);

/// A slip's words for keys and lists: "volume left in mL". The id itself where there are no words.
std::string short_words(std::string_view slip_id, Conventions const& conventions = {});

/// Cautions for the reagents of these questions, in one paragraph that defers to the safety data sheet; empty where the tables
/// know of none.
std::string cautions_for(std::vector<Question> const& questions, Naming naming);

}  // namespace molewright
