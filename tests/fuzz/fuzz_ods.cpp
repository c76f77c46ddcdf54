// ODS workbooks: zip files as they are, and parts of one that need no check sum ("==== content.xml" begins a part).
#include "ingest/ods/ods.h"
#include "tests/fuzz/fuzz_target.h"

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  docket::fuzz::check_workbook({reinterpret_cast<const char*>(data), size}, "fuzz.ods", docket::read_ods);
  return 0;
}
