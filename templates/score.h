#pragma once
// How marks and shares of marks are said, on every page alike.
#include <string>

namespace molewright::paper {

/// "1 mark", "3 marks".
std::string counted_marks(int marks);
/// "2 of 3 marks"; with `to_read` marks still to be given "2 of 3 marks; 4 marks are not given yet".
std::string score(int marks, int out_of, int to_read = 0);
/// A share from 0 to 1 as a percentage: "70 %".
std::string percent(double share);
/// The same behind ten squares, black and white, that copy as text: "■■■■■■■□□□ 70 %".
std::string share_bar(double share);

}  // namespace molewright::paper
