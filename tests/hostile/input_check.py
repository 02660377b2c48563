"""Input that is no lesson: too large, too deep, broken, or made to do harm further on."""
import csv
import json
import os
import shutil
import subprocess
import unittest
import xml.etree.ElementTree as XML

from bench import Case, SANITIZED, controls, main

MEGABYTE = 1 << 20
SIZE = MEGABYTE // 8 if SANITIZED else 2 * MEGABYTE  # of a file that is not refused for its size

# Moves said plainly, so that a lesson comes of it.
PLAIN = """[0:00] We begin with e4, e5, Nf3, Nc6, Bc4, Nf6, d3.
[0:10] Then Bc5, c3, d6, castles, castles. I recommend this for White.
[0:20] Instead of d3 there is Ng5, d5, exd5, Na5, Bb5+, c6, dxc6, bxc6.
"""


def repeated(text, size=SIZE):
    return text * (size // len(text))


class Size(Case):
    def test_what_is_larger_than_any_lesson_is_refused_before_it_fills_the_memory(self):
        with open(self.path("line.txt"), "wb") as f:
            f.write(b"[0:03] ")
            for _ in range(200):
                f.write(b"knight f3 takes " * (1_000_000 // 16))
        for arguments in (["extract", self.path("line.txt")], ["extract", "/dev/zero"],
                          ["publish", "/dev/zero", "--as", "pgn"],
                          ["review", "/dev/zero"],
                          ["extract", self.file("a.txt", PLAIN), "--pins", "/dev/zero"]):
            self.refused(*arguments, saying="expected a file of at most 32 MB", seconds=2,
                         megabytes=150)

    def test_a_pipe_without_end_is_refused(self):
        endless = subprocess.Popen(["yes", "[0:03] e4 e5"], stdout=subprocess.PIPE)
        try:
            self.refused("extract", "-", stdin=endless.stdout, saying="-: expected a file of at most",
                         seconds=2, megabytes=150)
        finally:
            endless.kill()
            endless.wait()
            endless.stdout.close()

    def test_a_million_captions_are_too_many_words(self):
        for name, text in (("a.txt", "[0:00] e4\n" * 1_000_000),
                           ("a.vtt", "WEBVTT\n\n" + "00:00.000 --> 00:00.100\ne4\n\n" * 1_000_000),
                           ("a.srt", "1\n00:00:00,0 --> 00:00:01,0\ne4\n\n" * 800_000),
                           ("a.ctm", "d A 1 1 e4\n" * 1_000_000),
                           ("a.json", "[" + ",".join(['{"start":1,"text":"e4"}'] * 1_000_000) + "]")):
            with self.subTest(name):
                self.refused("extract", self.file(name, text), saying="at most 40000 words")

    def test_words_and_titles_without_end_are_talk(self):
        for text in ("a", "1", "Nf3xe5Nxd5", "e4-e5-", "e4/", "x", "xx,", "exd", "é", "O-", "-", ".",
                     "e4 ", "\U0001F600", "ﷺ", "a\u0301"):
            for start in ("[0:03] e4 e5 Nf3 Nc6 Bb5 a6 ", "# "):
                with self.subTest(start + text):
                    self.run_kept("extract", self.file("a.txt", start + repeated(text) +
                                                       "\n[0:40] e4 e5 Nf3\n"))

    def test_a_lesson_of_the_most_words_is_read(self):
        # All talk: how long a lesson of moves takes is measured elsewhere.
        words = 40_000 if not SANITIZED else 4_000
        text = "[0:00] e4 e5 Nf3 Nc6\n" + "[0:04] well\n" * (words - 4)
        self.assertEqual(self.run_kept("extract", self.file("a.txt", text), seconds=60).status, 0)


class Depth(Case):
    def test_deep_json_is_refused(self):
        for opening in ("[", '{"a":', '[{"words":[', '{"schema":"plyscribe.lesson/1","nodes":['):
            path = self.file("deep.json", repeated(opening))
            self.refused("extract", path, saying="expected", seconds=10)
            self.refused("publish", path, "--as", "pgn", saying="expected", seconds=10)
            self.refused("extract", self.file("a.txt", PLAIN), "--pins", path, saying="expected",
                         seconds=10)
            self.refused("score", path, path, saying="expected", seconds=10)

    def test_deep_json_that_is_closed_is_refused_too(self):
        n = SIZE // 2
        self.refused("publish", self.file("deep.json", "[" * n + "]" * n), "--as", "pgn",
                     saying="expected", seconds=10)

    def test_deep_xml_is_refused(self):
        for text in ("<div>", "<p begin='1s'>", "<span>"):
            self.refused("extract", self.file("a.ttml", "<tt><body>" + repeated(text)),
                         saying="expected", seconds=10)

    def test_a_game_of_nested_variations_is_bounded(self):
        path = self.file("deep.pgn", "1. e4 " + repeated("( 1. d4 "))
        gold = self.file("gold.json", '{"edges": []}')
        self.refused("score", gold, path, saying="expected", seconds=10)

    def test_a_line_of_thousands_of_moves_is_published(self):
        lesson = json.loads(self.run_kept("extract", self.file("a.txt", PLAIN), "--json").out)
        there = ["Ng1-f3 g1f3", "Ng8-f6 g8f6", "Nf3-g1 f3g1", "Nf6-g8 f6g8"]
        fens = ["rnbqkbnr/pppppppp/8/8/8/5N2/PPPPPPPP/RNBQKB1R b KQkq - {} {}",
                "rnbqkb1r/pppppppp/5n2/8/8/5N2/PPPPPPPP/RNBQKB1R w KQkq - {} {}",
                "rnbqkb1r/pppppppp/5n2/8/8/8/PPPPPPPP/RNBQKBNR b KQkq - {} {}",
                "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - {} {}"]
        pattern = lesson["nodes"][0]
        nodes = []
        for i in range(400 if SANITIZED else 4000):
            long, uci = there[i % 4].split()
            nodes.append({**pattern, "id": i + 1, "parent": i, "san": "N" + long[-2:], "uci": uci,
                          "fen": fens[i % 4].format(i + 1, (i + 1) // 2 + 1)})
        lesson.update(nodes=nodes, ideas=[], credits=[], chapters=[])
        lesson["start"]["moves"] = []
        lesson["start"]["fen"] = fens[3].format(0, 1)
        path = self.file("lesson.json", json.dumps(lesson))
        outcome = self.run_kept("publish", path, "--out", self.path("out"))
        self.assertEqual(outcome.status, 0, outcome.err)


class Bytes(Case):
    def test_what_is_no_text_is_refused(self):
        for name, data in (("nul.txt", b"[0:03] e4\0 e5\n"),
                           ("nuls.txt", b"\0" * 5000),
                           ("escape.txt", b"[0:03] e4 \x1b[31m e5\n"),
                           ("elf.txt", b"\x7fELF\x02\x01\x01\0\0\0"),
                           ("half.txt", b"\xff\xfe["),
                           ("png.vtt", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR")):
            with self.subTest(name):
                self.refused("extract", self.file(name, data), saying=f"{name}:")

    def test_numbers_beyond_number_are_refused(self):
        text = self.file("a.txt", PLAIN)
        for number in ("1e999", "-1e999", "9" * 400, "18446744073709551616", "-9223372036854775809"):
            pins = self.file("pins.json", '{"schema": "plyscribe.pins/1", "pins": [{"first_word": ' +
                             number + ', "last_word": 2, "t": 0, "heard": "", "is": "no move"}]}')
            self.refused("extract", text, "--pins", pins, saying="pins.json:")
            self.refused("publish", self.file("l.json", '{"schema": ' + number + "}"), "--as", "pgn",
                         saying="l.json:")
            self.refused("score", self.file("g.json", '{"edges": ' + number + "}"), text,
                         saying="g.json:")
            self.run_kept("extract", self.file("w.json", '[{"start": ' + number +
                                               ', "text": "e4 e5 Nf3 Nc6"}]'))

    def test_damaged_characters_come_out_whole(self):
        heard = [
            b"[0:00] \xc0\xaf\xe0\x80\xaf e4 \xed\xa0\x80 e5 Nf3 \xf8\x88\x80\x80\x80 Nc6 Bb5 a6 Ba4 Nf6, castles, Be7 \xff\n",
            "[0:00] caf\u00e9 \u00e9\u00e8 \u2014 e4 ".encode() + b"\xed\xbf\xbf e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6, castles, Be7 \xc3\n",
            b'[{"start": 1, "text": "e4 \\udbff\\udfff e5 Nf3 \\u0000 Nc6 Bb5 a6 Ba4 Nf6, castles, Be7"}]',
            b'[{"start": 1, "text": "e4 \\u001b[31m\\u009b32m e5 \\u007f Nf3 Nc6 Bb5 a6 Ba4 Nf6, castles, Be7"}]',
            b"WEBVTT\n\n00:01.000 --> 00:09.000\ne4 &#27;[31m e5 &#x9b;32m Nf3 &#0; Nc6 Bb5 a6 Ba4 Nf6, castles, Be7 &#xD800;\n",
            b"<tt><body><div><p begin='1s'>e4 &#27;[31m e5 &#155; Nf3 Nc6 Bb5 a6 Ba4 Nf6, castles, Be7</p></div></body></tt>",
        ]
        for data in heard:
            with self.subTest(data):
                self.published(self.file("heard", data))

    def test_half_a_pair_of_surrogates_in_json_is_refused(self):
        for text in ("\\ud800", "\\udc00", "\\ud800\\ud800", "\\udc00\\ud800"):
            path = self.file("half.json", '[{"start": 1, "text": "e4 ' + text + ' e5"}]')
            self.refused("extract", path, saying="half.json:1: expected valid JSON")
            self.refused("publish", path, "--as", "pgn", saying="half.json:1: expected JSON")

    def test_marks_of_direction_and_markup_stay_text(self):
        moves = " e4, e5, Nf3, Nc6, I recommend Bb5 </p> "
        for hostile in ("\u202e", "\u2067", "\u200f", "<script>alert(1)</script>", "<!--", "]]>",
                        "<img src=x onerror=alert(1)>", "&lt;b&gt;", "*/ }", "{comment} ; [%x]",
                        "=cmd|' /C calc'!A0", "@SUM(1)", "+1", "-1", "\t=1", '"', "\\", "%s%n",
                        "$(id)", "`id`"):
            with self.subTest(hostile):
                text = f"# {hostile}\n\n[0:00] {hostile}{moves}{hostile}\n[0:20] {hostile} a6 Ba4\n"
                # An address is kept as it is given; what turns the direction is the user's own.
                media = [] if controls(hostile) else ["--media", hostile + ".mp4"]
                self.published(self.file(hostile.replace("/", "") + ".txt", text), *media)

    def published(self, lesson, *options):
        """Writes all that there is, and sees that each file is what its name says."""
        out = self.path("out")
        shutil.rmtree(out, ignore_errors=True)
        outcome = self.run_kept("extract", lesson, "--out", out, *options)
        self.assertEqual(outcome.status, 0, outcome.err)
        for folder, _, names in os.walk(out):
            for name in names:
                if name.startswith(b"captions."):
                    continue  # keeps the transcript's own bytes
                text = self.read(folder, name).decode()  # UTF-8
                self.assertEqual([c for c in controls(text) if c not in "\n\t"], [], name)
                if name.endswith(b".svg"):
                    XML.fromstring(text)
                if name.endswith(b".json"):
                    json.loads(text)
                if name.endswith(b".html"):
                    for tag in ("<script", "<img", "<!--", "</p> </"):
                        self.assertNotIn(tag, text)
                if name.endswith(b".tsv"):
                    for row in csv.reader(text.splitlines(), delimiter="\t", quoting=csv.QUOTE_NONE):
                        self.assertEqual(len(row), 8, row)
                        for cell in row:
                            self.assertFalse(cell.startswith(("=", "+", "-", "@")), cell)
        outline = self.run_kept("extract", lesson, "--outline", *options).out.decode()
        self.assertEqual([c for c in controls(outline) if c != "\n"], [])


if __name__ == "__main__":
    main()
