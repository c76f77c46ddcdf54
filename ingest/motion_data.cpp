#include "ingest/motion_data.h"

#include "ingest/csv.h"

#include <QFile>
#include <QString>
#include <cassert>
#include <charconv>

// Resources of a static library are only there once this has run; it must stand outside any namespace.
static void register_motion_data() { Q_INIT_RESOURCE(motion_data); }

namespace docket {

namespace {

std::string read_embedded(const std::string& name) {
  register_motion_data();
  QFile file(QString::fromStdString(":/motion_data/" + name));
  const bool open = file.open(QIODevice::ReadOnly);
  assert(open); // the file is part of the program
  return open ? file.readAll().toStdString() : std::string();
}

/// The cells of one embedded file, by column name. A defect here is one of the program.
class EmbeddedTable {
public:
  explicit EmbeddedTable(const std::string& file) : file_(file), table_(parse_csv(read_embedded(file), file)) {
    assert(table_.rows.size() > 1);
  }

  std::size_t rows() const { return table_.rows.size() - 1; }

  std::size_t column(std::string_view name) const {
    const auto& header = table_.rows[0].cells;
    std::size_t at = 0;
    while (at < header.size() && header[at].text != name) ++at;
    assert(at < header.size());
    return at;
  }

  std::string text(std::size_t row, std::string_view name) const {
    const auto& cells = table_.rows[row + 1].cells;
    const std::size_t at = column(name);
    return at < cells.size() ? cells[at].text : std::string();
  }

  /// Absent where the cell is blank or holds no number.
  std::optional<double> number(std::size_t row, std::string_view name) const {
    const std::string digits = text(row, name);
    double value = 0;
    const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (digits.empty() || fault != std::errc{} || end != digits.data() + digits.size()) return std::nullopt;
    return value;
  }

  MotionValueOrigin origin(std::size_t row) const {
    MotionValueOrigin origin{file_, table_.rows[row + 1].number, MotionValueStatus::found, text(row, "source")};
    bool known = false;
    for (const auto status :
         {MotionValueStatus::found, MotionValueStatus::memory_sure, MotionValueStatus::memory_fairly_sure})
      if (text(row, "status") == words_of(status)) {
        origin.status = status;
        known = true;
      }
    assert(known);
    static_cast<void>(known);
    return origin;
  }

private:
  std::string file_;
  RawTable table_;
};

double needed(const std::optional<double>& number) {
  assert(number);
  return number.value_or(0);
}

DistanceTable read_distances(const std::string& file, std::string_view distance,
                             std::initializer_list<std::string_view> cases) {
  const EmbeddedTable table(file);
  DistanceTable times;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    DistanceRow row;
    for (const std::string_view name : cases) row.tmu.push_back(table.number(r, name));
    row.origin = table.origin(r);
    if (const auto at = table.number(r, distance)) {
      row.distance = *at;
      assert(times.rows.empty() || times.rows.back().distance < row.distance);
      times.rows.push_back(std::move(row));
    } else {
      assert(table.text(r, distance) == "each_inch_over_30");
      times.each_inch_over_last = std::move(row);
    }
  }
  return times;
}

void read_codes(const std::string& file, MotionTimes& times) {
  const EmbeddedTable table(file);
  for (std::size_t r = 0; r < table.rows(); ++r) {
    const bool is_new =
        times.by_code.insert({table.text(r, "code"), {needed(table.number(r, "tmu")), table.origin(r)}}).second;
    assert(is_new);
    static_cast<void>(is_new);
  }
}

} // namespace

MotionTimes read_shipped_motion_times() {
  MotionTimes times;
  times.reach = read_distances("reach.csv", "distance_in", {"a", "b", "c_or_d", "e", "in_motion_a", "in_motion_b"});
  times.move = read_distances("move.csv", "distance_in", {"a", "b", "c", "in_motion_b"});
  times.turn = read_distances("turn.csv", "degrees", {"s", "m", "l"});
  const EmbeddedTable weights("move_weight.csv");
  for (std::size_t r = 0; r < weights.rows(); ++r)
    times.move_weight.push_back({needed(weights.number(r, "weight_up_to_lb")), needed(weights.number(r, "factor")),
                                 needed(weights.number(r, "constant_tmu")), weights.origin(r)});
  for (const char* file :
       {"apply_pressure.csv", "body.csv", "disengage.csv", "eye.csv", "grasp.csv", "position.csv", "release.csv"})
    read_codes(file, times);
  return times;
}

std::string read_motion_data_origin() { return read_embedded("ORIGIN"); }

} // namespace docket
