#!/usr/bin/python3
"""Holds the two tables of DEVELOPERS.md against src/:

  - a room includes itself and the rooms that its line of the include table names, and src/CMakeLists.txt links
    the same rooms;
  - a header of a library is included by the files that the table of owners names, and by no header; tests may
    include what they like, but for a library of which the table names a file of theirs;
  - symbol and reader never meet in one file, so that a round trip through both is evidence;
  - below cli and web nothing prints, exits, or reads arguments, environment or clock.

    include_table.py             exit code 1 and every breach with its line, if there is one
    include_table.py --self-test
"""

import fnmatch
import pathlib
import re
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
TOP_ROOMS = {"cli", "web"}  # the only ones with a terminal, arguments, environment and clock
POSIX = re.compile(r"(sys/\w+|arpa/inet|netinet/in|dirent|fcntl|netdb|poll|pthread|signal|termios|time|unistd)\.h")
STANDARD = re.compile(r"[a-z_]+")  # <vector>; the C library is included by its C++ names
OUTSIDE_WORLD = {
    "prints": r"\bstd::(cout|cerr|clog|wcout|wcerr|print|println)\b|(?<!\w)(std::)?v?f?(printf|puts|putc|putchar)\s*\("
    r"|(?<!\w)(std::)?perror\s*\(|\b(stdout|stderr)\b",
    "exits": r"(?<![\w.])(?<!->)(std::|::)?(_exit|_Exit|exit|quick_exit|atexit)\s*\(",
    "reads arguments": r"\bargv\b|\bmain\s*\(|/proc/self/cmdline",
    "reads the environment": r"\b(secure_)?getenv\b|\benviron\b|\b(setenv|putenv|unsetenv)\b",
    "reads the clock": r"\b(system|steady|high_resolution|utc|file)_clock\b"
    r"|(?<![\w.>])(std::|::)?(time|gettimeofday|clock_gettime|clock)\s*\(\s*(nullptr|NULL|0|&|CLOCK|\))",
    "reads the keyboard": r"\bstd::w?cin\b|\bstdin\b",
}


def fenced(text, name):
    """The lines of the fenced block of that name, split at white space."""
    block = re.search(rf"^```{name}\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)
    if not block:
        raise SystemExit(f"DEVELOPERS.md has no ```{name} block")
    return [line.split() for line in block[1].splitlines() if line.strip()]


def without_words(code):
    """The code with comments and literals blanked out, line ends kept."""
    parts = re.compile(r'//[^\n]*|/\*.*?\*/|R"(\w*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])+\'', re.DOTALL)
    return parts.sub(lambda m: re.sub(r"[^\n]", " ", m[0]), code)


class Check:
    def __init__(self, root):
        self.root = root
        self.breaches = []
        text = (root / "DEVELOPERS.md").read_text(encoding="utf-8")
        self.rooms = {line[0]: set(line[2:]) for line in fenced(text, "include-table")}
        self.owners = [(line[0], line[1:]) for line in fenced(text, "library-owners")]
        self.used_owners = set()
        self.files = self.includes = 0

    def breach(self, path, line, what):
        self.breaches.append(f"{path}:{line}: {what}")

    def run(self):
        source = self.root / "src"
        for folder in sorted(p.name for p in source.iterdir() if p.is_dir()):
            if folder not in self.rooms and any((source / folder).glob("*.[ch]*")):
                self.breach(f"src/{folder}", 1, "a room that the include table does not have")
        for path in sorted(source.rglob("*.h")) + sorted(source.rglob("*.cc")):
            self.check_file(path)
        for path in sorted((self.root / "tests").rglob("*.h")) + sorted((self.root / "tests").rglob("*.cc")):
            self.check_test(path)
        self.check_links()
        for pattern, files in self.owners:
            for file in files:
                if (pattern, file) not in self.used_owners:
                    self.breach("DEVELOPERS.md", 1, f"names {file} as owner of {pattern}, which it does not include")
        return self.breaches

    def check_file(self, path):
        name = path.relative_to(self.root).as_posix()
        room = path.relative_to(self.root / "src").parts[0]
        text = path.read_text(encoding="utf-8")
        self.files += 1
        met = set()
        for include in re.finditer(r'^[ \t]*#[ \t]*include[ \t]*([<"])([^>"]+)[>"]', text, re.MULTILINE):
            line = text.count("\n", 0, include.start()) + 1
            self.includes += 1
            if include[1] == '"':
                met.add(self.check_own(name, line, room, include[2]))
            else:
                self.check_library(name, line, include[2])
        if {"symbol", "reader"} <= met | {room}:
            self.breach(name, 1, "symbol and reader meet here; they may only in tests")
        if room not in TOP_ROOMS:
            code = without_words(text)
            for what, pattern in OUTSIDE_WORLD.items():
                for found in re.finditer(pattern, code):
                    line = code.count("\n", 0, found.start()) + 1
                    self.breach(name, line, f"{what} below cli: {found[0].strip()}")

    def check_test(self, path):
        name = path.relative_to(self.root).as_posix()
        text = path.read_text(encoding="utf-8")
        kept = [owner for owner in self.owners if any(file.startswith("tests/") for file in owner[1])]
        for include in re.finditer(r'^[ \t]*#[ \t]*include[ \t]*[<"]([^>"]+)[>"]', text, re.MULTILINE):
            line = text.count("\n", 0, include.start()) + 1
            for pattern, files in kept:
                if fnmatch.fnmatchcase(include[1], pattern):
                    if name not in files:
                        self.breach(name, line, f"<{include[1]}> belongs to {', '.join(files)}")
                    self.used_owners.add((pattern, name))

    def check_own(self, name, line, room, included):
        other = included.split("/")[0] if "/" in included else ""
        if not (self.root / "src" / included).is_file():
            self.breach(name, line, f'"{included}" is no header of ours, by its path from src')
        elif other != room and other not in self.rooms.get(room, set()):
            self.breach(name, line, f'{room} may not include "{included}"')
        return other

    def check_library(self, name, line, included):
        if STANDARD.fullmatch(included) or POSIX.fullmatch(included):
            return
        for pattern, files in self.owners:
            if fnmatch.fnmatchcase(included, pattern):
                if name.endswith(".h"):
                    self.breach(name, line, f"<{included}> in a header")
                elif name not in files:
                    self.breach(name, line, f"<{included}> belongs to {', '.join(files)}")
                self.used_owners.add((pattern, name))
                return
        self.breach(name, line, f"<{included}> has no owner in DEVELOPERS.md")

    def check_links(self):
        """src/CMakeLists.txt: room(x USES ...) links what the table allows, and reaches all that it allows."""
        text = (self.root / "src/CMakeLists.txt").read_text(encoding="utf-8")
        uses = {}
        for room, rest in re.findall(r"^room\((\w+)([^)]*)\)", text, re.MULTILINE):
            words = rest.split()
            start = words.index("USES") + 1 if "USES" in words else len(words)
            end = next((i for i in range(start, len(words)) if words[i].isupper()), len(words))
            uses[room] = set(words[start:end])

        def reached(room):
            found, ahead = set(), set(uses[room])
            while ahead:
                found.add(other := ahead.pop())
                ahead |= uses.get(other, set()) - found
            return found

        for room, allowed in self.rooms.items():
            if room not in uses:
                if (self.root / "src" / room).is_dir():
                    self.breach("src/CMakeLists.txt", 1, f"has no room({room} ...)")
            elif not uses[room] <= allowed or not allowed <= reached(room):
                self.breach("src/CMakeLists.txt", 1, f"room {room} USES {sorted(uses[room])}, table {sorted(allowed)}")


def self_test():
    """A small sound tree, then the same with one breach at a time; each must be found, and nothing else."""
    developers = "```include-table\nbase ->\nsymbol -> base\nreader -> base\nflow -> base symbol reader\n```\n" \
                 "```library-owners\nzip.h src/base/a.cc\nunzip/* src/reader/r.cc tests/support/u.cc\n```\n"
    sound = {
        "DEVELOPERS.md": developers,
        "src/CMakeLists.txt": "room(base PACKAGES zip)\nroom(symbol USES base)\nroom(reader USES base LIBRARIES x)\n"
                              "room(flow USES symbol reader)\n",
        "src/base/a.h": "#pragma once\n#include <string>\n// exit(1) in a comment\n",
        "src/base/a.cc": '#include "base/a.h"\n#include <zip.h>\n#include <unistd.h>\n#include <cstdio>\n'
                         'const char* s = "std::cout << getenv(0)";\nvoid f(char* b) { std::snprintf(b, 1, s); }\n'
                         "long t(Clock& c) { return c.now() + x.time() + g.exit_code(); }\n",
        "src/symbol/s.h": '#include "base/a.h"\n',
        "src/reader/r.h": '#include "base/a.h"\n',
        "src/reader/r.cc": "#include <unzip/x.h>\n",
        "src/flow/f.cc": '#include "symbol/s.h"\nint at_exit_time = 0;\n',
        "tests/support/u.cc": "#include <unzip/x.h>\n#include <zip.h>\n#include <gtest/gtest.h>\n",
    }
    breaches = {
        "a room it may not": ("src/symbol/s.h", '#include "reader/r.h"\n', 2),  # they also meet
        "upwards": ("src/base/a.h", '#include "flow/f.h"\n', 1),
        "no such header": ("src/flow/f.cc", '#include "symbol/none.h"\n', 1),
        "not by its path": ("src/base/a.cc", '#include "a.h"\n', 1),
        "symbol meets reader": ("src/flow/f.cc", '#include "reader/r.h"\n', 1),
        "library elsewhere": ("src/flow/f.cc", "#include <zip.h>\n", 1),
        "library in a header": ("src/reader/r.h", "#include <unzip/x.h>\n", 1),
        "library that tests keep in one file": ("tests/unit/r_test.cc", "#include <unzip/x.h>\n", 1),
        "library without owner": ("src/flow/f.cc", "#include <other/lib.h>\n", 1),
        "C header by its C name": ("src/flow/f.cc", "#include <stdio.h>\n", 1),
        "cout": ("src/flow/f.cc", "void g() { std::cout << 1; }\n", 1),
        "printf": ("src/flow/f.cc", 'void g() { printf("x"); }\n', 1),
        "fprintf": ("src/flow/f.cc", 'void g() { std::fprintf(f, "x"); }\n', 1),
        "stderr": ("src/flow/f.cc", "FILE* g() { return stderr; }\n", 1),
        "exit": ("src/flow/f.cc", "void g() { std::exit(1); }\n", 1),
        "bare exit": ("src/flow/f.cc", "void g() { exit(1); }\n", 1),
        "arguments": ("src/flow/f.cc", "int main() {}\n", 1),
        "environment": ("src/flow/f.cc", 'auto x = std::getenv("X");\n', 1),
        "clock": ("src/flow/f.cc", "auto x = std::chrono::system_clock::now();\n", 1),
        "steady clock": ("src/flow/f.cc", "auto x = steady_clock::now();\n", 1),
        "C clock": ("src/flow/f.cc", "auto x = std::time(nullptr);\n", 1),
        "link that the table does not have": ("src/CMakeLists.txt", "room(base USES symbol)\n", 1),
        "table that the links do not reach": ("DEVELOPERS.md", developers.replace("base ->", "base -> symbol"), 1),
        "owner that owns nothing": ("DEVELOPERS.md", developers.replace("r.cc", "r.cc src/flow/f.cc"), 1),
        "a room without a line": ("src/attic/a.h", "#pragma once\n", 1),
    }
    wrong = []
    for name, (path, text, count) in ({"sound": ("src/flow/g.h", "", 0)} | breaches).items():
        with tempfile.TemporaryDirectory(prefix="include-table-") as folder:
            root = pathlib.Path(folder)
            tree = dict(sound)
            tree[path] = text if path == "DEVELOPERS.md" else tree.get(path, "") + text
            for file, content in tree.items():
                (root / file).parent.mkdir(parents=True, exist_ok=True)
                (root / file).write_text(content, encoding="utf-8")
            found = Check(root).run()
        if len(found) != count:
            wrong.append(f"{name}: {count} expected, found {found}")
    for line in wrong:
        print(f"self-test: {line}")
    print(f"self-test: {len(breaches) + 1} trees, {len(wrong)} ruled wrongly")
    return 1 if wrong else 0


def main():
    if sys.argv[1:] == ["--self-test"]:
        return self_test()
    check = Check(ROOT)
    breaches = check.run()
    print("\n".join(breaches))
    print(f"{check.files} files, {check.includes} includes, {len(check.rooms)} rooms, {len(check.owners)} libraries: "
          f"{len(breaches)} breaches")
    return 1 if breaches or not check.files else 0


if __name__ == "__main__":
    sys.exit(main())
