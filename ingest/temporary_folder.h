// A folder for files that nobody is to keep.
#pragma once

#include <string>

namespace docket {

/// Made where the system keeps such files, readable by nobody else; goes away with all that is in it.
class TemporaryFolder {
public:
  /// Throws Error (could_not_be_done).
  TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder();
  const std::string& path() const { return path_; }

private:
  std::string path_;
};

} // namespace docket
