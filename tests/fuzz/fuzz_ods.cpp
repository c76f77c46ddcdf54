// ODS workbooks: zip files as they are, and parts of one that need no check sum ("==== content.xml" begins a part).
#include "ingest/ods/ods.h"
#include "ingest/workbook.h"
#include "tests/fuzz/fuzz_target.h"

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace docket;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  fuzz::run([&] {
    const ReaderCaps caps = fuzz::small_caps();
    const bool parts = bytes.starts_with("==== ");
    RawFile file{"fuzz.ods", "", {}};
    file.tables =
        parts ? read_ods(fuzz::package_of_parts(bytes), caps) : parse_workbook(bytes, "fuzz.ods", caps).tables;
    fuzz::check_tables(file.tables);
    fuzz::check_case({file});
  });
  return 0;
}
