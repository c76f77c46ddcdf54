// Invented cycle logs, drawn with a seed: a clean one, and one whose cells are awkward in every way we know of.
#pragma once

#include <array>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace docket {

struct LogStyle {
  char separator = ',';
  char decimal = '.';
  std::string line_end = "\n";
  double awkward = 0; ///< share of cells that are drawn from the awkward ones [1]
};

class MadeLog {
public:
  MadeLog(std::uint64_t seed, LogStyle style) : draw_(seed), style_(std::move(style)) {}

  /// A header and so many rows.
  std::string text(std::size_t rows) {
    std::string made = line({"started_at", "cycle_s", "cycle_is", "unit", "variant", "station", "shift", "operator",
                             "wait_s", "helped_s", "mark"});
    for (std::size_t i = 0; i < rows; ++i) made += line(row(i));
    return made;
  }

  std::size_t below(std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(draw_); }
  bool chance(double share) { return std::uniform_real_distribution<double>(0, 1)(draw_) < share; }

  template <std::size_t N>
  std::string one_of(const std::array<const char*, N>& texts) {
    return texts[below(N)];
  }

  std::vector<std::string> row(std::size_t number) {
    const std::size_t seconds = number * 53 % 86400;
    std::vector<std::string> cells{"2026-11-" + two(3 + number / 500 % 25) + (chance(0.5) ? " " : "T") +
                                       two(seconds / 3600) + ":" + two(seconds / 60 % 60) + ":" + two(seconds % 60),
                                   decimal(40 + below(30), below(10)),
                                   chance(0.1)    ? "work"
                                   : chance(0.05) ? "line"
                                                  : "",
                                   chance(0.1) ? "" : "HP-" + std::to_string(1180000 + number),
                                   one_of<3>({"V1", "V2", "früh"}),
                                   chance(0.2) ? "" : "ST-07",
                                   one_of<3>({"early", "late", "night"}),
                                   one_of<4>({"A1", "B2", "OP-12", "a1"}),
                                   chance(0.8) ? "" : decimal(below(30), below(10)),
                                   chance(0.9) ? "" : decimal(below(30), below(10)),
                                   chance(0.9) ? "" : one_of<3>({"helped", "starved", "cut_short;foreign"})};
    for (std::size_t i = 0; i < cells.size(); ++i)
      if (chance(style_.awkward)) cells[i] = awkward(i);
    while (chance(style_.awkward)) cells.pop_back();
    if (chance(style_.awkward)) cells.push_back("one too many");
    return cells;
  }

  std::string line(const std::vector<std::string>& cells) {
    std::string made;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      if (i > 0) made += style_.separator;
      made += chance(0.02) || cells[i].find(style_.separator) != std::string::npos ? quoted(cells[i]) : cells[i];
    }
    return made + (chance(style_.awkward / 4) ? one_of<4>({"\r", "\n\n", "\r\n\r\n", "\n , \n"}) : style_.line_end);
  }

private:
  static std::string two(std::size_t number) { return (number < 10 ? "0" : "") + std::to_string(number); }

  static std::string quoted(const std::string& cell) {
    std::string made = "\"";
    for (const char c : cell) made += c == '"' ? std::string("\"\"") : std::string(1, c);
    return made + "\"";
  }

  std::string decimal(std::size_t whole, std::size_t tenths) const {
    return std::to_string(whole) + style_.decimal + std::to_string(tenths);
  }

  std::string awkward(std::size_t column) {
    if (chance(0.3))
      return one_of<14>({"", " ", "  A1", "A1 ", "\xC2\xA0V1\xC2\xA0", "#REF!", "#N/A", "# a note", "\tx", "a\nb",
                         "a\"b", "\xEF\xBB\xBFV1", "x\r\ny", "\xE2\x80\xAF"});
    switch (column) {
    case 0:
      return one_of<21>({"2026-11-03",
                         "2026-11-03 6:12",
                         "2026-11-03 06:12",
                         "2026-11-03T06:12:40.5",
                         "2026-11-03 06:12:40,123456",
                         "2026-11-03 24:00",
                         "2026-11-03 24:00:01",
                         "2026-02-29 06:00:00",
                         "1989-12-31 06:00:00",
                         "2101-01-01 06:00:00",
                         "03.11.2026 06:12:40",
                         "2026-11-03T06:12:40Z",
                         "2026-11-03  06:12:40",
                         "2026-11-03 06:60:00",
                         "2026-11-03 06:12:60",
                         "2026-11-03 06:12:4",
                         "2026-11-03 06:12:40.",
                         "2026-11-03 06:12:40.1x",
                         "2026-11-03t06:12:40",
                         "45964.25",
                         "2026-11-3 06:12:40"});
    case 1:
    case 8:
    case 9:
      return one_of<34>({"53.10000000000001",
                         "0",
                         "0.0",
                         "-0",
                         "-1",
                         "+5",
                         "1e1",
                         "1.5E1",
                         ".5",
                         "5.",
                         "1,5",
                         "1,234",
                         "0,123",
                         "1.234.567",
                         "1,234.5",
                         "86400",
                         "86401",
                         "86400.0000001",
                         "0:00:55",
                         "1:05",
                         "nan",
                         "inf",
                         "53.123456789",
                         "00053.1",
                         "1234567890123456789",
                         "12345678901.123456",
                         "0.0000001",
                         "0.000001",
                         "53.1s",
                         "1 234",
                         "0x10",
                         "--1",
                         "53..1",
                         "53,1,2"});
    case 2:
      return one_of<6>({"work", "line", "Line", "WORK", "lines", "takt"});
    case 7:
      return one_of<9>({"A1", "a-1", "OP-1234", "ABC1234", "Meyer", "4711", "A", "1A", "A1;B2"});
    case 10:
      return one_of<9>({"helped", "Helped", "helped;cut short", "cut_short;", ";", "stolen", "helped,starved",
                        "helped; blocked", "defect;skipped;instrument"});
    default:
      return one_of<8>(
          {"0", "007", "HP-", "HP-1a", "18446744073709551616", "-5", "a very long word of the plant, longer", "V1;V2"});
    }
  }

  std::mt19937_64 draw_;
  LogStyle style_;
};

} // namespace docket
