#include "core/error.h"
#include "ingest/bag/bag.h"
#include "ingest/bag/bag_zip.h"
#include "ingest/file_hash.h"
#include "ingest/reading/word_match.h"
#include "ingest/running_hash.h"
#include "ingest/temporary_folder.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <optional>
#include <set>
#include <sstream>

namespace docket {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view tag_manifest = "tagmanifest-sha256.txt", payload_manifest = "manifest-sha256.txt";
constexpr std::string_view no_bag_remedy =
    "Take a copy of it from before the damage, or ask whoever sealed it. Nothing was changed.";

[[noreturn]] void refuse(const std::string& path, const std::string& what) {
  throw Error(ErrorKind::verification_failed, path, what, std::string(no_bag_remedy));
}

/// Stored files are as large as the ZIP file, and are read a few times over. One that another program packed again is to be
/// named as such; whatever says much more was made to exhaust the computer.
ReaderCaps caps_of(std::int64_t bytes) {
  ReaderCaps caps;
  caps.file_bytes = bytes;
  caps.unpacked_bytes += 8 * bytes;
  caps.free_bytes = caps.unpacked_bytes;
  return caps;
}

std::string full_name(const OpenBag& bag, std::string_view name) { return bag.folder + "/" + std::string(name); }

void read_part(const OpenBag& bag, std::string_view name, const std::function<void(std::string_view)>& take) {
  const ReadBytes read = open_part(bag.package, full_name(bag, name));
  std::array<char, 1 << 16> block;
  while (const std::size_t got = read(block)) take({block.data(), got});
}

/// Absent where the file is not there, or damaged.
std::optional<std::string> text_of(const OpenBag& bag, std::string_view name) {
  if (!has_part(bag.package, full_name(bag, name))) return std::nullopt;
  try {
    std::string text;
    read_part(bag, name, [&](std::string_view bytes) { text += bytes; });
    return text;
  } catch (const Error&) {
    return std::nullopt;
  }
}

std::optional<std::string> hash_of(const OpenBag& bag, std::string_view name) {
  if (!has_part(bag.package, full_name(bag, name))) return std::nullopt;
  try {
    RunningHash hash;
    read_part(bag, name, [&](std::string_view bytes) { hash.add(bytes); });
    return hash.hex();
  } catch (const Error&) {
    return std::nullopt;
  }
}

bool is_plain_name(std::string_view name) {
  if (name.empty() || name.front() == '/') return false;
  std::string part;
  std::istringstream parts{std::string(name)};
  while (std::getline(parts, part, '/'))
    if (part.empty() || name_in_bag(part) != part) return false;
  return name.back() != '/';
}

/// Lines of a manifest; RFC 8493, 2.1.3.
std::map<std::string, std::string> read_manifest(OpenBag& bag, std::string_view name) {
  std::map<std::string, std::string> hashes;
  const auto text = text_of(bag, name);
  if (!text) {
    bag.damage.push_back(std::string(name) + ": it is not there, or can't be read.");
    return hashes;
  }
  std::istringstream lines(*text);
  std::string line;
  while (std::getline(lines, line)) {
    const bool right = line.size() > 66 && line.substr(64, 2) == "  " &&
                       line.find_first_not_of("0123456789abcdef") == 64 && is_plain_name(line.substr(66));
    if (!right || !hashes.emplace(line.substr(66), line.substr(0, 64)).second) {
      bag.damage.push_back(std::string(name) + ": a line of it is not what was sealed.");
      return hashes;
    }
  }
  return hashes;
}

void check_files(OpenBag& bag, const std::map<std::string, std::string>& hashes) {
  for (const auto& [name, sha256] : hashes) {
    const auto found = hash_of(bag, name);
    if (!found)
      bag.damage.push_back(name + (has_part(bag.package, full_name(bag, name))
                                       ? ": it is damaged, so that it can't be read."
                                       : ": it is not there."));
    else if (*found != sha256)
      bag.damage.push_back(name + ": it is not what was sealed (SHA-256 " + *found + " in place of " + sha256 + ").");
    bag.sha256.emplace(name, sha256);
  }
}

/// The folder at the top, from the one file that every bag has.
std::string folder_of(const Package& package, const std::string& path) {
  constexpr std::string_view declaration = "/bagit.txt";
  std::string folder;
  for (const auto& [name, opener] : package.openers) {
    if (!name.ends_with(declaration) || std::count(name.begin(), name.end(), '/') != 1) continue;
    if (!folder.empty()) refuse(path, "There is more than one bag in it.");
    folder = name.substr(0, name.size() - declaration.size());
  }
  if (folder.empty()) refuse(path, "This is no bag, or it is damaged: there is no bagit.txt in the folder at its top.");
  return folder;
}

void read_info(OpenBag& bag) {
  std::istringstream lines(text_of(bag, "bag-info.txt").value_or(""));
  std::string line;
  while (std::getline(lines, line))
    if (const auto colon = line.find(": "); colon != std::string::npos)
      bag.info.emplace(line.substr(0, colon), line.substr(colon + 2));
}

/// The same files, packed again in the way of write_bag: the very same ZIP file, or something beside the files changed.
void check_zip(OpenBag& bag, const std::string& path) {
  std::set<std::string> names{std::string(tag_manifest)};
  for (const auto& [name, sha256] : bag.sha256) names.insert(name);
  std::vector<BagFile> files;
  for (const std::string& name : names)
    files.push_back({name, [&bag, name] { return std::make_unique<std::istringstream>(read_from_bag(bag, name)); }});
  const TemporaryFolder folder;
  const std::string again = folder.path() + "/again.zip";
  write_bag_zip(again, bag.folder, files);
  bag.packed_otherwise = sha256_of_file(again) != sha256_of_file(path);
}

} // namespace

OpenBag open_bag(const std::string& path) {
  std::error_code error;
  const auto bytes = static_cast<std::int64_t>(fs::file_size(path, error));
  std::shared_ptr<std::istream> stream = open_file(path);
  OpenBag bag;
  try {
    bag.package = open_package(std::move(stream), name_without_folder(path), caps_of(error ? 0 : bytes));
  } catch (const Error&) {
    refuse(path, "This is no bag, or it is damaged: it can't be read as a ZIP file.");
  }
  bag.folder = folder_of(bag.package, path);
  const auto tags = read_manifest(bag, tag_manifest);
  check_files(bag, tags);
  if (!tags.contains(std::string(payload_manifest)))
    bag.damage.push_back(std::string(tag_manifest) + ": it does not name the manifest of the files.");
  check_files(bag, read_manifest(bag, payload_manifest));
  const std::string top = bag.folder + "/";
  std::set<std::string> named{top + std::string(tag_manifest)};
  for (const auto& [name, sha256] : bag.sha256) named.insert(top + small_letters(name));
  for (const auto& [name, opener] : bag.package.openers)
    if (!name.ends_with('/') && !named.contains(name)) bag.damage.push_back(name + ": it stands in no manifest.");
  read_info(bag);
  if (bag.damage.empty()) check_zip(bag, path);
  return bag;
}

std::string read_from_bag(const OpenBag& bag, std::string_view name) {
  std::optional<std::string> text = text_of(bag, name);
  if (!text) refuse(bag.package.file, std::string(name) + " is not in it, or can't be read.");
  return *std::move(text);
}

void copy_from_bag(const OpenBag& bag, std::string_view name, const std::string& path) {
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  read_part(bag, name,
            [&](std::string_view bytes) { out.write(bytes.data(), static_cast<std::streamsize>(bytes.size())); });
  out.close();
  if (!out)
    throw Error(ErrorKind::could_not_be_done, path, "The file can't be written.",
                "Check that there is space for temporary files.");
}

} // namespace docket
