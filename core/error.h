// The first of the three kinds of failure: the command can't give its result. (The others: core/issue.h for a defect
// of the data; an outcome with its reason inside a result where the mathematics says no.)
#pragma once

#include <stdexcept>
#include <string>
#include <utility>

namespace docket {

/// What kind of failure stops a command. The numbers are the exit status.
enum class ErrorKind {
  input_has_faults = 1,
  wrong_usage = 2,
  could_not_be_done = 3,
  verification_failed = 4,
};

/// Thrown where a command can't give its result; caught in cli/main.cpp, printed as one line.
class Error : public std::runtime_error {
public:
  /// `where`: file or option; `what_happened` and `remedy`: a sentence each, the remedy is mandatory.
  Error(ErrorKind kind, std::string where, std::string what_happened, std::string remedy)
      : std::runtime_error(where + ": " + what_happened + " " + remedy), kind_(kind), where_(std::move(where)),
        what_happened_(std::move(what_happened)), remedy_(std::move(remedy)) {}

  ErrorKind kind() const { return kind_; }
  const std::string& where() const { return where_; }
  const std::string& what_happened() const { return what_happened_; }
  const std::string& remedy() const { return remedy_; }

private:
  ErrorKind kind_;
  std::string where_;
  std::string what_happened_;
  std::string remedy_;
};

} // namespace docket
