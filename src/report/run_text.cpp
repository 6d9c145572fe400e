#include "boxproof/run_report.hpp"

namespace boxproof {

std::unique_ptr<RunReport> text_report(bool) {
  return nullptr;
}
std::unique_ptr<RunReport> markdown_report() {
  return nullptr;
}

}  // namespace boxproof
