// A bag is as it was sealed, or it says which file is not: every byte of one flipped.
#include "core/error.h"
#include "ingest/bag/bag.h"
#include "ingest/file_hash.h"
#include "ingest/temporary_folder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

namespace docket {
namespace {

class BagFileTest : public ::testing::Test {
protected:
  std::string path(const std::string& name) const { return folder_.path() + "/" + name; }

  static Bag small_bag() {
    Bag bag;
    bag.folder = "st-07";
    bag.info = {{"External-Identifier", "HP-26-011"}, {"External-Description", "two\nlines"}};
    bag.payload = {bag_file_of_bytes("data/casefile/findings.json", "{}\n"), bag_file_of_bytes("data/a.txt", "abc")};
    bag.notes = {bag_file_of_bytes("HOW-TO-CHECK.txt", "Read me.\n")};
    return bag;
  }

  std::string bytes_of(const std::string& name) const { return read_file_bytes(path(name)); }
  void write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path(name), std::ios::binary) << bytes;
  }

private:
  TemporaryFolder folder_;
};

TEST_F(BagFileTest, WhatWasSealedIsRead) {
  write_bag(path("a.zip"), small_bag());
  const OpenBag bag = open_bag(path("a.zip"));
  EXPECT_TRUE(bag.damage.empty()) << bag.damage.front();
  EXPECT_FALSE(bag.packed_otherwise);
  EXPECT_EQ(bag.folder, "st-07");
  EXPECT_EQ(bag.info.at("External-Identifier"), "HP-26-011");
  EXPECT_EQ(bag.info.at("External-Description"), "two lines");
  EXPECT_EQ(bag.info.at("Payload-Oxum"), "6.2"); // RFC 8493, 2.2.2: bytes, a point, files
  EXPECT_EQ(read_from_bag(bag, "data/a.txt"), "abc");
  // FIPS 180-4, example of one block.
  EXPECT_EQ(bag.sha256.at("data/a.txt"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(read_from_bag(bag, "bagit.txt"),
            "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"); // RFC 8493, 2.1.1
  EXPECT_FALSE(std::filesystem::exists(path("a.zip.partial")));
}

TEST_F(BagFileTest, TheSameFilesGiveTheSameBytes) {
  write_bag(path("a.zip"), small_bag());
  Bag other = small_bag();
  std::reverse(other.payload.begin(), other.payload.end());
  write_bag(path("b.zip"), other);
  EXPECT_EQ(bytes_of("a.zip"), bytes_of("b.zip"));
}

TEST_F(BagFileTest, NoBagIsOverwritten) {
  write_bag(path("a.zip"), small_bag());
  const std::string before = bytes_of("a.zip");
  EXPECT_THROW(write_bag(path("a.zip"), small_bag()), Error);
  EXPECT_EQ(bytes_of("a.zip"), before);
  EXPECT_THROW(write_bag(path("no-such-folder/a.zip"), small_bag()), Error);
}

TEST_F(BagFileTest, EveryFlippedByteIsFound) {
  write_bag(path("a.zip"), small_bag());
  const std::string whole = bytes_of("a.zip");
  int named = 0;
  for (std::size_t i = 0; i < whole.size(); ++i)
    for (const int mask : {0x01, 0x20}) {
      std::string flipped = whole;
      flipped[i] = static_cast<char>(flipped[i] ^ mask);
      write("flipped.zip", flipped);
      try {
        const OpenBag bag = open_bag(path("flipped.zip"));
        ASSERT_TRUE(!bag.damage.empty() || bag.packed_otherwise) << "byte " << i << " mask " << mask;
        named += !bag.damage.empty() && bag.damage.front().starts_with("data/a.txt: ") ? 1 : 0;
      } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::verification_failed) << "byte " << i << ": " << error.what();
      }
    }
  EXPECT_GE(named, 6) << "three bytes of data/a.txt, each flipped twice";
}

TEST_F(BagFileTest, EveryLengthCutIsFound) {
  write_bag(path("a.zip"), small_bag());
  const std::string whole = bytes_of("a.zip");
  for (std::size_t length = 0; length < whole.size(); length += 7) {
    write("cut.zip", whole.substr(0, length));
    try {
      const OpenBag bag = open_bag(path("cut.zip"));
      EXPECT_TRUE(!bag.damage.empty() || bag.packed_otherwise) << length;
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::verification_failed) << length << ": " << error.what();
    }
  }
}

TEST_F(BagFileTest, NamesAreMadePlain) {
  EXPECT_EQ(name_in_bag("Fan deck, rev. 2.xlsx"), "Fan_deck__rev._2.xlsx");
  EXPECT_EQ(name_in_bag("../../etc"), ".._.._etc");
  EXPECT_EQ(name_in_bag(".."), "_..");
  EXPECT_EQ(name_in_bag(""), "_");
}

} // namespace
} // namespace docket
