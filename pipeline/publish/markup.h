// Text that goes into a page: whatever was heard or titled stays text.
#ifndef PLYSCRIBE_PUBLISH_MARKUP_H_
#define PLYSCRIBE_PUBLISH_MARKUP_H_

#include <string>
#include <string_view>

namespace plyscribe::publish {

// For an element's text or a quoted attribute, in HTML and XML: & < > " ' are spelt out, control
// characters, which XML forbids, become blanks.
std::string escaped(std::string_view text);

// For a quoted string in a style sheet inside a page.
std::string style_string(std::string_view text);

// Whether a page may point there: http, https, file, or relative. A saved lesson can name any
// address, and some run code.
bool is_plain_address(std::string_view address);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_MARKUP_H_
