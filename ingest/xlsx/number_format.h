// What a number format says about the cells it is given to.
//
// Spec        ISO/IEC 29500-1, 18.8.30 numFmt (built-in numbers) and 18.8.31 numFmts (format codes)
// Method      Only the first section counts. Quoted text, escaped characters, colours, conditions and locales are taken
//             away; then y, d or a month's m make a date, h or s a time, [h] [m] [s] an elapsed time. A digit place
//             before the first of them makes a number: 0.00 s.
// Checked     tests/ingest/xlsx/number_format_test.cpp
#pragma once

#include <cstdint>
#include <string_view>

namespace docket {

enum class NumberFormat : std::uint8_t {
  plain,
  percent,
  date,    ///< with or without a time of day
  time,    ///< a time of day or a short time: h:mm, mm:ss.0
  elapsed, ///< [h]:mm and its like
};

/// The built-in formats that every workbook has without declaring them.
NumberFormat built_in_format(std::int64_t number);

NumberFormat format_of_code(std::string_view code);

} // namespace docket
