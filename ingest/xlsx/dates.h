// Dates and times of workbook cells.
//
// Spec        ISO/IEC 29500-1, 18.17.4.1 (the 1900 and the 1904 date system)
// Deviations  the 1900 system has a 29 February 1900, serial 60, that never was: serials below it count from
//             1899-12-31, those above from 1899-12-30
// Assumes     serials carry no more than 15 digits, so they are rounded to the millisecond
// Checked     tests/ingest/xlsx/number_format_test.cpp: first and last days of both systems (from memory), calendar
//             arithmetic; tests/ingest/workbook_test.cpp: dates written by other programs
#pragma once

#include "ingest/table.h"
#include "ingest/xlsx/number_format.h"

namespace docket {

/// The cell a serial number in this format makes. Below 1 there is a time of day and no day: a duration. A time format
/// over a serial of the year 2000 or later shows a date's time of day only: a date. A serial that is no date (negative,
/// beyond 9999) stays a number.
RawCell cell_of_serial(double serial, NumberFormat format, bool date1904);

} // namespace docket
