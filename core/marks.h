// Marks: why a cycle is not a plain one, and which question may use which mark. The one table; it is printed in the
// document.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace docket {

enum class Mark : std::uint16_t {
  helped = 1,
  cut_short = 2, ///< the time is a lower bound
  starved = 4,
  blocked = 8,
  foreign = 16, ///< holds work that does not belong to the station
  defect = 32,
  skipped = 64,
  instrument = 128, ///< the reading itself failed
};

/// The marks of one cycle; none set is a plain cycle.
struct Marks {
  std::uint16_t bits = 0;

  constexpr bool plain() const { return bits == 0; }
  constexpr bool has(Mark mark) const { return (bits & static_cast<std::uint16_t>(mark)) != 0; }
  constexpr void set(Mark mark) { bits = static_cast<std::uint16_t>(bits | static_cast<std::uint16_t>(mark)); }
  bool operator==(const Marks&) const = default;
};

/// How a question may use the time of a marked cycle.
enum class UseOfTime : std::uint8_t {
  yes,
  second_row,  ///< not in the headline; a second row takes it as y + helped_s
  lower_bound, ///< not a value: the true time is at least this long
  beside,      ///< headline without, beside it with
  counted,     ///< no; counted and listed
};

struct MarkUse {
  Mark mark;
  std::string_view name;
  UseOfTime in_content;    ///< question A
  UseOfTime in_adaptation; ///< question B
};

inline constexpr std::array<MarkUse, 8> mark_uses{{
    {Mark::helped, "helped", UseOfTime::second_row, UseOfTime::lower_bound},
    {Mark::cut_short, "cut_short", UseOfTime::second_row, UseOfTime::lower_bound},
    {Mark::foreign, "foreign", UseOfTime::beside, UseOfTime::beside},
    {Mark::defect, "defect", UseOfTime::counted, UseOfTime::counted},
    {Mark::skipped, "skipped", UseOfTime::counted, UseOfTime::counted},
    {Mark::starved, "starved", UseOfTime::counted, UseOfTime::counted},
    {Mark::blocked, "blocked", UseOfTime::counted, UseOfTime::counted},
    {Mark::instrument, "instrument", UseOfTime::counted, UseOfTime::counted},
}};

} // namespace docket
