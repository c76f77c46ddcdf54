// A sealed case: a bag in one ZIP file, in which every byte is accounted for.
//
// Format      BagIt 1.0 in a ZIP file with one folder at its top, its files in order of name, stored and not packed, with
//             fixed times: the same files give the same bytes, and a ZIP that is otherwise was not written here
// Spec        RFC 8493 (The BagIt File Packaging Format), sections 2.1 to 2.2.4 and 4.2; ISO/IEC 21320-1 (ZIP)
// Subset      sha256 manifests only; no fetch.txt; names of letters, digits, `.`, `_`, `-` and folders
// Deviations  none are taken: a bag that was packed again by another program is reported, also where its files are sound
// Checked     tests/ingest/bag_test.cpp: every byte flipped; tests/outside/bag_by_others.py: sha256sum -c, a reader of bags
//             that is not ours
#pragma once

#include "ingest/package/package.h"

#include <cstdint>
#include <functional>
#include <istream>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace docket {

/// One file of a bag. `name`: below the bag's folder; what is sealed lies below data/.
struct BagFile {
  std::string name;
  std::function<std::unique_ptr<std::istream>()> open;
};

BagFile bag_file_of_bytes(std::string name, std::string bytes);
BagFile bag_file_on_disk(std::string name, std::string path);

/// A name as it may stand in a bag: any other sign becomes `_`.
std::string name_in_bag(std::string_view name);

struct Bag {
  std::string folder;                                    ///< at the top of the ZIP file; small letters
  std::vector<std::pair<std::string, std::string>> info; ///< bag-info.txt, a line each, beside Payload-Oxum
  std::vector<BagFile> payload;                          ///< below data/
  std::vector<BagFile> notes;                            ///< beside the manifests
};

/// Writes the bag, whole or not at all. Throws Error (could_not_be_done) where it can't, (wrong_usage) where there is such
/// a file already.
void write_bag(const std::string& path, const Bag& bag);

/// A bag that was looked at.
struct OpenBag {
  std::string folder;
  std::map<std::string, std::string> info;   ///< by label, as written
  std::map<std::string, std::string> sha256; ///< of every file of payload and notes, by name
  std::vector<std::string> damage;           ///< a sentence each, which begins with the file; empty: as its lists say
  /// The ZIP file around the files is not the one write_bag makes of them; looked at only where there is no damage.
  bool packed_otherwise = false;
  Package package;
};

/// Reads all of it. Throws Error (could_not_be_done) where the file can't be read, (verification_failed) where it is no bag
/// as far as can be told.
OpenBag open_bag(const std::string& path);

/// A file of it. Throws Error (verification_failed) where it is not there or damaged.
std::string read_from_bag(const OpenBag& bag, std::string_view name);

/// The same, into a file on disk.
void copy_from_bag(const OpenBag& bag, std::string_view name, const std::string& path);

} // namespace docket
