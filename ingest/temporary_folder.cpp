#include "ingest/temporary_folder.h"

#include "core/error.h"

#include <stdlib.h>

#include <filesystem>

namespace docket {

TemporaryFolder::TemporaryFolder() {
  std::error_code error;
  path_ = (std::filesystem::temp_directory_path(error) / "docket-XXXXXX").string();
  if (error || mkdtemp(path_.data()) == nullptr)
    throw Error(ErrorKind::could_not_be_done, path_, "No temporary folder can be made.",
                "Check that there is space for temporary files, or set TMPDIR.");
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

} // namespace docket
