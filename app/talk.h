#pragma once
// A conversation at the terminal: plain lines out, a line at a time in. No drawing, no colours, nothing that moves.
#include <optional>
#include <string>
#include <string_view>

namespace molewright {

class Talk {
 public:
  /// `plain`: formulas without raised and lowered digits, for ears and for terminals that lack them.
  explicit Talk(bool plain);
  void say(std::string_view text) const;
  /// What was written at the prompt, without blanks round it; nothing at the end of the input.
  std::optional<std::string> ask(std::string_view prompt) const;

 private:
  void put(std::string_view text) const;
  bool plain_;
  bool typed_;  ///< a person types: the terminal itself shows what was written
};

}  // namespace molewright
