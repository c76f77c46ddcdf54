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

std::vector<RawTable> read_sheets(const Package& package, const ReaderCaps& caps) {
  return is_open_document(package) ? read_ods(package, caps) : read_xlsx(package, caps);
}

} // namespace

RawFile read_workbook(const std::string& path, const ReaderCaps& caps) {
  check_size(path, caps);
  const std::string file = name_without_folder(path);
  const std::string hash = sha256_of_file(path);
  return {file, hash, read_sheets(open_package(open_file(path), file, caps), caps)};
}

RawFile parse_workbook(std::string_view bytes, const std::string& file, const ReaderCaps& caps) {
  return {file, sha256_of(bytes), read_sheets(open_package(bytes, file, caps), caps)};
}

} // namespace docket
