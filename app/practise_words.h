#pragma once
// What is said while practising: patterns for fmt. Calm and plain; nothing is counted and nothing is praised.
namespace molewright::words {

inline constexpr char const* greeting =
    "Practice. Write an answer with its unit, or one of these words: hint, step, steps, answer, another, help, quit.";
inline constexpr char const* help =
    "hint: which relation comes next. A second time: the formula, without numbers.\n"
    "step: the next step, worked.\n"
    "steps: go through it step by step, each step yours to try.\n"
    "answer: the whole working.\n"
    "question: the question again.\n"
    "another: leave this one and take another.\n"
    "kinds: choose what to practise.\n"
    "quit: stop. The end of the input stops too.";
inline constexpr char const* which_kinds =
    "What would you like to practise? Name a kind, or several with commas between. Write list to hear all kinds, or press Enter "
    "and the program chooses.";
inline constexpr char const* way_back = "Write back to return to your question.";
inline constexpr char const* kinds_prompt = "Kinds: ";
inline constexpr char const* listed_kind = "{}: {}";
inline constexpr char const* no_such_kind = "There is no kind called {}.";
inline constexpr char const* did_you_mean = " Did you mean {}?";
inline constexpr char const* list_for_all = " Write list to hear all kinds.";
inline constexpr char const* going_on = "This is the question that you left:";
inline constexpr char const* cannot_go_on = "The question that you left cannot be made again here ({}). Here is another.";
inline constexpr char const* it_has_changed = "it has changed since";
inline constexpr char const* for_a_slip = "This one is about something that went wrong before: {}.";
inline constexpr char const* no_question = "No question could be made: {}.";

inline constexpr char const* answer_prompt = "Answer";  // then the part, what is asked, its unit
inline constexpr char const* in_unit = " in {}";
inline constexpr char const* done_prompt = "Press Enter for another question: ";
inline constexpr char const* when_done = "Press Enter for another question, or write answer, kinds or quit.";
inline constexpr char const* nothing_written = "Write an answer, or hint, step, steps, answer, another, kinds, help or quit.";
inline constexpr char const* try_again = "Try again when you like; hint and steps are there too.";
inline constexpr char const* not_read_number = "That cannot be read as one number with its unit, such as 1.72 g.";
inline constexpr char const* not_read_formula = "That cannot be read as a formula, such as CuSO4.";
inline constexpr char const* not_read_words = "That cannot be read as chemistry is usually written.";
inline constexpr char const* did_you_mean_word = "There is no word \"{}\" here. Did you mean {}?";

inline constexpr char const* formula_is = "Work it out like this: {}.";
inline constexpr char const* no_formula = "There is no more to say without working it. Write step to see it.";
inline constexpr char const* only_step = "There is one step only, and it gives the answer. Write step again to see it.";
inline constexpr char const* not_yet = "{} is not the answer yet.";
inline constexpr char const* step_is_there = "Write step to see the next step worked, or answer for the whole working.";
inline constexpr char const* step_formula = "This step goes like this: {}.";
inline constexpr char const* step_shown_on_enter = "Press Enter to see this step, then go on from it.";
inline constexpr char const* all_shown = "Every step is shown. Write the last result as the answer, rounded, with its unit.";
inline constexpr char const* the_answer_is = "The answer: {}.";

inline constexpr char const* step_by_step =
    "Step by step. Write what you get for each step, or press Enter to see it. Write back to leave.";
inline constexpr char const* press_enter = "Think about it, then press Enter to see it: ";
inline constexpr char const* which_first = "Which one runs out first: ";
inline constexpr char const* left_steps = "Back to the question.";

inline constexpr char const* kept = "Kept in {}. Start with the same file to go on from here.";
inline constexpr char const* not_kept = "Nothing was kept.";
inline constexpr char const* cannot_keep = "This session cannot be kept any more; you can go on all the same.";

}  // namespace molewright::words
