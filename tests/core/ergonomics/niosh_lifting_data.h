// Rows of tests/reference/niosh_lifting; its ORIGIN says where each is from.
#pragma once

#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace docket::niosh {

using Row = std::map<std::string, std::string>;

inline std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> found;
  std::istringstream stream(line);
  for (std::string cell; std::getline(stream, cell, ',');) found.push_back(cell);
  return found;
}

/// By column name; throws where the file is not there.
inline std::vector<Row> rows(const std::string& file) {
  std::ifstream stream(std::string(DOCKET_TESTS_DIR) + "/reference/niosh_lifting/" + file);
  std::string line;
  if (!std::getline(stream, line)) throw std::runtime_error("no reference file " + file);
  const std::vector<std::string> names = cells(line);
  std::vector<Row> found;
  while (std::getline(stream, line)) {
    const std::vector<std::string> values = cells(line);
    if (values.size() != names.size()) throw std::runtime_error(file + ": " + line);
    Row row;
    for (std::size_t i = 0; i < names.size(); ++i) row[names[i]] = values[i];
    found.push_back(row);
  }
  return found;
}

inline double number(const Row& row, const std::string& name) { return std::stod(row.at(name)); }

} // namespace docket::niosh
