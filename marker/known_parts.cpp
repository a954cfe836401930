#include "marker/known_parts.h"

namespace molewright {

std::string KnownParts::key(std::size_t find, Written const& written) {
  constexpr std::size_t never_cut = 150;
  if (written.raw.size() > never_cut || !written.working.empty()) return {};
  std::string all;
  all.reserve(written.raw.size() + 16);
  all += static_cast<char>('a' + static_cast<int>(find));
  all += static_cast<char>('a' + static_cast<int>(written.kind));
  all += written.letter;
  all += written.zeros_may_be_lost ? '1' : '0';
  all += written.why.empty() ? '0' : '1';
  for (auto const& note : written.notes) all += note + ',';
  all += '\0';
  all += written.raw;
  all += '\0';
  return all;
}

void KnownParts::keep(std::string key, Judgement const& judgement, Carried& carried) {
  constexpr std::size_t most_kept = 2000;
  bool const room = parts_.size() < most_kept;
  if (carried.usable && carried.id != Carried::told)
    carried.id = room ? Carried::first_kept + static_cast<int>(parts_.size()) : Carried::unknown;
  if (room) parts_.emplace(std::move(key), Part{judgement, carried});
}

std::vector<SlipAnswer> const* KnownParts::on_top(std::size_t find, std::string const& carried) const {
  auto const at = on_top_.find({find, carried});
  return at == on_top_.end() ? nullptr : &at->second;
}

std::vector<SlipAnswer> const& KnownParts::keep_on_top(std::size_t find, std::string const& carried,
                                                       std::vector<SlipAnswer> const& answers) {
  constexpr std::size_t most_kept = 200;
  if (on_top_.size() >= most_kept) return answers;
  return on_top_.emplace(std::pair{find, carried}, answers).first->second;
}

}  // namespace molewright
