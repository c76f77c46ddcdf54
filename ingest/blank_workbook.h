// The workbooks of `docket template`. The blank one: a first sheet that explains the job, then one sheet a table in the order a
// supervisor meets them, made from tables.h.
#pragma once

#include <string>

namespace docket {

/// Writes the workbook by way of a temporary file beside it. Same version, same bytes. Throws Error
/// (could_not_be_done) where it can't be written or already exists.
void write_blank_workbook(const std::string& path);

/// Writes the check list for a walk to the station, in the same way: one sheet, `conditions`, ready to print, whose rows
/// the reader takes as they are. What nobody fills in stays `not_checked`.
void write_walk_list(const std::string& path);

} // namespace docket
