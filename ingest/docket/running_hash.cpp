#include "ingest/docket/running_hash.h"

#include <Poco/Crypto/DigestEngine.h>

namespace docket {

RunningHash::RunningHash() : engine_(std::make_unique<Poco::Crypto::DigestEngine>("SHA256")) {}

RunningHash::~RunningHash() = default;

void RunningHash::add(std::string_view bytes) { engine_->update(bytes.data(), bytes.size()); }

std::string RunningHash::hex() { return Poco::DigestEngine::digestToHex(engine_->digest()); }

} // namespace docket
