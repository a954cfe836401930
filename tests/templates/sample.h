#pragma once
// A class made up for the layouts' tests: hand-made data, so that they need no solver. The numbers were worked by hand with A(Ag)
// = 107.87, A(Cl) = 35.45.
#include <string>

#include "templates/answers.h"
#include "templates/feedback.h"
#include "templates/marking_card.h"
#include "templates/report.h"
#include "templates/sheet.h"

namespace molewright::sample {

inline constexpr char const* title = "Solutions for the greenhouse";
/// Every character that the chemistry may print.
inline constexpr char const* all_signs =
    "₀₁₂₃₄₅₆₇₈₉ ⁰¹²³⁴⁵⁶⁷⁸⁹ ⁺ ⁻ ₊ ₋ · → ⇌ × µ ° − ≈ √ Δ ρ γ ν ½ ≤ ≥ □ ☐ ✓ – ’ “ ” … a\u2009b a\u202Fb a\u00A0b é ü ñ ø ß";
inline constexpr char const* long_name = "Wilhelmina-Anneliese Featherstonehaugh-K";  // 40 characters

inline std::string precipitate_text() {
  return "Excess silver nitrate solution is added to 40.0 mL of 0.150 mol/L barium chloride solution, drawn from the bench tank "
         "of the greenhouse. "
         "The white solid AgCl is filtered off, washed and dried.\n(a) What amount of BaCl₂ was in the sample?\n(b) What mass of "
         "silver chloride forms?";
}

inline SheetQuestion precipitate(std::string number) {
  return {std::move(number), "K7M2-Q4TX9", precipitate_text(), {{"(a) n(BaCl₂)", true, 1}, {"(b) m(AgCl)", true, 3}}, 5};
}

inline Sheet sheet(std::string student, std::string version) {
  Sheet s{std::move(student), std::move(version), false, {}, {}};
  s.questions.push_back(
      {"1", "A3F9-77KDQ", "What amount of KNO₃ is in 25.0 mL of a 0.200 mol/L solution?", {{"n(KNO₃)", true, 2}}, 2});
  s.questions.push_back(
      {"2",
       "B8R2-X4MTC",
       "Calcium nitrate is bought as the hydrate Ca(NO₃)₂·4H₂O. What mass of it holds 1.20 × 10⁻² mol of calcium ions?",
       {{"m(Ca(NO₃)₂·4H₂O)", true, 3}},
       3});
  s.questions.push_back({"3",
                         "C5P6-H2WNE",
                         "A pipette takes 10.0 mL of a 1.50 mol/L stock solution of MgSO₄ into a 250.0 mL flask, which is filled "
                         "to the mark. What is the "
                         "concentration of the new solution?",
                         {{"c₂(MgSO₄)", true, 2}},
                         2});
  s.questions.push_back(precipitate("4"));
  s.questions.push_back({"5",
                         "D4T8-Y9GRA",
                         "20.0 mL of 0.100 mol/L CaCl₂ solution and 30.0 mL of 0.120 mol/L Na₂CO₃ solution are mixed:\nCaCl₂(aq) "
                         "+ Na₂CO₃(aq) → CaCO₃(s) + 2NaCl(aq)"
                         "\nWhich reagent is limiting, and what mass of CaCO₃ can form?",
                         {{"(a) limiting reagent", false, 1}, {"(b) m(CaCO₃)", true, 3}},
                         6});
  s.cautions =
      "Silver nitrate stains skin and harms water life. Barium chloride is poisonous if swallowed. Wear eye protection. Check "
      "the safety data sheets, your "
      "school’s risk assessment and local rules.";
  return s;
}

inline SheetDocument sheets(int students) {
  SheetDocument d{title, {}, {}};
  for (int i = 1; i <= students; ++i) d.sheets.push_back(sheet("Student Number " + std::to_string(i), std::to_string(i)));
  return d;
}

inline AnswerPaper answer_paper(std::string student, std::string version) {
  AnswerPaper p{std::move(student), std::move(version), {}};
  AnswerPart first{
      "",
      {{"V(KNO₃) = 25.0 mL = 0.0250 L", 0}, {"n(KNO₃) = c(KNO₃) × V(KNO₃) = 0.200 mol/L × 0.0250 L = 0.005000 mol", 2}},
      "n(KNO₃) = 0.00500 mol",
      "3 significant figures",
      2,
      {{"A", "5.00", "volume left in mL"},
       {"B", "8.00", "divided instead of multiplied"},
       {"C", "0.0500", "volume converted by 100"}}};
  p.questions.push_back({"1", "A3F9-77KDQ", "What amount of KNO₃ is in 25.0 mL of a 0.200 mol/L solution?", {first}, {}});
  AnswerPart a{
      "(a)",
      {{"V(BaCl₂) = 40.0 mL = 0.0400 L", 0}, {"n(BaCl₂) = c(BaCl₂) × V(BaCl₂) = 0.150 mol/L × 0.0400 L = 0.006000 mol", 1}},
      "n(BaCl₂) = 0.00600 mol",
      "3 significant figures",
      1,
      {{"A", "6.00", "volume left in mL"}}};
  AnswerPart b{"(b)",
               {{"n(AgCl) = n(BaCl₂) × ν(AgCl)/ν(BaCl₂) = 0.006000 mol × 2/1 = 0.01200 mol", 1},
                {"M(AgCl) = A(Ag) + A(Cl) = 107.87 g/mol + 35.45 g/mol = 143.32 g/mol", 1},
                {"m(AgCl) = n(AgCl) × M(AgCl) = 0.01200 mol × 143.32 g/mol = 1.7198 g", 1}},
               "m(AgCl) = 1.72 g",
               "3 significant figures",
               3,
               {{"A", "0.860", "mole ratio left out"},
                {"B", "0.430", "mole ratio turned over"},
                {"C", "1720", "volume left in mL"},
                {"D", "0.0120", "stopped at the amount of silver chloride, one step before the end"},
                {"E", "0.768", "atomic numbers used for atomic weights"}}};
  p.questions.push_back(
      {"2", "K7M2-Q4TX9", precipitate_text(), {a, b}, {"Not told apart here: volume converted by 100, power of ten."}});
  return p;
}

inline AnswersDocument answers(int students) {
  AnswersDocument d{title, "thornmere-7", {}, {"Question 2: two slips lead to one number in version 3."}};
  for (int i = 1; i <= students; ++i) {
    AnswerPaper paper = answer_paper("Student Number " + std::to_string(i), std::to_string(i));
    for (int k = 0; k < 3; ++k) {
      paper.questions.push_back(paper.questions[static_cast<std::size_t>(k % 2)]);
      paper.questions.back().number = std::to_string(3 + k);
    }
    d.papers.push_back(std::move(paper));
  }
  return d;
}

inline MarkingCard card(int students, int columns) {
  MarkingCard c{title, {}, {}, {}, {}};
  for (int i = 1; i <= columns; ++i) {
    c.columns.push_back(std::to_string(i));
    c.marks.push_back(3);
  }
  for (int s = 1; s <= students; ++s) {
    CardRow row{"Student Number " + std::to_string(s), "version " + std::to_string(s), {}};
    for (int i = 1; i <= columns; ++i) {
      CardCell cell{i == 2 ? "1.20 × 10³ mL" : "0.00" + std::to_string(100 + s + i) + " mol", {}};
      for (int k = 0; k < 2 + i % 4; ++k)
        cell.slips.push_back({std::string(1, static_cast<char>('A' + k)), "0.0" + std::to_string(200 + s * 7 + k)});
      row.cells.push_back(std::move(cell));
    }
    c.rows.push_back(std::move(row));
  }
  for (int i = 1; i <= columns; ++i) {
    CardLegend legend{std::to_string(i), {}};
    for (int k = 0; i % 5 != 0 && k < 2 + i % 4; ++k)  // every fifth has meanings that differ from paper to paper
      legend.lines.push_back({std::string(1, static_cast<char>('A' + k)),
                              "mole ratio turned over, or the coefficients of the unbalanced equation used"});
    c.legend.push_back(std::move(legend));
  }
  return c;
}

inline ClassReport report(int students) {
  ClassReport r;
  r.title = title;
  r.present = students - 1;
  r.absent = 1;
  r.out_of = 15;
  r.summary = "Mean 9.4 marks, standard deviation 3.1 (n − 1), from 2 to 15, median 10.";
  r.columns = {"1", "2", "3", "4a", "4b", "5a", "5b"};
  r.signs = {"✓ right",
             "→ right from an earlier wrong value",
             "s1, s2 … the slip named below",
             "× wrong, no cause named",
             "– nothing written",
             "? could not be read",
             "* marks suggested for a slip, not counted before you accept them; the total with them stands in brackets"};
  for (int s = 1; s <= students; ++s) {
    ReportRow row{"Student Number " + std::to_string(s),
                  s == 3,
                  {},
                  std::to_string(s % 15) + (s % 4 == 0 ? " (" + std::to_string(s % 15 + 1) + ")" : "")};
    char const* const signs[] = {"✓", "→", "s1", "×", "–", "?", "s2"};
    for (int c = 0; c < 7; ++c)
      row.cells.push_back({std::to_string((s + c) % 3) + ((s + c) % 7 == 2 ? "*" : ""), signs[(s * 3 + c) % 7]});
    r.rows.push_back(std::move(row));
  }
  r.slips = {{"s1", "volume left in mL", {"Student Number 2", "Student Number 5", long_name}},
             {"s2", "mole ratio turned over", {"Student Number 4"}}};
  r.parts = {{"1", "amount from concentration and volume", 9, 0, 2, 0, 0, 0.86, ""},
             {"2", "mass from amount", 6, 0, 4, 1, 0, 0.61, ""},
             {"3", "dilution", 7, 0, 2, 1, 1, 0.7, ""},
             {"4a", "precipitate", 8, 0, 3, 0, 0, 0.73, ""},
             {"4b", "precipitate", 4, 2, 4, 1, 0, 0.5, ""},
             {"5a", "limiting reagent", 5, 0, 6, 0, 0, 0.45, ""},
             {"5b", "limiting reagent", 0, 0, 9, 2, 0, 0.0, "Nobody had this right: look at the question first."}};
  r.distribution = {{"0–2", 2}, {"3–5", 0}, {"6–8", 4}, {"9–11", 7}, {"12–15", 3}};
  r.about_discrimination = "Discrimination is not given: it needs one paper for all.";
  r.faults = {"answers.csv:14:9: a student is given twice, the first row stays"};
  return r;
}

inline FeedbackDocument feedback(int students) {
  FeedbackDocument d{title, {}};
  for (int s = 1; s <= students; ++s) {
    FeedbackPage page{"Student Number " + std::to_string(s), s == 3, 7, 10, {}};
    page.items.push_back({"1", "0.00500 mol", "0.00500 mol", 2, 2, true, "Right.", ""});
    page.items.push_back(
        {"2", "6.00 mol", "0.00600 mol", 0, 1, false,
         "Your route is sound. In n = c × V the volume must be in litres when c is in mol/L: 40.0 mL is 0.0400 L.",
         "Ten short lines of n = c × V with mixed mL and L, the unit written beside every number."});
    page.items.push_back({"3", "", "1.72 g", 0, 3, false,
                          "Nothing was written here. Begin with what you know: c and V of the barium chloride solution.", ""});
    page.items.push_back(
        {"4a", "1720 g", "1.72 g", 3, 3, false, "This follows from your answer to part 2, so it earns its marks.", ""});
    if (s == 1)
      page.fresh = {
          {"Ten short lines of n = c × V with mixed mL and L", "Q7KD-2M", "What amount is in 25.0 mL of it?", "0.0125 mol"},
          {"molar masses of hydrates", "B3XT-9P", "What mass holds 0.100 mol?\nIt is the blue hydrate.", "25.0 g"}};
    d.pages.push_back(std::move(page));
  }
  return d;
}

}  // namespace molewright::sample
