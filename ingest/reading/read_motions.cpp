#include "core/content/motions/motion_code.h"
#include "ingest/reading/read_tables.h"

#include <map>

namespace docket {

void read_motions(Draft& draft) {
  each_row(draft, TableName::motions, [&](const TableRow& row) {
    MotionStep motion;
    motion.element = find_element(draft, row, "element");
    if (motion.element >= 0) draft.with_motions.insert(motion.element);
    if (row.faulty || motion.element < 0) return;
    motion.origin = row.origin;
    motion.step = value_of(row, "step").whole;
    motion.code = value_of(row, "code").text;
    if (value_of(row, "per_element").given) motion.per_element = value_of(row, "per_element").number;
    if (value_of(row, "hand").given) motion.hand = static_cast<Hand>(value_of(row, "hand").whole + 1);
    if (value_of(row, "tmu").given) motion.stated_tmu = value_of(row, "tmu").number;
    motion.analyst = value_of(row, "analyst").text;
    draft.input.motions.push_back(std::move(motion));
  });
}

void read_motion_table(Draft& draft) {
  std::map<std::string, SourceRow> rows;
  each_row(draft, TableName::motion_table, [&](const TableRow& row) {
    // A row with a fault keeps its code, so that not every motion with it is a fault as well.
    if (!value_of(row, "code").given) return;
    PlantMotion motion{value_of(row, "code").text, value_of(row, "tmu").number, row.origin};
    const auto [first, added] = rows.emplace(usual_spelling(motion.code), row.origin);
    if (added)
      draft.input.motion_table.push_back(std::move(motion));
    else
      row_issue(
          draft, row, "code",
          {IssueGrade::fault, "motion_code_twice",
           "The code \"" + motion.code + "\" stands here and in " + row_text(draft, first->second, row.origin) + ".",
           "Each code has one row. Delete one of the two, or correct it."});
  });
}

} // namespace docket
