#include "core/error.h"
#include "ingest/bag/bag.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/integrity.h"
#include "ingest/docket/store.h"
#include "ingest/file_hash.h"
#include "ingest/temporary_folder.h"
#include "report/cli/case_files.h"
#include "report/cli/commands.h"
#include "report/cli/issue_list.h"
#include "report/cli/progress.h"
#include "report/findings_json/json_tree.h"
#include "report/version.h"
#include "report/wording/bag.h"

#include <algorithm>
#include <iostream>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace docket {
namespace {

constexpr const char* example = "For example: docket verify st-07.zip";
constexpr std::string_view sealed_pdf = "data/casefile/casefile.pdf";

/// What bag-info.txt says under a label.
std::string info_of(const OpenBag& bag, const char* label) {
  const auto found = bag.info.find(label);
  return found == bag.info.end() ? "not given" : found->second;
}

/// What was looked at, and what is not as it was.
struct Verdict {
  std::vector<std::string> sound, damage;
};

/// The first line in which two texts differ, for whoever looks for the reason.
std::string first_difference(const std::string& sealed, const std::string& again) {
  std::istringstream a(sealed), b(again);
  std::string line_a, line_b;
  for (int number = 1;; ++number) {
    const bool more_a = static_cast<bool>(std::getline(a, line_a)), more_b = static_cast<bool>(std::getline(b, line_b));
    if (!more_a && !more_b) return "they differ in their ends";
    if (more_a && more_b && line_a == line_b) continue;
    const auto shown = [](bool there, const std::string& line) {
      constexpr std::size_t most = 120;
      return there ? "`" + line.substr(0, most) + "`" : std::string("nothing");
    };
    return "line " + std::to_string(number) + " is " + shown(more_a, line_a) + " in the bag and " +
           shown(more_b, line_b) + " computed again";
  }
}

void verify_ledger(const std::string& path, const std::string& name, Verdict& verdict) {
  try {
    Database opened = open_docket(path);
    for (const std::string& damage : find_damage(opened, Thoroughness::full))
      verdict.damage.push_back(name + ": " + damage + ".");
  } catch (const Error& error) {
    if (error.kind() != ErrorKind::verification_failed) throw;
    verdict.damage.push_back(name + ": " + error.what_happened());
  }
  if (verdict.damage.empty())
    verdict.sound.push_back(
        "The ledger holds, and every source in the docket has the bytes and rows that were taken in.");
}

/// Each file below data/sources is what the docket keeps of it.
void verify_sources(const OpenBag& bag, const std::string& docket, Verdict& verdict) {
  Database opened = open_docket(docket);
  for (const StoredSource& source : read_sources(opened)) {
    if (source.stored_bytes == 0) continue;
    const std::string start = "data/sources/" + std::to_string(source.source) + "-";
    const auto file = std::find_if(bag.sha256.begin(), bag.sha256.end(),
                                   [&](const auto& one) { return one.first.starts_with(start); });
    if (file == bag.sha256.end())
      verdict.damage.push_back(start + ": the file of this source is not in the bag.");
    else if (file->second != source.stored_sha256)
      verdict.damage.push_back(file->first + ": it is not what the docket keeps of this source.");
  }
}

void verify_findings(const OpenBag& bag, const std::string& docket, Verdict& verdict) {
  if (info_of(bag, "Bag-Software-Agent") != "Station Docket " + std::string(program_version())) {
    verdict.sound.push_back(std::string(wording::other_version));
    return;
  }
  const Intake intake = read_docket_case(docket);
  if (!intake.input) {
    verdict.damage.push_back("The case in the docket can't be read again: " + list_issues(intake.issues));
    return;
  }
  const bool review = info_of(bag, "Docket-Copy") == "review";
  const bool has_pdf = bag.sha256.contains(std::string(sealed_pdf));
  bool pdf_differs = false;
  for (const RunFile& file : write_case_files(*intake.input, find_all(*intake.input), intake.issues,
                                              {.pdf = has_pdf, .copy = review ? CopyFor::review : CopyFor::joint})) {
    const std::string name = "data/casefile/" + file.name, sealed = read_from_bag(bag, name);
    if (sealed == file.bytes) continue;
    if (name == sealed_pdf) {
      pdf_differs = true;
      continue;
    }
    verdict.damage.push_back(name + ": it is not what comes out when the case is computed again: " +
                             first_difference(sealed, file.bytes) + ".");
  }
  if (!verdict.damage.empty()) return;
  verdict.sound.push_back("The findings, computed again, are the same to the last byte.");
  // Another version of a library gives other bytes for the same pages: that is no damage, and no proof of none.
  if (has_pdf) verdict.sound.push_back(std::string(pdf_differs ? wording::other_pdf : wording::same_pdf));
}

Verdict verify_bag(const std::string& path, Progress& progress) {
  Verdict verdict;
  const OpenBag bag = open_bag(path);
  verdict.damage = bag.damage;
  if (!verdict.damage.empty()) return verdict;
  verdict.sound.push_back("Case " + info_of(bag, "External-Identifier") + ", " + info_of(bag, "Docket-Copy") +
                          " copy, sealed on " + info_of(bag, "Bagging-Date") + " by " +
                          info_of(bag, "Docket-Sealed-By") + ".");
  verdict.sound.push_back(std::to_string(bag.sha256.size()) + " files, each as its list says.");
  const auto docket = std::find_if(bag.sha256.begin(), bag.sha256.end(), [](const auto& file) {
    return file.first.starts_with("data/") && is_docket_name(file.first);
  });
  if (docket == bag.sha256.end()) {
    verdict.damage.push_back("data/: there is no docket in it.");
    return verdict;
  }
  const TemporaryFolder folder;
  const std::string copy = folder.path() + "/sealed.docket";
  copy_from_bag(bag, docket->first, copy);
  progress.step("checking " + docket->first);
  verify_ledger(copy, docket->first, verdict);
  if (!verdict.damage.empty()) return verdict;
  verify_sources(bag, copy, verdict);
  progress.step("computing");
  verify_findings(bag, copy, verdict);
  if (bag.packed_otherwise)
    verdict.damage.push_back(name_without_folder(path) + ": " + std::string(wording::packed_otherwise));
  return verdict;
}

std::string as_json(const std::string& path, const std::string& sha256, const Verdict& verdict) {
  JsonArray sound, damage;
  for (const std::string& one : verdict.sound) sound.append(one);
  for (const std::string& one : verdict.damage) damage.append(one);
  return write_json(JsonObject{{"schema", "station-docket/verify/1"},
                               {"file", path},
                               {"sha256", sha256},
                               {"sound", verdict.damage.empty()},
                               {"checked", sound},
                               {"damage", damage}});
}

} // namespace

int run_verify(const CommandLine& line) {
  if (line.inputs.size() != 1)
    throw Error(ErrorKind::wrong_usage, "docket verify",
                line.inputs.empty() ? "The name of the bag or the docket is missing."
                                    : "It verifies one file at a time.",
                example);
  const std::string& path = line.inputs.front();
  Progress progress;
  progress.step("checking " + path);
  const std::string sha256 = sha256_of_file(path);
  Verdict verdict;
  if (is_docket_name(path))
    verify_ledger(path, name_without_folder(path), verdict);
  else
    verdict = verify_bag(path, progress);
  progress.finish();
  if (line.has("json")) {
    std::cout << as_json(path, sha256, verdict);
  } else if (verdict.damage.empty()) {
    std::cout << path << (is_docket_name(path) ? wording::sound_docket : wording::sound_bag) << "\n";
    for (const std::string& one : verdict.sound) std::cout << "  " << one << "\n";
    std::cout << "SHA-256 of it: " << sha256 << "\n";
  }
  for (const std::string& one : verdict.damage) std::cerr << "Damage: " << one << "\n";
  if (verdict.damage.empty()) return 0;
  std::cerr << path << " is not as it was written. Take a copy of it from before the damage, or ask whoever made it.\n";
  return static_cast<int>(ErrorKind::verification_failed);
}

} // namespace docket
