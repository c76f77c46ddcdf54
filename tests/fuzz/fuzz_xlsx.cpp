// XLSX workbooks: zip files as they are, and parts of one that need no check sum ("==== xl/workbook.xml" begins a part).
#include "ingest/xlsx/xlsx.h"
#include "tests/fuzz/fuzz_target.h"

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  docket::fuzz::check_workbook({reinterpret_cast<const char*>(data), size}, "fuzz.xlsx", docket::read_xlsx);
  return 0;
}
