// What the tests spend most of their time in, compiled with optimisation, unlike them: the linker takes each
// of these templates from here. Nothing calls this file.
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

using nlohmann::json;
using nlohmann::ordered_json;

template class std::basic_string<char>;
template class std::vector<char>;
template class std::vector<json>;
template class std::vector<ordered_json>;
template class nlohmann::basic_json<>;
template class nlohmann::detail::serializer<json>;
template class nlohmann::detail::serializer<ordered_json>;

namespace nlohmann::detail {

using Text = iterator_input_adapter<std::string::const_iterator>;
using Characters = iterator_input_adapter<const char*>;
template class lexer<json, Text>;
template class lexer<json, Characters>;
template class lexer<ordered_json, Text>;
template class lexer<ordered_json, Characters>;
template class parser<json, Text>;
template class parser<json, Characters>;
template class parser<ordered_json, Text>;
template class parser<ordered_json, Characters>;
template class json_sax_dom_parser<json>;
template class json_sax_dom_parser<ordered_json>;

}  // namespace nlohmann::detail
