// Every cell of a sheet with the declaration of its column (or key), before anything is checked.
#pragma once

#include "ingest/table.h"
#include "ingest/tables.h"

#include <functional>

namespace docket {

/// Calls `use` for each data cell that is not blank and stands in a declared column, or beside a declared key. Nothing
/// is called where the header can't be found.
void each_declared_cell(RawTable& sheet, TableName table,
                        const std::function<void(const ColumnDeclaration&, const RawRow&, RawCell&)>& use);

} // namespace docket
