#include "app/console.h"

#include <algorithm>
#include <cstdio>
#include <iostream>
#include <nlohmann/json.hpp>

#include "app/files.h"

namespace molewright {

std::vector<Item> Console::items(std::vector<std::string> const& arguments) {
  std::vector<Item> out;
  if (arguments.size() == 1 && arguments.front() == "-") {
    std::string line;
    for (std::size_t number = 1; std::getline(std::cin, line); ++number) {
      if (!line.empty() && line.back() == '\r') line.pop_back();
      if (number == 1 && line.rfind("\xEF\xBB\xBF", 0) == 0) line.erase(0, 3);
      out.push_back({line, "-", number, true});
    }
    return out;
  }
  for (std::size_t i = 0; i < arguments.size(); ++i) out.push_back({arguments[i], "argument " + std::to_string(i + 1), 1, false});
  return out;
}

void Console::print(std::string_view line) {
  std::fwrite(line.data(), 1, line.size(), stdout);
  std::fputc('\n', stdout);
}

std::string json_line(Json const& object) { return object.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n'; }

void Console::print_json(Json const& object) {
  auto const line = json_line(object);
  std::fwrite(line.data(), 1, line.size(), stdout);
}

void Console::report(PlacedFault const& fault, std::string_view file) {
  ++faults_;
  std::fflush(stdout);
  auto const text = fault.line_text.empty() ? std::string(file) + ':' + std::to_string(fault.line) + ':' +
                                                  std::to_string(fault.column) + ": " + sentence(fault.fault)
                                            : show(fault, file);
  std::fwrite(text.data(), 1, text.size(), stderr);
  if (text.empty() || text.back() != '\n') std::fputc('\n', stderr);
}

void Console::report(Fault const& fault, Item const& item) {
  report({fault, item.line, column(item.text, std::min(fault.offset, item.text.size())), item.text}, item.source);
}

void Console::report(Fault const& fault, std::string_view file) { report({fault, 1, 1, ""}, file); }

void Console::warn(std::string_view text) {
  std::fflush(stdout);
  std::fprintf(stderr, "%.*s\n", static_cast<int>(text.size()), text.data());
}

Json error_json(Fault const& fault, std::string_view text) {
  return {{"error", fault.id},
          {"message", sentence(fault)},
          {"column", column(text, std::min(fault.offset, text.size()))},
          {"input", std::string(text)}};
}

}  // namespace molewright
