// From a second of the recording to an address that plays it from there.
//
//   Link::parse("https://video.invalid/v?start={seconds}")->at(83.9)   ".../v?start=83"
//   Link::of_media("lesson.mp4").at(83.9)                              "lesson.mp4#t=83"
//   Link().at(83.9)                                                    ""
//
// The second is the one that is running, as in clock_text: who jumps there is never late. A media
// address gets a temporal fragment (W3C, Media Fragments URI 1.0, section 4.2.1), behind "&" where
// it has a fragment already.
#ifndef PLYSCRIBE_PUBLISH_LINK_H_
#define PLYSCRIBE_PUBLISH_LINK_H_

#include <string>
#include <string_view>

#include "support/result.h"

namespace plyscribe::publish {

// From a time to an address that plays the recording from there.
class Link {
 public:
  Link() = default;
  static Link of_media(std::string_view address);  // an empty address gives no links
  // Error: no {seconds} in it.
  static Result<Link> parse(std::string_view pattern);

  bool empty() const { return pattern_.empty(); }
  std::string at(double seconds) const;

 private:
  explicit Link(std::string pattern) : pattern_(std::move(pattern)) {}
  std::string pattern_;  // holds {seconds}, or nothing
};

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_LINK_H_
