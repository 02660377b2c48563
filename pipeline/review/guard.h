// Who may speak to the review server: the page that it served itself, on this machine, in this run.
//
// Other pages that are open in the same browser can send requests to a local port. They are turned
// away by three marks, each checked on every request:
//   the token   a random name of this run, first part of every path; no other page knows it
//   Host        must name this server's own address: a foreign name that was made to point to
//               this machine does not pass
//   Origin, Sec-Fetch-Site   where the browser sends them, must be this page's own
#ifndef PLYSCRIBE_REVIEW_GUARD_H_
#define PLYSCRIBE_REVIEW_GUARD_H_

#include <string>
#include <string_view>

namespace plyscribe::review {

std::string random_token();  // 128 bits from the system, as 32 hexadecimal digits

struct Caller {
  std::string method, path, host, origin, fetch_site, content_type;
};

class Guard {
 public:
  Guard(std::string token, int port) : token_(std::move(token)), port_(port) {}

  // What is wrong with the call, for the log and the answer; empty: it may pass.
  std::string refusal(const Caller& caller) const;

  // "http://127.0.0.1:4711/TOKEN/"
  std::string address() const;
  const std::string& token() const { return token_; }

 private:
  bool own_host(std::string_view host) const;

  std::string token_;
  int port_;
};

}  // namespace plyscribe::review

#endif  // PLYSCRIBE_REVIEW_GUARD_H_
