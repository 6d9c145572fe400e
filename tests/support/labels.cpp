#include "tests/support/labels.hpp"

#include "boxproof/labels.hpp"

namespace boxproof::test {

Json with_fitting_labels(Json design) {
  const auto judged = judge(design);
  const Design& read = judged->design.design;
  for (std::size_t i = 0; i < read.combiners.size(); ++i) {
    if (!design["combiners"][i].contains("labels")) continue;
    BoxFacts facts;
    box_facts(read, read.combiners[i], judged->edition, facts);
    const LabelContents contents = label_contents(facts, judged->edition);
    for (Json& label : design["combiners"][i]["labels"]) {
      if (!label.contains("values")) continue;
      for (std::size_t v = 0; v < label_value_names.size(); ++v) {
        const auto value = static_cast<LabelValue>(v);
        const std::string name(label_value_names[v]);
        if (const auto computed = contents.of(value); computed && label["values"].contains(name))
          label["values"][name] = printed(value, *computed);
      }
    }
  }
  return design;
}

}  // namespace boxproof::test
