#include "app/talk.h"

#include <unistd.h>

#include <cstdio>
#include <iostream>

#include "app/plain_text.h"
#include "marker/table.h"

namespace molewright {

Talk::Talk(bool plain) : plain_(plain), typed_(isatty(STDIN_FILENO) == 1) {}

void Talk::put(std::string_view text) const {
  auto const shown = plain_ ? plain_text(text) : std::string(text);
  std::fwrite(shown.data(), 1, shown.size(), stdout);
}

void Talk::say(std::string_view text) const {
  put(text);
  std::fputc('\n', stdout);
}

std::optional<std::string> Talk::ask(std::string_view prompt) const {
  put(prompt);
  if (!typed_) std::fputc('\n', stdout);
  std::fflush(stdout);
  std::string line;
  if (!std::getline(std::cin, line)) {
    if (typed_) std::fputc('\n', stdout);
    return std::nullopt;
  }
  return std::string(trimmed(line));
}

}  // namespace molewright
