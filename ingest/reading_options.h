// How inputs are to be read, where their names or their cells do not tell.
#pragma once

#include "core/provenance.h"

#include <cstdint>
#include <optional>
#include <string>

namespace docket {

/// How a date is meant that is not written as ISO 8601.
enum class DateOrder : std::uint8_t {
  iso_only,       ///< it is a fault
  day_month_year, ///< 3.11.2026 is 3 November
  month_day_year, ///< 3/11/2026 is 11 March
};

struct ReadingOptions {
  std::optional<TableName> as; ///< the table of a sheet or file whose name is no table
  std::string sheet;           ///< of a workbook that has a sheet of this name, only that one; empty: all
  DateOrder dates = DateOrder::iso_only;
  std::string codes_file; ///< path of a CSV file with the columns name and code; empty: none
  bool set_aside = false; ///< rows with a fault are set aside, where that can't change what is asked (set_aside.h)
};

} // namespace docket
