#pragma once
// What is too much for one file is made, printed and let go in volumes: memory holds one, however many there are.
#include <cstddef>
#include <string>

namespace molewright {

/// Students, or papers, of one volume.
inline constexpr std::size_t students_of_a_volume = 500;

constexpr std::size_t volumes_of(std::size_t students) { return (students + students_of_a_volume - 1) / students_of_a_volume; }

/// "sheets.pdf" where there is one volume, else "sheets-001.pdf" ...; `volume` from 1.
inline std::string volume_name(std::string const& name, std::string const& ending, std::size_t volume, std::size_t volumes) {
  if (volumes <= 1) return name + ending;
  auto number = std::to_string(volume);
  if (number.size() < 3) number.insert(0, 3 - number.size(), '0');
  return name + '-' + number + ending;
}

}  // namespace molewright
