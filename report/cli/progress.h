// What a long step is doing, for whoever waits at a terminal: one line on stderr that goes away again. Nothing is shown
// where stderr is no terminal, and nothing before half a second has passed.
#pragma once

#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>

namespace docket {

class Progress {
public:
  Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  ~Progress();

  /// Names what is done from now on: "reading station.xlsx".
  void step(const std::string& what);

  /// Takes the line away, before anything else is printed.
  void finish();

private:
  void show_after_a_while();

  std::mutex mutex_;
  std::condition_variable changed_;
  std::string what_;
  bool done_ = false, shown_ = false;
  std::thread waiter_;
};

} // namespace docket
