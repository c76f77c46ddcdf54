// Every command, in the order the help lists them.
#pragma once

#include "report/cli/command_line.h"

#include <span>

namespace docket {

/// The one table: verb, help line, function.
std::span<const Command> all_commands();

int run_add(const CommandLine& line);
int run_brief(const CommandLine& line);
int run_check(const CommandLine& line);
int run_history(const CommandLine& line);
int run_seal(const CommandLine& line);
int run_template(const CommandLine& line);
int run_verify(const CommandLine& line);

} // namespace docket
