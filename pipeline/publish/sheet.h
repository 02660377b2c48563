// The study sheet: one HTML page that reads on a screen and prints on A4 and Letter alike.
//
//   title, side, length          diagram of the start       the first page
//   overview                     branches, each with its time
//   a chapter each               its lines as text, remarks, diagrams where the lecturer dwelt
//   what to remember             advice by position; lines that meet
//   games and players named
//   how to read it               marks that were used; what could not be placed
//
// Times are links where the lesson has a recording. The page holds its pictures and its style
// (sheet.css) and asks for nothing from elsewhere.
#ifndef PLYSCRIBE_PUBLISH_SHEET_H_
#define PLYSCRIBE_PUBLISH_SHEET_H_

#include <string>

#include "lesson/lesson.h"
#include "publish/kind.h"

namespace plyscribe::publish {

std::string write_sheet(const lesson::Lesson& lesson, const Link& link);

extern const Kind kSheetKind;  // "sheet": sheet.html

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_SHEET_H_
