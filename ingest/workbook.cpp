#include "ingest/workbook.h"

#include "core/error.h"
#include "ingest/file_hash.h"
#include "ingest/ods/ods.h"
#include "ingest/package/package.h"
#include "ingest/xlsx/xlsx.h"

#include <filesystem>
#include <system_error>

namespace docket {

namespace {

void check_size(const std::string& path, const ReaderCaps& caps) {
  std::error_code trouble;
  const auto size = std::filesystem::file_size(path, trouble);
  if (!trouble && size > static_cast<std::uintmax_t>(caps.file_bytes)) {
    throw Error(ErrorKind::input_has_faults, name_without_folder(path),
                "The file is larger than " + std::to_string(caps.file_bytes >> 20) + " MiB.",
                "Delete the sheets that are not needed, or give a long log as a CSV file.");
  }
}

} // namespace

RawFile read_workbook(const std::string& path, const ReaderCaps& caps) {
  check_size(path, caps);
  return parse_workbook(read_file_bytes(path), name_without_folder(path), caps);
}

RawFile parse_workbook(std::string_view bytes, const std::string& file, const ReaderCaps& caps) {
  RawFile result{file, sha256_of(bytes), {}};
  const Package package = open_package(bytes, file, caps);
  result.tables = is_open_document(package) ? read_ods(package, caps) : read_xlsx(package, caps);
  return result;
}

} // namespace docket
