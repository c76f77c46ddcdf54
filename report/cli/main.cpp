#include "core/error.h"
#include "report/cli/commands.h"
#include "report/version.h"

#include <exception>
#include <iostream>
#include <string>
#include <vector>

namespace docket {
namespace {

int run(const std::vector<std::string>& words) {
  if (words.empty()) {
    std::cerr << help_of_all(all_commands());
    return static_cast<int>(ErrorKind::wrong_usage);
  }
  const std::string& first = words.front();
  if (first == "--version") {
    std::cout << "docket " << program_version() << "\n";
    return 0;
  }
  if (first == "--help" || first == "-h") {
    std::cout << help_of_all(all_commands());
    return 0;
  }
  const Command& command = find_command(all_commands(), first);
  const std::span rest = std::span(words).subspan(1);
  if (asks_for_help(rest)) {
    std::cout << help_of(command);
    return 0;
  }
  return command.run(read_command_line(command, rest));
}

} // namespace
} // namespace docket

int main(int count, char** words) {
  try {
    const int status = docket::run(std::vector<std::string>(words + 1, words + count));
    std::cout.flush();
    if (!std::cout)
      throw docket::Error(docket::ErrorKind::could_not_be_done, "standard output", "It can't be written to.",
                          "Check that there is space where it goes.");
    return status;
  } catch (const docket::Error& error) {
    std::cerr << error.what() << "\n";
    if (error.kind() == docket::ErrorKind::input_has_faults) std::cerr << "1 fault. Nothing was written.\n";
    return static_cast<int>(error.kind());
  } catch (const std::exception& error) {
    std::cerr << "docket: This is a fault of the program itself: " << error.what()
              << ". Nothing was written. Please report it with the command and, if you may, the input.\n";
    return static_cast<int>(docket::ErrorKind::could_not_be_done);
  }
}
