// Reads the data of the NIST StRD files in tests/reference.
#pragma once

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace docket::testing {

/// The values after the line of dashes; empty where the file is not there.
inline std::vector<double> read_nist_univariate(const std::string& set) {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/nist_univariate/" + set + ".dat");
  std::string line;
  while (std::getline(file, line) && !line.starts_with("---")) {
  }
  std::vector<double> values;
  for (double value = 0; file >> value;) values.push_back(value);
  return values;
}

/// The values by treatment, from line 61 on; empty where the file is not there.
inline std::vector<std::vector<double>> read_nist_anova(const std::string& set) {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/nist_anova/" + set + ".dat");
  std::string line;
  for (int i = 1; i <= 60; ++i) std::getline(file, line);
  std::map<int, std::vector<double>> treatments;
  int treatment = 0;
  for (double value = 0; file >> treatment >> value;) treatments[treatment].push_back(value);
  std::vector<std::vector<double>> groups;
  for (auto& [number, values] : treatments) groups.push_back(std::move(values));
  return groups;
}

} // namespace docket::testing
