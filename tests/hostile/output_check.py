"""Places that can't be written, names that mean harm, and ends that come at any time: nothing is
half-written, and nothing of the user's is lost."""
import os
import shutil
import signal
import subprocess
import tempfile
import time
import unittest

from bench import Case, PLYSCRIBE, controls, main

PLAIN = """[0:00] We begin with e4, e5, Nf3, Nc6, Bc4, Nf6, d3.
[0:10] Then Bc5, c3, d6, castles, castles. I recommend this for White.
"""
OTHER = PLAIN.replace("Bc4", "Bb5")


def contents(folder):
    """Every file below a folder, by its name within."""
    found = {}
    for place, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(place, name)
            with open(path, "rb") as f:
                found[os.path.relpath(path, folder)] = f.read()
    return found


class Output(Case):
    def setUp(self):
        super().setUp()
        self.lesson = self.file("lesson.txt", PLAIN)
        self.other = self.file("other.txt", OTHER)
        self.out = self.path("out")

    def extract(self, lesson, out):
        outcome = self.run_kept("extract", lesson, "--out", out)
        self.assertEqual(outcome.status, 0, outcome.err)
        return contents(out)

    def assert_unchanged_by(self, out, *arguments, saying, **options):
        before = contents(out) if os.path.exists(out) else None
        self.refused(*arguments, saying=saying, **options)
        self.assertEqual(contents(out) if os.path.exists(out) else None, before)


class Disk(Output):
    def test_files_that_may_not_grow_leave_what_was_there(self):
        old = self.extract(self.other, self.out)
        largest = max(map(len, old.values()))
        for size in (0, 100, largest // 2):
            self.assert_unchanged_by(self.out, "extract", self.lesson, "--out", self.out,
                                     saying="File too large", file_size=size)
            new = self.path("new/below")
            self.assert_unchanged_by(self.path("new"), "extract", self.lesson, "--out", new,
                                     saying="File too large", file_size=size)
        self.assert_unchanged_by(self.folder, "review", self.lesson, "--page",
                                 self.path("page.html"), saying="File too large", file_size=1000)

    def test_a_full_disk_leaves_what_was_there(self):
        disk = self.path("disk")
        os.mkdir(disk)
        if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=200k", "none", disk],
                          stderr=subprocess.DEVNULL).returncode != 0:
            self.skipTest("a small disk can't be mounted here; the limit on a file's size is tried")
        try:
            out = os.path.join(disk, b"out")
            old = self.extract(self.other, out)
            with open(os.path.join(disk, b"ballast"), "wb") as ballast:
                try:
                    while True:
                        os.write(ballast.fileno(), b"x" * 4096)
                except OSError:
                    pass
            self.assertEqual(contents(out), old)
            self.assert_unchanged_by(out, "extract", self.lesson, "--out", out,
                                     saying="No space left on device")
            self.assert_unchanged_by(disk, "extract", self.lesson, "--out",
                                     os.path.join(disk, b"new"), saying="No space left on device")
        finally:
            subprocess.run(["umount", disk], check=True)

    def test_a_full_standard_output_is_told(self):
        with open("/dev/full", "wb") as full:
            for arguments in (["extract", self.lesson, "--pgn"], ["extract", self.lesson, "--json"],
                              ["extract", self.lesson, "--outline"]):
                self.refused(*arguments, stdout=full, saying="standard output: expected")

    def test_nobody_to_tell_changes_nothing(self):
        with open("/dev/full", "wb") as full:
            for stderr in (full, subprocess.DEVNULL):
                for arguments, status in ((["extract", self.lesson, "--out", self.out], 0),
                                          (["extract", self.path("none")], 3), (["extract"], 2)):
                    done = subprocess.run([PLYSCRIBE, *arguments], stdout=subprocess.DEVNULL,
                                          stderr=stderr)
                    self.assertEqual(done.returncode, status, arguments)

    def test_a_folder_that_is_read_only_is_told(self):
        old = self.extract(self.other, self.out)
        os.chmod(self.out, 0o555)
        os.chmod(self.folder, 0o755)
        options, program = {}, PLYSCRIBE
        if os.geteuid() == 0:  # whom no mode keeps from writing
            options = {"user": 65534, "group": 65534}
            program = shutil.copy(PLYSCRIBE, self.path("plyscribe").decode())
            os.chmod(program, 0o755)
        for lesson, out, name in ((self.lesson, self.out, "out"),
                                  (self.lesson, os.path.join(self.out, b"new"), "new")):
            self.refused("extract", lesson, "--out", out, saying="Permission denied",
                         program=program, **options)
            self.assertEqual(contents(self.out), old, name)


class Links(Output):
    def test_a_link_in_a_files_place_is_replaced_and_its_target_kept(self):
        kept = self.file("kept", "mine")
        os.mkdir(self.out)
        for name in (b"lesson.pgn", b"lesson.json", b"cards.tsv"):
            os.symlink(kept, os.path.join(self.out, name))
        os.symlink(self.path("nowhere"), os.path.join(self.out, b"slips.txt"))
        self.extract(self.lesson, self.out)
        self.assertEqual(self.read(kept), b"mine")
        self.assertFalse(os.path.exists(self.path("nowhere")))
        self.assertFalse(os.path.islink(os.path.join(self.out, b"lesson.pgn")))

    def test_a_link_in_a_folders_place_is_not_followed(self):
        elsewhere = self.path("elsewhere")
        os.mkdir(elsewhere)
        os.mkdir(self.out)
        os.symlink(elsewhere, os.path.join(self.out, b"cards"))
        self.refused("extract", self.lesson, "--out", self.out, saying="found a link")
        self.assertEqual(os.listdir(elsewhere), [])
        self.assertEqual(os.listdir(self.out), [b"cards"])

    def test_a_folder_in_a_files_place_spoils_nothing(self):
        self.extract(self.other, self.out)
        os.unlink(os.path.join(self.out, b"slips.txt"))
        os.mkdir(os.path.join(self.out, b"slips.txt"))
        self.assert_unchanged_by(self.out, "extract", self.lesson, "--out", self.out,
                                 saying="Is a directory")

    def test_the_folder_itself_may_be_a_link(self):
        os.mkdir(self.path("real"))
        os.symlink(self.path("real"), self.out)
        self.extract(self.lesson, self.out)
        self.assertTrue(os.path.exists(self.path("real/lesson.pgn")))


class Names(Output):
    def test_any_name_of_a_file_is_read_written_and_told(self):
        for name in (b"two words.txt", b"line\nend.txt", b"\x1b[31mred.txt", b"-dash.txt",
                     "right\u202eleft.txt".encode(), b"bytes\xff\xc0.txt", b"quote\"'`$(id).txt",
                     b"<img src=x onerror=alert(1)>.txt", b"%s%n{}.txt", b"a" * 200 + b".txt",
                     "\u265e講義.txt".encode()):
            with self.subTest(name):
                path = self.file(name, PLAIN)
                out = self.path(name + b".out")
                new = self.extract(path, out)
                for made, text in new.items():
                    if not made.startswith(b"captions."):
                        self.assertEqual([c for c in controls(text.decode()) if c not in "\n\t"],
                                         [], made)
                empty = self.file(b"no" + name, "")
                self.refused("extract", empty, saying=":1: expected")
                self.refused("extract", path + b"x", saying="expected a file that can be read")
                page = self.path(name + b".html")
                self.assertEqual(self.run_kept("review", path, "--page", page).status, 0)
                self.read(page).decode()


class Signals(Output):
    def ended(self, how, when):
        """Extracts over an older edition and ends the program at a moment; the status. `when` is a
        part of the time that a whole run takes, or "writing": as soon as a draft is there."""
        child = subprocess.Popen([PLYSCRIBE, "extract", self.lesson, "--out", self.out],
                                 stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        if when == "writing":
            known = set(os.listdir(self.out))
            while child.poll() is None and set(os.listdir(self.out)) <= known:
                pass
        else:
            time.sleep(when)
        child.send_signal(how)
        return child.wait()

    def moments(self):
        self.extract(self.other, self.out)
        self.old = contents(self.out)
        began = time.monotonic()
        self.new = self.extract(self.lesson, self.path("whole"))
        whole = time.monotonic() - began
        return [0, whole / 3, whole * 2 / 3, *["writing"] * 4]

    def check_files(self, drafts):
        found = contents(self.out)
        for name, text in found.items():
            if os.path.basename(name).startswith(b"."):
                self.assertTrue(drafts, name)
            else:
                self.assertIn(text, (self.old.get(name), self.new.get(name)), name)
        self.assertLessEqual(set(self.old), set(found))

    def test_asked_to_end_it_leaves_one_edition_or_the_other(self):
        written = 0
        for how in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
            for when in self.moments():
                status = self.ended(how, when)
                self.assertIn(status, (0, -how))
                self.check_files(drafts=False)
                now = contents(self.out)
                whole = all(now[name] == text for name, text in self.new.items())
                self.assertTrue(whole or now == self.old, "half of an edition")
                written += when == "writing" and whole
        self.assertGreater(written, 0, "no signal came while files were written")

    def test_killed_it_leaves_each_file_whole_and_the_next_run_mends_the_rest(self):
        cut = 0
        for when in self.moments() + self.moments():
            status = self.ended(signal.SIGKILL, when)
            cut += status != 0 and when == "writing"
            self.check_files(drafts=True)
            after = self.extract(self.lesson, self.out)
            for name, text in self.new.items():
                self.assertEqual(after[name], text)
        self.assertGreater(cut, 0, "no kill came while files were written")


if __name__ == "__main__":
    main()
