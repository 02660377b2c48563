"""What the hostile checks share: the program, a folder, and a run whose time and memory are known.

Whatever it is given, the program keeps one contract (Case.run checks it each time): it ends by
itself, in bounded time and memory; it returns 0, 2 or 3; and when it doesn't return 0, it has
written nothing but one line on standard error that a terminal can show as it is.
"""
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import threading
import unicodedata
import unittest

PLYSCRIBE = os.environ["PLYSCRIBE"]  # the program under test
SANITIZED = os.environ.get("HOSTILE_SANITIZED") == "1"  # slow and large: fewer bytes, no limits
MOST_SECONDS = 20  # of processor time
MOST_MEGABYTES = 3000
PATIENCE = 400  # seconds by the clock until a run is given up, on a busy machine too


def controls(text):
    """The characters of a line that a terminal would obey instead of showing."""
    return [c for c in text if unicodedata.category(c) in ("Cc", "Cf", "Zl", "Zp")]


class Outcome:
    def __init__(self, status, out, err, seconds, megabytes):
        self.status, self.out, self.err = status, out, err
        self.seconds, self.megabytes = seconds, megabytes


class Case(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.mkdtemp(prefix="plyscribe-hostile-")
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)

    def path(self, name):
        return os.path.join(os.fsencode(self.folder), os.fsencode(name))

    def file(self, name, data):
        """A file of this case: bytes, or text as UTF-8."""
        path = self.path(name)
        with open(path, "wb") as f:
            f.write(data if isinstance(data, bytes) else data.encode())
        return path

    def read(self, *parts):
        with open(os.path.join(*map(os.fsencode, parts)), "rb") as f:
            return f.read()

    def run_program(self, *arguments, stdin=subprocess.DEVNULL, stdout=None, program=PLYSCRIBE,
                    file_size=None, **options):
        """Any outcome. What it prints is kept; `stdout` sends it elsewhere."""
        def limit():
            if file_size is not None:
                resource.setrlimit(resource.RLIMIT_FSIZE, (file_size, file_size))
        with tempfile.TemporaryFile() as out:
            child = subprocess.Popen([program, *arguments], stdin=stdin, stdout=stdout or out,
                                     stderr=subprocess.PIPE, preexec_fn=limit, **options)
            timer = threading.Timer(PATIENCE, child.kill)
            timer.start()
            _, status, used = os.wait4(child.pid, 0)  # what it says fits into the pipe
            timer.cancel()
            child.returncode = os.waitstatus_to_exitcode(status)
            out.seek(0)
            with child.stderr as err:
                said = err.read()
            return Outcome(child.returncode, out.read(), said,
                           used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)

    def run_kept(self, *arguments, seconds=MOST_SECONDS, megabytes=MOST_MEGABYTES, **options):
        """An outcome that keeps the contract."""
        outcome = self.run_program(*arguments, **options)
        what = f"{arguments}: {outcome.status}, {outcome.seconds:.1f} s, " \
               f"{outcome.megabytes:.0f} MB, {outcome.err[:300]!r}"
        self.assertIn(outcome.status, (0, 2, 3), what)
        if not SANITIZED:
            self.assertLess(outcome.seconds, seconds, what)
            self.assertLess(outcome.megabytes, megabytes, what)
        message = outcome.err.decode()  # UTF-8 whatever a file is called
        lines = message.splitlines()
        for line in lines:
            self.assertTrue(line.startswith("plyscribe: "), what)
            self.assertEqual(controls(line), [], what)
        if outcome.status != 0:
            self.assertEqual(outcome.out, b"", what)
            self.assertEqual(len(lines), 1, what)
            self.assertLess(len(lines[0]), 1000, what)
        return outcome

    def refused(self, *arguments, saying, **options):
        """An outcome that is a refusal, with these words in its line."""
        outcome = self.run_kept(*arguments, **options)
        self.assertEqual(outcome.status, 3, outcome.err)
        self.assertIn(saying, outcome.err.decode())
        return outcome


def main():
    unittest.main(argv=[sys.argv[0], *sys.argv[1:]], verbosity=2)
