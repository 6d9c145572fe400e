#include "boxproof/report.hpp"

namespace boxproof {

std::string_view caution() {
  return "This is an aid to review and no approval. The authority having jurisdiction and its local "
         "amendments decide; hold every section named here against the adopted code. Licensed and "
         "qualified persons do the work. A combiner box stays energised from the array with its switch "
         "open.";
}

std::string_view version() {
  return BOXPROOF_VERSION;
}

}  // namespace boxproof
