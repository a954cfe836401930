#pragma once
// A table of tests/data as text, kept alive for the rows that look into it.
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>

#include "engine/tsv.h"

namespace molewright::test {

inline std::string data_text(std::string const& name) {
  std::ifstream file(std::string(MOLEWRIGHT_TEST_DATA) + "/" + name, std::ios::binary);
  INFO(name);
  REQUIRE(file.good());
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

struct TableFile {
  explicit TableFile(std::string const& name) : text(data_text(name)), table(text) {}
  TableFile(TableFile const&) = delete;
  std::string cell(std::size_t row, std::string_view column) const { return std::string(table.cell(row, table.column(column))); }
  std::string const text;
  TsvTable const table;
};

}  // namespace molewright::test
