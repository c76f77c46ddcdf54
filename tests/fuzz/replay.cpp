// Runs a fuzz target on files, and on all files of folders, without a fuzzer.
//
//     fuzz_docket FILE_OR_FOLDER...
//     fuzz_docket --mutate SECONDS SEED FILE_OR_FOLDER...    on them changed at random too, where there is no fuzzer; what
//                                                            is being tried lies in mutated_input when it stops
#include <algorithm>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

void run(const std::string& bytes) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
}

/// A few changes: single bytes, runs of one byte, pieces copied from elsewhere or from another input, cuts.
std::string mutated(const std::vector<std::string>& inputs, std::mt19937_64& draw) {
  const auto below = [&](std::size_t end) { return end == 0 ? 0 : static_cast<std::size_t>(draw() % end); };
  std::string bytes = inputs[below(inputs.size())];
  for (std::size_t changes = 1 + below(6); changes > 0 && !bytes.empty(); --changes) {
    // Half of them near the front, where the heads of files are.
    const std::size_t at = below(draw() % 2 == 0 ? std::min<std::size_t>(bytes.size(), 600) : bytes.size());
    const std::size_t length = std::min(bytes.size() - at, 1 + below(16));
    const std::string& other = inputs[below(inputs.size())];
    switch (draw() % 8) {
    case 0:
    case 1:
      bytes[at] = static_cast<char>(draw());
      break;
    case 2:
    case 3:
      bytes[at] = static_cast<char>(bytes[at] ^ (1 << below(8)));
      break;
    case 4:
      bytes.replace(at, length, length, static_cast<char>(draw() % 2 == 0 ? 0xFF : 0));
      break;
    case 5:
      bytes.replace(at, length, bytes.substr(below(bytes.size()), length));
      break;
    case 6:
      if (!other.empty()) bytes.replace(at, length * 16, other.substr(below(other.size()), length * 16));
      break;
    default:
      if (draw() % 8 == 0) bytes.resize(at);
    }
  }
  return bytes;
}

void run_mutated(const std::vector<std::string>& inputs, double seconds, std::uint64_t seed) {
  using Clock = std::chrono::steady_clock;
  std::mt19937_64 draw(seed);
  const auto start = Clock::now();
  std::int64_t tried = 0;
  while (std::chrono::duration<double>(Clock::now() - start).count() < seconds) {
    const std::string bytes = mutated(inputs, draw);
    std::ofstream("mutated_input", std::ios::binary) << bytes;
    run(bytes);
    ++tried;
  }
  std::filesystem::remove("mutated_input");
  std::printf("%lld changed inputs\n", static_cast<long long>(tried));
}

} // namespace

int main(int count, char** words) {
  namespace fs = std::filesystem;
  const bool mutate = count > 3 && std::string(words[1]) == "--mutate";
  std::vector<fs::path> files;
  std::vector<std::string> inputs;
  for (int i = mutate ? 4 : 1; i < count; ++i) {
    if (!fs::is_directory(words[i])) {
      files.emplace_back(words[i]);
      continue;
    }
    for (const auto& entry : fs::directory_iterator(words[i])) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  for (const fs::path& path : files) {
    std::ifstream stream(path, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
    if (!stream.good() && !stream.eof()) {
      std::fprintf(stderr, "%s can't be read\n", path.c_str());
      return 1;
    }
    std::printf("%s\n", path.filename().c_str());
    std::fflush(stdout);
    run(bytes);
    inputs.push_back(bytes);
  }
  if (mutate && !inputs.empty()) run_mutated(inputs, std::atof(words[2]), std::strtoull(words[3], nullptr, 10));
  std::printf("%zu inputs\n", files.size());
  return files.empty() ? 1 : 0;
}
