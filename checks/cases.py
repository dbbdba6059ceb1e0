"""What the program computed, and the program itself, for the checks."""

import json
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
EXAMPLES = sorted(folder.parent for folder in (ROOT / "examples").glob("*/job.toml"))


def cases(part):
    """One part of the cases that `cargo run -p grounds --example outside` prints."""
    with open(os.environ["GROUNDS_CASES"], encoding="utf-8") as file:
        return json.load(file)[part]


def grounds(*arguments):
    """The JSON that a command of the program prints. Exit code 1 (something cannot be met) is no
    fault of the program."""
    ended = subprocess.run(
        [os.environ["GROUNDS_BIN"], *map(str, arguments)], capture_output=True, check=False
    )
    if ended.returncode not in (0, 1):
        sys.exit(f"grounds {arguments} ended with {ended.returncode}: {ended.stderr.decode()}")
    return json.loads(ended.stdout)


def close(compared, differences):
    """Ends a script: how much was compared, and everything that differs."""
    for difference in differences:
        print(difference, file=sys.stderr)
    if differences or not compared:
        sys.exit(f"{len(differences)} of {compared} differ")
    print(f"{compared} compared")
