// The blank workbook of `docket template`: a first sheet that explains the job, then one sheet a table in the order a
// supervisor meets them, made from tables.h.
#pragma once

#include <string>

namespace docket {

/// Writes the workbook by way of a temporary file beside it. Same version, same bytes. Throws Error
/// (could_not_be_done) where it can't be written or already exists.
void write_blank_workbook(const std::string& path);

} // namespace docket
