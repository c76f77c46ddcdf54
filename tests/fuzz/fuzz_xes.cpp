// Event logs, plain and packed.
#include "ingest/event_log.h"
#include "tests/fuzz/fuzz_target.h"

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace docket;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  fuzz::run([&] {
    const RawFile file = parse_event_log(bytes, "fuzz.xes", fuzz::small_caps());
    fuzz::check_tables(file.tables);
    fuzz::check_case({file});
  });
  return 0;
}
