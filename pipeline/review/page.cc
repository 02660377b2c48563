#include "review/page.h"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <cassert>
#include <utility>
#include <vector>

#include "embedded/pieces_svg.h"
#include "embedded/review_page.h"
#include "embedded/review_script.h"
#include "embedded/review_style.h"
#include "review/media.h"

namespace plyscribe::review {
namespace {

// 'sha256-...' as Content-Security-Policy names an inline script or style (W3C CSP 3,
// section 2.3.1).
std::string source_hash(std::string_view text) {
  unsigned char digest[EVP_MAX_MD_SIZE];
  unsigned int size = 0;
  [[maybe_unused]] const int done =
      EVP_Digest(text.data(), text.size(), digest, &size, EVP_sha256(), nullptr);
  assert(done == 1 && size == 32);
  unsigned char base64[64];
  const int length = EVP_EncodeBlock(base64, digest, static_cast<int>(size));
  return "'sha256-" + std::string(base64, base64 + length) + "'";
}

std::string escape_html(std::string_view text) {
  std::string out;
  for (char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string without_markup(std::string_view json) {
  std::string out;
  out.reserve(json.size());
  for (char c : json) {
    if (c == '<') {
      out += "\\u003c";
    } else {
      out += c;
    }
  }
  return out;
}

}  // namespace

std::string content_policy(bool served, std::string_view media) {
  std::string sources = served ? "'self' blob:" : "file: blob:";
  if (is_web_address(media)) sources += " " + origin_of(media);
  return fmt::format(
      "default-src 'none'; script-src {}; style-src {}; connect-src {}; media-src {}; "
      "img-src data:; base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; "
      "trusted-types 'none'",
      source_hash(embedded::review_script), source_hash(embedded::review_style),
      served ? "'self'" : "'none'", sources);
}

std::string render_page(std::string_view title, std::string_view policy, std::string_view data) {
  const std::string escaped_title = escape_html(title), escaped_policy = escape_html(policy);
  const std::string safe_data = without_markup(data);
  const std::pair<std::string_view, std::string_view> parts[] = {
      {"{{title}}", escaped_title},
      {"{{policy}}", escaped_policy},
      {"{{style}}", embedded::review_style},
      {"{{pieces}}", embedded::pieces_svg},
      {"{{data}}", safe_data},
      {"{{script}}", embedded::review_script},
  };
  std::string out;
  std::string_view rest = embedded::review_page;
  for (const auto& [name, text] : parts) {  // in the order in which the page has them
    const std::size_t at = rest.find(name);
    assert(at != std::string_view::npos);
    out += rest.substr(0, at);
    out += text;
    rest.remove_prefix(at + name.size());
  }
  return out += rest;
}

}  // namespace plyscribe::review
