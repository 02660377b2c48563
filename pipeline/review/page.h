// The page as one HTML document that needs no other file: style, pieces, script and the lesson.
//
// The program's server sends it, and --page writes it to disk; it is the same page. The lesson goes
// in as JSON in which no "<" is left, so that a transcript can hold any markup and none is read.
#ifndef PLYSCRIBE_REVIEW_PAGE_H_
#define PLYSCRIBE_REVIEW_PAGE_H_

#include <string>
#include <string_view>

namespace plyscribe::review {

// The page's Content-Security-Policy: only this script and this style, named by their hashes; no
// text can become script. media: "" or the address of a recording elsewhere.
std::string content_policy(bool served, std::string_view media);

// data: what write_page of page_data.h returned.
std::string render_page(std::string_view title, std::string_view policy, std::string_view data);

}  // namespace plyscribe::review

#endif  // PLYSCRIBE_REVIEW_PAGE_H_
