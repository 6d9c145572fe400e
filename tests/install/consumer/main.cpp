// Reads a design, judges it, prints the verdict of the site and of each box, and where the first finding is.
// Exit status: 0 judged, 3 the design cannot be read.
#include <boxproof/check.hpp>
#include <boxproof/report.hpp>
#include <fstream>
#include <iostream>
#include <iterator>

namespace {

std::string_view name_of(boxproof::Verdict verdict) {
  return boxproof::verdict_names[static_cast<std::size_t>(verdict)];
}

void judge(const boxproof::Document& document) {
  const boxproof::DesignFile design = boxproof::read_design(document);
  const boxproof::Amendments amendments{&document, design.design.amendments_offset};
  const boxproof::Edition edition =
      boxproof::load_edition(design.design.edition, amendments.offset ? &amendments : nullptr);
  const boxproof::Judgement judgement = boxproof::check(design, edition, nullptr, {});
  std::cout << "verdict " << name_of(judgement.verdict) << ", NEC " << edition.name << ", "
            << judgement.findings.size() << " findings\n";
  for (const boxproof::BoxResult& box : judgement.boxes)
    std::cout << design.design.combiners[box.index].id << " " << name_of(box.verdict) << "\n";
  if (!judgement.findings.empty()) {
    const boxproof::Finding& first = judgement.findings.front();
    std::cout << first.place.file << ":" << first.place.line << ": " << first.rule->id << ": "
              << first.message << "\n";
  }
  std::cout << boxproof::caution() << "\n";
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  std::ifstream file(argv[1], std::ios::binary);
  const boxproof::Document document{argv[1], {std::istreambuf_iterator<char>(file), {}}};
  try {
    judge(document);
  } catch (const boxproof::InputError& e) {
    for (const boxproof::Problem& problem : e.problems()) std::cerr << boxproof::to_text(problem) << "\n";
    return 3;
  }
  return 0;
}
