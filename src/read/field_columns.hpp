// The columns that a field record in CSV can have.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace boxproof::read {

enum class Holds : std::uint8_t { text, number, truth, series, words };

struct FieldColumn {
  std::string_view group, key;  // in the JSON of a box
  Holds holds;
};

inline constexpr std::array<std::string_view, 12> field_column_names{
    "id",     "positive", "negative",  "fuses",          "series",        "fuse_a",
    "fuse_v", "fuse_dc",  "posted_id", "posted_strings", "posted_series", "seen"};
// The same as JSON knows them; those of a group stand together.
inline constexpr std::array<FieldColumn, field_column_names.size()> field_columns{
    {{"", "id", Holds::text},
     {"count", "positive", Holds::number},
     {"count", "negative", Holds::number},
     {"count", "fuses", Holds::number},
     {"count", "series", Holds::series},
     {"fuse", "a", Holds::number},
     {"fuse", "v", Holds::number},
     {"fuse", "dc", Holds::truth},
     {"posted", "id", Holds::text},
     {"posted", "strings", Holds::number},
     {"posted", "series", Holds::number},
     {"", "seen", Holds::words}}};

}  // namespace boxproof::read
