// The list of names and operator codes that is given beside the inputs. It is never stored, and no name of it is ever
// printed.
//
// Format      CSV with the columns name and code, one person a row; a personnel number counts as a name
// Checked     tests/ingest/prepared_inputs_test.cpp
#pragma once

#include "ingest/table.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

struct CodeList {
  std::map<std::string, std::string> codes; ///< by the name's plain word: case, accents and blanks aside
  std::vector<std::string> names;           ///< in small letters, as they would stand in a sentence
};

/// Throws Error (input_has_faults) where a column is missing, a code is none, or a name stands for two codes; the
/// message names rows, never a name.
CodeList read_code_list(const RawFile& file);

/// The same from a file. Throws Error also where it can't be read.
CodeList read_code_list(const std::string& path);

/// The text of an operator cell with every name of the list turned into its code; several divided by `;`. What is
/// neither a name of the list nor a code stays as it is.
std::string recoded(const CodeList& list, std::string_view text);

/// True where a name of the list stands in the text as whole words.
bool holds_name(const CodeList& list, std::string_view text);

} // namespace docket
