// From text to typed input. The library opens no files: the caller hands over the text and a name for
// messages.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "boxproof/asbuilt.hpp"
#include "boxproof/design.hpp"
#include "boxproof/edition.hpp"
#include "boxproof/exceptions.hpp"
#include "boxproof/input_error.hpp"
#include "boxproof/progress.hpp"

namespace boxproof {

namespace read {
class SourceMap;
}

struct Document {
  std::string name;  // as messages show it: the path, or <stdin>
  std::string text;
};

// A design file that has been read. Keeps pointing into its document, which must outlive it.
struct DesignFile {
  Design design;
  std::shared_ptr<read::SourceMap> places;
};

// Reads a design (boxproof-design/1). Throws InputError with every problem of the file.
DesignFile read_design(const Document& document, const ProgressHook& progress = {});

// Reads a site file (boxproof-site/1): a design without boxes and their types. Throws InputError with every
// problem of the file.
Design read_site(const Document& document);

struct RecordFile {
  FieldRecord record;
  std::shared_ptr<read::SourceMap> places;
};

// Reads a field record (boxproof-asbuilt/1, JSON or CSV). Throws InputError with every problem of the file.
RecordFile read_field_record(const Document& document, const ProgressHook& progress = {});

// Reads agreed exceptions (boxproof-exceptions/1). Throws InputError with every problem of the file.
ExceptionsFile read_exceptions(const Document& document);

// Local amendments: a JSON object in a document, starting at `offset`.
struct Amendments {
  const Document* document = nullptr;
  std::optional<std::uint32_t> offset;  // nothing: the whole document
};

// The edition with this name and its local amendments, if any. Throws InputError where the amendments name a
// key that the edition does not have, or change the type of a value; std::out_of_range where there is no such
// edition.
Edition load_edition(std::string_view name, const Amendments* amendments = nullptr);

}  // namespace boxproof
