// Reading the long list of a document: stretches of its elements side by side, problems in the order of the
// file.
#pragma once

#include <fmt/format.h>

#include <functional>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "boxproof/progress.hpp"
#include "src/read/problems.hpp"
#include "src/read/tree.hpp"

namespace boxproof::read {

// Reads one element. Called from several threads at once, for different elements.
using ReadElement = std::function<void(std::uint32_t index, const Tree& tree, Problems& problems)>;

// Hands every element of the list to `read`. False if the list is not JSON; `problems` then says why.
bool read_list(std::string_view source, std::string_view key, const ListSpan& span, Problems& problems,
               const ReadElement& read, const ProgressHook& progress = {});

// A problem for each element whose id an earlier one has.
template <class Element>
void unique_ids(const std::vector<Element>& elements, std::string_view source, std::string_view key,
                const ListSpan& span, Problems& problems) {
  std::unordered_map<std::string_view, std::size_t> first;
  first.reserve(elements.size());
  for (std::size_t i = 0; i < elements.size(); ++i) {
    if (elements[i].id.empty()) continue;  // told already
    const auto [before, fresh] = first.emplace(elements[i].id, i);
    if (fresh) continue;
    const Tree tree = parse_value(source, span.elements[i]);
    const std::string first_at =
        problems.name_of(span.elements[before->second], fmt::format("/{}/{}", key, before->second));
    problems.add(Value(tree, 0).find("id").offset(), fmt::format("/{}/{}/id", key, i),
                 fmt::format("found the id \"{}\" a second time (first at {}), expected an id for each box",
                             elements[i].id, first_at));
  }
}

}  // namespace boxproof::read
