#include "ingest/reading/input_files.h"

#include "core/error.h"
#include "ingest/csv.h"
#include "ingest/event_log.h"
#include "ingest/reading/word_match.h"
#include "ingest/workbook.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

namespace docket {

namespace {

namespace fs = std::filesystem;

std::string ending(const fs::path& path) { return small_letters(path.extension().string()); }

/// The first bytes of a file; empty where it can't be read, which its reader will say.
std::string first_bytes(const std::string& path) {
  std::string bytes(8, '\0');
  std::ifstream stream(path, std::ios::binary);
  stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(stream.gcount()));
  return bytes;
}

/// By what the file holds; by its name only where that does not tell.
RawFile read_one_file(const std::string& path) {
  const std::string start = first_bytes(path);
  const std::string end = ending(path);
  const bool workbook_name = end == ".xlsx" || end == ".xlsm" || end == ".xls" || end == ".ods";
  if (start.starts_with("PK\x03\x04") || start.starts_with("\xD0\xCF\x11\xE0") || workbook_name)
    return read_workbook(path);
  if (may_be_event_log(start)) return read_event_log(path);
  if (end == ".csv" || end == ".tsv") return read_csv_file(path);
  throw Error(ErrorKind::input_has_faults, path,
              "The file is no workbook (XLSX, ODS), no event log (XES) and no CSV file.",
              "Save it as a workbook in a spreadsheet program, or as one CSV file a table.");
}

std::vector<RawFile> read_folder(const fs::path& folder, const LeaveOut& leave_out) {
  std::vector<fs::path> tables; // CSV files and event logs
  std::string workbook;
  std::error_code failed;
  for (fs::directory_iterator at(folder, failed), end; !failed && at != end; at.increment(failed)) {
    const fs::path& path = at->path();
    const std::string name = small_letters(path.filename().string());
    if (name.ends_with(".csv") || name.ends_with(".xes") || name.ends_with(".xes.gz")) tables.push_back(path);
    const bool lock = path.filename().string().starts_with("~$") || path.filename().string().starts_with(".~lock");
    if ((ending(path) == ".xlsx" || ending(path) == ".ods") && !lock) workbook = path.string();
  }
  if (failed)
    throw Error(ErrorKind::could_not_be_done, folder.string(), "The folder could not be read.",
                "Check its permissions.");
  if (tables.empty() && !workbook.empty())
    throw Error(ErrorKind::input_has_faults, folder.string(), "The folder holds a workbook and no CSV file.",
                "Give the workbook itself: " + workbook + ".");
  if (tables.empty())
    throw Error(ErrorKind::input_has_faults, folder.string(), "The folder holds no CSV file.",
                "Give a workbook, or a folder with one CSV file a table, for example case.csv and standard.csv.");
  // A folder's own order differs from machine to machine.
  std::sort(tables.begin(), tables.end());
  std::vector<RawFile> files;
  for (const fs::path& path : tables)
    if (!leave_out || !leave_out(path.string())) files.push_back(read_one_file(path.string()));
  return files;
}

} // namespace

std::vector<RawFile> read_input_files(std::span<const std::string> inputs, const LeaveOut& leave_out) {
  std::vector<RawFile> files;
  for (const std::string& input : inputs) {
    const fs::path path(input);
    std::error_code failed;
    const fs::file_status status = fs::status(path, failed);
    if (!fs::exists(status))
      throw Error(ErrorKind::could_not_be_done, input, "There is no such file or folder.",
                  "Check the name and the folder.");
    if (fs::is_directory(status)) {
      for (RawFile& file : read_folder(path, leave_out)) files.push_back(std::move(file));
      continue;
    }
    files.push_back(read_one_file(input));
  }
  return files;
}

} // namespace docket
