// A key/value sheet: one row a key.
#pragma once

#include "ingest/reading/draft.h"

#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// One key of the table; `value.given` is false where it is absent or its value is blank.
struct KeyValue {
  CellValue value;
  SourceRow origin;
  std::string reason;
  bool faulty = false;
  std::int64_t blank_row = 0; ///< where the key stands without a value; 0: nowhere
};

/// Reads the keys of `case` or `settings`, in the order of the declaration. A row whose value is blank is as if absent.
std::vector<KeyValue> read_key_values(Draft& draft, TableName table);

} // namespace docket
