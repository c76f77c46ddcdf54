#include "core/error.h"
#include "ingest/bag/bag.h"
#include "ingest/bag/bag_zip.h"
#include "ingest/file_hash.h"
#include "ingest/running_hash.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace docket {

namespace {

namespace fs = std::filesystem;

struct Counted {
  std::string sha256;
  std::int64_t bytes = 0;
};

Counted count(const BagFile& file) {
  const std::unique_ptr<std::istream> in = file.open();
  RunningHash hash;
  Counted counted;
  std::array<char, 1 << 16> block;
  while (in->read(block.data(), block.size()), in->gcount() > 0) {
    hash.add({block.data(), static_cast<std::size_t>(in->gcount())});
    counted.bytes += in->gcount();
  }
  counted.sha256 = hash.hex();
  return counted;
}

/// RFC 8493, 2.2.2: one line a label; longer texts are one line here.
std::string info_line(const std::string& label, std::string value) {
  std::replace_if(
      value.begin(), value.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
  return label + ": " + value + "\n";
}

void sort_by_name(std::vector<BagFile>& files) {
  std::sort(files.begin(), files.end(), [](const BagFile& a, const BagFile& b) { return a.name < b.name; });
}

} // namespace

BagFile bag_file_of_bytes(std::string name, std::string bytes) {
  return {std::move(name), [bytes = std::move(bytes)] { return std::make_unique<std::istringstream>(bytes); }};
}

BagFile bag_file_on_disk(std::string name, std::string path) {
  return {std::move(name), [path = std::move(path)] { return open_file(path); }};
}

std::string name_in_bag(std::string_view name) {
  std::string plain(name);
  for (char& c : plain) {
    const bool kept =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '_';
    if (!kept) c = '_';
  }
  return plain.empty() || plain.find_first_not_of('.') == std::string::npos ? "_" + plain : plain;
}

void write_bag(const std::string& path, const Bag& bag) {
  assert(name_in_bag(bag.folder) == bag.folder);
  assert(std::none_of(bag.folder.begin(), bag.folder.end(), [](char c) { return c >= 'A' && c <= 'Z'; }));
  if (fs::exists(path))
    throw Error(ErrorKind::wrong_usage, path, "There is such a file already.",
                "Give another name; a bag is never overwritten.");
  std::vector<BagFile> files = bag.payload;
  sort_by_name(files);
  std::string manifest;
  std::int64_t bytes = 0;
  for (const BagFile& file : files) {
    const Counted counted = count(file);
    manifest += counted.sha256 + "  " + file.name + "\n";
    bytes += counted.bytes;
  }
  std::string info;
  for (const auto& [label, value] : bag.info) info += info_line(label, value);
  info += info_line("Payload-Oxum", std::to_string(bytes) + "." + std::to_string(files.size()));

  std::vector<BagFile> tags = bag.notes;
  tags.push_back(bag_file_of_bytes("bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"));
  tags.push_back(bag_file_of_bytes("bag-info.txt", info));
  tags.push_back(bag_file_of_bytes("manifest-sha256.txt", manifest));
  sort_by_name(tags);
  std::string tag_manifest;
  for (const BagFile& file : tags) tag_manifest += count(file).sha256 + "  " + file.name + "\n";
  files.insert(files.end(), tags.begin(), tags.end());
  files.push_back(bag_file_of_bytes("tagmanifest-sha256.txt", tag_manifest));
  sort_by_name(files);

  const std::string partial = path + ".partial";
  try {
    write_bag_zip(partial, bag.folder, files);
    fs::rename(partial, path);
  } catch (const fs::filesystem_error&) {
    std::error_code ignored;
    fs::remove(partial, ignored);
    throw Error(ErrorKind::could_not_be_done, path, "The file can't be written.",
                "Check that there is space and that you may write there. Nothing was left there.");
  } catch (...) {
    std::error_code ignored;
    fs::remove(partial, ignored);
    throw;
  }
}

} // namespace docket
