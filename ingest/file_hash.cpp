#include "ingest/file_hash.h"

#include "core/error.h"
#include "ingest/running_hash.h"

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>
#include <utility>
#include <vector>

namespace docket {

namespace {

[[noreturn]] void refuse_unreadable(const std::string& path) {
  const std::string reason = errno != 0 ? ": " + std::generic_category().message(errno) : std::string();
  throw Error(ErrorKind::could_not_be_done, name_without_folder(path), "The file can't be read" + reason + ".",
              "Check that you may read it and that no other program holds it.");
}

} // namespace

std::string sha256_of(std::string_view bytes) {
  RunningHash hash;
  hash.add(bytes);
  return hash.hex();
}

std::string sha256_of_file(const std::string& path) {
  const auto file = open_file(path);
  RunningHash hash;
  std::vector<char> block(std::size_t{256} << 10);
  while (file->read(block.data(), static_cast<std::streamsize>(block.size())) || file->gcount() > 0)
    hash.add({block.data(), static_cast<std::size_t>(file->gcount())});
  if (file->bad()) refuse_unreadable(path);
  return hash.hex();
}

std::unique_ptr<std::istream> open_file(const std::string& path) {
  const auto refuse = [&](const std::string& what, const std::string& remedy) {
    throw Error(ErrorKind::could_not_be_done, name_without_folder(path), what, remedy);
  };
  std::error_code trouble;
  if (std::filesystem::is_directory(path, trouble)) refuse("This is a folder, not a file.", "Name a file in it.");
  if (!std::filesystem::exists(path, trouble)) refuse("There is no such file.", "Check the name and the folder.");
  errno = 0;
  auto file = std::make_unique<std::ifstream>(path, std::ios::binary);
  if (!*file) refuse_unreadable(path);
  return file;
}

std::string read_file_bytes(const std::string& path) {
  const auto file = open_file(path);
  std::ostringstream bytes;
  // An empty file sets failbit on `bytes`, which is no trouble.
  bytes << file->rdbuf();
  if (file->bad() || bytes.bad()) refuse_unreadable(path);
  return std::move(bytes).str();
}

std::string name_without_folder(const std::string& path) {
  const std::filesystem::path as_path(path);
  return as_path.has_filename() ? as_path.filename().string() : as_path.parent_path().filename().string();
}

} // namespace docket
