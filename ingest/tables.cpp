#include "ingest/tables.h"

#include "ingest/declarations/topics.h"
#include "ingest/reading/word_match.h"

#include <array>

namespace docket {

namespace {

constexpr std::array key_columns{
    ColumnDeclaration{.name = "key", .required = true, .note = "Leave as it is."},
    ColumnDeclaration{.name = "value", .required = true, .may_be_blank = true, .note = "Fill in here."},
    ColumnDeclaration{.name = "reason", .note = "Why it was changed."},
    ColumnDeclaration{.name = "note", .note = "What belongs there."},
};

} // namespace

std::span<const TableDeclaration> all_tables() {
  static const std::array<TableDeclaration, table_count> tables{
      declarations::case_facts(),   declarations::statements(),     declarations::operators(),
      declarations::conditions(),   declarations::sessions(),       declarations::readings(),
      declarations::cycle_log(),    declarations::roster(),         declarations::stops(),
      declarations::helps(),        declarations::training(),       declarations::referrals(),
      declarations::steps(),        declarations::checklist(),      declarations::standard(),
      declarations::variants(),     declarations::build_sequence(), declarations::motions(),
      declarations::motion_table(), declarations::lifts(),          declarations::efforts(),
      declarations::settings(),
  };
  return tables;
}

const TableDeclaration& declaration_of(TableName table) { return all_tables()[static_cast<std::size_t>(table)]; }

std::span<const ColumnDeclaration> key_value_columns() { return key_columns; }

std::optional<std::size_t> find_column(const TableDeclaration& table, std::string_view name) {
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    if (table.columns[i].name == name) return i;
  return std::nullopt;
}

std::optional<TableName> find_table(std::string_view sheet) {
  const std::string word = plain_word(sheet);
  for (const TableDeclaration& table : all_tables())
    if (word == plain_word(name_of(table.table))) return table.table;
  return std::nullopt;
}

} // namespace docket
