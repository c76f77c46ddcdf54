// The cells of one row as text, so that a docket can be asked in SQL and gives back the very cells a reader saw.
//
// Format      a JSON array (RFC 8259), one value a cell: null where it is blank, its text, its number; anything else
//             {"kind": "percent", "number": 0.05, "text": "0.05"} with the kinds of CellKind
// Checked     tests/ingest/docket/stored_form_test.cpp
#pragma once

#include "ingest/table.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// Texts as a JSON array.
std::string texts_as_text(const std::vector<std::string>& texts);

/// The texts again. Absent where the text is no array of texts.
std::optional<std::vector<std::string>> texts_from_text(std::string_view text);

/// The same cells give the same text.
std::string cells_as_text(const std::vector<RawCell>& cells);

/// The cells again. Absent where the text is not what cells_as_text writes.
std::optional<std::vector<RawCell>> cells_from_text(std::string_view text);

} // namespace docket
