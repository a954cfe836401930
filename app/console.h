#pragma once
// What every command shares: its options, where its items come from, how it prints results and faults, and its exit status.
#include <cstddef>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"
#include "marker/rules.h"

namespace molewright {

using Json = nlohmann::ordered_json;

/// Exit statuses of the contract.
enum class Status { well = 0, fault = 1, usage = 2 };

/// One piece of input: an argument, or a line of standard input.
struct Item {
  std::string text;
  std::string source;  ///< "argument 2" or "-"
  std::size_t line = 1;
  bool listed = false;  ///< from standard input: its answer is one line, so that answers stay beside their items
};

class Console {
 public:
  bool json = false;
  Course course;
  bool own_course = false;  ///< named on the command line: it goes before the one that a set names

  /// The arguments, or the lines of standard input where the only argument is "-". Blank lines stay, so that answers keep their
  /// order.
  static std::vector<Item> items(std::vector<std::string> const& arguments);

  void print(std::string_view line);
  void print_json(Json const& object);  ///< one line, UTF-8 whatever came in
  void report(PlacedFault const& fault, std::string_view file);
  void report(Fault const& fault, Item const& item);       ///< placed in the item's line
  void report(Fault const& fault, std::string_view file);  ///< about the file as a whole
  void warn(std::string_view text);
  void at_fault() { ++faults_; }  ///< something in the input was at fault, and was told as a result
  Status status() const { return faults_ > 0 ? Status::fault : Status::well; }
  std::size_t faults() const { return faults_; }

 private:
  std::size_t faults_ = 0;
};

/// One line of JSON with its end, UTF-8 whatever came in.
std::string json_line(Json const& object);
/// {"error": id, "message": ..., "column": n, "input": text} for an item that could not be done.
Json error_json(Fault const& fault, std::string_view text);

}  // namespace molewright
