#include "ingest/docket/history.h"

#include "ingest/docket/store.h"

namespace docket {

History read_history(const std::string& path) {
  Database docket = open_docket(path);
  return {read_ledger(docket), read_sources(docket)};
}

} // namespace docket
