// The folder a run writes: all of its files or none, and never over anything that is not ours.
//
// Method   the files are written into a folder beside it, which then takes its name by rename; a former run is renamed
//          aside first, and removed last
// Assumes  the folder and its parent lie on one file system
// Checked  tests/report/run_folder_test.cpp
#pragma once

#include <span>
#include <string>

namespace docket {

/// One file of a run.
struct RunFile {
  std::string name; ///< without folder
  std::string bytes;
};

/// Can a run be written there? The folder must be absent, empty, or hold a former run: files of our names alone, one of
/// them with our mark. Throws Error (wrong_usage) where it must not be replaced. Looks only, so that a wrong folder is
/// known before anything is computed.
void check_run_folder(const std::string& folder);

/// Writes the files as the whole content of the folder; missing folders above it are made. Throws Error (wrong_usage)
/// as above, (could_not_be_done) where it can't be written; then nothing of this run is left, and a former run stands
/// as it was.
void write_run_folder(const std::string& folder, std::span<const RunFile> files);

} // namespace docket
