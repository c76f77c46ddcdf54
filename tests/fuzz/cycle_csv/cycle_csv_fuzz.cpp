// Looks for CSV text of which the quick reader of cycle logs makes something else than the plain one.
//
//     cycle_csv_fuzz FOLDER [ROUNDS [SEED]]
//
// Every file of the folder is read as it stands, then ROUNDS times a changed one: the same texts for the same seed. The
// first text on which the readers differ is printed, and the exit status is 1.
#include "tests/ingest/docket/cycles/compare_cycle_logs.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace std::string_literals;

/// Pieces that mean something to one of the readers.
const std::array pieces{"\""s,         "\"\""s,        ","s,        ";"s,
                        "\t"s,         "\n"s,          "\r"s,       "\r\n"s,
                        " "s,          "#"s,           "\0"s,       "\xFF"s,
                        "é"s,          "-"s,           "+"s,        "1"s,
                        "."s,          "0.000001"s,    "86400"s,    "1e3"s,
                        "A1"s,         "a1"s,          "OP-1"s,     "work"s,
                        "line"s,       "helped"s,      "#REF!"s,    "sep=;"s,
                        "0:00:55"s,    "24:00"s,       "nan"s,      "53.1"s,
                        "53,1"s,       "T"s,           ":"s,        "\xC2\xA0"s,
                        "started_at"s, "cycle_s"s,     "operator"s, "cycle_tmu"s,
                        "99"s,         "1,234"s,       "\x0B"s,     "2026-11-03 06:12:40"s,
                        "2026-02-29"s, "\xEF\xBB\xBF"s};

class Change {
public:
  explicit Change(std::uint64_t seed) : draw_(seed) {}

  std::string of(const std::vector<std::string>& corpus) {
    std::string text = corpus[below(corpus.size())];
    for (std::size_t i = 0; i <= below(6); ++i) change(text, corpus);
    if (text.size() > 20'000) text.resize(20'000);
    return text;
  }

  std::size_t below(std::size_t count) {
    return count == 0 ? 0 : std::uniform_int_distribution<std::size_t>(0, count - 1)(draw_);
  }

private:
  void change(std::string& text, const std::vector<std::string>& corpus) {
    const std::size_t at = below(text.size() + 1), length = below(std::min<std::size_t>(text.size() - at, 40) + 1);
    switch (below(7)) {
    case 0:
      if (at < text.size()) text[at] = static_cast<char>(below(256));
      break;
    case 1:
      text.erase(at, length);
      break;
    case 2:
      text.insert(at, text.substr(below(text.size() + 1), length));
      break;
    case 3: {
      const std::string& other = corpus[below(corpus.size())];
      text.replace(at, length, other.substr(below(other.size() + 1), 1 + below(80)));
      break;
    }
    default:
      text.replace(at, below(4) == 0 ? length : 0, pieces[below(pieces.size())]);
    }
  }

  std::mt19937_64 draw_;
};

bool agree(const std::string& text, std::size_t block_rows) {
  const std::string difference = docket::difference_of_logs(text, block_rows);
  if (difference.empty()) return true;
  std::printf("%s\n---- the text, in blocks of %zu rows:\n", difference.c_str(), block_rows);
  std::fwrite(text.data(), 1, text.size(), stdout);
  std::printf("\n----\n");
  return false;
}

} // namespace

int main(int count, char** words) {
  if (count < 2) {
    std::fprintf(stderr, "cycle_csv_fuzz FOLDER [ROUNDS [SEED]]\n");
    return 2;
  }
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(words[1])) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<std::string> corpus;
  for (const auto& file : files) {
    std::ostringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    corpus.push_back(text.str());
  }
  if (corpus.empty()) {
    std::fprintf(stderr, "cycle_csv_fuzz: the folder is empty\n");
    return 2;
  }
  const long long rounds = count > 2 ? std::atoll(words[2]) : 0;
  Change change(count > 3 ? std::strtoull(words[3], nullptr, 10) : 1);
  for (const std::string& text : corpus)
    if (!agree(text, docket::cycle_block_rows) || !agree(text, 3)) return 1;
  for (long long round = 0; round < rounds; ++round)
    if (!agree(change.of(corpus), 1 + change.below(50))) return 1;
  std::printf("%zu texts and %lld changed ones: no difference\n", corpus.size(), rounds);
  return 0;
}
