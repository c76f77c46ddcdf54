#include "core/error.h"
#include "ingest/bag/bag.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/history.h"
#include "ingest/docket/integrity.h"
#include "ingest/docket/joint_copy.h"
#include "ingest/docket/store.h"
#include "ingest/file_hash.h"
#include "ingest/reading/word_match.h"
#include "ingest/temporary_folder.h"
#include "report/cli/case_files.h"
#include "report/cli/commands.h"
#include "report/cli/entry_line.h"
#include "report/cli/issue_list.h"
#include "report/cli/progress.h"
#include "report/format.h"
#include "report/version.h"
#include "report/wording/bag.h"

#include <filesystem>
#include <iostream>
#include <string>
#include <vector>

namespace docket {
namespace {

namespace fs = std::filesystem;

constexpr const char* example = "For example: docket seal st-07.docket st-07.zip --for joint";

struct Sealing {
  std::string docket, bag, at, by_role;
  CopyFor copy = CopyFor::joint;
  bool joint() const { return copy == CopyFor::joint; }
};

Sealing read_sealing(const CommandLine& line) {
  if (line.inputs.size() != 2 || !is_docket_name(line.inputs.front()) || !line.inputs.back().ends_with(".zip"))
    throw Error(ErrorKind::wrong_usage, "docket seal",
                "It takes a docket, and the name of the bag to write, which ends in .zip.", example);
  return {line.inputs.front(), line.inputs.back(), time_of_entry(line, "docket seal"),
          role_of_entry(line, "docket seal"), copy_for(line, "docket seal")};
}

/// A copy that nobody else writes to, sound in every byte.
std::string sound_copy(const std::string& docket, const std::string& folder) {
  const std::string copy = folder + "/full.docket";
  open_docket(docket); // says by its own name what is wrong with it
  std::error_code error;
  fs::copy_file(docket, copy, error);
  if (error)
    throw Error(ErrorKind::could_not_be_done, docket, "It can't be copied: " + error.message() + ".",
                "Check that there is space for temporary files.");
  Database opened = open_docket(copy);
  const std::vector<std::string> damage = find_damage(opened, Thoroughness::full);
  if (!damage.empty())
    throw Error(ErrorKind::verification_failed, docket, "The docket is damaged: " + damage.front() + ".",
                "Take a copy of it from before the damage. Nothing was written.");
  return copy;
}

void add_sources(Bag& bag, const std::string& docket) {
  Database opened = open_docket(docket);
  for (const StoredSource& source : read_sources(opened)) {
    if (source.stored_bytes == 0) continue;
    std::string bytes;
    load_bytes(opened, source, [&](std::string_view part) { bytes += part; });
    const std::string ending = source.form == "recoded" ? ".json" : "";
    bag.payload.push_back(bag_file_of_bytes(
        "data/sources/" + std::to_string(source.source) + "-" + name_in_bag(source.file) + ending, std::move(bytes)));
  }
}

/// Every file of the full docket with the hash it had when it was given.
std::string list_of_originals(const History& history) {
  std::string text = "source  SHA-256 of the file as it was given  state  file\n";
  for (const StoredSource& source : history.sources) {
    const StoredSource* successor = find_successor(history.sources, source.source);
    text += std::to_string(source.source) + "  " + source.sha256 + "  " +
            (successor == nullptr ? "in use" : "superseded by " + std::to_string(successor->source)) + "  " +
            source.file + "\n";
  }
  return text;
}

std::string stem_of(const std::string& path) { return small_letters(name_in_bag(fs::path(path).stem().string())); }

void add_info(Bag& bag, const Sealing& sealing, const CaseFacts& facts, const History& history) {
  bag.info = {{"Bagging-Date", sealing.at.substr(0, 10)},
              {"Bag-Software-Agent", "Station Docket " + std::string(program_version())},
              {"External-Identifier", facts.case_ref},
              {"External-Description", facts.title},
              {"Docket-Copy", sealing.joint() ? "joint" : "review"},
              {"Docket-Sealed-By", sealing.by_role},
              {"Docket-Last-Entry", history.entries.back().sha256}};
  if (facts.retain_until) bag.info.emplace_back("Docket-Retain-Until", format_date(*facts.retain_until));
  if (!facts.may_read.empty()) bag.info.emplace_back("Docket-May-Read", facts.may_read);
}

} // namespace

int run_seal(const CommandLine& line) {
  const Sealing sealing = read_sealing(line);
  if (fs::exists(sealing.bag))
    throw Error(ErrorKind::wrong_usage, sealing.bag, "There is such a file already.",
                "Give another name; a bag is never overwritten.");
  Progress progress;
  progress.step("checking " + sealing.docket);
  const TemporaryFolder folder;
  const std::string full = sound_copy(sealing.docket, folder.path());
  const History history = read_history(full);
  std::string sealed = full;
  if (sealing.joint()) {
    sealed = folder.path() + "/joint.docket";
    Database opened = open_docket(full);
    write_joint_copy(opened, sealed, sealing.at, sealing.by_role);
  }
  const Intake intake = read_docket_case(sealed);
  if (has_fault(intake.issues)) {
    progress.finish();
    std::cerr << list_issues(intake.issues) << count_issues(intake.issues) << ". Nothing was written.\n";
    return static_cast<int>(ErrorKind::input_has_faults);
  }
  progress.step("computing");
  const Case& input = *intake.input;
  const Findings findings = find_all(input);
  Bag bag;
  bag.folder = stem_of(sealing.bag);
  add_info(bag, sealing, input.facts, history);
  for (RunFile& file : write_case_files(input, findings, intake.issues, {.copy = sealing.copy}))
    bag.payload.push_back(bag_file_of_bytes("data/casefile/" + file.name, std::move(file.bytes)));
  bag.payload.push_back(bag_file_on_disk("data/" + stem_of(sealing.docket) + ".docket", sealed));
  bag.payload.push_back(bag_file_of_bytes("data/sources/originals.txt", list_of_originals(history)));
  add_sources(bag, sealed);
  const std::string copy_note(sealing.joint() ? wording::joint_copy_note : wording::review_copy_note);
  bag.notes.push_back(bag_file_of_bytes("HOW-TO-CHECK.txt", "Case " + input.facts.case_ref + ": " + input.facts.title +
                                                                "\n" + std::string(wording::how_to_check_a_bag) +
                                                                copy_note));
  progress.step("writing " + sealing.bag);
  write_bag(sealing.bag, bag);
  progress.finish();
  std::cout << "Sealed: " << sealing.bag
            << (sealing.joint() ? ", joint copy without notes" : ", copy for review with everything")
            << "\nSHA-256 of it: " << sha256_of_file(sealing.bag)
            << "\nTell it to the others by another way, so that nobody "
            << "can put another bag in its place.\n"
            << wording::codes_are_not_anonymity << "\n";
  return 0;
}

} // namespace docket
