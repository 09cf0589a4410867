#!/usr/bin/python3
"""Each command and option that the program's own help shows must also be in

  - the man page, the option under its command,
  - an example: in the README or under EXAMPLES in the man page,
  - the completions for bash, zsh and fish, bash's by asking it,
  - a story that uses the option with the command.

    help_coverage.py --program build/dev/src/counterfoil
    help_coverage.py --self-test
"""

import argparse
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
ASK_BASH = 'source "$1"; COMP_WORDS=(counterfoil "$2" "$3"); COMP_CWORD=2; _counterfoil; printf "%s\\n" "${COMPREPLY[@]}"'


def section(text, heading):
    """The lines of a help text from that heading to the next empty line or unindented text."""
    found = re.search(rf"^{heading}:\n((?:  .*\n?)+)", text, re.MULTILINE)
    return found[1].splitlines() if found else []


def parse_commands(text):
    return [m[1] for line in section(text, "Commands") if (m := re.match(r"  ([a-z][a-z-]*)(?:\s|$)", line))]


def parse_options(text, heading):
    return [m[1] for line in section(text, heading) if (m := re.match(r"  (?:-\w, )?(--[a-z][a-z-]*)", line))]


def calls(text):
    """Each command line that calls the program: its words, lines that go on joined."""
    joined = re.sub(r"\\e?\n\s*|\n> ", " ", text.replace("\\-", "-"))
    return [m[0].split() for m in re.finditer(r"\bcounterfoil\b[^\n|;&]*", joined)]


class Coverage:
    """What the four places hold, given as texts so that the self-test can spoil them."""

    def __init__(self, man, readme, stories, completions):
        self.man = man
        self.completions = completions
        examples = re.search(r"^\.Sh EXAMPLES\n(.*?)^\.Sh ", man, re.MULTILINE | re.DOTALL)
        console = "\n".join(re.findall(r"^```console\n(.*?)^```", readme, re.MULTILINE | re.DOTALL))
        self.examples = calls((examples[1] if examples else "") + "\n" + console)
        self.stories = [call for story in stories
                        for call in calls("\n".join(re.findall(r"^\$ .*(?:\n> .*)*", story, re.MULTILINE)))]

    def man_part(self, command):
        """The man page's text on that command; of the global options with None."""
        head = rf"^\.Ss {command}\b(?!-).*?\n" if command else r"^\.Sh GLOBAL OPTIONS\n"
        found = re.search(head + r"(.*?)(?=^\.S[sh] |\Z)", self.man, re.MULTILINE | re.DOTALL)
        return found[1] if found else None

    def missing(self, command, options):
        """What lacks of one command; of the global options with None."""
        man = self.man_part(command)
        lacks = [] if man is not None else [f"man page has no part on {command}"]
        if command:
            if not any(command in call for call in self.examples):
                lacks.append(f"no example of {command}")
            if not any(command in call for call in self.stories):
                lacks.append(f"no story of {command}")
            for shell in self.completions:
                if command not in self.completions[shell](None, ""):
                    lacks.append(f"{shell} does not complete {command}")
        for option in options:
            name = f"{command or ''} {option}".strip()

            def used(given):
                return any(option in [word.split("=")[0] for word in call] and (not command or command in call)
                           for call in given)

            if not re.search(rf"^\.It Fl -{option[2:]}(\s|$)", man or "", re.MULTILINE):
                lacks.append(f"man page lacks {name}")
            if not any(option in [word.split("=")[0] for word in call] for call in self.examples):
                lacks.append(f"no example of {option}")
            if not used(self.stories):
                lacks.append(f"no story uses {name}")
            for shell in self.completions:
                if option not in self.completions[shell](command, "--"):
                    lacks.append(f"{shell} does not complete {name}")
        return lacks


def bash_words(command, prefix):
    path = str(ROOT / "src/cli/completions/counterfoil.bash")
    if command:
        script, given = ASK_BASH, [command, prefix]
    else:  # the word behind the program's name
        script, given = ASK_BASH.replace('"$2" "$3"', '"$3"').replace("CWORD=2", "CWORD=1"), ["", prefix]
    done = subprocess.run(["bash", "-c", script, "bash", path, *given], capture_output=True, text=True, check=True)
    return done.stdout.split()


def zsh_words(command, prefix):
    """From its text: the shell itself is seldom there. Lists that several commands share are named $list."""
    text = (ROOT / "src/cli/completions/_counterfoil").read_text(encoding="utf-8")
    lists = {m[1]: m[2] for m in re.finditer(r"^  (\w+)=\(\n(.*?)^  \)", text, re.MULTILINE | re.DOTALL)}
    if not command and not prefix:
        return re.findall(r"^    '([a-z-]+):", lists["commands"], re.MULTILINE)
    part = "$global" if not command else re.search(rf"^    {command}\)\n(.*?);;", text, re.MULTILINE | re.DOTALL)
    part = part if isinstance(part, str) else part[1] if part else "$global"
    part = re.sub(r"\$(\w+)", lambda m: lists.get(m[1], ""), part)
    return re.findall(r"'\*?(--[a-z-]+)\[", part)


def fish_words(command, prefix):
    text = (ROOT / "src/cli/completions/counterfoil.fish").read_text(encoding="utf-8").replace("\\\n", " ")
    if not command and not prefix:
        return re.findall(r'-n "\$none" -a ([a-z-]+)', text)
    lines = [line for line in text.splitlines() if line.startswith("complete -c counterfoil")]
    words = []
    for line in lines:
        condition = re.search(r"-n ['\"]__fish_seen_subcommand_from ([^'\";]*)", line)
        if not condition or (command and command in condition[1].split()):
            words += ["--" + name for name in re.findall(r" -l ([a-z-]+)", line)]
    return words


SHELLS = {"bash": bash_words, "zsh": zsh_words, "fish": fish_words}


def check(program):
    def help_of(*words):
        done = subprocess.run([program, *words, "--help"], capture_output=True, text=True, check=False)
        if done.returncode or not done.stdout:
            raise SystemExit(f"{' '.join(words)} --help: exit code {done.returncode}, {done.stderr}")
        return done.stdout

    top = help_of()
    commands = parse_commands(top)
    everywhere = parse_options(top, "Options for every command")
    if len(commands) < 3 or not everywhere:
        raise SystemExit("the help shows hardly a command; has its form changed?")
    stories = [path.read_text(encoding="utf-8") for path in sorted((ROOT / "tests/stories").glob("*.story"))]
    coverage = Coverage((ROOT / "src/cli/counterfoil.1").read_text(encoding="utf-8"),
                        (ROOT / "README.md").read_text(encoding="utf-8"), stories, SHELLS)
    lacks = coverage.missing(None, everywhere)
    count = len(everywhere)
    for command in commands:
        text = help_of(command)
        options = parse_options(text, "Options")
        count += len(options)
        lacks += coverage.missing(command, options)
        if not re.match(r"Examples?:\n  ", text):
            lacks.append(f"{command} --help does not begin with an example")
        # Each option of the man page must be one that there is.
        for known in re.findall(r"^\.It Fl -([a-z-]+)", coverage.man_part(command) or "", re.MULTILINE):
            if "--" + known not in options:
                lacks.append(f"man page has {command} --{known}, which the help does not")
    print("\n".join(lacks))
    print(f"{len(commands)} commands, {count} options, {len(stories)} stories: {len(lacks)} gaps")
    return 1 if lacks else 0


def self_test():
    help_text = "Example:\n  x\n\nCommands:\n  walk       go on foot\n  take-back  go back\n             slowly\n\n" \
                "Options for every command:\n  -q, --quiet  say less\n  --far KM     how far\n               or near\n"
    wrong = []
    if parse_commands(help_text) != ["walk", "take-back"]:
        wrong.append("commands of a help text")
    if parse_options(help_text, "Options for every command") != ["--quiet", "--far"]:
        wrong.append("options of a help text")
    sound = {
        "man": ".Sh EXAMPLES\ncounterfoil walk \\-\\-far 3 \\e\n   \\-\\-slow\n.Sh X\n.Ss walk Op Ar x\n.It Fl -far Ar km\n"
               ".It Fl -slow\n.Ss walk-back\n",
        "readme": "",
        "stories": ["# counterfoil walk --never\n$ counterfoil walk --far 3\n$ counterfoil walk \\\n> --slow\n"],
        "completions": {"sh": lambda command, prefix: ["--far", "--slow"] if command == "walk" else ["walk"]},
    }
    spoiled = {
        "": {},
        "man page has no part on walk": {"man": sound["man"].replace(".Ss walk Op", ".Ss talk Op")},
        "man page lacks walk --far": {"man": sound["man"].replace("Fl -far", "Fl -farther")},
        "no example of --slow": {"man": sound["man"].replace("\\-\\-slow", "")},
        "no example of walk": {"man": sound["man"].replace("counterfoil walk", "counterfoil talk")},
        "no story of walk": {"stories": ["counterfoil walk --far --slow\n"]},
        "no story uses walk --slow": {"stories": ["$ counterfoil walk --far 3\n"]},
        "sh does not complete walk --slow": {"completions": {"sh": lambda c, p: ["walk", "--far"]}},
        "sh does not complete walk": {"completions": {"sh": lambda c, p: ["--far", "--slow"]}},
    }
    for expected, change in spoiled.items():
        found = Coverage(**(sound | change)).missing("walk", ["--far", "--slow"])
        if (expected not in found) if expected else found:
            wrong.append(f"'{expected}' expected, found {found}")
    for shell, words in SHELLS.items():  # each completion can say no
        if "--serial" not in words("log", "--") or "--serial" in words("read", "--") or "read" not in words(None, ""):
            wrong.append(f"what is read from the completion for {shell}")
    print("\n".join(["self-test: " + line for line in wrong]
                    + [f"self-test: {len(spoiled) + len(SHELLS) + 2} rulings, {len(wrong)} wrong"]))
    return 1 if wrong else 0


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--program", default="counterfoil")
    options.add_argument("--self-test", action="store_true")
    given = options.parse_args()
    return self_test() if given.self_test else check(given.program)


if __name__ == "__main__":
    sys.exit(main())
