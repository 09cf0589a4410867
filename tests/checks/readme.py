#!/usr/bin/python3
"""Runs the commands of the README's ```console blocks, one after the other in an empty folder, and holds what they answer
against what the README shows; tests/support/session.py has the form. What one block makes is there for the next, and
between two blocks a day passes.

    readme.py --program build/dev/src/counterfoil
    readme.py --program ... --accept     writes the answers into the README where they do not agree
    readme.py --self-test
"""

import argparse
import datetime
import os
import pathlib
import re
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/support"))
import session  # noqa: E402

FIRST_DAY = datetime.datetime.fromisoformat("2026-11-24T09:30:00+01:00")
BLOCK = re.compile(r"(?<=^```console\n).*?(?=^```$)", re.MULTILINE | re.DOTALL)


def run_page(text, program, folder):
    """How many commands were run, how many failed, and the page with the answers that they gave."""
    env = session.environment(program, ROOT / "templates")
    counts, day = [0, 0], FIRST_DAY

    def run_block(block):
        nonlocal day
        env["COUNTERFOIL_NOW"] = day.isoformat()
        day += datetime.timedelta(days=1)
        exchanges, _ = session.parse(block[0])
        lines = []

        def report(exchange, actual, wrong):
            lines.extend(exchange.written(exchange.expected if wrong is None else actual))
            if wrong is not None:
                line = text.count("\n", 0, block.start()) + exchange.line
                print(session.difference("README.md", exchange, actual, wrong).replace(
                    f":{exchange.line}:", f":{line}:", 1))

        counts[1] += session.play(exchanges, folder, env, report)
        counts[0] += len(exchanges)
        return "\n".join(lines) + "\n"

    return BLOCK.sub(run_block, text), *counts


def check(program, accept):
    path = ROOT / "README.md"
    with tempfile.TemporaryDirectory(prefix="readme-") as folder:
        os.symlink(ROOT / "sample-labels", pathlib.Path(folder) / "sample-labels")
        page, count, failures = run_page(path.read_text(encoding="utf-8"), program, folder)
    if accept:
        path.write_text(page, encoding="utf-8")
    print(f"README.md: {count} commands, {failures} {'rewritten' if accept else 'failed'}")
    return 1 if count == 0 or (failures and not accept) else 0


def self_test():
    page = "# x\n```console\n$ echo 1 >a\n```\ntext\n```sh\n$ false\n```\n```console\n$ cat a\n1\n$ seq 3\n1\n...\n```\n"
    pages = {
        "sound": (page, 3, 0),
        "other answer": (page.replace("a\n1\n", "a\n2\n"), 3, 1),
        "answer missing": (page.replace("...\n", ""), 3, 1),
        "exit code": (page.replace("$ echo 1 >a\n", "$ echo 1 >a; exit 1\n"), 3, 1),
        "days pass": ("```console\n$ true\n```\n```console\n$ echo $COUNTERFOIL_NOW\n2026-11-25<...>\n```\n", 2, 0),
        "no commands": ("# x\n", 0, 0),
    }
    wrong = []
    for name, (text, count, failures) in pages.items():
        with tempfile.TemporaryDirectory(prefix="readme-self-test-") as folder:
            out = run_page(text, "/bin/true", folder)
        if out[1:] != (count, failures) or (out[0] != text) != bool(failures):
            wrong.append(f"{name}: {out}")
    print("\n".join(["self-test: " + line for line in wrong]
                    + [f"self-test: {len(pages)} pages, {len(wrong)} ruled wrongly"]))
    return 1 if wrong else 0


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--program", default="counterfoil")
    options.add_argument("--accept", action="store_true")
    options.add_argument("--self-test", action="store_true")
    given = options.parse_args()
    return self_test() if given.self_test else check(given.program, given.accept)


if __name__ == "__main__":
    sys.exit(main())
