#include "ingest/xlsx/dates.h"

#include "ingest/iso_times.h"

#include <cmath>

namespace docket {

namespace {

constexpr std::int64_t ms_per_day = 86'400'000;
constexpr double first_serial_beyond_9999 = 2958466;  // 18.17.4.1: 9999-12-31 is 2958465
constexpr std::int64_t days_from_1900_system = 25569; // 1899-12-30 to 1970-01-01
constexpr std::int64_t days_from_1904_system = 24107; // 1904-01-01 to 1970-01-01
constexpr std::int64_t first_day_of_2000 = 10957;     // 1970-01-01 to 2000-01-01

} // namespace

RawCell cell_of_serial(double serial, NumberFormat format, bool date1904) {
  const auto as_number = [&] {
    return RawCell{format == NumberFormat::percent ? CellKind::percent : CellKind::number, number_text(serial), serial};
  };
  if (format == NumberFormat::plain || format == NumberFormat::percent) return as_number();
  if (std::abs(serial) >= first_serial_beyond_9999) return as_number();
  const std::int64_t ms = std::llround(serial * static_cast<double>(ms_per_day));
  if (format == NumberFormat::elapsed) return duration_cell(ms);

  const std::int64_t whole = ms >= 0 ? ms / ms_per_day : -1;
  std::int64_t to_1970 = date1904 ? days_from_1904_system : days_from_1900_system;
  if (!date1904 && whole < 60) --to_1970;
  if (format == NumberFormat::time && whole - to_1970 < first_day_of_2000) return duration_cell(ms);
  if (whole < 0) return as_number();
  if (whole == 0) return duration_cell(ms);
  if (!date1904 && whole == 60) return text_cell("1900-02-29");
  return date_cell(ms - to_1970 * ms_per_day);
}

} // namespace docket
