#include "src/draft/made_boxes.hpp"

#include "src/draft/box_json.hpp"

namespace boxproof::draft {

MadeBoxes::MadeBoxes(std::string_view source) : made_(std::make_shared<read::MadeText>()) {
  made_->source = source;
  made_->columns = column_names;
  made_->pieces.emplace_back();
  made_->text = R"({"combiners":[)";
}

void MadeBoxes::add(const Box& box, const Texts& texts, const BoxPlaces& places) {
  if (made_->text.back() != '[') made_->text += ",\n";
  const auto put_piece = [&](std::size_t column, const CellPlace& place, std::uint32_t ahead = 0) {
    made_->pieces.push_back({static_cast<std::uint32_t>(made_->text.size()) + ahead, place.offset,
                             place.offset, place.row, static_cast<std::uint32_t>(column)});
  };
  const auto mark = [&](std::size_t c, const Cells* circuit) {
    if (circuit == nullptr) {
      put_piece(c, places.box[c]);
      if (columns[c].holds == Holds::labels)
        for (const auto& [ahead, offset] : places.labels) put_piece(c, {offset, places.box[c].row}, ahead);
      return;
    }
    const Places& of_circuit = places.circuits[static_cast<std::size_t>(circuit - box.circuits.data())];
    const std::size_t stated = of_circuit[c].row != 0 ? c : column("module");  // a circuit may have no id
    put_piece(stated, of_circuit[stated]);
  };
  constexpr std::size_t id = column("id");
  put_piece(id, places.box[id]);
  BoxJson(texts, made_->text, mark).box(box);
}

std::shared_ptr<const read::MadeText> MadeBoxes::finish() {
  made_->text += "]}";
  return std::move(made_);
}

}  // namespace boxproof::draft
