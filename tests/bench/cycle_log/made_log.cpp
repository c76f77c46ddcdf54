#include "tests/bench/cycle_log/made_log.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <numeric>
#include <utility>

namespace docket {

namespace {

constexpr std::int64_t stations = 24, line_cycle_s = 55, people_of_a_station = 4;
constexpr std::array<const char*, 3> shifts{"early", "late", "night"};
constexpr std::array<const char*, 6> marks{"helped", "starved", "blocked", "foreign", "cut_short", "helped;defect"};

/// splitmix64 (Steele, Lea & Flood 2014, Fast splittable pseudorandom number generators): the next of a stream.
std::uint64_t next(std::uint64_t& state) {
  std::uint64_t z = (state += 0x9E3779B97F4A7C15U);
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9U;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBU;
  return z ^ (z >> 31);
}

/// Evenly between 0 and 1.
double share(std::uint64_t& state) { return static_cast<double>(next(state) >> 11) * 0x1p-53; }

struct DayText {
  std::int64_t day = -1;
  std::array<char, 16> text{};

  const char* of(std::int64_t number) {
    if (number != day) {
      const std::chrono::year_month_day date{std::chrono::local_days(std::chrono::days(number))};
      std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(date.year()) % 10000,
                    static_cast<unsigned>(date.month()) % 100, static_cast<unsigned>(date.day()) % 100);
      day = number;
    }
    return text.data();
  }
};

} // namespace

void write_made_log(std::FILE* file, std::int64_t rows, std::uint64_t seed) {
  constexpr std::int64_t first_second = 20458 * 86400 + 6 * 3600; // 2026-01-05 06:00
  std::uint64_t state = seed;
  DayText day;
  std::fputs("started_at,cycle_s,unit,variant,station,shift,operator,mark\n", file);
  std::array<char, 160> line{};
  std::array<std::int64_t, stations> order{};
  std::iota(order.begin(), order.end(), 0);
  for (std::int64_t row = 0; row < rows; ++row) {
    const std::int64_t beat = row / stations, turn = row % stations;
    if (turn == 0) // stations report in another order every time
      for (std::size_t i = order.size() - 1; i > 0; --i) std::swap(order[i], order[next(state) % (i + 1)]);
    const std::int64_t station = order[static_cast<std::size_t>(turn)];
    const std::int64_t ms =
        (beat * stations + turn) * line_cycle_s * 1000 / stations + static_cast<std::int64_t>(share(state) * 2000);
    const std::int64_t second = first_second + ms / 1000;
    const std::int64_t of_day = second % 86400;
    const std::int64_t shift = (of_day + 86400 - 6 * 3600) % 86400 / (8 * 3600);
    const std::int64_t unit = beat - station + 1'000'000;
    std::uint64_t of_unit = static_cast<std::uint64_t>(unit) ^ seed;
    const auto variant = static_cast<std::int64_t>(std::pow(share(of_unit), 2) * 8) + 1;
    // Somebody stands in now and then; they come from the other shifts' people.
    const std::int64_t person = station * people_of_a_station + (share(state) < 0.03 ? 3 : shift);
    // Skew to the right, as cycle times are: the product of a level by variant and exp of a sum of uniform draws.
    const double spread = share(state) + share(state) + share(state) + share(state) - 2;
    const double cycle = (46 + 1.5 * static_cast<double>(variant)) * std::exp(0.11 * spread);
    const char* const mark = share(state) < 0.04 ? marks[static_cast<std::size_t>(next(state) % marks.size())] : "";
    const int length =
        std::snprintf(line.data(), line.size(), "%s %02d:%02d:%02d.%03d,%.2f,HP-%07lld,V%lld,ST-%02lld,%s,K%lld,%s\n",
                      day.of(second / 86400), static_cast<int>(of_day / 3600), static_cast<int>(of_day / 60 % 60),
                      static_cast<int>(of_day % 60), static_cast<int>(ms % 1000), cycle, static_cast<long long>(unit),
                      static_cast<long long>(variant), static_cast<long long>(station + 1),
                      shifts[static_cast<std::size_t>(shift)], static_cast<long long>(person + 1), mark);
    std::fwrite(line.data(), 1, static_cast<std::size_t>(length), file);
  }
}

} // namespace docket
