// The parser: nlohmann/json's events into located trees.
#include "src/read/tree.hpp"

#include <algorithm>
#include <cstring>
#include <iterator>
#include <nlohmann/json.hpp>

#include "src/text/place.hpp"

namespace boxproof::read {
namespace {

using Json = nlohmann::json;

// A stretch of the source that is passed over as if it were not there.
struct Gap {
  const char* from = nullptr;
  const char* to = nullptr;
};

// Reads the source and tells how far the parser has come: nlohmann's tree keeps no places, but at each event
// the cursor stands just behind the token (behind one more character after a number).
class Cursor {
 public:
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char*;
  using reference = const char&;

  // Passes over up to two gaps, the first of which lies before the second.
  Cursor(const char* at, const char** seen, Gap first = {}, Gap second = {})
      : at_(at), seen_(seen), gap_(first), next_gap_(second) {}
  reference operator*() const { return *at_; }
  Cursor& operator++() {
    *seen_ = ++at_;
    if (at_ == gap_.from) {
      at_ = gap_.to;
      gap_ = next_gap_;
    }
    return *this;
  }
  Cursor operator++(int) {
    Cursor before = *this;
    ++*this;
    return before;
  }
  friend bool operator==(const Cursor& a, const Cursor& b) { return a.at_ == b.at_; }
  friend bool operator!=(const Cursor& a, const Cursor& b) { return a.at_ != b.at_; }

 private:
  const char* at_;
  const char** seen_;
  Gap gap_, next_gap_;
};

class Builder {
 public:
  enum class Mode { members, elements, whole };

  // In mode whole the value becomes one tree, taken with take(); else the sink gets it in pieces.
  Builder(std::string_view source, Mode mode, Sink* sink)
      : source_(source), sink_(sink), mode_(mode), cursor_(source.data()) {
    tree_.source = source;
  }
  // For mode elements: the list, and the number of the first element that comes.
  void elements_of(std::string_view key, const ListSpan& span, std::uint32_t first) {
    top_key_ = std::string(key);
    span_ = &span;
    element_ = first;
    depth_ = 1;  // below the document's top
  }

  Tree take() { return std::move(tree_); }
  std::int64_t next_element() const { return element_; }
  const char** cursor() { return &cursor_; }
  bool failed() const { return failed_; }

  // nlohmann's event interface
  bool null() { return add(Kind::null, cursor_offset() - 4); }
  bool boolean(bool value) {
    if (!add_node(Kind::boolean, cursor_offset() - (value ? 4 : 5))) return false;
    tree_.nodes.back().flag = value;
    return close_scalar();
  }
  bool number_integer(Json::number_integer_t value) { return number(static_cast<double>(value)); }
  bool number_unsigned(Json::number_unsigned_t value) { return number(static_cast<double>(value)); }
  bool number_float(Json::number_float_t value, const Json::string_t&) { return number(value); }
  bool string(Json::string_t& value) {
    const Quoted quoted = quoted_before_cursor(value);
    if (!add_node(Kind::text, quoted.offset)) return false;
    Node& node = tree_.nodes.back();
    node.text_size = static_cast<std::uint32_t>(value.size());
    node.text_decoded = quoted.decoded;
    node.text_at = quoted.decoded ? keep(value) : quoted.offset + 1;
    return close_scalar();
  }
  bool binary(Json::binary_t&) { return false; }
  bool start_object(std::size_t) {
    if (depth_ == 0 && mode_ == Mode::members) {
      depth_ = 1;
      return true;
    }
    return open(Kind::object);
  }
  bool key(Json::string_t& value) {
    const Quoted quoted = quoted_before_cursor(value);
    key_offset_ = quoted.offset;
    key_size_ = static_cast<std::uint32_t>(value.size());
    key_decoded_ = quoted.decoded;
    const bool top = open_.empty();  // a member of the document's top object
    if (top) {
      top_key_ = value;
      start_tree();
    }
    key_at_ = quoted.decoded ? keep(value) : quoted.offset + 1;
    if (top) {
      const auto same =
          std::find_if(top_keys_.begin(), top_keys_.end(), [&](const auto& k) { return k.first == value; });
      if (same != top_keys_.end()) duplicate(quoted.offset, "/" + pointer_token(value), value, same->second);
      top_keys_.emplace_back(value, quoted.offset);
    }
    return true;
  }
  bool end_object() {
    if (open_.empty()) {
      --depth_;
      return true;
    }
    check_duplicates(open_.back());
    return close();
  }
  bool start_array(std::size_t) {
    if (depth_ == 0 && mode_ == Mode::members) return not_an_object();
    if (depth_ == 1 && open_.empty() && mode_ == Mode::elements) {
      ++depth_;
      start_tree();
      return true;
    }
    return open(Kind::array);
  }
  bool end_array() {
    if (open_.empty()) return true;  // of the long list
    return close();
  }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception& error) {
    failed_ = true;
    if (sink_ == nullptr) return false;
    std::string why = error.what();
    if (const auto cut = why.find("] "); cut != std::string::npos) why.erase(0, cut + 2);  // the library's id
    constexpr int number_overflow = 406;                                                   // of nlohmann/json
    if (error.id == number_overflow) {
      const std::uint32_t offset = number_before_cursor();
      sink_->problem(offset, pointer_here(),
                     "found " + describe_number(source_, offset) +
                         ", expected a number that can be computed with; check the decimal point and the "
                         "exponent");
      return false;
    }
    // The cursor stands behind the character that the parser stumbled on, or at the end.
    const bool ended = cursor_ == source_.data() || why.find("unexpected end of input") != std::string::npos;
    std::uint32_t at = ended ? static_cast<std::uint32_t>(source_.size()) : cursor_offset() - 1;
    std::string found = ended ? "" : printable(source_[at]);
    if (!ended && source_[at] == '"' && why.find("invalid string") == std::string::npos) {
      at = quote_before(at);  // a whole string where none belongs
      found = "text " + std::string(source_.substr(at, cursor_offset() - at));
    }
    if (const auto cut = why.find(": "); cut != std::string::npos)
      why.erase(0, cut + 2);  // the library's place
    if (const auto cut = why.find("; last read: "); cut != std::string::npos) {
      const auto behind = why.find("'; ", cut);
      why.erase(cut, behind == std::string::npos ? std::string::npos : behind + 1 - cut);
    }
    std::string message =
        ended ? "the file ends in the middle of a value" : "found " + found + ", which is not JSON here";
    message += " (" + why + "); expected one complete JSON document (RFC 8259) in UTF-8";
    sink_->problem(at, "", std::move(message));
    return false;
  }

 private:
  struct Quoted {
    std::uint32_t offset;
    bool decoded;
  };

  std::uint32_t cursor_offset() const { return static_cast<std::uint32_t>(cursor_ - source_.data()); }

  static std::string printable(char c) {
    static constexpr char hex[] = "0123456789ABCDEF";
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x20 && byte < 0x7f) return std::string("\"") + c + "\"";
    return std::string("the byte 0x") + hex[byte >> 4] + hex[byte & 15];
  }

  // Pointer of the value that is being read.
  std::string pointer_here() const {
    if (open_.empty()) return "/" + pointer_token(top_key_);
    const Value parent(tree_, open_.back());
    if (parent.kind() == Kind::object)
      return pointer_of(parent) + "/" +
             pointer_token(
                 (key_decoded_ ? std::string_view(tree_.decoded) : source_).substr(key_at_, key_size_));
    std::size_t position = 0;
    for (std::uint32_t i = parent.index() + 1; i < tree_.nodes.size(); i = tree_.nodes[i].end) ++position;
    return pointer_of(parent) + "/" + std::to_string(position);
  }

  // Where the number that the parser has just read begins.
  std::uint32_t number_before_cursor() const {
    const char* end = cursor_;
    if (!is_number_char(end[-1])) --end;  // the character behind the number has been read too
    const char* start = end;
    while (start > source_.data() && is_number_char(start[-1])) --start;
    return static_cast<std::uint32_t>(start - source_.data());
  }

  // Where the string that the parser has just read begins, and whether its text stands in the source as it
  // is.
  Quoted quoted_before_cursor(const std::string& text) const {
    const char* start = cursor_ - text.size() - 2;
    if (start >= source_.data() && *start == '"' && std::memcmp(start + 1, text.data(), text.size()) == 0)
      return {static_cast<std::uint32_t>(start - source_.data()), false};
    return {quote_before(cursor_offset() - 1), true};
  }

  // The opening quote of the string whose closing quote stands at the offset: the nearest before it that no
  // odd run of backslashes escapes.
  std::uint32_t quote_before(std::uint32_t closing) const {
    for (const char* p = source_.data() + closing - 1; p > source_.data(); --p) {
      if (*p != '"') continue;
      const char* b = p;
      while (b > source_.data() && b[-1] == '\\') --b;
      if ((p - b) % 2 == 0) return static_cast<std::uint32_t>(p - source_.data());
    }
    return 0;
  }

  std::uint32_t keep(const std::string& text) {
    const auto at = static_cast<std::uint32_t>(tree_.decoded.size());
    tree_.decoded += text;
    return at;
  }

  bool number(double value) {
    if (!add_node(Kind::number, number_before_cursor())) return false;
    tree_.nodes.back().number = value;
    return close_scalar();
  }

  void start_tree() {
    tree_.nodes.clear();
    tree_.decoded.clear();
    if (tree_.top_key != top_key_) tree_.top_key = top_key_;
    tree_.index = mode_ == Mode::elements ? element_ : -1;
  }

  bool add_node(Kind kind, std::uint32_t offset) {
    if (depth_ == 0 && mode_ == Mode::members) return not_an_object();
    Node& node = tree_.nodes.emplace_back();
    node.kind = kind;
    node.offset = offset;
    node.key_offset = key_offset_;
    node.key_size = key_size_;
    node.key_at = key_at_;
    node.key_decoded = key_decoded_;
    return true;
  }
  bool add(Kind kind, std::uint32_t offset) { return add_node(kind, offset) && close_scalar(); }
  bool close_scalar() {
    tree_.nodes.back().end = static_cast<std::uint32_t>(tree_.nodes.size());
    if (open_.empty()) hand_over();
    return true;
  }
  bool open(Kind kind) {
    if (++depth_ > max_depth) {
      failed_ = true;
      if (sink_ != nullptr)
        sink_->problem(
            cursor_offset() - 1, "",
            "found lists and objects nested over 64 deep, expected at most 64; a design needs under 10");
      return false;
    }
    if (!add_node(kind, cursor_offset() - 1)) return false;
    open_.push_back(static_cast<std::uint32_t>(tree_.nodes.size() - 1));
    key_size_ = key_at_ = 0;
    return true;
  }
  bool close() {
    --depth_;
    tree_.nodes[open_.back()].end = static_cast<std::uint32_t>(tree_.nodes.size());
    open_.pop_back();
    if (open_.empty()) hand_over();
    return true;
  }
  void hand_over() {
    if (mode_ == Mode::members) {
      sink_->member(top_key_, tree_);
    } else if (mode_ == Mode::elements) {
      const auto index = static_cast<std::uint32_t>(element_++);
      // A bare number at the end of a stretch is followed by a gap, not by its own next character.
      if (index < span_->elements.size()) tree_.nodes.front().offset = span_->elements[index];
      sink_->element(index, tree_);
      start_tree();
    }
  }

  bool not_an_object() {
    failed_ = true;
    sink_->problem(0, "", "found no JSON object at the top of the document, expected { … }");
    return false;
  }

  void duplicate(std::uint32_t offset, std::string pointer, std::string_view key, std::uint32_t first) {
    const text::LineColumn at = text::line_column(source_, first);
    sink_->problem(offset, std::move(pointer),
                   "found the key \"" + std::string(key) + "\" a second time in one object (first at line " +
                       std::to_string(at.line) + ", column " + std::to_string(at.column) +
                       "), expected each key once; remove one of the two");
  }

  void check_duplicates(std::uint32_t object) {
    if (sink_ == nullptr) return;
    members_.clear();
    tree_.nodes[object].end = static_cast<std::uint32_t>(tree_.nodes.size());
    const Value parent(tree_, object);
    for (Value v = parent.first(); v; v = v.next_within(parent)) members_.push_back(v);
    constexpr std::size_t few = 24;  // up to here comparing all pairs is quicker than sorting
    if (members_.size() > few)
      std::stable_sort(members_.begin(), members_.end(),
                       [](const Value& a, const Value& b) { return a.key() < b.key(); });
    for (std::size_t i = 1; i < members_.size(); ++i)
      for (std::size_t j = members_.size() > few ? i - 1 : 0; j < i; ++j)
        if (members_[j].key() == members_[i].key()) {
          duplicate(members_[i].key_offset(), pointer_of(members_[i]), members_[i].key(),
                    members_[j].key_offset());
          break;
        }
  }

  std::string_view source_;
  Sink* sink_;
  Mode mode_;
  const ListSpan* span_ = nullptr;
  const char* cursor_;
  Tree tree_;
  std::vector<std::uint32_t> open_;
  std::vector<Value> members_;
  std::vector<std::pair<std::string, std::uint32_t>> top_keys_;
  std::string top_key_;
  std::uint32_t key_offset_ = 0, key_size_ = 0, key_at_ = 0;
  bool key_decoded_ = false, failed_ = false;
  std::int64_t element_ = 0;
  int depth_ = 0;
};

// Runs the parser from `at` to the end of the source, or, with `to_end` false, over the one value there.
bool drive(Builder& builder, std::string_view source, const char* at, Gap first = {}, Gap second = {},
           bool to_end = true) {
  *builder.cursor() = at;
  const char* end = source.data() + source.size();
  return Json::sax_parse(Cursor(at, builder.cursor(), first, second), Cursor(end, builder.cursor()), &builder,
                         nlohmann::detail::input_format_t::json, to_end) &&
         !builder.failed();
}

// The parser takes a zero byte for the end of the text.
bool has_zero_byte(std::string_view source, Sink& sink) {
  const auto at = source.find('\0');
  if (at == std::string_view::npos) return false;
  sink.problem(static_cast<std::uint32_t>(at), "",
               "found a byte of value zero, expected JSON text in UTF-8; is this the right file?");
  return true;
}

}  // namespace

bool parse_members(std::string_view source, const ListSpan& span, Sink& sink, const ListSpan& second) {
  if (source.size() >= UINT32_MAX) {
    sink.problem(0, "", "found a file of 4 GiB or more, expected less; split the site into several files");
    return false;
  }
  if (has_zero_byte(source, sink)) return false;
  Builder builder(source, Builder::Mode::members, &sink);
  const auto gap_of = [&](const ListSpan& list) {
    return list.found ? Gap{source.data() + list.open + 1, source.data() + list.close} : Gap{};
  };
  const bool in_order = !second.found || (span.found && span.open < second.open);
  return drive(builder, source, source.data(), gap_of(in_order ? span : second),
               gap_of(in_order ? second : span));
}

bool parse_elements(std::string_view source, std::string_view key, const ListSpan& span, std::uint32_t first,
                    std::uint32_t last, Sink& sink) {
  Builder builder(source, Builder::Mode::elements, &sink);
  builder.elements_of(key, span, first);
  // The opening bracket, the stretch of elements without the comma behind it, the closing bracket.
  const char* const begin = source.data() + span.elements[first];
  const char* end = source.data() + span.close;
  if (last < span.elements.size())
    for (end = source.data() + span.elements[last] - 1; *end != ',';) --end;
  const char* const close = source.data() + span.close;
  const bool parsed = drive(builder, source.substr(0, span.close + 1), source.data() + span.open,
                            {source.data() + span.open + 1, begin}, {end, close});
  return parsed && builder.next_element() == last;
}

std::optional<Tree> parse_whole(std::string_view source, Sink& sink) {
  if (has_zero_byte(source, sink)) return std::nullopt;
  Builder builder(source, Builder::Mode::whole, &sink);
  if (!drive(builder, source, source.data())) return std::nullopt;
  return builder.take();
}

Tree parse_value(std::string_view source, std::uint32_t offset) {
  Builder builder(source, Builder::Mode::whole, nullptr);
  drive(builder, source, source.data() + offset, {}, {}, false);
  return builder.take();
}

}  // namespace boxproof::read
