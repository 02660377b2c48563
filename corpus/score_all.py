#!/usr/bin/env python3
"""Runs every lesson of corpus/lessons and corpus/unseen in every form, writes corpus/SCOREBOARD.md.

    corpus/score_all.py                    measure, write the board
    corpus/score_all.py --check            measure, compare with the stored board; 1 if it differs
    corpus/score_all.py --only two-knights  measure, print, write nothing

Each form (script.txt, heard.txt, heard-words-VOICE.json) is extracted twice: with the start
position left to be inferred, and given with --start. Game files are scored by `plyscribe score`.
"""
import argparse
import concurrent.futures
import difflib
import hashlib
import json
import os
import re
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

CORPUS = Path(__file__).resolve().parent
# The weights were fitted to the first, and to corpus/practice, which is not scored; never to the second.
SEEN, UNSEEN = CORPUS / "lessons", CORPUS / "unseen"
BOARD = CORPUS / "SCOREBOARD.md"

# The lessons that came with the task; all others are our own.
GIVEN = """caro-kann-advance catalan-part-one catalan-part-two isolani-study
    kings-indian-mar-del-plata london-beginners model-game-benoni najdorf-bg5
    pawn-ending-opposition qgd-exchange two-knights vienna-club""".split()

SCORE = re.compile(r"\(gold (\d+), hit (\d+), extra (\d+), free (\d+)\)")
EXTRA = re.compile(r"^extra +(\S+)  at (.+)$", re.MULTILINE)
UNREADABLE = 3  # exit code: the lesson gave no tree
LONGEST = "Longest lesson: "  # the board's one line that differs from run to run


@dataclass
class Numbers:
    precision: float = 0.0
    recall: float = 0.0
    f1: float = 0.0

    @classmethod
    def of(cls, gold, hit, extra):
        p = hit / (hit + extra) if hit + extra else 0.0
        r = hit / gold if gold else 0.0
        return cls(100 * p, 100 * r, 200 * p * r / (p + r) if p + r else 0.0)

    @classmethod
    def mean(cls, many):
        many = list(many)
        return cls(*(sum(getattr(n, name) for n in many) / len(many)
                     for name in ("precision", "recall", "f1")))


@dataclass
class Run:
    """One extraction and what came of it."""
    lesson: str
    form: str  # file name
    given: bool  # the start position was given
    numbers: Numbers = field(default_factory=Numbers)
    start_right: bool = False
    sure: int = 0  # moves marked clear or mended, that were said
    sure_wrong: int = 0  # of these, not in the gold tree
    time_errors: list = field(default_factory=list)  # seconds, of right moves
    output: bytes = b""
    wall: float = 0.0  # seconds
    memory: float = 0.0  # MB at the peak


def folder_of(lesson):
    return next(f / lesson for f in (SEEN, UNSEEN) if (f / lesson).exists())


def group_of(lesson):
    return "given" if lesson in GIVEN else "our own" if (SEEN / lesson).exists() else "unseen"


def place(fen):
    """The part of a position by which edges are compared: placement, side, castling."""
    return " ".join(fen.split()[:3])


def start_option(gold):
    return " ".join(gold["start_moves"]) or gold["start_fen"]


def extract(plyscribe, run, gold, folder):
    """The lesson that was extracted, or None if there is no tree."""
    command = [plyscribe, "extract", str(folder_of(run.lesson) / run.form), "--out", folder]
    if run.given:
        command += ["--start", start_option(gold)]
    with tempfile.TemporaryFile() as errors:
        begin = time.perf_counter()
        child = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=errors)
        _, status, usage = os.wait4(child.pid, 0)
        run.wall = time.perf_counter() - begin
        child.returncode = os.waitstatus_to_exitcode(status)
        run.memory = usage.ru_maxrss / 1024
        errors.seek(0)
        message = errors.read()
    if child.returncode == UNREADABLE:
        run.output = message
        return None
    if child.returncode != 0:
        raise RuntimeError(f"{' '.join(command)} returned {child.returncode}: {message.decode()}")
    pgn = Path(folder, "lesson.pgn").read_bytes()
    text = Path(folder, "lesson.json").read_bytes()
    run.output = pgn + text
    return json.loads(text)


def measure(plyscribe, run):
    gold_file = folder_of(run.lesson) / "gold.json"
    gold = json.loads(gold_file.read_text())
    with tempfile.TemporaryDirectory() as folder:
        lesson = extract(plyscribe, run, gold, folder)
        if lesson is None:
            return run
        report = subprocess.run([plyscribe, "score", "-v", gold_file, Path(folder, "lesson.pgn")],
                                check=True, capture_output=True, text=True).stdout
    size, hit, extra, _ = map(int, SCORE.search(report).groups())
    run.numbers = Numbers.of(size, hit, extra)
    run.start_right = place(lesson["start"]["fen"]) == place(gold["start_fen"])
    wrong = {(place(fen), san) for san, fen in EXTRA.findall(report)}
    fens = {0: lesson["start"]["fen"], **{n["id"]: n["fen"] for n in lesson["nodes"]}}
    told = {(e["key"], e["san"]): e["t"] for e in reversed(gold["edges"]) if not e["unsaid"]}
    for node in lesson["nodes"]:
        meant = told.get((place(fens[node["parent"]]), node["san"]))
        if meant is not None and not node["unsaid"]:
            run.time_errors.append(abs(node["t"] - meant))
        if not node["unsaid"] and node["status"] in ("clear", "mended"):
            run.sure += 1
            run.sure_wrong += (place(fens[node["parent"]]), node["san"]) in wrong
    return run


def forms(lesson):
    folder = folder_of(lesson)
    texts = [f for f in ("script.txt", "heard.txt") if (folder / f).exists()]
    return texts + sorted(f.name for f in folder.glob("heard-words-*.json"))


def kind(form):
    return "heard-words" if form.startswith("heard-words") else form.removesuffix(".txt")


def read_baseline():
    table = {}
    for line in (CORPUS / "baseline.tsv").read_text().splitlines():
        if line and not line.startswith("#"):
            lesson, form, *numbers = line.split("\t")
            table[lesson, form] = Numbers(*map(float, numbers))
    return table


def signature(runs):
    """One number for everything that was written, in a fixed order."""
    digest = hashlib.sha256()
    for run in runs:
        digest.update(f"{run.lesson}/{run.form} {run.given} {len(run.output)}\n".encode())
        digest.update(run.output)
    return digest.hexdigest()[:16]


def corpus_hash(lessons):
    digest = hashlib.sha256()
    for lesson in lessons:
        for name in ["gold.json", *forms(lesson)]:
            digest.update(f"{lesson}/{name}\n".encode())
            digest.update((folder_of(lesson) / name).read_bytes())
    return digest.hexdigest()[:16]


def cells(*values):
    return "| " + " | ".join(values) + " |"


def shown(x):
    return f"{x:.1f}"


def share(part, whole):
    return f"{100 * part / whole:.1f}" if whole else "–"


def spread(errors):
    """The median and the 95th percentile."""
    if not errors:
        return "–"
    errors = sorted(errors)
    return f"{errors[len(errors) // 2]:.1f}, {errors[len(errors) * 95 // 100]:.1f}"


def means(pairs, baseline):
    """The first table: pairs is [(inferred, given)]."""
    yield cells("lessons", "form", "files", "P", "R", "F1", "F1, start given", "F1, baseline",
                "starts right", "sure but wrong", "seconds off")
    yield "| --- | --- |" + " ---: |" * 9
    for group in ("given", "our own", "unseen"):
        for wanted in ("script", "heard", "heard-words"):
            here = [(a, b) for a, b in pairs
                    if group_of(a.lesson) == group and kind(a.form) == wanted]
            if not here:
                continue
            inferred = Numbers.mean(a.numbers for a, _ in here)
            given = Numbers.mean(b.numbers for _, b in here)
            base = [baseline[a.lesson, a.form].f1 for a, _ in here
                    if (a.lesson, a.form) in baseline]
            yield cells(group, wanted, str(len(here)), shown(inferred.precision),
                        shown(inferred.recall), f"**{shown(inferred.f1)}**", shown(given.f1),
                        shown(sum(base) / len(base)) if len(base) == len(here) else "–",
                        f"{sum(a.start_right for a, _ in here)} of {len(here)}",
                        share(sum(a.sure_wrong for a, _ in here), sum(a.sure for a, _ in here)),
                        # A synthetic voice has a pace of its own, which the gold tree does not know.
                        spread([e for a, _ in here if wanted != "heard-words"
                                for e in a.time_errors]))


def every_lesson(pairs, baseline):
    """The second table."""
    yield cells("lesson", "form", "P", "R", "F1", "start", "P, R, F1, start given",
                "P, R, F1, baseline")
    yield "| --- | --- |" + " ---: |" * 3 + " --- |" + " ---: |" * 2
    three = lambda n: ", ".join(map(shown, (n.precision, n.recall, n.f1)))
    for a, b in pairs:
        base = baseline.get((a.lesson, a.form))
        n = a.numbers
        form = a.form.removesuffix(".txt").removesuffix(".json")
        yield cells(a.lesson, form, shown(n.precision), shown(n.recall), shown(n.f1),
                    "right" if a.start_right else "wrong",
                    three(b.numbers), three(base) if base else "–")


def processor():
    for line in Path("/proc/cpuinfo").read_text().splitlines():
        if line.startswith("model name"):
            return line.split(":", 1)[1].strip()
    return "unknown processor"


def longest_line(plyscribe, lessons):
    """Measured alone, after everything else: the middle one of three runs."""
    golds = {name: json.loads((folder_of(name) / "gold.json").read_text()) for name in lessons}
    name = max(golds, key=lambda n: golds[n]["duration"])
    runs = sorted((measure(plyscribe, Run(name, "heard.txt", False)) for _ in range(3)),
                  key=lambda r: r.wall)
    minutes, seconds = divmod(int(golds[name]["duration"]), 60)
    return (f"{LONGEST}{name}, heard, {minutes}:{seconds:02} of talk: {runs[1].wall:.2f} s, "
            f"{runs[1].memory:.0f} MB at the peak, one core of {processor()}.")


def board(plyscribe, lessons, jobs):
    runs = [Run(lesson, form, given)
            for lesson in lessons for form in forms(lesson) for given in (False, True)]
    with concurrent.futures.ThreadPoolExecutor(jobs) as pool:
        runs = list(pool.map(lambda run: measure(plyscribe, run), runs))
    pairs = list(zip(runs[::2], runs[1::2]))
    baseline = read_baseline()
    return "\n".join([
        "# Scoreboard",
        "",
        "Written by `corpus/score_all.py`; what the columns mean stands in README.md beside this "
        "file.",
        "",
        f"Decode signature: `{signature(runs)}` over {len(runs)} outputs. "
        f"Corpus: `{corpus_hash(lessons)}`.",
        "",
        longest_line(plyscribe, lessons),
        "",
        "## Means",
        "",
        *means(pairs, baseline),
        "",
        "## Every lesson",
        "",
        *every_lesson(pairs, baseline),
        "",
    ])


def comparable(text):
    return [line for line in text.splitlines() if not line.startswith(LONGEST)]


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--plyscribe", default=CORPUS.parent / "build/pipeline/app/plyscribe",
                        help="the built program (default: build/pipeline/app/plyscribe)")
    parser.add_argument("--check", action="store_true", help="compare, write nothing")
    parser.add_argument("--only", nargs="+", metavar="LESSON", help="print these, write nothing")
    parser.add_argument("--jobs", type=int, default=2, help="processes at a time (default: 2)")
    options = parser.parse_args()

    lessons = sorted(p.parent.name for f in (SEEN, UNSEEN) for p in f.glob("*/gold.json"))
    if options.only:
        unknown = set(options.only) - set(lessons)
        if unknown:
            parser.error(f"no lesson {', '.join(sorted(unknown))} in {SEEN} or {UNSEEN}")
        lessons = sorted(options.only)
    if not os.access(options.plyscribe, os.X_OK):
        parser.error(f"{options.plyscribe}: expected the built program; say --plyscribe PATH")
    text = board(str(options.plyscribe), lessons, options.jobs)

    if options.only:
        print(text)
        return 0
    if not options.check:
        BOARD.write_text(text)
        print(text.split("## Every lesson")[0].rstrip())
        return 0
    stored = BOARD.read_text() if BOARD.exists() else ""
    difference = list(difflib.unified_diff(comparable(stored), comparable(text),
                                           "stored board", "today", lineterm="", n=0))
    print("\n".join(difference) if difference else "the board shows today's numbers")
    return 1 if difference else 0


if __name__ == "__main__":
    sys.exit(main())
