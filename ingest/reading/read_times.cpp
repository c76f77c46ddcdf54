#include "ingest/reading/cell_dates.h"
#include "ingest/reading/read_tables.h"

namespace docket {

namespace {

std::optional<std::int64_t> count(const CellValue& value) {
  return value.given ? std::optional(value.whole) : std::nullopt;
}

std::optional<double> share(const CellValue& value) {
  return value.given ? std::optional(value.number / 100) : std::nullopt;
}

std::optional<Instant> on_day(const CellValue& value, Date date) {
  if (!value.given) return std::nullopt;
  return value.time_only ? Instant(date) + value.time : value.at;
}

YesNo yes_no(const CellValue& value) {
  if (!value.given) return YesNo::not_given;
  return value.whole == 0 ? YesNo::yes : value.whole == 1 ? YesNo::no : YesNo::unknown;
}

Seconds seconds(const CellValue& value) { return Seconds(value.given ? value.number : 0); }

void check_session(Draft& draft, const TableRow& row, const Session& session) {
  if (session.start && session.end && *session.end < *session.start)
    row_issue(draft, row, "end",
              {IssueGrade::fault, "end_before_start", "The session ends before it starts.",
               "Correct the times. If the session ran past midnight, write the end with its day: " +
                   date_text({*session.end + std::chrono::hours(24), false}).substr(0, 16) + "."});
  if (session.start && day_of(*session.start) != session.date)
    row_issue(draft, row, "start",
              {IssueGrade::fault, "start_on_another_day", "The start lies on another day than the date of the session.",
               "Correct the date or the start."});
}

void check_same_as(Draft& draft) {
  if (!draft.sessions.complete) return;
  for (const Session& session : draft.input.sessions) {
    if (session.same_as.empty()) continue;
    const bool itself = session.same_as == session.session;
    if (!itself && draft.sessions.places.contains(session.same_as)) continue;
    row_issue(draft, session.origin, "same_as", session.same_as,
              {IssueGrade::fault, "session_unknown",
               itself ? "A session cannot be the same as itself."
                      : "\"" + session.same_as + "\" is not in the sheet sessions.",
               (itself ? "" : suggestion(draft.sessions, session.same_as)) +
                   "Name the session in which another observer timed the same cycles."});
  }
}

} // namespace

void read_sessions(Draft& draft) {
  each_row(draft, TableName::sessions, [&](const TableRow& row) {
    Session session;
    session.origin = row.origin;
    session.session = value_of(row, "session").text;
    session.date = day_of(value_of(row, "date").at);
    session.op = find_operator(draft, row, "operator");
    session.start = on_day(value_of(row, "start"), session.date);
    session.end = on_day(value_of(row, "end"), session.date);
    session.shift = value_of(row, "shift").text;
    session.observer = value_of(row, "observer").text;
    session.same_as = value_of(row, "same_as").text;
    session.planned_cycles = count(value_of(row, "planned_cycles"));
    session.first_cycle = count(value_of(row, "first_cycle"));
    session.rating = share(value_of(row, "rating_percent"));
    session.method_as_standard = yes_no(value_of(row, "method_as_standard"));
    session.blind_rating = yes_no(value_of(row, "blind_rating"));
    if (session.session.empty()) return;
    if (!add_name(draft.sessions, session.session, static_cast<std::int32_t>(draft.input.sessions.size()))) {
      const Session& first = draft.input.sessions[static_cast<std::size_t>(draft.sessions.places[session.session])];
      row_issue(draft, row, "session",
                {IssueGrade::fault, "session_twice",
                 "The session \"" + session.session + "\" stands here and in " +
                     row_text(draft, first.origin, row.origin) + ".",
                 "Each session has one row and its own name."});
      return;
    }
    if (!row.faulty) check_session(draft, row, session);
    draft.input.sessions.push_back(std::move(session));
  });
  const TableState& state = draft.state(TableName::sessions);
  draft.sessions.complete = state.present() && !state.broken();
  check_same_as(draft);
}

void read_readings(Draft& draft) {
  each_row(draft, TableName::readings, [&](const TableRow& row) {
    Reading reading;
    reading.origin = row.origin;
    reading.session = find_session(draft, row, "session");
    reading.cycle = value_of(row, "cycle").whole;
    reading.time = seconds(value_of(row, "time_s"));
    const CellValue& element = value_of(row, "element");
    if (element.text.starts_with('+'))
      reading.seen_element = element.text.substr(1);
    else
      reading.element = find_element(draft, row, "element");
    reading.wait = seconds(value_of(row, "wait_s"));
    reading.helped = seconds(value_of(row, "helped_s"));
    reading.helped_given = value_of(row, "helped_s").given;
    reading.rating = share(value_of(row, "rating_percent"));
    reading.variant = find_variant(draft, row, "variant");
    reading.marks = value_of(row, "mark").marks;
    reading.note = value_of(row, "note").text;
    const bool unresolved = element.given && reading.element < 0 && reading.seen_element.empty();
    if (!row.faulty && !unresolved && reading.session >= 0) draft.input.readings.push_back(std::move(reading));
  });
  const TableState& state = draft.state(TableName::readings);
  if (state.present() && !draft.state(TableName::sessions).present())
    add_table_issue(draft.issues,
                    {IssueGrade::fault, "sessions_missing", "There are readings, but no sheet sessions.",
                     "Fill in the sheet sessions: one row for each session that the readings name."},
                    state.sheets.front().source, TableName::readings, 0, "session", "");
}

} // namespace docket
