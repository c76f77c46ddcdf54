// Motion codes and a plant's own motion table: the text up to a line of ==== is `motions`, the rest `motion_table`.
#include "ingest/csv.h"
#include "tests/fuzz/fuzz_target.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace docket;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  constexpr std::string_view mark = "\n====\n";
  const std::size_t divided = bytes.find(mark);
  fuzz::run([&] {
    std::vector<RawFile> files;
    files.push_back({"motions.csv", "", {parse_csv(bytes.substr(0, divided), "motions.csv")}});
    if (divided != std::string_view::npos)
      files.push_back({"motion_table.csv", "", {parse_csv(bytes.substr(divided + mark.size()), "motion_table.csv")}});
    // An element without a time, so that the motions give it.
    const std::string_view standard = "element,description,class,time_s\nE10,place fan,va,\nE20,fix screws,nnva,20\n";
    files.push_back({"standard.csv", "", {parse_csv(standard, "standard.csv")}});
    fuzz::check_case(std::move(files));
  });
  return 0;
}
