#include "ingest/docket/cycles/cycle_csv.h"

#include "core/error.h"
#include "ingest/docket/cycles/cycle_batches.h"
#include "ingest/file_hash.h"
#include "ingest/running_hash.h"
#include "ingest/text_encoding.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <condition_variable>
#include <deque>
#include <exception>
#include <mutex>
#include <optional>
#include <thread>

namespace docket {

namespace {

constexpr std::size_t most_in_memory = std::size_t{64} << 20; // [byte] of a file that can't be mapped as it is
constexpr std::size_t batches_ahead = 2;

constexpr std::string_view utf8_mark = "\xEF\xBB\xBF";

bool is_utf16(std::string_view text) { return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"); }

[[noreturn]] void refuse_changed(const std::string& file) {
  throw Error(ErrorKind::could_not_be_done, file, "The file was changed while it was read.",
              "Read it again when no other program writes to it.");
}

/// A file as it stands on disk, mapped.
class MappedFile {
public:
  explicit MappedFile(const std::string& path) : descriptor_(::open(path.c_str(), O_RDONLY | O_CLOEXEC)) {
    if (descriptor_ < 0 || ::fstat(descriptor_, &at_start_) != 0 || !S_ISREG(at_start_.st_mode) ||
        at_start_.st_size == 0)
      return;
    void* const mapped = ::mmap(nullptr, size(), PROT_READ, MAP_PRIVATE, descriptor_, 0);
    if (mapped == MAP_FAILED) return;
    start_ = static_cast<char*>(mapped);
    ::madvise(start_, size(), MADV_SEQUENTIAL);
  }
  MappedFile(const MappedFile&) = delete;
  MappedFile& operator=(const MappedFile&) = delete;
  ~MappedFile() {
    if (start_ != nullptr) ::munmap(start_, size());
    if (descriptor_ >= 0) ::close(descriptor_);
  }

  bool is_mapped() const { return start_ != nullptr; }
  std::string_view text() const { return {start_, size()}; }

  bool has_changed() const {
    struct stat now {};
    return ::fstat(descriptor_, &now) != 0 || now.st_size != at_start_.st_size ||
           now.st_mtim.tv_sec != at_start_.st_mtim.tv_sec || now.st_mtim.tv_nsec != at_start_.st_mtim.tv_nsec;
  }

  /// The pages before `to` are not needed any more.
  void let_go(std::size_t to) {
    const auto page = static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
    to -= to % page;
    if (to > let_go_to_) ::madvise(start_ + let_go_to_, to - let_go_to_, MADV_DONTNEED);
    let_go_to_ = std::max(let_go_to_, to);
  }

private:
  std::size_t size() const { return static_cast<std::size_t>(at_start_.st_size); }

  int descriptor_;
  struct stat at_start_ {};
  char* start_ = nullptr;
  std::size_t let_go_to_ = 0;
};

/// Batches on their way from the reading thread to the caller's, and back when they are spent.
class Channel {
public:
  struct Filled {
    CycleBatch batch;
    std::size_t read_to = 0; ///< [byte] of the text
    std::int64_t rows = 0;   ///< so far
  };

  /// An empty batch; absent where nobody takes them any more.
  std::optional<Filled> take_spent() {
    std::unique_lock lock(mutex_);
    moved_.wait(lock, [&] { return closed_ || given_out_ < batches_ahead + 1; });
    if (closed_) return std::nullopt;
    ++given_out_;
    if (spent_.empty()) return Filled{};
    Filled filled = std::move(spent_.back());
    spent_.pop_back();
    return filled;
  }

  void put_filled(Filled filled) {
    const std::lock_guard lock(mutex_);
    filled_.push_back(std::move(filled));
    moved_.notify_all();
  }

  /// The next one; absent at the end. Throws what stopped the reading thread.
  std::optional<Filled> take_filled() {
    std::unique_lock lock(mutex_);
    moved_.wait(lock, [&] { return ended_ || !filled_.empty(); });
    if (filled_.empty()) {
      if (failure_) std::rethrow_exception(failure_);
      return std::nullopt;
    }
    Filled filled = std::move(filled_.front());
    filled_.pop_front();
    return filled;
  }

  void put_spent(Filled filled) {
    const std::lock_guard lock(mutex_);
    spent_.push_back(std::move(filled));
    --given_out_;
    moved_.notify_all();
  }

  void end(std::exception_ptr failure) {
    const std::lock_guard lock(mutex_);
    ended_ = true;
    failure_ = std::move(failure);
    moved_.notify_all();
  }

  void close() {
    const std::lock_guard lock(mutex_);
    closed_ = true;
    moved_.notify_all();
  }

private:
  std::mutex mutex_;
  std::condition_variable moved_;
  std::deque<Filled> filled_;
  std::vector<Filled> spent_;
  std::size_t given_out_ = 0;
  bool ended_ = false, closed_ = false;
  std::exception_ptr failure_;
};

/// The reading thread; it has ended when this is destroyed.
class Reader {
public:
  Reader(CycleBatches& batches, Channel& channel)
      : channel_(channel), thread_([&batches, &channel] {
          try {
            while (auto filled = channel.take_spent()) {
              if (!batches.next(filled->batch)) break;
              filled->read_to = batches.read_to();
              filled->rows = batches.rows();
              channel.put_filled(*std::move(filled));
            }
            channel.end(nullptr);
          } catch (...) {
            channel.end(std::current_exception());
          }
        }) {}
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;
  ~Reader() {
    channel_.close();
    thread_.join();
  }

private:
  Channel& channel_;
  std::thread thread_;
};

bool is_stopped(const CycleReading& reading) { return reading.stop != nullptr && reading.stop->load(); }

/// What is done with the bytes behind the reader: they are hashed and let go.
using PassBytes = std::function<void(std::size_t to)>;

/// `text`: UTF-8 without mark.
CycleLogRead read_text(std::string_view text, const std::string& file, const CycleReading& reading,
                       const PassBytes& pass) {
  CycleLogRead result;
  result.file = file;
  CycleBatches batches(text, file, std::min(reading.block_rows, cycle_block_rows));
  {
    Channel channel;
    const Reader reader(batches, channel);
    while (!result.stopped) {
      auto filled = channel.take_filled();
      if (!filled) break;
      CycleBatch& batch = filled->batch;
      if (is_stopped(reading)) {
        result.stopped = true;
        break;
      }
      result.used += static_cast<std::int64_t>(batch.block.rows);
      if (batch.block.rows > 0 || !batch.with_issue.empty()) reading.take(batch);
      pass(filled->read_to);
      if (reading.progress)
        reading.progress(filled->rows, static_cast<std::int64_t>(filled->read_to),
                         static_cast<std::int64_t>(text.size()));
      channel.put_spent(*std::move(filled));
    }
  } // the reading thread has ended
  result.rows = batches.rows();
  result.with_issue = batches.with_issue();
  result.issues = in_order(batches.issues());
  result.faulty = batches.issues().faults > 0;
  return result;
}

} // namespace

CycleLogRead read_cycle_csv_text(std::string_view text, const std::string& file, const CycleReading& reading) {
  const auto nothing = [](std::size_t) {};
  if (text.starts_with("PK\x03\x04"))
    throw Error(ErrorKind::input_has_faults, file, "This is not CSV text but a workbook or a zip file.",
                "Give a workbook the ending .xlsx, or save the sheet as CSV UTF-8.");
  CycleLogRead result;
  if (is_utf16(text)) {
    const auto converted = utf8_from_utf16(text.substr(2), text.front() == '\xFE');
    if (!converted)
      throw Error(ErrorKind::input_has_faults, file, "The text is marked as UTF-16, but is not.",
                  "Open it in a spreadsheet program and save it as CSV UTF-8.");
    result = read_text(*converted, file, reading, nothing);
  } else {
    result = read_text(text.substr(text.starts_with(utf8_mark) ? utf8_mark.size() : 0), file, reading, nothing);
  }
  result.bytes = static_cast<std::int64_t>(text.size());
  if (!result.stopped) result.sha256 = sha256_of(text);
  return result;
}

CycleLogRead read_cycle_csv(const std::string& path, const CycleReading& reading) {
  const std::string name = name_without_folder(path);
  MappedFile mapped(path);
  // What can't be mapped says why when it is read, or can be read after all.
  if (!mapped.is_mapped()) return read_cycle_csv_text(read_file_bytes(path), name, reading);
  const std::string_view text = mapped.text();
  if (is_utf16(text) && text.size() > most_in_memory)
    throw Error(ErrorKind::input_has_faults, name, "The text is UTF-16 and larger than 64 MB.",
                "Save it as CSV UTF-8; that can be of any size.");
  if (is_utf16(text) || text.starts_with("PK\x03\x04")) return read_cycle_csv_text(text, name, reading);

  RunningHash hash;
  const std::size_t mark = text.starts_with(utf8_mark) ? utf8_mark.size() : 0;
  std::size_t hashed = 0;
  const auto pass = [&](std::size_t to) {
    hash.add(text.substr(hashed, to - hashed));
    hashed = to;
    mapped.let_go(to);
    if (mapped.has_changed()) refuse_changed(name);
  };
  CycleLogRead result = read_text(text.substr(mark), name, reading, [&](std::size_t read_to) { pass(mark + read_to); });
  result.bytes = static_cast<std::int64_t>(text.size());
  if (result.stopped) return result;
  pass(text.size());
  result.sha256 = hash.hex();
  return result;
}

} // namespace docket
