// CSV texts, as the cycle log of a case.
#include "ingest/csv.h"
#include "tests/fuzz/fuzz_target.h"

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace docket;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  fuzz::run([&] {
    const RawTable table = parse_csv(bytes, "cycle_log.csv");
    fuzz::check_tables({table});
    fuzz::check_case({{"cycle_log.csv", "", {table}}});
  });
  return 0;
}
