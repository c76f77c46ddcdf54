#include "report/cli/progress.h"

#include <unistd.h>

#include <chrono>
#include <cstdio>

namespace docket {
namespace {

constexpr std::chrono::milliseconds shown_after{500};
constexpr const char* clear_line = "\r\033[K";

void show(const std::string& what) {
  std::fprintf(stderr, "%s%s ...", clear_line, what.c_str());
  std::fflush(stderr);
}

} // namespace

Progress::Progress() {
  if (isatty(STDERR_FILENO) == 1) waiter_ = std::thread(&Progress::show_after_a_while, this);
}

Progress::~Progress() { finish(); }

void Progress::finish() {
  if (!waiter_.joinable()) return;
  {
    const std::lock_guard lock(mutex_);
    done_ = true;
  }
  changed_.notify_all();
  waiter_.join();
  if (shown_) std::fprintf(stderr, "%s", clear_line);
}

void Progress::step(const std::string& what) {
  const std::lock_guard lock(mutex_);
  what_ = what;
  if (shown_) show(what_);
}

void Progress::show_after_a_while() {
  std::unique_lock lock(mutex_);
  if (changed_.wait_for(lock, shown_after, [&] { return done_; })) return;
  shown_ = true;
  show(what_);
}

} // namespace docket
