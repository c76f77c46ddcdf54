#include "ingest/package/read_ahead.h"

#include <algorithm>
#include <array>
#include <condition_variable>
#include <exception>
#include <memory>
#include <mutex>
#include <thread>
#include <vector>

namespace docket {

namespace {

constexpr std::size_t block_bytes = std::size_t{256} << 10;
constexpr std::size_t blocks = 4;

/// A ring of blocks: one thread fills them, one empties them.
class ReadAhead {
public:
  explicit ReadAhead(ReadBytes read) : read_(std::move(read)) {
    ring_[0].bytes.resize(block_bytes);
    ring_[0].size = read_(ring_[0].bytes);
    full_ = ring_[0].size > 0 ? 1 : 0;
    ended_ = ring_[0].size < block_bytes; // A small part needs no thread.
    if (!ended_) filler_ = std::thread([this] { fill(); });
  }
  ReadAhead(const ReadAhead&) = delete;
  ReadAhead& operator=(const ReadAhead&) = delete;

  ~ReadAhead() {
    {
      const std::lock_guard lock(mutex_);
      stopped_ = true;
    }
    changed_.notify_all();
    if (filler_.joinable()) filler_.join();
  }

  std::size_t read(std::span<char> into) {
    std::size_t got = 0;
    while (got < into.size()) {
      {
        std::unique_lock lock(mutex_);
        changed_.wait(lock, [&] { return full_ > 0 || ended_; });
        if (full_ == 0) {
          if (thrown_ && got == 0) std::rethrow_exception(thrown_);
          return got;
        }
      }
      const Block& block = ring_[first_];
      const std::size_t piece = std::min(into.size() - got, block.size - at_);
      std::copy_n(block.bytes.begin() + static_cast<std::ptrdiff_t>(at_), piece,
                  into.begin() + static_cast<std::ptrdiff_t>(got));
      got += piece;
      at_ += piece;
      if (at_ < block.size) continue;
      at_ = 0;
      first_ = (first_ + 1) % blocks;
      const std::lock_guard lock(mutex_);
      --full_;
      changed_.notify_all();
    }
    return got;
  }

private:
  struct Block {
    std::vector<char> bytes;
    std::size_t size = 0;
  };

  void fill() {
    for (std::size_t next = 1;; next = (next + 1) % blocks) {
      {
        std::unique_lock lock(mutex_);
        changed_.wait(lock, [&] { return full_ < blocks || stopped_; });
        if (stopped_) return;
      }
      std::exception_ptr thrown;
      std::size_t got = 0;
      try {
        ring_[next].bytes.resize(block_bytes);
        got = read_(ring_[next].bytes);
      } catch (...) {
        thrown = std::current_exception();
      }
      const std::lock_guard lock(mutex_);
      ring_[next].size = got;
      if (got > 0)
        ++full_;
      else
        ended_ = true;
      thrown_ = thrown;
      changed_.notify_all();
      if (ended_) return;
    }
  }

  ReadBytes read_;
  std::array<Block, blocks> ring_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::size_t full_ = 0; ///< blocks, from first_ on
  bool ended_ = false, stopped_ = false;
  std::exception_ptr thrown_;
  std::size_t first_ = 0, at_ = 0; ///< of the emptying thread alone
  std::thread filler_;
};

} // namespace

ReadBytes read_ahead(ReadBytes read) {
  const auto ahead = std::make_shared<ReadAhead>(std::move(read));
  return [ahead](std::span<char> into) { return ahead->read(into); };
}

} // namespace docket
