#!/usr/bin/env python3
"""Trains with each third of the lessons left out and scores what was left out.

    corpus/held_out.py                     train, score, write corpus/HELD_OUT.md (about half an hour)
    corpus/held_out.py --from DIR          only write the page, from those of the logs DIR/fold.0 ... that are there

The page is what a lesson that nobody has seen may expect; SCOREBOARD.md is what the shipped weights
do on the lessons that they were fitted to. Parts of one course stay in one fold.
"""
import argparse
import collections
import concurrent.futures
import re
import subprocess
import sys
import tempfile
from pathlib import Path

from score_all import GIVEN

CORPUS = Path(__file__).resolve().parent
PAGE = CORPUS / "HELD_OUT.md"
FOLDS = 3
OPTIONS = "--epochs 2 --forms script,heard,words,captions --decay 0.02 --rate 0.08".split()
FORMS = {"script": "script", "heard": "heard", "words": "heard-words", "captions": "live captions"}

LESSON = re.compile(r"(\S+)/(\S+)\s+P\s+([\d.]+) R\s+([\d.]+) F1\s+([\d.]+)\s+"
                    r"\(start given:\s+([\d.]+)\)\s+resets\s+([\d.]+) unreachable\s+([\d.]+)")
FORM = re.compile(r"mean (\w+)")
MISS = re.compile(r"  (\S.*?)\s+(\d+) times,\s+(\d+) edges of (\d+)")


def form_of(file):
    return "words" if file.startswith("heard-words") else file.split(".")[0]


def train(program, fold, out):
    with open(out / f"fold.{fold}", "w") as log:
        subprocess.run([program, "--lessons", CORPUS / "lessons", CORPUS / "practice",
                        "--fold", str(fold), "--folds", str(FOLDS), *OPTIONS, "--verbose",
                        "--out", out / f"weights.{fold}",
                        "--judged", out / f"judged.{fold}"], stdout=log, check=True)


def mean(values):
    values = list(values)
    return sum(values) / len(values) if values else 0.0


def page(logs):
    lessons, misses, spoken = {}, collections.defaultdict(lambda: collections.defaultdict(lambda: [0, 0])), \
        collections.Counter()
    for log in logs:
        form = None
        for line in log.read_text().splitlines():
            if m := LESSON.match(line):
                lessons[m[1], m[2]] = [float(x) for x in m.groups()[2:]]
            elif m := FORM.match(line):
                form, counted = m[1], False
            elif form and (m := MISS.fullmatch(line)):
                misses[form][m[1]][0] += int(m[2])
                misses[form][m[1]][1] += int(m[3])
                if not counted:
                    spoken[form] += int(m[4])
                    counted = True
    out = ["# Scores of lessons that were not trained on", "",
           "Written by `corpus/held_out.py`; what the columns mean stands in README.md beside this file.",
           f"{len(logs)} of {FOLDS} folds, whole lessons left out. Constants of start.cc were set by hand while all lessons",
           "could be seen, so the scores with the start inferred are not wholly blind.", "",
           "| lessons | form | files | P | R | F1 | F1, start given | resets per 100 | unreachable per 100 |",
           "| --- | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |"]
    for group, name in ((True, "given"), (False, "our own")):
        for form, called in FORMS.items():
            rows = [v for (lesson, file), v in lessons.items()
                    if (lesson in GIVEN) == group and form_of(file) == form]
            if rows:
                p, r, f1, given, resets, lost = (mean(row[k] for row in rows) for k in range(6))
                out.append(f"| {name} | {called} | {len(rows)} | {p:.1f} | {r:.1f} | **{f1:.1f}** | {given:.1f} | "
                           f"{resets:.1f} | {lost:.1f} |")
    out += ["", "## What went wrong first", "",
            "With the start given. A miss is counted where the tree leaves the gold tree; the edges are those",
            "that are wrong because of it, for \"not placed\" those that are missing.", "",
            "| form | kind | times | edges | of spoken |", "| --- | --- | ---: | ---: | ---: |"]
    for form, kinds in misses.items():
        for kind, (times, edges) in sorted(kinds.items(), key=lambda item: -item[1][1]):
            out.append(f"| {FORMS[form]} | {kind} | {times} | {edges} | {100 * edges / max(1, spoken[form]):.1f} % |")
    out += ["", "## Every lesson", "", "| lesson | form | P | R | F1 | F1, start given |",
            "| --- | --- | ---: | ---: | ---: | ---: |"]
    for (lesson, file), (p, r, f1, given, _, _) in sorted(lessons.items()):
        out.append(f"| {lesson} | {file.rsplit('.', 1)[0]} | {p:.1f} | {r:.1f} | {f1:.1f} | {given:.1f} |")
    return "\n".join(out) + "\n"


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--train", default=CORPUS.parent / "build/corpus/train", help="the program")
    parser.add_argument("--from", dest="logs", type=Path, help="folder with the logs of a run")
    parser.add_argument("--jobs", type=int, default=2)
    options = parser.parse_args()
    logs = options.logs
    if logs is None:
        logs = Path(tempfile.mkdtemp(prefix="held-out-"))
        print(f"logs, weights and judged moves: {logs}", file=sys.stderr)
        with concurrent.futures.ThreadPoolExecutor(options.jobs) as pool:
            for done in [pool.submit(train, options.train, fold, logs) for fold in range(FOLDS)]:
                done.result()
    PAGE.write_text(page([log for fold in range(FOLDS) if (log := logs / f"fold.{fold}").exists()]))
    return 0


if __name__ == "__main__":
    sys.exit(main())
