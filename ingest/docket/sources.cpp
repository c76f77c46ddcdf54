#include "ingest/docket/sources.h"

#include "ingest/docket/packed_bytes.h"
#include "ingest/running_hash.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>

namespace docket {

namespace {

constexpr std::size_t part_bytes = std::size_t{4} << 20;

QString as_qt(std::string_view utf8) { return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())); }

QJsonObject as_json(const StoredSource& source) {
  return {{"source", static_cast<qint64>(source.source)},
          {"place", static_cast<qint64>(source.place)},
          {"supersedes", source.supersedes ? QJsonValue(static_cast<qint64>(*source.supersedes)) : QJsonValue()},
          {"file", as_qt(source.file)},
          {"reading", as_qt(source.reading)},
          {"form", as_qt(source.form)},
          {"bytes", static_cast<qint64>(source.bytes)},
          {"sha256", as_qt(source.sha256)},
          {"stored_bytes", static_cast<qint64>(source.stored_bytes)},
          {"stored_sha256", as_qt(source.stored_sha256)},
          {"rows", static_cast<qint64>(source.rows)},
          {"cells_sha256", as_qt(source.cells_sha256)}};
}

StoredBytes each_block(std::istream& in, const std::function<void(std::string_view)>& take) {
  RunningHash hash;
  StoredBytes read;
  std::string block(part_bytes, '\0');
  while (in.read(block.data(), static_cast<std::streamsize>(block.size())), in.gcount() > 0) {
    const std::string_view bytes(block.data(), static_cast<std::size_t>(in.gcount()));
    hash.add(bytes);
    read.bytes += in.gcount();
    take(bytes);
  }
  read.sha256 = hash.hex();
  return read;
}

} // namespace

std::vector<StoredSource> read_sources(Database& docket) {
  SqlStatement rows(docket,
                    "SELECT source, entry, place, supersedes, file, reading, form, bytes, sha256, stored_bytes, "
                    "stored_sha256, rows, cells_sha256 FROM source ORDER BY source");
  std::vector<StoredSource> sources;
  while (rows.next())
    sources.push_back({rows.whole(0), rows.whole(1), rows.whole(2), rows.maybe_whole(3), rows.text(4), rows.text(5),
                       rows.text(6), rows.whole(7), rows.text(8), rows.whole(9), rows.text(10), rows.whole(11),
                       rows.text(12)});
  return sources;
}

const StoredSource* find_successor(std::span<const StoredSource> sources, std::int64_t source) {
  const auto found =
      std::find_if(sources.begin(), sources.end(), [&](const StoredSource& one) { return one.supersedes == source; });
  return found == sources.end() ? nullptr : &*found;
}

std::vector<StoredSource> current_of(std::span<const StoredSource> sources) {
  std::vector<StoredSource> current;
  for (const StoredSource& source : sources)
    if (find_successor(sources, source.source) == nullptr) current.push_back(source);
  std::stable_sort(current.begin(), current.end(),
                   [](const StoredSource& a, const StoredSource& b) { return a.place < b.place; });
  return current;
}

void insert_source(Database& docket, const StoredSource& source) {
  SqlStatement(docket,
               "INSERT INTO source (source, entry, place, supersedes, file, reading, form, bytes, sha256, "
               "stored_bytes, stored_sha256, rows, cells_sha256) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
      .bind(source.source)
      .bind(source.entry)
      .bind(source.place)
      .bind(source.supersedes)
      .bind_text(source.file)
      .bind_text(source.reading)
      .bind_text(source.form)
      .bind(source.bytes)
      .bind_text(source.sha256)
      .bind(source.stored_bytes)
      .bind_text(source.stored_sha256)
      .bind(source.rows)
      .bind_text(source.cells_sha256)
      .run();
}

StoredBytes hash_bytes(std::istream& in) {
  return each_block(in, [](std::string_view) {});
}

StoredBytes store_bytes(Database& docket, std::int64_t source, std::istream& in) {
  SqlStatement insert(docket, "INSERT INTO source_part (source, part, bytes, packed) VALUES (?, ?, ?, ?)");
  std::int64_t part = 0;
  return each_block(in, [&](std::string_view bytes) {
    insert.bind(source).bind(++part).bind(static_cast<std::int64_t>(bytes.size())).bind_bytes(pack_bytes(bytes)).run();
  });
}

bool load_bytes(Database& docket, const StoredSource& source, const std::function<void(std::string_view)>& take) {
  SqlStatement parts(docket, "SELECT part, bytes, packed FROM source_part WHERE source = ? ORDER BY part");
  parts.bind(source.source);
  RunningHash hash;
  std::int64_t bytes = 0;
  for (std::int64_t part = 1; parts.next(); ++part) {
    const std::int64_t size = parts.whole(1);
    if (parts.whole(0) != part || size < 1 || size > static_cast<std::int64_t>(part_bytes)) return false;
    const auto unpacked = unpack_bytes(parts.view(2), static_cast<std::size_t>(size));
    if (!unpacked) return false;
    hash.add(*unpacked);
    bytes += size;
    take(*unpacked);
  }
  return bytes == source.stored_bytes && hash.hex() == source.stored_sha256;
}

std::string details_of(std::span<const StoredSource> sources) {
  QJsonArray list;
  for (const StoredSource& source : sources) list.append(as_json(source));
  return QJsonDocument(QJsonObject{{"sources", list}}).toJson(QJsonDocument::Compact).toStdString();
}

} // namespace docket
