#!/usr/bin/env python3
"""Seeds of the fuzz targets: those of seeds/, and parts of the corpus.

  seeds.py OUT_FOLDER        writes OUT_FOLDER/TARGET/NAME
"""
import json
import pathlib
import shutil
import sys

here = pathlib.Path(__file__).parent
out = pathlib.Path(sys.argv[1])
shutil.rmtree(out, ignore_errors=True)
shutil.copytree(here / "seeds", out)


def seed(target, name, text):
    (out / target).mkdir(exist_ok=True)
    (out / target / name).write_text(text)


def clock(t):
    return f"{int(t) // 3600:02}:{int(t) // 60 % 60:02}:{t % 60:06.3f}"


lessons = sorted(path.parent for path in (here / "../../corpus/lessons").glob("*/gold.json"))
for lesson in lessons[::9]:
    name = lesson.name
    gold = json.loads((lesson / "gold.json").read_text())
    heard = (lesson / "heard.txt").read_text()
    for target in "text", "any":
        seed(target, name, heard[:1500])
    words = [w for w in heard[:1500].split() if not w.startswith("[")]
    rows = [(i * 3.0, " ".join(words[i * 8:i * 8 + 8])) for i in range(10)]
    seed("srt", name, "".join(f"{i + 1}\n{clock(t).replace('.', ',')} --> "
                              f"{clock(t + 3).replace('.', ',')}\n{w}\n\n"
                              for i, (t, w) in enumerate(rows)))
    seed("vtt", name, "WEBVTT\n\n" + "".join(f"{clock(t)} --> {clock(t + 3)}\n{w}\n\n"
                                             for t, w in rows))
    seed("ttml", name, "<tt><body><div>" + "".join(f'<p begin="{t}s" end="{t + 3}s">{w}</p>'
                                                   for t, w in rows) + "</div></body></tt>")
    seed("ctm", name, "".join(f"d A {i / 2} .5 {w} .9\n" for i, w in enumerate(words[:60])))
    seed("json", name, json.dumps([{"start": t, "end": t + 3, "text": w} for t, w in rows]))
    for i, (_, text) in enumerate(rows[:4]):
        seed("lattice", f"{name}-{i}", text)
    moves = " ".join(gold["start_moves"])
    for i in range(0, len(words) - 12, 40):
        seed("decode", f"{name}-{i}", f"{chr(48 + i % 8)}A" + (moves + " " if i % 80 else "") +
             " ".join(words[i:i + 12]))
    for i, edge in enumerate(gold["edges"][::20]):
        fen = edge["fen"] if "fen" in edge else gold["start_fen"]
        seed("fen", f"{name}-{i}", fen)
        seed("san", f"{name}-{i}", fen + "\n" + edge["uci"])
    seed("san", name, gold["start_fen"] + "\n" + " ".join(gold["edges"][-1].get("path", [])))
    seed("pgn", name, (lesson / "gold.pgn").read_text()[:3000])
