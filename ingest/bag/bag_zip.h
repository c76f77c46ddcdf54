// The ZIP file of a bag, always written in the same way.
#pragma once

#include "ingest/bag/bag.h"

#include <span>
#include <string>

namespace docket {

/// Writes the files, in this order, below `folder`. Throws Error (could_not_be_done).
void write_bag_zip(const std::string& path, const std::string& folder, std::span<const BagFile> files);

} // namespace docket
