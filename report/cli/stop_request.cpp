#include "report/cli/stop_request.h"

#include <csignal>

namespace docket {
namespace {

std::atomic<bool> requested{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may not wait");

extern "C" void request_stop(int signal_number) {
  requested.store(true);
  std::signal(signal_number, SIG_DFL); // the second one ends the program
}

} // namespace

const std::atomic<bool>& stop_requested() {
  // One that is ignored stays so: the program runs in the background.
  for (const int number : {SIGINT, SIGTERM})
    if (std::signal(number, request_stop) == SIG_IGN) std::signal(number, SIG_IGN);
  return requested;
}

} // namespace docket
