#include "review/server.h"

#include <fmt/format.h>
#include <httplib.h>

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>
#include <utility>

#include "review/guard.h"
#include "review/page.h"

namespace plyscribe::review {
namespace {

constexpr std::size_t kMostPosted = 1 << 20;  // a pins file; thousands of pins fit
// A player may ask for all that is left of a recording and then read slowly. It gets a part at a
// time (RFC 9110 lets a server send less than was asked for), so that no thread waits for it.
constexpr std::uint64_t kMostOfMedia = 4 << 20;

std::optional<std::size_t> revision_of(const httplib::Request& request) {
  const std::string text = request.get_param_value("revision");
  std::size_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || error != std::errc() || end != text.data() + text.size()) return {};
  return value;
}

void refuse(httplib::Response& response, int status, std::string_view why) {
  response.status = status;
  response.set_content(nlohmann::json{{"error", why}}.dump(), "application/json");
}

}  // namespace

struct Server::Parts {
  Parts(Session& the_session, PageData the_page, std::optional<MediaFile> the_media)
      : session(the_session), page(std::move(the_page)), media(std::move(the_media)) {}

  void send_page(httplib::Response& response);
  void send_media(const httplib::Request& request, httplib::Response& response);
  void route();

  Session& session;
  const PageData page;
  const std::optional<MediaFile> media;
  std::optional<Guard> guard;
  std::string address, policy;
  httplib::Server http;
};

void Server::Parts::send_page(httplib::Response& response) {
  response.set_header("Content-Security-Policy", policy + "; frame-ancestors 'none'");
  response.set_content(render_page(page.title, policy, session.page(page)),
                       "text/html; charset=utf-8");
}

void Server::Parts::send_media(const httplib::Request& request, httplib::Response& response) {
  // The library would cut the range out of the answer once more, and does not check its bounds.
  const_cast<httplib::Request&>(request).ranges.clear();
  response.set_header("Accept-Ranges", "bytes");
  const std::uint64_t size = media->size();
  ByteRange range{0, size == 0 ? 0 : size - 1};
  if (request.has_header("Range")) {
    const auto asked = parse_range(request.get_header_value("Range"), size);
    if (!asked) {
      response.set_header("Content-Range", fmt::format("bytes */{}", size));
      return refuse(response, 416, "expected one range of bytes inside the recording");
    }
    range = *asked;
    range.last = std::min(range.last, range.first + kMostOfMedia - 1);
    response.status = 206;
    response.set_header("Content-Range",
                        fmt::format("bytes {}-{}/{}", range.first, range.last, size));
  }
  if (size == 0) return response.set_content("", media->type());
  response.set_content_provider(
      static_cast<std::size_t>(range.size()), media->type(),
      [this, range](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
        std::vector<char> buffer(std::min<std::size_t>(length, 1 << 16));
        const auto n = media->read(range.first + offset, buffer.data(), buffer.size());
        return n > 0 && sink.write(buffer.data(), static_cast<std::size_t>(n));
      });
}

void Server::Parts::route() {
  http.set_payload_max_length(kMostPosted);
  http.set_read_timeout(5);
  http.set_write_timeout(5);
  http.set_keep_alive_max_count(1000);
  http.set_tcp_nodelay(true);
  http.set_default_headers({{"Cache-Control", "no-store"},
                            {"Referrer-Policy", "no-referrer"},
                            {"X-Content-Type-Options", "nosniff"},
                            {"Cross-Origin-Opener-Policy", "same-origin"},
                            {"Cross-Origin-Resource-Policy", "same-origin"}});
  http.set_pre_routing_handler(
      [this](const httplib::Request& request, httplib::Response& response) {
        const std::string refusal =
            guard->refusal({.method = request.method,
                            .path = request.path,
                            .host = request.get_header_value("Host"),
                            .origin = request.get_header_value("Origin"),
                            .fetch_site = request.get_header_value("Sec-Fetch-Site"),
                            .content_type = request.get_header_value("Content-Type")});
        if (refusal.empty() && request.get_header_value_count("Host") == 1) {
          return httplib::Server::HandlerResponse::Unhandled;
        }
        refuse(response, 403, refusal.empty() ? "expected one Host" : refusal);
        return httplib::Server::HandlerResponse::Handled;
      });
  const std::string root = "/" + guard->token() + "/";
  http.Get(root,
           [this](const httplib::Request&, httplib::Response& response) { send_page(response); });
  http.Get(root + "media", [this](const httplib::Request& request, httplib::Response& response) {
    if (!media) return refuse(response, 404, "expected a lesson with a recording");
    send_media(request, response);
  });
  const auto step = [this, &root](const std::string& name, auto act) {
    http.Post(root + name, [act](const httplib::Request& request, httplib::Response& response) {
      const auto revision = revision_of(request);
      if (!revision) return refuse(response, 400, "expected ?revision=N");
      const Answer answer = act(*revision, request.body);
      response.status = answer.status;
      response.set_header("Server-Timing", fmt::format("decode;dur={:.1f}", answer.milliseconds));
      response.set_content(answer.body, "application/json");
    });
  };
  step("pins",
       [this](std::size_t n, const std::string& body) { return session.set_pins(n, body); });
  step("undo", [this](std::size_t n, const std::string&) { return session.undo(n); });
  step("redo", [this](std::size_t n, const std::string&) { return session.redo(n); });
}

Server::Server(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Server::~Server() = default;

Result<std::unique_ptr<Server>> Server::open(Session& session, PageData page,
                                             std::optional<MediaFile> media, int port) {
  auto parts = std::make_unique<Parts>(session, std::move(page), std::move(media));
  // The library's own options would let two programs share a port; one that is taken is refused.
  parts->http.set_socket_options([](socket_t socket) {
    const int yes = 1;
    ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
  const int bound = port == 0 ? parts->http.bind_to_any_port("127.0.0.1")
                    : parts->http.bind_to_port("127.0.0.1", port) ? port
                                                                  : -1;
  if (bound <= 0) return Error{fmt::format("--port: expected a port that is free, not {}", port)};
  parts->guard.emplace(random_token(), bound);
  parts->address = parts->guard->address();
  parts->policy = content_policy(true, parts->page.media);
  parts->route();
  return std::unique_ptr<Server>(new Server(std::move(parts)));
}

const std::string& Server::address() const { return parts_->address; }
void Server::run() { parts_->http.listen_after_bind(); }
void Server::stop() { parts_->http.stop(); }

}  // namespace plyscribe::review
