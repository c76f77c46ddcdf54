#include "ingest/package/package.h"

#include "core/error.h"

#include <Poco/MemoryStream.h>
#include <Poco/Zip/ZipArchive.h>
#include <Poco/Zip/ZipStream.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <memory>
#include <utility>

namespace docket {

namespace {

[[noreturn]] void refuse(const std::string& file, const std::string& what, const std::string& remedy) {
  throw Error(ErrorKind::input_has_faults, file, what, remedy);
}

constexpr const char* copy_again = "Copy it again from where it came, or save it again in a spreadsheet program.";

/// ISO/IEC 29500-2: part names are compared without regard to case.
std::string comparable(std::string_view name) {
  while (!name.empty() && (name.front() == '/' || name.front() == '\\')) name.remove_prefix(1);
  std::string result(name);
  for (char& c : result) {
    if (c == '\\') c = '/';
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return result;
}

/// `count` bytes from a place on, or as many as there are.
std::string bytes_at(std::istream& stream, std::int64_t place, std::size_t count) {
  std::string bytes(count, '\0');
  stream.clear();
  stream.seekg(place);
  stream.read(bytes.data(), static_cast<std::streamsize>(count));
  bytes.resize(static_cast<std::size_t>(stream.gcount()));
  stream.clear();
  stream.seekg(0);
  return bytes;
}

std::int64_t size_of(std::istream& stream) {
  stream.clear();
  stream.seekg(0, std::ios::end);
  const std::streamoff size = stream.tellg();
  stream.seekg(0);
  return std::max<std::streamoff>(size, 0);
}

/// A text file, an empty file and a password-protected workbook all open as a zip file without entries.
void check_start(std::string_view bytes, const std::string& file) {
  if (bytes.empty()) refuse(file, "The file is empty.", copy_again);
  if (bytes.starts_with("\xD0\xCF\x11\xE0")) {
    refuse(file, "This is a password-protected workbook or an old .xls.",
           "Open it in a spreadsheet program, remove the password, and save it as .xlsx.");
  }
  if (!bytes.starts_with("PK\x03\x04")) {
    const std::string ending = std::filesystem::path(file).extension().string();
    refuse(file, "This is not a workbook" + (ending.empty() ? "." : " although its name ends in " + ending + "."),
           "Open it in the program that made it and save it as .xlsx, or as CSV UTF-8 with the ending .csv.");
  }
}

/// The end record of a zip file: without it the file was cut, though its first entries may still be whole.
void check_end(std::string_view bytes, const std::string& file) {
  if (bytes.find("PK\x05\x06") == std::string_view::npos) refuse(file, "The workbook is cut short.", copy_again);
}

/// How far from the end the end record may begin: its own size and the longest comment.
constexpr std::size_t end_reach = 22 + 65535;

/// The stream and the archive that reads from it live together.
struct OpenArchive {
  explicit OpenArchive(std::shared_ptr<std::istream> bytes) : stream(std::move(bytes)), archive(*stream) {}

  std::shared_ptr<std::istream> stream;
  Poco::Zip::ZipArchive archive;
};

/// One part being unpacked.
struct Unpacking {
  std::shared_ptr<OpenArchive> archive;
  Poco::Zip::ZipInputStream stream;
};

/// What all parts of one package have unpacked so far.
struct Unpacked {
  std::int64_t bytes = 0;
  std::int64_t most = 0;
};

std::size_t read_some(Unpacking& unpacking, std::span<char> block, const std::string& file, const std::string& name) {
  if (!unpacking.stream.good()) return 0;
  try {
    unpacking.stream.read(block.data(), static_cast<std::streamsize>(block.size()));
  } catch (const std::exception&) {
    refuse_damaged(file, name);
  }
  return static_cast<std::size_t>(unpacking.stream.gcount());
}

std::int64_t most_unpacked(std::int64_t size, const ReaderCaps& caps) {
  return std::min(caps.unpacked_bytes, std::max(caps.free_bytes, caps.growth * size));
}

/// The stream holds a zip file of this size.
Package open_archive(std::shared_ptr<std::istream> stream, std::int64_t size, const std::string& file,
                     const ReaderCaps& caps) {
  std::shared_ptr<OpenArchive> archive;
  try {
    archive = std::make_shared<OpenArchive>(std::move(stream));
  } catch (const std::exception&) {
    refuse_damaged(file, "its list of parts");
  }

  Package package{file, {}};
  const auto unpacked = std::make_shared<Unpacked>(Unpacked{0, most_unpacked(size, caps)});
  for (auto entry = archive->archive.headerBegin(); entry != archive->archive.headerEnd(); ++entry) {
    const std::string name = entry->first;
    const auto& header = entry->second;
    const auto opener = [archive, unpacked, file, name, &header]() -> ReadBytes {
      if (header.isEncrypted()) {
        refuse(file, "This workbook is encrypted.",
               "Open it in a spreadsheet program, remove the password, and save it as .xlsx.");
      }
      std::shared_ptr<Unpacking> unpacking;
      try {
        archive->stream->clear();
        unpacking.reset(new Unpacking{archive, Poco::Zip::ZipInputStream(*archive->stream, header)});
      } catch (const std::exception&) {
        refuse_damaged(file, name);
      }
      // A wrong check sum, a cut part and an unknown packing are only this bit; without it they look like the end.
      unpacking->stream.exceptions(std::ios::badbit);
      return [unpacking, unpacked, file, name](std::span<char> block) {
        const std::size_t got = read_some(*unpacking, block, file, name);
        unpacked->bytes += static_cast<std::int64_t>(got);
        if (unpacked->bytes > unpacked->most) {
          refuse(file, "The workbook unpacks to more than " + std::to_string(unpacked->most >> 20) + " MiB.",
                 "Delete the sheets that are not needed, or give a long log as a CSV file.");
        }
        return got;
      };
    };
    if (!package.openers.emplace(comparable(name), opener).second) {
      refuse_damaged(file, "two parts are called " + name);
    }
  }
  return package;
}

} // namespace

Package open_package(std::string_view bytes, const std::string& file, const ReaderCaps& caps) {
  check_start(bytes, file);
  check_end(bytes.substr(bytes.size() - std::min(bytes.size(), end_reach)), file);
  const auto size = static_cast<std::streamsize>(bytes.size());
  return open_archive(std::make_shared<Poco::MemoryInputStream>(bytes.data(), size), size, file, caps);
}

Package open_package(std::shared_ptr<std::istream> stream, const std::string& file, const ReaderCaps& caps) {
  const std::int64_t size = size_of(*stream);
  check_start(bytes_at(*stream, 0, 4), file);
  const std::size_t reach = std::min(static_cast<std::size_t>(size), end_reach);
  check_end(bytes_at(*stream, size - static_cast<std::int64_t>(reach), reach), file);
  return open_archive(std::move(stream), size, file, caps);
}

bool has_part(const Package& package, std::string_view name) { return package.openers.contains(comparable(name)); }

ReadBytes open_part(const Package& package, std::string_view name) {
  const auto found = package.openers.find(comparable(name));
  if (found == package.openers.end()) refuse_damaged(package.file, std::string(name) + " is missing");
  return found->second();
}

void refuse_damaged(const std::string& file, const std::string& detail) {
  refuse(file, "The workbook is damaged (" + detail + ").", copy_again);
}

void count_cells(CapsUsed& used, std::int64_t cells, std::size_t text_bytes, const ReaderCaps& caps,
                 const std::string& file, std::string_view what) {
  used.cells += cells;
  used.text_bytes += static_cast<std::int64_t>(text_bytes);
  if (used.cells <= caps.cells && used.text_bytes <= caps.text_bytes) return;
  refuse(file,
         "The " + std::string(what) + " holds more than " +
             (used.cells > caps.cells ? std::to_string(caps.cells) + " cells."
                                      : std::to_string(caps.text_bytes >> 20) + " MiB of text."),
         "Delete the sheets that are not needed, or give a long log as a CSV file.");
}

} // namespace docket
