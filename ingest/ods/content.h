// The sheets in content.xml of an OpenDocument workbook; see ods.h.
#pragma once

#include "ingest/package/package.h"
#include "ingest/table.h"

#include <vector>

namespace docket {

std::vector<RawTable> read_content(const Package& package, const ReaderCaps& caps);

} // namespace docket
