// plyscribe: misheard, timed transcripts of chess lessons into legal, timestamped move trees.
#include "app/commands.h"

int main(int argc, char** argv) { return static_cast<int>(plyscribe::app::run(argc, argv)); }
