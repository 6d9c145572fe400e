// Combiner boxes and box types of a design, read as merge patches.
#pragma once

#include <memory>

#include "boxproof/design.hpp"
#include "src/read/object.hpp"

namespace boxproof::read {

// Reads boxes once everything that they can name is known. Holds no state of a box, so that several readers
// can work on one design at once.
class BoxReader {
 public:
  BoxReader(const Design& design, const Tree& types, Problems& problems)
      : design_(design), types_(types), reading_{problems, nullptr, nullptr} {}

  // A box of the plan.
  void box(const Tree& tree, Combiner& box);
  // What a box type states. `value` is its object in the tree of the types.
  void type(const Value& value, BoxType& type);

 private:
  template <class T>
  const T* refer(const Library<T>& library, std::string_view kind, const Field& field);
  template <class T, class Read>
  std::shared_ptr<const T> part(ObjectReader& r, std::string_view key,
                                const std::shared_ptr<const T>* in_type, Read&& read);
  void parts(ObjectReader& r, Combiner& box, const Combiner* type);
  std::vector<Circuit> circuits(const Field& field);
  Circuit circuit(const Value& value, std::size_t position);
  Run run(const Field& field);
  std::optional<GroundingConductor> grounding(const Field& field);
  Mounting mounting(const Field& field);
  Enclosure enclosure(const Field& field);
  Fuse fuse(const Field& field);
  Output output(const Field& field);
  Disconnect disconnect(const Field& field);
  std::vector<Label> labels(const Field& field);

  const Design& design_;
  const Tree& types_;
  Reading reading_;
};

}  // namespace boxproof::read
