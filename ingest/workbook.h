// Workbooks, recognised by what they hold: XLSX (xlsx/xlsx.h) and ODS (ods/ods.h).
//
// Checked     tests/ingest/workbook_test.cpp
#pragma once

#include "ingest/package/caps.h"
#include "ingest/table.h"

#include <string>
#include <string_view>

namespace docket {

/// Reads every sheet of a workbook, in its own order, with the hash of the file. Throws Error (input_has_faults) where
/// the file is no workbook, is encrypted, is cut short or damaged, or asks for more than the caps allow; the message
/// says which and what to do. Nothing is ever unpacked to disk.
RawFile read_workbook(const std::string& path, const ReaderCaps& caps = {});

/// The same from the bytes of a file; `file` is its name without its folder.
RawFile parse_workbook(std::string_view bytes, const std::string& file, const ReaderCaps& caps = {});

} // namespace docket
