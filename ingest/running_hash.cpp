#include "ingest/running_hash.h"

#include <Poco/Crypto/DigestEngine.h>

namespace docket {

namespace {

#if defined(__x86_64__)
/// OpenSSL's vector code can leave the upper halves of the registers in use. On some processors all scalar arithmetic after
/// that takes several times as long (Intel 64 and IA-32 Architectures Optimization Reference Manual, on mixing AVX and
/// SSE), here that of the whole program: a case file took 4.8 s in place of 0.7 s.
[[gnu::target("avx")]] void clear_upper_halves() { __builtin_ia32_vzeroupper(); }
void leave_registers_clean() {
  if (__builtin_cpu_supports("avx")) clear_upper_halves();
}
#else
void leave_registers_clean() {}
#endif

} // namespace

RunningHash::RunningHash() : engine_(std::make_unique<Poco::Crypto::DigestEngine>("SHA256")) {}

RunningHash::~RunningHash() = default;

void RunningHash::add(std::string_view bytes) {
  engine_->update(bytes.data(), bytes.size());
  leave_registers_clean();
}

std::string RunningHash::hex() {
  std::string digits = Poco::DigestEngine::digestToHex(engine_->digest());
  leave_registers_clean();
  return digits;
}

} // namespace docket
