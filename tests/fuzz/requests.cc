// What a stranger may send to the review server: in parts, and as bytes on the wire.
#include <arpa/inet.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <memory>
#include <nlohmann/json.hpp>
#include <thread>

#include "review/guard.h"
#include "review/media.h"
#include "review/page.h"
#include "review/server.h"
#include "review/session.h"
#include "tests/fuzz/target.h"

namespace plyscribe::fuzz {
namespace {

constexpr std::string_view kLesson =
    "[0:00] We begin with e4, e5, Nf3, Nc6, Bc4, Nf6, d3.\n[0:10] Then Bc5, c3, d6, castles.\n";

struct Lesson {
  Lesson() {
    const auto t = transcript::read_transcript(kLesson, "t");
    session = *review::Session::open(*t, {}, {}, [this](std::string_view text) {
      saved = text;
      return std::optional<Error>();
    });
  }
  std::unique_ptr<review::Session> session;
  std::string saved;
  std::size_t revision = 0;
};

std::string_view next_line(std::string_view& rest) {
  const std::size_t end = std::min(rest.find('\n'), rest.size());
  const std::string_view line = rest.substr(0, end);
  rest.remove_prefix(std::min(end + 1, rest.size()));
  return line;
}

// The server, up until the process ends. What comes back for these bytes, up to the end.
class Wire {
 public:
  Wire() {
    server_ = *review::Server::open(*lesson_.session, {.title = "t", .file = "t", .pins_file = "p",
                                                       .media = "", .served = true},
                                    std::nullopt, 0);
    const std::string& address = server_->address();  // http://127.0.0.1:4711/TOKEN/
    port_ = std::atoi(address.c_str() + address.rfind(':') + 1);
    token_ = address.substr(address.find('/', 8));
    thread_ = std::thread([this] { server_->run(); });
    page();
  }
  ~Wire() {
    server_->stop();
    thread_.join();
  }

  // Waits so long for each part of the answer. The sending side stays open: the library answers
  // nobody who has closed it, and waits for the rest of a request that isn't whole.
  std::string send(std::string_view bytes, std::chrono::milliseconds patience) const {
    const int fd = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port_));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    std::string answer;
    if (::connect(fd, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0) {
      const timeval wait{patience.count() / 1000, patience.count() % 1000 * 1000};
      ::setsockopt(fd, SOL_SOCKET, SO_RCVTIMEO, &wait, sizeof wait);
      while (!bytes.empty()) {
        const ssize_t n = ::send(fd, bytes.data(), bytes.size(), MSG_NOSIGNAL);
        if (n <= 0) break;
        bytes.remove_prefix(static_cast<std::size_t>(n));
      }
      std::array<char, 4096> buffer{};
      for (ssize_t n = 0; (n = ::recv(fd, buffer.data(), buffer.size(), 0)) > 0;) {
        answer.append(buffer.data(), static_cast<std::size_t>(n));
      }
    }
    ::close(fd);
    return answer;
  }

  std::string page() const {
    return send("GET " + token_ + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port_) +
                    "\r\nConnection: close\r\n\r\n",
                std::chrono::seconds(20));
  }
  const std::string& token() const { return token_; }
  std::string host() const { return "127.0.0.1:" + std::to_string(port_); }

 private:
  Lesson lesson_;
  std::unique_ptr<review::Server> server_;
  int port_ = 0;
  std::string token_;
  std::thread thread_;
};

}  // namespace

// Method, path, Host, Origin, Sec-Fetch-Site, Content-Type, Range, a line each; then a body.
void request(std::string_view bytes) {
  static const review::Guard guard("0123456789abcdef0123456789abcdef", 4711);
  review::Caller caller;
  for (std::string* part : {&caller.method, &caller.path, &caller.host, &caller.origin,
                            &caller.fetch_site, &caller.content_type}) {
    *part = next_line(bytes);
  }
  const std::string refusal = guard.refusal(caller);
  if (refusal.empty()) {
    expect(caller.host == "127.0.0.1:4711" || caller.host == "localhost:4711",
           "who passes has called this server by its own name");
    expect(caller.path.starts_with("/0123456789abcdef0123456789abcdef/"),
           "who passes knows the token");
    expect(caller.method != "POST" || caller.origin == "http://" + caller.host,
           "who changes anything is the page itself");
  } else {
    expect_line(refusal);
  }
  const std::string_view range = next_line(bytes);
  for (const std::uint64_t size : {std::uint64_t{0}, std::uint64_t{1}, std::uint64_t{5000},
                                   ~std::uint64_t{0}}) {
    const auto part = review::parse_range(range, size);
    if (part) expect(part->first <= part->last && part->last < size, "a range is inside the file");
  }
  if (review::is_web_address(range)) {
    expect(review::content_policy(true, range).find_first_of("\r\n\"") == std::string::npos,
           "an address breaks out of no header");
  }
  static Lesson lesson;
  const review::Answer answer = lesson.session->set_pins(lesson.revision, bytes);
  expect(answer.status == 200 || answer.status == 422, "pins are taken or refused");
  const auto body = nlohmann::json::parse(answer.body, nullptr, false);
  expect(body.is_object(), "an answer is JSON");
  if (answer.status == 200) {
    ++lesson.revision;
    expect(static_cast<bool>(lesson::read_pins(lesson.saved, "p")), "what is saved is pins");
  } else {
    expect(body.contains("error") && body["state"]["revision"] == lesson.revision,
           "what is refused changes nothing");
  }
  if (lesson.revision > 200) lesson = Lesson();  // its steps back are kept
}

// Sent as they are, with TOKEN and HOST put in: an answer of HTTP or none, and the server goes on.
void server(std::string_view bytes) {
  static const Wire wire;
  std::string raw(bytes);
  for (const auto& [word, value] : {std::pair<std::string_view, std::string>{"TOKEN", wire.token()},
                                    {"HOST", wire.host()}}) {
    if (const std::size_t at = raw.find(word); at != std::string::npos) {
      raw.replace(at, word.size(), value);
    }
  }
  const std::string answer = wire.send(raw, std::chrono::milliseconds(20));
  expect(answer.empty() || answer.starts_with("HTTP/1."), "an answer is one of HTTP");
  static std::size_t asked = 0;
  if (++asked % 64 == 1) {
    const std::string page = wire.page();
    expect(page.starts_with("HTTP/1.1 200") && page.find("</html>") != std::string::npos,
           "the server goes on");
  }
}

}  // namespace plyscribe::fuzz
