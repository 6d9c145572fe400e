#include "src/draft/write_design.hpp"

#include "src/draft/box_json.hpp"
#include "src/draft/box_types.hpp"
#include "src/draft/json_layout.hpp"

namespace boxproof::draft {
namespace {

using report::put;

struct NoMarks {
  void operator()(std::size_t, const Cells*) const {}
};

// Lays out a box, or a type, whose key takes so many columns of the line.
void put_box(report::Buffer& out, const Texts& texts, const Box& box, const Box* base, std::size_t key = 0) {
  std::string json;
  BoxJson(texts, json, NoMarks()).box(box, base);
  const read::Tree tree = read::parse_value(json, 0);
  constexpr std::size_t indent = 4;
  lay_out(out, read::Value(tree, 0), indent, indent + key);
}

}  // namespace

std::string design_text(const Schedule& schedule, const SitePart& site) {
  report::Buffer out;
  put_site_part(out, site, "design.schema.json", "boxproof-design/1");
  const FoundTypes found = find_types(schedule);
  Texts texts = schedule.texts;
  if (!found.types.empty()) {
    put(out, ",\n  \"box_types\": {");
    for (const FoundType& type : found.types) {
      put(out, &type == found.types.data() ? "\n    " : ",\n    ");
      const std::size_t start = out.size();
      report::put_text(out, type.id);
      put(out, ": ");
      put_box(out, texts, type.base, nullptr, report::width_of({out.data() + start, out.size() - start}));
    }
    put(out, "\n  }");
  }
  put(out, ",\n  \"combiners\": [");
  for (std::size_t i = 0; i < schedule.boxes.size(); ++i) {
    put(out, i == 0 ? "\n    " : ",\n    ");
    if (found.of_box[i] == 0) {
      put_box(out, texts, schedule.boxes[i], nullptr);
      continue;
    }
    const FoundType& type = found.types[found.of_box[i] - 1];
    Box box = schedule.boxes[i];
    box.cells[column("type")] = texts.add(type.id);
    put_box(out, texts, box, &type.base);
  }
  put(out, "\n  ]\n}\n");
  return {out.data(), out.size()};
}

}  // namespace boxproof::draft
