#pragma once
// Problem sheets: one paper a student (or a version), with room for working and boxes for the final answers.
#include <string>
#include <vector>

#include "templates/pages.h"

namespace molewright {

/// One thing to find: a row of the answer strip.
struct SheetPart {
  std::string label;     ///< "(a) n(BaCl₂)"; the quantity alone where a question has one part
  bool has_unit = true;  ///< false for a formula and the like: one wide box instead of value and unit
  int marks = 0;
  std::string caption = {};  ///< of the wide box: "formula", "letter", "line"
};
struct SheetQuestion {
  std::string number, code;
  std::string text;  ///< ready to print; a newline begins a paragraph
  std::vector<SheetPart> parts;
  int steps = 1;  ///< of the working: how much room is left for it
};
struct Sheet {
  std::string student;  ///< empty: a line to write the name on
  std::string version;
  bool large_print = false;  ///< 18 point
  std::vector<SheetQuestion> questions;
  std::string cautions;  ///< for whoever does the questions at the bench; empty for none
};
struct SheetDocument {
  std::string title;
  std::string instructions;  ///< one line; empty: the usual one
  std::vector<Sheet> sheets;
};

/// All papers, each beginning on a page of its own.
std::string sheets_pdf(SheetDocument const& document, PageSize size);
std::string sheets_text(SheetDocument const& document);

}  // namespace molewright
