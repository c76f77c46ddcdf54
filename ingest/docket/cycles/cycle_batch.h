// A block of cycles while it is filled: rows that are sure stand in it at once, others keep their place until the plain
// reader has read them.
//
// Checked   tests/ingest/docket/cycles/cycle_csv_test.cpp
#pragma once

#include "ingest/docket/cycles/cycle_block.h"
#include "ingest/docket/cycles/cycle_plain_rows.h"
#include "ingest/table.h"

#include <vector>

namespace docket {

struct CycleBatch {
  CycleBlock block;
  CycleWords words;               ///< of this block alone
  std::vector<RawRow> with_issue; ///< rows with a fault, as they stand in the file; not in the block
};

/// Makes a batch ready for `rows` rows under the header. Each place must be put or dropped.
void begin_batch(CycleBatch& batch, std::size_t rows, const CycleHeader& header);

/// Puts a row at a place that is free.
void put_row(CycleBatch& batch, std::size_t place, const CycleRow& row);

/// Cuts the block to `rows` places and takes out those in `dropped`, which ascend.
void end_batch(CycleBatch& batch, std::size_t rows, const std::vector<std::size_t>& dropped);

} // namespace docket
