// The label schedule for programs and for whoever makes the labels.
#include <fmt/format.h>

#include <algorithm>

#include "src/report/csv_text.hpp"
#include "src/report/json_text.hpp"
#include "src/report/label_words.hpp"
#include "src/report/labels.hpp"

namespace boxproof::report {
namespace {

constexpr std::size_t enough_to_write = 1U << 16;  // bytes

std::string number_text(std::optional<double> value) {
  return value ? fmt::format("{}", *value) : std::string();
}

bool asked(const LabelEntry& e, LabelValue value) {
  const std::vector<LabelValue> values = values_to_state(e);
  return std::find(values.begin(), values.end(), value) != values.end();
}

std::optional<double> printed_value(const LabelEntry& e, LabelValue value) {
  const auto computed = asked(e, value) ? e.contents.of(value) : std::nullopt;
  return computed ? std::optional(printed(value, *computed)) : std::nullopt;
}

// What is not stated: whatever decides whether the label is needed, then what its values lack.
std::string not_stated(const LabelEntry& e) {
  std::string out = e.need.pointer;
  for (const std::string& pointer : e.missing) out += (out.empty() ? "" : ", ") + pointer;
  return out;
}

std::string csv_row(const LabelEntry& e, bool first) {
  std::string row;
  put_cell(row, e.box != nullptr ? e.box->id : std::string());
  put_cell(row, e.box != nullptr ? e.box->sheet : std::string());
  put_cell(row, e.kind);
  put_cell(row, label_place(e));
  put_cell(row, needed_word(e));
  put_cell(row, label_words(e));
  for (std::size_t i = 0; i < label_value_names.size(); ++i)
    put_cell(row, number_text(printed_value(e, static_cast<LabelValue>(i))));
  put_cell(row, label_look(e));
  put_cell(row, e.rule != nullptr ? e.rule->section : std::string());
  put_cell(row, e.rule != nullptr && e.rule->unverified ? "from memory, unverified" : "");
  put_cell(row, first ? caution() : "", '\n');
  row.insert(row.size() - 1, "\r");
  return row;
}

void put_entry(Buffer& out, const LabelEntry& e) {
  put_text_or_null(out, R"(    {"box": )",
                   e.box != nullptr ? std::string_view(e.box->id) : std::string_view());
  put_text_or_null(out, R"(, "kind": )", e.kind);
  put_text_or_null(out, R"(, "where": )", label_place(e));
  put_text_or_null(out, R"(, "needed": )", needed_word(e));
  put_text_or_null(out, R"(, "not_stated": )", not_stated(e));
  put_text_or_null(out, R"(, "text": )", label_words(e));
  put(out, R"(, "prescribed": )");
  put(out, e.rule != nullptr && !e.rule->words.empty() ? "true" : "false");
  put(out, R"(, "values": {)");
  bool first = true;
  for (std::size_t i = 0; i < label_value_names.size(); ++i) {
    const auto value = static_cast<LabelValue>(i);
    if (!asked(e, value)) continue;
    put(out, fmt::format(R"({}"{}": {{"computed": )", first ? "" : ", ", label_value_names[i]));
    put_number(out, e.contents.of(value));
    put(out, R"(, "printed": )");
    put_number(out, printed_value(e, value));
    put(out, "}");
    first = false;
  }
  put_text_or_null(out, R"(}, "look": )", label_look(e));
  put_text_or_null(out, R"(, "section": )",
                   e.rule != nullptr ? std::string_view(e.rule->section) : std::string_view());
  put(out, R"(, "unverified": )");
  put(out, e.rule != nullptr && e.rule->unverified ? "true}" : "false}");
}

}  // namespace

void write_labels_csv(const LabelReport& r, const Write& write) {
  write("box,sheet,kind,where,needed,text,max_v,max_a,isc_a,vmp_v,imp_a,look,section,source,caution\r\n");
  bool first = true;
  std::string rows;
  each_label(r, [&](const LabelEntry& e) {
    rows += csv_row(e, first);
    first = false;
    if (rows.size() < enough_to_write) return;
    write(rows);
    rows.clear();
  });
  write(rows);
}

void write_labels_json(const LabelReport& r, const Write& write) {
  Buffer out;
  const auto flush = [&] {
    write({out.data(), out.size()});
    out.clear();
  };
  put(out, "{\n  \"format\": \"boxproof-labels/1\",\n  \"tool\": {\"version\": ");
  put_text(out, version());
  put(out, "},\n  \"code\": {\"edition\": ");
  put_text(out, r.edition.name);
  put(out, ", \"amended\": [");
  put_texts(out, r.overrides, put_texts(out, r.edition.amended));
  put(out, "]},\n  \"basis\": ");
  put_text(out, basis_names[static_cast<std::size_t>(r.basis)]);
  put(out, ",\n  \"site\": {\"name\": ");
  put_text(out, r.design.site.name);
  put(out, "},\n  \"labels\": [");
  bool first = true;
  each_label(r, [&](const LabelEntry& e) {
    put(out, first ? "\n" : ",\n");
    first = false;
    put_entry(out, e);
    if (out.size() > enough_to_write) flush();
  });
  put(out, "\n  ],\n  \"caution\": ");
  put_text(out, caution());
  put(out, "\n}\n");
  flush();
}

}  // namespace boxproof::report
