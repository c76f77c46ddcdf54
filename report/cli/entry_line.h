// What stands beside an act: when, by which role, and for whom.
#pragma once

#include "report/case_document/case_document.h"
#include "report/cli/command_line.h"

#include <string>

namespace docket {

/// `--at`, or the clock, in UTC: 2026-11-03T14:30:00Z. The one place where docket reads the clock. Throws Error
/// (wrong_usage).
std::string time_of_entry(const CommandLine& line, const std::string& command);

/// `--by`, or "not given". Throws Error (wrong_usage).
std::string role_of_entry(const CommandLine& line, const std::string& command);

/// `--for`: joint, as without it, or review. Throws Error (wrong_usage).
CopyFor copy_for(const CommandLine& line, const std::string& command);

} // namespace docket
