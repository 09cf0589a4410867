"""Terminal sessions that are run and held against what is written in them: the stories, and the README's examples.

    # a comment
    $ command                 given to sh; "> more" lines behind it go on with the command
    output                    what stdout must hold, then
    ! message                 what stderr must hold
    ? 2                       the exit code, when it is not 0
    ...                       on a line of its own: any lines, none included
    <...>                     in a line: any text
    <name:[0-9A-Z ]+>         in a line: text of that form, kept; {name} stands for it in later commands and output
    \\$ text                   output that starts with one of # $ > ! ? or a backslash

Not a shell: each command runs in a new one, in the same folder; what is exported in one is not there in the next.
"""

import dataclasses
import os
import re
import subprocess

NOW = "2026-11-25T09:30:00+01:00"  # where the clock stands still, unless a command sets COUNTERFOIL_NOW
COMMAND_SECONDS = 120
MARKS = "#$>!?\\"
CAPTURE = re.compile(r"<(\.\.\.|[a-z][a-z0-9_]*:[^>]+)>")


@dataclasses.dataclass
class Exchange:
    """One command and what it must answer."""

    line: int
    command: str
    expected: list[str] = dataclasses.field(default_factory=list)
    blank_lines: int = 0  # behind its output
    comments: list[str] = dataclasses.field(default_factory=list)  # in front of it

    def written(self, answer):
        """Its lines in a file, with that answer."""
        command = ("$ " + self.command.replace("\n", "\n> ")).split("\n")
        return self.comments + command + answer + [""] * self.blank_lines


def parse(text):
    """The exchanges of a session, and the comment lines behind the last. ValueError names the line."""
    exchanges, comments = [], []
    for number, line in enumerate(text.splitlines(), 1):
        if line.startswith("# ") or line == "#" or (not line and (comments or not exchanges)):
            comments.append(line)
        elif line.startswith("$ "):
            exchanges.append(Exchange(number, line[2:], comments=comments))
            comments = []
        elif not exchanges:
            raise ValueError(f"line {number}: output before the first command")
        elif comments:
            raise ValueError(f"line {number}: a comment inside a command's output")
        elif not line.startswith("> "):
            exchanges[-1].expected.append(line)
        elif exchanges[-1].expected:
            raise ValueError(f"line {number}: '> ' goes on with a command, and this is its output")
        else:
            exchanges[-1].command += "\n" + line[2:]
    # An empty line may be output, or only part two exchanges; the last ones do that.
    for exchange in exchanges:
        while exchange.expected and not exchange.expected[-1]:
            exchange.expected.pop()
            exchange.blank_lines += 1
    return exchanges, comments


def shown(out, err, code):
    """What a command answered, as a session writes it."""
    lines = ["\\" + line if line[:1] and line[0] in MARKS or line == "..." else line for line in out.splitlines()]
    lines += ["! " + line if line else "!" for line in err.splitlines()]
    return lines + ([f"? {code}"] if code else [])


def fill(text, captures):
    """The text with {name} replaced, where that name was kept."""
    return re.sub(r"\{([a-z][a-z0-9_]*)\}", lambda m: captures.get(m[1], m[0]), text)


def line_pattern(expected, captures):
    """A regular expression for one line; the names that it keeps are its groups."""
    out, at = "", 0
    for mark in CAPTURE.finditer(expected):
        out += re.escape(fill(expected[at : mark.start()], captures))
        if mark[1] == "...":
            out += ".*"
        else:
            name, form = mark[1].split(":", 1)
            out += f"(?P<{name}>{form})"
        at = mark.end()
    return re.compile(out + re.escape(fill(expected[at:], captures)))


def match(expected, actual, captures):
    """None when all agrees (captures are then added to), else the index of the first expected line that does not."""

    def walk(i, j, kept):
        nonlocal furthest
        while i < len(expected):
            furthest = max(furthest, i)
            if expected[i] == "...":
                ends = (walk(i + 1, k, kept) for k in range(j, len(actual) + 1))
                return next((end for end in ends if end is not None), None)
            found = line_pattern(expected[i], kept).fullmatch(actual[j]) if j < len(actual) else None
            if not found:
                return None
            i, j, kept = i + 1, j + 1, kept | found.groupdict()
        furthest = max(furthest, i)
        return kept if j == len(actual) else None

    furthest = 0
    kept = walk(0, 0, dict(captures))
    if kept is None:
        return furthest
    captures.update(kept)
    return None


def environment(program, templates):
    """What commands run with: the program on PATH, a clock that stands still, nothing of the caller's language."""
    out = {name: os.environ[name] for name in os.environ if name.endswith("SAN_OPTIONS")}
    out["PATH"] = f"{os.path.dirname(os.path.abspath(program))}:/usr/local/bin:/usr/bin:/bin"
    out |= {"TZ": "UTC", "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8", "COUNTERFOIL_NOW": NOW}
    out["COUNTERFOIL_TEMPLATES"] = os.path.abspath(templates)
    return out


def run(command, folder, env):
    """stdout, stderr and exit code. What is not UTF-8 shows as U+FFFD, and so agrees with nothing sensible."""
    env = env | {"HOME": folder}
    try:
        done = subprocess.run(["sh", "-c", command], cwd=folder, env=env, stdin=subprocess.DEVNULL,
                              capture_output=True, timeout=COMMAND_SECONDS, check=False)
    except subprocess.TimeoutExpired as late:
        return (late.stdout or b"").decode("utf-8", "replace"), f"no end after {COMMAND_SECONDS} s", 124
    # A shell tells of a signal as 128 and its number; Python as minus its number.
    code = done.returncode if done.returncode >= 0 else 128 - done.returncode
    return done.stdout.decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace"), code


def play(exchanges, folder, env, report):
    """Runs all; calls report(exchange, actual lines, index of the expected line that fails or None). Counts failures."""
    captures, failures = {}, 0
    for exchange in exchanges:
        actual = shown(*run(fill(exchange.command, captures), folder, env))
        wrong = match(exchange.expected, actual, captures)
        failures += wrong is not None
        report(exchange, actual, wrong)
    return failures


def what_stays(one, other):
    """What two runs of a line have in common: one wildcard for all between its ends, cut at the words' limits."""
    if one == other:
        return one
    start = len(os.path.commonprefix((one, other)))
    end = len(os.path.commonprefix((one[start:][::-1], other[start:][::-1])))
    while start and one[start - 1].isalnum():
        start -= 1
    while end and one[-end].isalnum():
        end -= 1
    return one[:start] + "<...>" + (one[-end:] if end else "")


def difference(path, exchange, actual, wrong):
    """The report of one failed exchange, for people."""
    expected = exchange.expected[wrong] if wrong < len(exchange.expected) else "(no more lines)"
    lines = [f"{path}:{exchange.line}: $ {exchange.command}", f"  first line that does not agree: {expected}",
             "  what it answered:"]
    return "\n".join(lines + ["    " + line for line in actual])
