#!/usr/bin/python3
"""Runs one story, a terminal session in a fresh folder; tests/support/session.py has the form.

    run_story.py --program build/dev/src/counterfoil tests/stories/issue.story
    run_story.py --program ... --accept STORY    writes what was answered into the story, where it did not agree;
                                                 runs it twice, and puts <...> for what is not the same again
    run_story.py --self-test

A story whose first line is "# Needs: PROGRAM" is skipped, by exit code 77, where that program is not installed.
"""

import argparse
import os
import pathlib
import re
import shutil
import sys
import tempfile

SKIPPED = 77
ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/support"))
import session  # noqa: E402


def play(path, exchanges, program, report):
    with tempfile.TemporaryDirectory(prefix="story-") as folder:
        # Pictures that stories may use, read only by convention.
        os.symlink(ROOT / "sample-labels", pathlib.Path(folder) / "sample-labels")
        env = session.environment(program, ROOT / "templates") | {"TOOLS": str(ROOT / "tests/support")}
        return session.play(exchanges, folder, env, report)


def missing(path):
    """What the story needs and is not here, or None."""
    needs = re.match(r"# Needs: (\S+)", path.read_text(encoding="utf-8"))
    there = needs and shutil.which(needs[1], path=os.environ.get("PATH", "") + ":/usr/local/sbin:/usr/sbin")
    return needs[1] if needs and not there else None


def run_story(path, program):
    exchanges, _ = session.parse(path.read_text(encoding="utf-8"))
    if not exchanges:
        raise ValueError("no command in it")

    def report(exchange, actual, wrong):
        if wrong is not None:
            print(session.difference(path, exchange, actual, wrong))

    failures = play(path, exchanges, program, report)
    print(f"{path.name}: {len(exchanges)} commands, {failures} failed")
    return failures


def accept_story(path, program):
    exchanges, tail = session.parse(path.read_text(encoding="utf-8"))
    answers = []
    for _ in range(2):
        play(path, exchanges, program, lambda exchange, actual, wrong: answers.append((actual, wrong)))
    count, written = 0, []
    for index, exchange in enumerate(exchanges):
        (first, wrong), (second, _) = answers[index], answers[index + len(exchanges)]
        count += wrong is not None
        same_again = [session.what_stays(*lines) for lines in zip(first, second)] if len(first) == len(second) else first
        written += exchange.written(exchange.expected if wrong is None else same_again)
    path.write_text("\n".join(written + tail) + "\n", encoding="utf-8")
    print(f"{path.name}: {len(exchanges)} commands, {count} rewritten")


def self_test():
    """Each rule of the form once with an answer that agrees, and once with one that must not."""
    good = {
        "echo": "$ echo one\none\n",
        "nothing": "$ true\n",
        "exit code": "$ exit 3\n? 3\n",
        "messages follow output": "$ echo err >&2; echo out\nout\n! err\n",
        "any lines": "$ seq 1 9\n1\n...\n9\n",
        "any lines, none": "$ echo 1\n1\n...\n",
        "any text": "$ echo a b c\na <...> c\n",
        "capture": "$ echo key 12\nkey <k:[0-9]+>\n$ echo {k} again\n{k} again\n",
        "capture twice in a line": "$ echo 1 2\n<a:[0-9]> <b:[0-9]>\n$ echo {b}{a}\n21\n",
        "not a capture": "$ echo '{k}'\n{k}\n",
        "continued command": "$ cat <<END\n> one\n> END\none\n",
        "escaped": "$ echo '$ 5'; echo '# 1'\n\\$ 5\n\\# 1\n",
        "folder is kept": "$ echo hi >file\n$ cat file\nhi\n",
        "empty line in output": "$ echo a; echo; echo b\na\n\nb\n\n# and on\n\n$ true\n",
        "clock": f"$ echo $COUNTERFOIL_NOW $TZ\n{session.NOW} UTC\n",
        "special characters": "$ echo 'a.b [c] (d)'\na.b [c] (d)\n",
    }
    bad = {
        "other text": "$ echo one\ntwo\n",
        "missing line": "$ echo one\none\ntwo\n",
        "extra line": "$ seq 1 2\n1\n",
        "other exit code": "$ exit 3\n? 2\n",
        "exit code not told": "$ exit 3\n",
        "message not told": "$ echo err >&2\n",
        "point is no wildcard": "$ echo axb\na.b\n",
        "any lines, then another": "$ seq 1 9\n1\n...\n8\n",
        "capture of another form": "$ echo key x\nkey <k:[0-9]+>\n",
        "captured text differs": "$ echo key 12\nkey <k:[0-9]+>\n$ echo 13\n{k}\n",
        "killed": "$ kill -9 $$\n",
    }
    refused = {"output first": "one\n", "comment in output": "$ echo a; echo b\na\n# c\nb\n", "no command": "# c\n"}
    wrong = []
    with tempfile.TemporaryDirectory(prefix="story-self-test-") as folder:
        path = pathlib.Path(folder) / "self-test.story"

        def failures(text):
            path.write_text(text, encoding="utf-8")
            return run_story(path, "/bin/true")

        wrong += [name for name, text in good.items() if failures(text) != 0]
        wrong += [name for name, text in bad.items() if failures(text) == 0]
        for name, text in refused.items():
            try:
                failures(text)
                wrong.append(name)
            except ValueError:
                pass
        path.write_text("# kept\n\n$ echo one\ntwo\n\n$ echo 5\n<n:[0-9]>\n$ pwd\n", encoding="utf-8")
        accept_story(path, "/bin/true")
        accepted = "# kept\n\n$ echo one\none\n\n$ echo 5\n<n:[0-9]>\n$ pwd\n/tmp/story-<...>\n"
        if path.read_text(encoding="utf-8") != accepted.replace("/tmp", tempfile.gettempdir()):
            wrong.append("accept: " + path.read_text(encoding="utf-8"))
    for name in wrong:
        print(f"self-test: ruled wrongly: {name}", file=sys.stderr)
    print(f"self-test: {len(good) + len(bad) + len(refused) + 1} rulings, {len(wrong)} wrong")
    return len(wrong)


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("story", nargs="?", type=pathlib.Path)
    options.add_argument("--program", default="counterfoil")
    options.add_argument("--accept", action="store_true")
    options.add_argument("--self-test", action="store_true")
    given = options.parse_args()
    if given.self_test:
        return 1 if self_test() else 0
    if not given.story:
        options.error("which story?")
    if lacks := missing(given.story):
        print(f"{given.story.name}: skipped, there is no {lacks} here")
        return SKIPPED
    if given.accept:
        return accept_story(given.story, given.program)
    return 1 if run_story(given.story, given.program) else 0


if __name__ == "__main__":
    sys.exit(main())
