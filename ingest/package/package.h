// The zipped package a workbook is: its parts by name, unpacked in memory under caps.
//
// Format      ZIP
// Spec        ISO/IEC 29500-2 (Open Packaging Conventions), clause 6.2.2 part names, clause 7 mapping to ZIP;
//             OpenDocument 1.3 part 2 (ISO/IEC 26300-2), clause 2 packages
// Subset      stored and deflated parts
// Deviations  part names with backslashes or in another case
// Checked     tests/ingest/workbook_test.cpp: every byte flipped, every length cut, sizes that lie, a bomb
#pragma once

#include "ingest/package/caps.h"

#include <functional>
#include <istream>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>

namespace docket {

/// Fills the span as far as it can and returns how much; 0 at the end. Throws Error where the part is damaged.
using ReadBytes = std::function<std::size_t(std::span<char>)>;

struct Package {
  std::string file;                                          ///< Name without its folder, for messages.
  std::map<std::string, std::function<ReadBytes()>> openers; ///< By part name, lower case, without a leading slash.
};

/// Reads from the stream as its parts are read. Throws Error where it is no zip file, or one that is cut short.
Package open_package(std::shared_ptr<std::istream> stream, const std::string& file, const ReaderCaps& caps);

/// The same from bytes, which must outlive the package.
Package open_package(std::string_view bytes, const std::string& file, const ReaderCaps& caps);

bool has_part(const Package& package, std::string_view name);

/// One part at a time: opening the next ends the one before. Throws Error where there is no such part.
ReadBytes open_part(const Package& package, std::string_view name);

/// Throws Error (input_has_faults): the workbook is damaged, in this part.
[[noreturn]] void refuse_damaged(const std::string& file, const std::string& detail);

/// Counts one kept cell with its text, and the blank ones before it. Throws Error where a cap is passed; `what` is the
/// kind of file, as in "The workbook holds ...".
void count_cells(CapsUsed& used, std::int64_t cells, std::size_t text_bytes, const ReaderCaps& caps,
                 const std::string& file, std::string_view what);

} // namespace docket
