#include "report/run_folder.h"

#include "core/error.h"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string_view>
#include <system_error>
#include <vector>

namespace docket {
namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 3> our_files{"casefile.html", "casefile.pdf", "findings.json"};

/// What a file of ours holds and another's does not: the name of the schema, or of the program as the maker of the page.
constexpr std::array<std::string_view, 3> our_marks{"\"schema\": \"station-docket/findings/",
                                                    "name=\"generator\" content=\"Station Docket",
                                                    "xmp:CreatorTool=\"Station Docket\""};

bool has_our_mark(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  const std::string bytes((std::istreambuf_iterator<char>(in)), {});
  return std::any_of(our_marks.begin(), our_marks.end(),
                     [&](std::string_view mark) { return bytes.find(mark) != std::string::npos; });
}

[[noreturn]] void must_not_be_replaced(const std::string& folder, const std::string& what_happened) {
  throw Error(ErrorKind::wrong_usage, folder, what_happened,
              "Give --out a folder that is not there yet, is empty, or holds an earlier run of docket. Nothing was "
              "changed.");
}

[[noreturn]] void could_not_be_written(const std::string& folder, const std::string& what_happened) {
  throw Error(ErrorKind::could_not_be_done, folder, what_happened,
              "Check that there is space and that you may write there, or give --out another place. Nothing was "
              "written.");
}

std::string reason_of(const std::error_code& error) { return error.message() + "."; }

/// The folder's full path, without `.`, `..` and a slash at its end.
fs::path full_path(const std::string& folder) {
  std::error_code error;
  fs::path path = fs::weakly_canonical(fs::absolute(folder), error);
  if (error) could_not_be_written(folder, "The folder can't be reached: " + reason_of(error));
  return path.has_filename() ? path : path.parent_path();
}

bool is_within(const fs::path& inner, const fs::path& outer) {
  return std::mismatch(outer.begin(), outer.end(), inner.begin(), inner.end()).first == outer.end();
}

/// Removes what was made, also when an exception leaves; kept once all is done.
class MadeOnTheWay {
public:
  MadeOnTheWay() = default;
  MadeOnTheWay(const MadeOnTheWay&) = delete;
  MadeOnTheWay& operator=(const MadeOnTheWay&) = delete;
  ~MadeOnTheWay() {
    std::error_code ignored;
    if (!partial_.empty()) fs::remove_all(partial_, ignored);
    // Innermost first; one that holds something by now stays.
    for (auto above = above_.rbegin(); above != above_.rend(); ++above) fs::remove(*above, ignored);
  }

  /// Makes the missing folders above `path`.
  std::error_code make_above(const fs::path& path) {
    std::vector<fs::path> missing;
    std::error_code error;
    for (fs::path above = path.parent_path(); !fs::exists(above, error); above = above.parent_path()) {
      if (error || above == above.parent_path()) break;
      missing.push_back(above);
    }
    for (auto above = missing.rbegin(); above != missing.rend(); ++above) {
      fs::create_directory(*above, error);
      if (error) return error;
      above_.push_back(*above);
    }
    return {};
  }

  std::error_code make_partial(const fs::path& partial) {
    std::error_code error;
    if (fs::create_directory(partial, error))
      partial_ = partial;
    else if (!error)
      error = std::make_error_code(std::errc::file_exists);
    return error;
  }

  void keep() {
    partial_.clear();
    above_.clear();
  }

private:
  fs::path partial_;
  std::vector<fs::path> above_;
};

void write_file(const std::string& folder, const fs::path& path, const std::string& bytes) {
  std::ofstream out(path, std::ios::binary);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out) could_not_be_written(folder, "The file " + path.filename().string() + " can't be written.");
}

} // namespace

void check_run_folder(const std::string& folder) {
  const fs::path path = full_path(folder);
  std::error_code error;
  if (is_within(fs::current_path(error), path))
    must_not_be_replaced(folder, "This is the folder you are in, or one above it.");
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::not_found) return;
  if (status.type() != fs::file_type::directory) {
    if (fs::exists(status)) must_not_be_replaced(folder, "There is a file of this name.");
    could_not_be_written(folder, "The folder can't be looked into: " + reason_of(error));
  }
  fs::directory_iterator entries(path, error);
  if (error) could_not_be_written(folder, "The folder can't be looked into: " + reason_of(error));
  bool any = false, marked = false;
  for (const fs::directory_entry& entry : entries) {
    const std::string name = entry.path().filename().string();
    if (std::find(our_files.begin(), our_files.end(), name) == our_files.end())
      must_not_be_replaced(folder, "The folder holds something else: " + name + ".");
    any = true;
    marked = marked || has_our_mark(entry.path());
  }
  if (any && !marked) must_not_be_replaced(folder, "The folder holds files that docket did not write.");
}

void write_run_folder(const std::string& folder, std::span<const RunFile> files) {
  check_run_folder(folder);
  const fs::path path = full_path(folder);
  const std::string process = std::to_string(getpid());
  fs::path partial = path, former = path;
  partial += ".partial-" + process;
  former += ".former-" + process;

  MadeOnTheWay made;
  if (const auto error = made.make_above(path))
    could_not_be_written(folder, "The folder above it can't be made: " + reason_of(error));
  if (const auto error = made.make_partial(partial))
    could_not_be_written(folder, "A folder can't be made there: " + reason_of(error));
  for (const RunFile& file : files) write_file(folder, partial / file.name, file.bytes);

  std::error_code error;
  const bool replaces = fs::exists(path, error);
  if (replaces) {
    fs::rename(path, former, error);
    if (error) could_not_be_written(folder, "The earlier run can't be moved aside: " + reason_of(error));
  }
  fs::rename(partial, path, error);
  if (error) {
    std::error_code ignored;
    if (replaces) fs::rename(former, path, ignored);
    could_not_be_written(folder, "The finished folder can't be given its name: " + reason_of(error));
  }
  made.keep();
  if (replaces) fs::remove_all(former, error);
}

} // namespace docket
