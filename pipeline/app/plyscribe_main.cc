// plyscribe: misheard, timed transcripts of chess lessons into legal, timestamped move trees.
#include <signal.h>

#include "app/commands.h"

int main(int argc, char** argv) {
  ::signal(SIGXFSZ, SIG_IGN);  // a file that may not grow further is a failed write, told as such
  return static_cast<int>(plyscribe::app::run(argc, argv));
}
