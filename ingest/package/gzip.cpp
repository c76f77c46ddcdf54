#include "ingest/package/gzip.h"

#include "core/error.h"

#include <zlib.h>

#include <algorithm>
#include <memory>
#include <new>

namespace docket {

namespace {

constexpr const char* copy_again = "Copy it again from where it came, or export it again.";

/// One file being unpacked, member by member.
class Gunzip {
public:
  Gunzip(std::string_view bytes, std::string file, std::string what, const ReaderCaps& caps)
      : rest_(bytes), file_(std::move(file)), what_(std::move(what)),
        most_(std::min(caps.unpacked_bytes,
                       std::max(caps.free_bytes, caps.growth * static_cast<std::int64_t>(bytes.size())))) {
    constexpr int gzip_with_largest_window = 15 + 16;
    if (inflateInit2(&stream_, gzip_with_largest_window) != Z_OK) throw std::bad_alloc();
  }
  Gunzip(const Gunzip&) = delete;
  Gunzip& operator=(const Gunzip&) = delete;
  ~Gunzip() { inflateEnd(&stream_); }

  std::size_t read(std::span<char> block) {
    std::size_t got = 0;
    while (got < block.size() && !at_end_) got += read_member(block.subspan(got));
    unpacked_ += static_cast<std::int64_t>(got);
    if (unpacked_ > most_)
      refuse("The " + what_ + " unpacks to more than " + std::to_string(most_ >> 20) + " MiB.",
             "Give a long log in parts, or as a CSV file.");
    return got;
  }

private:
  std::size_t read_member(std::span<char> block) {
    constexpr std::size_t most_at_once = std::size_t{1} << 30; // zlib counts in 32 bits
    const std::size_t given = std::min(rest_.size(), most_at_once);
    // zlib reads through this pointer only.
    stream_.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(rest_.data()));
    stream_.avail_in = static_cast<uInt>(given);
    stream_.next_out = reinterpret_cast<Bytef*>(block.data());
    stream_.avail_out = static_cast<uInt>(std::min(block.size(), most_at_once));
    const uInt room = stream_.avail_out;
    const int state = inflate(&stream_, Z_NO_FLUSH);
    rest_.remove_prefix(given - stream_.avail_in);
    const std::size_t got = room - stream_.avail_out;
    if (state == Z_STREAM_END) {
      end_member();
    } else if (state == Z_MEM_ERROR) {
      throw std::bad_alloc();
    } else if (state != Z_OK) {
      refuse_damaged_or_cut(state);
    } else if (got == 0 && rest_.empty()) {
      refuse_damaged_or_cut(Z_BUF_ERROR);
    }
    return got;
  }

  void end_member() {
    if (rest_.find_first_not_of('\0') == std::string_view::npos) {
      at_end_ = true;
    } else if (!is_gzip(rest_) || inflateReset(&stream_) != Z_OK) {
      refuse("The " + what_ + " is damaged (other bytes follow the packed ones).", copy_again);
    }
  }

  [[noreturn]] void refuse_damaged_or_cut(int state) const {
    if (state == Z_BUF_ERROR && rest_.empty()) refuse("The " + what_ + " is cut short.", copy_again);
    refuse("The " + what_ + " is damaged (it can't be unpacked).", copy_again);
  }

  [[noreturn]] void refuse(const std::string& what_happened, const std::string& remedy) const {
    throw Error(ErrorKind::input_has_faults, file_, what_happened, remedy);
  }

  z_stream stream_{};
  std::string_view rest_;
  std::string file_, what_;
  std::int64_t unpacked_ = 0, most_ = 0;
  bool at_end_ = false;
};

} // namespace

bool is_gzip(std::string_view bytes) { return bytes.starts_with("\x1F\x8B"); }

ReadBytes open_gzip(std::string_view bytes, const std::string& file, const std::string& what, const ReaderCaps& caps) {
  const auto gunzip = std::make_shared<Gunzip>(bytes, file, what, caps);
  return [gunzip](std::span<char> block) { return gunzip->read(block); };
}

} // namespace docket
