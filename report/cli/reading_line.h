// The options that say how inputs are read, on every command that reads some.
#pragma once

#include "ingest/reading_options.h"
#include "report/cli/command_line.h"

#include <array>

namespace docket {

inline constexpr std::array reading_options{
    OptionDeclaration{"as", "TABLE", "the table of a file whose name is none, for example cycle_log"},
    OptionDeclaration{"sheet", "NAME", "of a workbook that has this sheet, only this one"},
    OptionDeclaration{"dates", "ORDER", "dmy or mdy: how dates such as 3/11/2026 are meant"},
    OptionDeclaration{"codes", "FILE.csv",
                      "name,code: operators given by name are read as codes; the list is not kept"},
    OptionDeclaration{"set-aside", "", "set rows with a fault aside, and list them, where a record allows it"},
};

/// The options of a command with those of reading behind them.
template <std::size_t count>
constexpr auto with_reading_options(const std::array<OptionDeclaration, count>& own) {
  std::array<OptionDeclaration, count + reading_options.size()> all{};
  for (std::size_t i = 0; i < count; ++i) all[i] = own[i];
  for (std::size_t i = 0; i < reading_options.size(); ++i) all[count + i] = reading_options[i];
  return all;
}

/// Throws Error (wrong_usage) where a value can't be followed, with the nearest word that can.
ReadingOptions read_reading_options(const CommandLine& line, std::string_view command);

/// True where one of them is given.
bool has_reading_options(const ReadingOptions& options);

} // namespace docket
