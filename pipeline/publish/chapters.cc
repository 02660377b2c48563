#include "publish/chapters.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <vector>

#include "lesson/chapters.h"
#include "publish/kind.h"
#include "publish/text.h"

namespace plyscribe::publish {
namespace {

using lesson::Chapter;
using lesson::Lesson;

// One line of at most so many characters, without control characters.
std::string title_line(std::string_view title) {
  std::string out;
  std::size_t characters = 0;
  for (const char c : title) {
    const auto byte = static_cast<unsigned char>(c);
    const bool begins = (byte & 0xC0) != 0x80;
    if (begins && ++characters > lesson::kLongestTitle) break;
    out += byte < 0x20 || byte == 0x7F ? ' ' : c;
  }
  return out;
}

std::vector<Chapter> chapters(const Lesson& lesson) {
  std::vector<Chapter> all = lesson.chapters;
  if (all.empty()) all.push_back({0, lesson.title.empty() ? "Lesson" : lesson.title, 0});
  all.front().t = 0;
  for (Chapter& c : all) c.title = title_line(c.title);
  return all;
}

// "00:01:10.000" (WebVTT, section 4.1, timestamps).
std::string timestamp(double seconds) {
  const auto ms = static_cast<long long>(std::llround(std::max(0.0, seconds) * 1000));
  return fmt::format("{:02}:{:02}:{:02}.{:03}", ms / 3600000, ms / 60000 % 60, ms / 1000 % 60,
                     ms % 1000);
}

// Cue text: "&" and "<" begin something, "-->" may not occur.
std::string cue_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else {
      out += c;
    }
  }
  return out;
}

}  // namespace

std::string write_chapter_track(const Lesson& lesson) {
  const std::vector<Chapter> all = chapters(lesson);
  std::string out = "WEBVTT\n";
  for (std::size_t i = 0; i < all.size(); ++i) {
    // The end is after the start even in a lesson whose length is not known.
    const double end = i + 1 < all.size()
                           ? all[i + 1].t
                           : std::max(lesson.duration, all[i].t + lesson::kShortestChapter);
    out += fmt::format("\n{}\n{} --> {}\n{}\n", i + 1, timestamp(all[i].t), timestamp(end),
                       cue_text(all[i].title));
  }
  return out;
}

std::string write_chapter_list(const Lesson& lesson) {
  std::string out;
  for (const Chapter& c : chapters(lesson)) {
    out += fmt::format("{} {}\n", clock_text(c.t), c.title);
  }
  return out;
}

constinit const Kind kChaptersKind = {
    .name = "chapters",
    .files = "chapters.vtt, chapters.txt",
    .about = "main branches and the times they begin",
    .needs_original = false,
    .write = [](const Edition& edition) -> Result<std::vector<Output>> {
      return std::vector<Output>{{"chapters.vtt", write_chapter_track(edition.lesson)},
                                 {"chapters.txt", write_chapter_list(edition.lesson)}};
    },
};

}  // namespace plyscribe::publish
