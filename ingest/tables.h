// The one declaration of every table and column. The reader, the blank workbook, the messages and the column list in
// the README all come from it.
#pragma once

#include "core/provenance.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace docket {

/// What a column holds, and so how its cells are read and checked.
enum class ColumnKind : std::uint8_t {
  text,        ///< free text
  name,        ///< a short name of the plant: variant, element, session, station, task
  names,       ///< names divided by `;`
  code,        ///< operator code: letters, optional hyphen, digits, at most 6 characters
  codes,       ///< operator codes divided by `;`
  seconds,     ///< a time; a header that ends in _s may end in _min, _cmin or _tmu instead
  percent,     ///< a percentage
  number,      ///< a plain number
  count,       ///< a whole number, 0 or more
  date,        ///< a day
  instant,     ///< a day with a time of day, or a day alone
  time_of_day, ///< a time of day
  time_on_day, ///< a time of day on the day in the column `date`, or a day with a time of day
  choice,      ///< one of the words given
  marks,       ///< words of core/marks.h divided by `;`
};

/// One column, or one key of `case` and `settings`.
struct ColumnDeclaration {
  std::string_view name{};
  ColumnKind kind = ColumnKind::text;
  bool required = false;     ///< the column must be there, the key must be filled
  bool may_be_blank = false; ///< of a required column: a cell of it may be blank
  /// For choice: the only words. For text: words that are offered, others are welcome. For codes: words that may stand
  /// in place of codes.
  std::span<const std::string_view> words{};
  std::optional<double> least{}, most{};             ///< in the unit of the header, seconds for a time; beyond: a fault
  bool least_excluded = false;                       ///< the value must be above `least`
  std::optional<double> usual_least{}, usual_most{}; ///< beyond: a question
  std::string_view preset{};                         ///< what holds where the cell is blank; empty: nothing
  std::string_view note{}; ///< what belongs there, in plain words: the # row of the blank workbook
};

struct TableDeclaration {
  TableName table = TableName::case_facts;
  bool required = false;      ///< the sheet must be there and hold rows
  bool used_now = true;       ///< false: checked and kept, not yet used by any computation
  bool key_value = false;     ///< `columns` are the keys of a key/value table
  std::string_view heading{}; ///< A title row above the header in the blank workbook; empty: none.
  std::string_view purpose{}; ///< One plain sentence; stands on the first sheet of the blank workbook.
  std::string_view absent{};  ///< What is not answered without it; empty where required.
  std::span<const ColumnDeclaration> columns{};
};

/// All tables, in the order of TableName.
std::span<const TableDeclaration> all_tables();

const TableDeclaration& declaration_of(TableName table);

/// The columns of a key/value sheet: key, value, reason, note. `reason` is read in `settings`; `note` explains the key
/// and is never read.
std::span<const ColumnDeclaration> key_value_columns();

/// The place of a column (or key) among those of its table; absent for a name that is not declared.
std::optional<std::size_t> find_column(const TableDeclaration& table, std::string_view name);

/// The table a sheet or file of this name holds; case, accents and blanks aside. Absent for any other sheet.
std::optional<TableName> find_table(std::string_view sheet);

} // namespace docket
