#pragma once
// What a tutor can do about a wrong answer: one question to ask, and a fresh problem whose numbers answer it.
#include "app/console.h"
#include "generators/telling_apart.h"
#include "marker/probe.h"

namespace molewright {

void print_probe(Console& console, Probe const& probe, Judgement const& judgement);
/// {"node", "text", "replies": [{"value", "right", "slips": [[ids of a candidate] ...]}]}
Json probe_json(Probe const& probe, Judgement const& judgement);

/// `remakeable`: the question's code can be used again.
void print_next(Console& console, TellingApart const& next, bool remakeable);
/// {"code", "text", "part", "answer", "unit", "wrong": [{"slips", "answer"}], "all_apart"}
Json next_json(TellingApart const& next, bool remakeable);

}  // namespace molewright
