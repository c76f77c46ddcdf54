// The words of sealing and verifying.
#pragma once

#include <string_view>

namespace docket::wording {

/// HOW-TO-CHECK.txt in every bag, below a first line that names the case.
inline constexpr std::string_view how_to_check_a_bag =
    "\n"
    "What this is\n"
    "  A case file as it was on the day it was sealed: the findings, what they were computed from, and a\n"
    "  list of checksums, so that anybody can see whether a byte was changed since.\n"
    "  Local law and the collective agreement come first, before everything in it.\n"
    "\n"
    "How to check it without the program that made it\n"
    "  1. Unpack the ZIP file, open a terminal in its folder, and compare every file with the list:\n"
    "       sha256sum -c tagmanifest-sha256.txt\n"
    "       sha256sum -c manifest-sha256.txt\n"
    "     Each line must end in OK. The folder is a bag as described by RFC 8493 (BagIt), so that any\n"
    "     program that checks bags does as well.\n"
    "  2. Whoever sealed it should have told the others the checksum of the ZIP file itself, or of\n"
    "     tagmanifest-sha256.txt, on paper or by another way. Without that, somebody could have made a\n"
    "     whole new bag.\n"
    "  3. casefile.html opens in any browser. casefile.pdf is the same on paper; where they differ,\n"
    "     casefile.html counts. findings.json has the same facts for a program.\n"
    "  4. The file that ends in .docket is an SQLite database. Its table `ledger` lists every act, each\n"
    "     with the checksum of the one before; `source` lists the files with their checksums.\n"
    "\n"
    "How to check it with the program\n"
    "  docket verify BAG.zip\n"
    "  looks at all of this, reads the case again and computes the findings again.\n"
    "\n"
    "What is in it\n"
    "  data/casefile/   the case file\n"
    "  data/*.docket    the docket it was computed from\n"
    "  data/sources/    the files as the docket in it keeps them, with its numbers; originals.txt lists all\n"
    "                   files of the full docket with the checksums they had when they were given\n";

inline constexpr std::string_view joint_copy_note =
    "\n"
    "This is the joint copy. Notes are left out of it: columns and rows of notes, and all that the program\n"
    "does not read; of a safety or health matter all but whether it is open; superseded files. Its docket has\n"
    "one entry, which names the last one of the full docket. The files in data/sources are therefore not the ones that "
    "were given, but their cells\n"
    "without notes; originals.txt has the checksums of the full ones.\n";

inline constexpr std::string_view review_copy_note = "\n"
                                                     "This is the copy for review: everything is in it, notes too.\n";

inline constexpr std::string_view codes_are_not_anonymity =
    "Codes instead of names are not anonymity: in a small group people can be recognised. Give it only to those whom "
    "the case names as readers.";

inline constexpr std::string_view packed_otherwise = "the ZIP file around the files is not the one that docket writes "
                                                     "of them. It was packed again or changed, so this is not "
                                                     "the file that was sealed.";

inline constexpr std::string_view sound_docket = " is as it was written.";
inline constexpr std::string_view sound_bag = ": nothing in it contradicts its lists, its ledger or the computation. "
                                              "Whether it is the very bag that was sealed tells "
                                              "its SHA-256 below, set beside the one told when it was sealed.";

inline constexpr std::string_view same_pdf = "casefile.pdf, made again, is the same to the last byte.";

inline constexpr std::string_view other_pdf =
    "casefile.pdf is as it was sealed, but not what comes out here: it was made with other libraries, or was another "
    "before it was sealed. Where it differs from casefile.html, the latter counts.";

inline constexpr std::string_view other_version = "It was sealed by another version of the program, whose findings may "
                                                  "rightly be others. They were not computed again.";

} // namespace docket::wording
