#pragma once
// A cation and an anion that meet in water: what they make.
#include <string>
#include <vector>

#include "engine/mixing_reagent.h"

namespace molewright::mixing {

enum class Event { none, solid, water, gas, weak_acid, electrons };

/// What a cation and an anion make when they meet.
struct Meeting {
  std::vector<Formula> products;
  std::vector<Event> events;
  std::string because;   ///< of the event
  std::string by;        ///< who says that a product without an event stays dissolved
  std::string silent;    ///< on what the tables are silent; empty where they are not
  std::string partly;    ///< the anion that takes H^+ from a weak acid, but not all it could
  std::string too_weak;  ///< the acid that would form is the stronger one
  bool borderline = false, water_used = false;
};

/// Whether an acid that has given up its last proton (`acid.pka`) can give it to the anion of `formed`: that must be the weaker
/// acid, or one that leaves as a gas and is not much stronger. A strong acid always can.
bool drives_out(Acid const& acid, Acid const& formed);
/// `acid`: where the cation is H^+, the acid that brings it (nullptr for bare H^+). A weak acid gives it to the anions of weaker
/// acids only.
Meeting meet(Part const& cation, Part const& anion, Acid const* acid);
bool base_ion(Part const& part);  ///< OH^- or O^2-
Formula water(State state = State::liquid);

}  // namespace molewright::mixing
