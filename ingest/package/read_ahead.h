// Bytes made on a thread of their own while others are being used: unpacking and parsing at the same time.
#pragma once

#include "ingest/package/package.h"

namespace docket {

/// Reads the first block at once, and if there are more the others on a thread of its own, a few blocks ahead. What `read` throws is thrown where its block would be
/// read. The thread ends with the last copy of what is returned; until then `read` is used by it alone.
ReadBytes read_ahead(ReadBytes read);

} // namespace docket
