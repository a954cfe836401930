#pragma once
// Are the data of a problem enough, and do they agree? What is missing is named, and what contradicts is named with by how much.
#include <optional>
#include <string>
#include <vector>

#include "engine/conventions.h"
#include "engine/network.h"

namespace molewright {

/// The first relation that the given data break beyond their printed figures; "contradiction" with the two quantities, in the
/// line of one of them. `network` has its reactions added, and `derivation` is what it leads to without the instances `banned`.
std::optional<PlacedFault> contradiction(Network const& network, Network::Derivation const& derivation,
                                         Conventions const& conventions, std::vector<int> const& banned = {});

/// The instances by which an ion would be used up to nothing in a precipitation whose solubility product is given: what the solid
/// leaves of it is not nothing. `network` has its reactions added.
std::vector<int> used_up_to_nothing(Network const& network, Conventions const& conventions);

/// Whether a given, of an index, also follows from the other data of a problem, and agrees with them within the printed figures.
/// `network` as above; it holds no contradiction.
bool is_confirmed(Network const& network, std::size_t given, Conventions const& conventions);

/// Which of the acid and the base whose reaction an asked pH rests on is left over; empty where they use each other up, or where
/// no pH is asked. `network` has its reactions added.
std::string acid_or_base_left(Network const& network, Conventions const& conventions);

/// "contradiction" where a reactant that is said to be in excess is there in a smaller amount than would be used. `network` and
/// `derivation` as above.
std::optional<PlacedFault> not_in_excess(Network const& network, Network::Derivation const& derivation,
                                         Conventions const& conventions);

/// Whether the derivation leads to what is asked; what is only stated can always be.
bool can_be_had(Network const& network, Network::Derivation const& derivation, Find const& find);

/// Why find `find` cannot be had, with the single quantities each of which would be enough ("missing-data").
PlacedFault missing_data(Problem const& problem, std::size_t find);

/// "does-not-happen" where a double exchange of two dissolved salts is written whose products the solubility table both calls
/// soluble.
std::optional<Fault> does_not_happen(Equation const& equation);

}  // namespace molewright
