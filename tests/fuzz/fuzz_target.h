// What every fuzz target has in common: small caps, and what must hold of anything a reader returns.
#pragma once

#include "ingest/package/caps.h"
#include "ingest/package/package.h"
#include "ingest/table.h"

#include <string>
#include <string_view>
#include <vector>

namespace docket::fuzz {

/// Small enough that no input takes long.
ReaderCaps small_caps();

/// Runs a reader. Any Error is a sound answer, if its message is UTF-8; anything else thrown goes through.
template <typename Reader>
void run(const Reader& reader);

/// Aborts where a table breaks what table.h promises: UTF-8, trimmed texts, rows in order, no number that is none.
void check_tables(const std::vector<RawTable>& tables);

/// Reads the files as a case, as they are and with rows set aside, beside a sound `case` and `standard` where these are
/// not among them. Aborts where rows read are not rows used and rows with an issue, or an issue is not UTF-8.
void check_case(std::vector<RawFile> files);

/// A workbook: a zip file as it is; or, for `read`, plain parts of one, whose check sums no fuzzer gets right ("==== name"
/// begins a part).
void check_workbook(std::string_view bytes, const std::string& name,
                    std::vector<RawTable> (*read)(const Package&, const ReaderCaps&));

/// Aborts with the message.
void require(bool holds, const char* what);

/// Aborts where the text is not UTF-8.
void require_utf8(std::string_view text);

} // namespace docket::fuzz

#include "core/error.h"

template <typename Reader>
void docket::fuzz::run(const Reader& reader) {
  try {
    reader();
  } catch (const Error& error) {
    require_utf8(error.what());
  }
}
