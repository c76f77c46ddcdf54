// The inputs of a command opened: workbooks, CSV files and folders of CSV files, each known by what it holds.
#pragma once

#include "ingest/table.h"

#include <functional>
#include <span>
#include <string>
#include <vector>

namespace docket {

/// True for a file of a folder that is read in another way.
using LeaveOut = std::function<bool(const std::string& path)>;

/// Every file of the inputs, read whole, in the order given; those of a folder by name. Throws Error where an input is
/// not there (could_not_be_done), is none of these (input_has_faults), or can't be read as what it is.
std::vector<RawFile> read_input_files(std::span<const std::string> inputs, const LeaveOut& leave_out = {});

} // namespace docket
