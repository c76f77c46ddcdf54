#include "report/wording/alternatives.h"

#include "report/format.h"
#include "report/wording/tables.h"

namespace docket::wording {

namespace {

constexpr CodeWords no_late_finish[] = {
    {"mean_above_limit", "none would do: the mean is above the limit"},
    {"not_within_a_line_cycle", "none up to a line cycle"},
};

} // namespace

std::string_view no_late_finish_in_words(std::string_view code) {
  for (const CodeWords& row : no_late_finish)
    if (row.code == code) return row.words;
  return code;
}

std::string needed_in_words(Seconds needed, bool or_more) {
  if (needed > Seconds::zero()) return format_seconds(needed) + (or_more ? " or more" : "");
  return "nothing needed";
}

std::string pace_in_words(const PacePrice& price) {
  const std::string by = format_seconds(price.per_unit);
  if (by == format_seconds(Seconds::zero())) return "as fast as takt";
  if (price.per_unit < Seconds::zero()) return format_seconds(-price.per_unit) + " a unit slower than takt";
  return by + " a unit faster than takt (over-speed " + format_percent(price.over_speed) + ")";
}

} // namespace docket::wording
