#include "marker/question.h"

namespace molewright {

std::string_view name(Form form) {
  switch (form) {
    case Form::open:
      return "open";
    case Form::choice:
      return "choice";
    case Form::mistake:
      return "mistake";
    case Form::faded:
      return "faded";
  }
  return "open";
}

std::optional<Form> form_named(std::string_view text) {
  for (Form const form : {Form::open, Form::choice, Form::mistake, Form::faded})
    if (name(form) == text) return form;
  return std::nullopt;
}

std::optional<char> right_letter(Question const& question) {
  for (Option const& option : question.options)
    if (option.right) return option.letter;
  return std::nullopt;
}

std::string part_name(Question const& question, std::size_t find) {
  if (question.worked.problem.finds.size() < 2) return "";
  // After "z" comes "aa", as in a spreadsheet's columns.
  std::string name;
  for (std::size_t rest = find + 1; rest > 0; rest = (rest - 1) / 26)
    name.insert(name.begin(), static_cast<char>('a' + (rest - 1) % 26));
  return name;
}

std::string column_name(Question const& question, std::size_t find) { return question.number + part_name(question, find); }

}  // namespace molewright
