// Reads what R printed for the tests: lines of key,value.
#pragma once

#include <fstream>
#include <map>
#include <string>

namespace docket::testing {

/// Empty where the file is not there. `set` is a folder of tests/reference.
inline std::map<std::string, double> read_reference_values(const std::string& set) {
  std::map<std::string, double> values;
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/" + set + "/values.csv");
  for (std::string line; std::getline(file, line);) {
    const std::size_t comma = line.find(',');
    values[line.substr(0, comma)] = std::stod(line.substr(comma + 1));
  }
  return values;
}

} // namespace docket::testing
