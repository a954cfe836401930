#pragma once
// How a question is put: as it stands, with answers to choose from, as a working with a mistake in it, or with its first lines
// given.
#include <cstdint>
#include <string>

#include "marker/question.h"
#include "marker/rules.h"
#include "marker/slip.h"

namespace molewright {

/// A form as a question's code holds it, below 8.
struct FormChoice {
  Form form = Form::open;
  int lines_left = 1;  ///< faded: how many lines of the working are left to the student, 1 to 5
};
std::uint32_t code_of(FormChoice const& choice);
FormChoice form_of(std::uint32_t code);

/// Whether questions of this shape can be put so at all: one find that is a number for a choice and a mistake, and for a faded
/// one a working of two lines or more.
bool can_be_put(Question const& question, FormChoice const& choice, Conventions const& conventions);

/// Puts a question otherwise: text, finds, marks and slip key are changed to what is asked then. `table` holds the slips of the
/// question as it stands. Which slip is planted follows from `seed`. Faults: "form-does-not-fit" (can_be_put is false, fewer than
/// two wrong answers to choose from, no slip that shows in a line).
std::optional<Fault> put(Question& question, FormChoice const& choice, SlipTable const& table, Conventions const& conventions,
                         std::uint32_t seed);

}  // namespace molewright
