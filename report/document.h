// A document as blocks: built once, rendered by every writer. A writer knows blocks and nothing of the case.
#pragma once

#include "report/figures/drawing.h"

#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace docket {

enum class TextStyle : std::uint8_t {
  plain,
  strong,
  reference, ///< where a number came from: small, after what it belongs to
};

struct Text {
  std::string text;
  TextStyle style = TextStyle::plain;
};

/// Running text. The runs follow one another without a blank of the writer's own.
using Runs = std::vector<Text>;

/// Level 1 is the title; level 2 opens a numbered section, level 3 a part of it.
struct Heading {
  int level = 2;
  std::string number; ///< "3.1"; empty for none
  std::string text;
};

enum class ParagraphRole : std::uint8_t {
  plain,
  lead,    ///< the first thing said of a finding
  finding, ///< a finding word alone
  small,
  quote, ///< somebody's own words; line breaks are kept
};

struct Paragraph {
  Runs runs;
  ParagraphRole role = ParagraphRole::plain;
};

struct List {
  std::vector<Runs> items;
  bool numbered = false;
};

enum class Align : std::uint8_t { left, right };

struct TableColumn {
  std::string header;
  Align align = Align::left;
  bool unbroken = false; ///< short entries that stay on one line
};

/// The first cell of a row is the row's header.
struct Table {
  std::string caption;
  std::vector<TableColumn> columns;
  std::vector<std::vector<Runs>> rows;
  bool dense = false; ///< many columns or long: smaller print
};

struct Definitions {
  std::vector<std::pair<std::string, Runs>> entries;
  bool in_columns = false; ///< short entries, beside one another
  bool dense = false;      ///< long: smaller print
};

struct Figure {
  std::string title;
  std::string description; ///< what the picture shows, for who can't see it
  Runs caption;
  Drawing drawing;
};

/// Empty lines to be written on by hand.
struct RuledSpace {
  int lines = 6;
};

/// The sections with their numbers, where they stand.
struct Contents {};

struct PageBreak {};

struct Block;

struct Box {
  std::string title;
  std::vector<Block> blocks;
};

/// Boxes of equal size.
struct Boxes {
  std::vector<Box> boxes;
  bool side_by_side = true;
};

/// A band across the page with the same weight as the boxes.
struct Strip {
  std::string title;
  std::vector<Block> blocks;
};

/// One notice that must not be missed.
struct Notice {
  Runs runs;
};

/// A long list that may be folded on a screen; always printed in full.
struct Fold {
  std::string title;
  std::vector<Block> blocks;
};

struct Block {
  std::variant<Heading, Paragraph, List, Table, Definitions, Figure, RuledSpace, Contents, PageBreak, Boxes, Strip,
               Notice, Fold>
      content;
};

struct Document {
  std::string title;
  std::string language = "en";
  std::string case_ref;
  std::vector<Block> blocks;
};

} // namespace docket
