#pragma once
// A course file: a teacher's standing choices in TOML. None is needed.
#include <string>
#include <string_view>
#include <vector>

#include "engine/fault.h"
#include "marker/rules.h"

namespace molewright {

struct CourseRead {
  Course course;
  std::vector<PlacedFault>
      faults;  ///< "toml-syntax", "unknown-key" (with the nearest), "unknown-value" (with what is allowed), "wrong-type",
               ///< "cannot-read" and "bad-weight" for a file of atomic weights, and those of toml_syntax
};
/// A file of atomic weights that it names is looked for in `folder`.
CourseRead read_course(std::string_view toml, std::string const& folder = "");

/// The course as JSON keys and values of the contract; read back by course_from_json.
std::string course_to_json(Course const& course);
Result<Course> course_from_json(std::string_view json);

}  // namespace molewright
