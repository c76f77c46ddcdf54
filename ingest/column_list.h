// Every table with its columns in Markdown, from the one declaration: the list in the README.
#pragma once

#include <string>

namespace docket {

/// One line a table, in the order of the workbook; needed tables and columns are bold, units stand in the names.
std::string list_tables_and_columns();

} // namespace docket
