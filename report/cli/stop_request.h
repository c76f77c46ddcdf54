// Ctrl-C while something is written: said to whoever can leave everything as it was.
//
// Method    the first Ctrl-C (SIGINT, SIGTERM) only sets a flag; a second one ends the program at once, as it always does.
//           The docket bears that too: what was not committed is undone when it is opened next
// Checked   tests/outside/docket_faults.py
#pragma once

#include <atomic>

namespace docket {

/// True once the user asked to stop. The first call begins to listen.
const std::atomic<bool>& stop_requested();

} // namespace docket
