#include "review/guard.h"

#include <fmt/format.h>

#include <random>

namespace plyscribe::review {
namespace {

// In a time that does not tell how much was right.
bool same(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    difference |= static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]);
  }
  return difference == 0;
}

}  // namespace

std::string random_token() {
  std::random_device source;  // getrandom or the processor's own on every system we build for
  std::string token;
  for (int i = 0; i < 4; ++i) token += fmt::format("{:08x}", source());
  return token;
}

bool Guard::own_host(std::string_view host) const {
  return host == fmt::format("127.0.0.1:{}", port_) || host == fmt::format("localhost:{}", port_);
}

std::string Guard::refusal(const Caller& caller) const {
  if (!own_host(caller.host)) return "expected this server's own address as Host";
  if (!caller.origin.empty() && caller.origin != "http://" + caller.host) {
    return "expected no Origin but the page's own";
  }
  if (!caller.fetch_site.empty() && caller.fetch_site != "same-origin" &&
      caller.fetch_site != "none") {
    return "expected no other page as caller";
  }
  const std::string_view path = caller.path;
  if (path.size() < token_.size() + 2 || path[0] != '/' || path[token_.size() + 1] != '/' ||
      !same(path.substr(1, token_.size()), token_)) {
    return "expected the address that plyscribe printed";
  }
  if (caller.method == "POST") {
    if (caller.origin.empty()) return "expected an Origin";
    if (caller.content_type != "application/json") return "expected application/json";
  } else if (caller.method != "GET" && caller.method != "HEAD") {
    return "expected GET, HEAD or POST";
  }
  return {};
}

std::string Guard::address() const { return fmt::format("http://127.0.0.1:{}/{}/", port_, token_); }

}  // namespace plyscribe::review
