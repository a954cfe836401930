// Edits of a working.
#include "engine/edit.h"

#include <catch2/catch.hpp>
#include <vector>

#include "worked.h"

using namespace molewright;

TEST_CASE("edit: what cannot be run is a fault", "[engine][edit]") {
  auto const worked = worked_from("problem p; given n(CaCl2) = 0.0325 mol; given V(CaCl2) = 0.235 L; find c(CaCl2) in mol/L");
  auto const& working = worked.accepted.front();
  int const c = working.finds[0].node, V = working.find_node("V(CaCl2)");
  REQUIRE(V >= 0);
  Definition zero;
  zero.factor = Rational(0);
  Definition loop;
  loop.operation = Operation::product;
  loop.terms = {Term{c, 1}};
  struct Row {
    Edit edit;
    char const* what;
  };
  for (auto const& row : std::vector<Row>{{NodeEdit{V, zero}, "the edits lead to a division by zero"},
                                          {NodeEdit{V, loop}, "the edits make a loop"},
                                          {NodeEdit{999, zero}, "an edit is of a node that is not in the working"},
                                          {AnswerEdit{5, V}, "an edit is of a node or an answer that is not in the working"}}) {
    auto const result = run(worked, working, {row.edit}, Conventions{});
    REQUIRE(std::holds_alternative<PlacedFault>(result));
    CHECK(std::get<PlacedFault>(result).fault.id == "cannot-run");
    CHECK(std::get<PlacedFault>(result).fault.what == row.what);
  }
}

TEST_CASE("edit: an edit may read a node that comes later", "[engine][edit]") {
  auto const worked = worked_from("problem p; given V(KNO3) = 35.0 mL; given c(KNO3) = 0.0845 mol/L; find n(KNO3) in mol");
  auto const& working = worked.accepted.front();
  int const litres = working.find_node("V(KNO3) in L"), c = working.find_node("c(KNO3)");
  REQUIRE(litres >= 0);
  REQUIRE(c >= 0);
  Definition twice;  // c read from the volume in litres, which stands after it
  twice.operation = Operation::product;
  twice.terms = {Term{litres, 1}};
  twice.factor = Rational(2);
  auto const result = run(worked, working, {NodeEdit{c, twice}}, Conventions{});
  REQUIRE(std::holds_alternative<Working>(result));
  auto const& edited = std::get<Working>(result);
  CHECK(edited.nodes[static_cast<std::size_t>(edited.finds[0].node)].value.number ==
        Rational(2) * Rational(35, 1000) * Rational(35, 1000));
}
