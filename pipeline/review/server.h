// The review page's server: one lesson, one page, this machine only.
//
//   GET  /TOKEN/                 the page, with the lesson as it is now
//   GET  /TOKEN/media            the recording, in ranges
//   POST /TOKEN/pins?revision=N  a pins file: corrections as they are to be from now on
//   POST /TOKEN/undo?revision=N  one step back;  /TOKEN/redo one forth again
//
// The POSTs answer as Session does. Who may call is Guard's; requests are small or refused.
#ifndef PLYSCRIBE_REVIEW_SERVER_H_
#define PLYSCRIBE_REVIEW_SERVER_H_

#include <memory>
#include <optional>
#include <string>

#include "review/media.h"
#include "review/page_data.h"
#include "review/session.h"
#include "support/result.h"

namespace plyscribe::review {

class Server {
 public:
  // port 0: any that is free. The session must outlive the server.
  static Result<std::unique_ptr<Server>> open(Session& session, PageData page,
                                              std::optional<MediaFile> media, int port);
  ~Server();

  const std::string& address() const;
  void run();   // until stop
  void stop();  // from another thread

 private:
  struct Parts;
  explicit Server(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace plyscribe::review

#endif  // PLYSCRIBE_REVIEW_SERVER_H_
