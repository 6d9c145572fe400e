// What a label says, ready to be made. The wording is ours, except where the edition prescribes it.
#pragma once

#include <string>
#include <string_view>

#include "boxproof/labels.hpp"

namespace boxproof::report {

// A value that cannot be computed, or a place that only the site knows, is left open as "____".
std::string label_words(const LabelEntry& entry);

// Where it goes: "on the disconnect", "at the service equipment".
std::string_view label_place(const LabelEntry& entry);

// How it must look and how often it is repeated; empty where the edition says nothing.
std::string label_look(const LabelEntry& entry);

// How the conductors that come into the box are to be told apart, by the grounding of the array.
std::string conductor_identification(const Inverter& inverter, const Edition& edition);

}  // namespace boxproof::report
