"""What the live page bears: 30 learners at once for two minutes, a third of them study drawings.

    python tests/bench/live_load.py

Prints marks answered, the slowest twentieth of them as a ratio to a single one's time on the same
server in the same load, and the server's memory after each part. The same run is a test
(tests/lessons/live/test_live_answers.py), which refuses a lost or a wrong answer.
"""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
LOAD = "tests/lessons/live/test_live_answers.py::test_thirty_learners_at_once"


def main() -> int:
    """Run the load once and hand on what it says; 1 where an answer was lost or wrong."""
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-s", "-n", "0", LOAD],
        cwd=ROOT,
        env=os.environ | {"SQUARESAW_LONG": "1"},
        stdout=subprocess.PIPE,
        text=True,
        check=False,
    )
    said = [line for line in done.stdout.splitlines() if line.startswith("load: ")]
    print("\n".join(said or done.stdout.splitlines()[-5:]))
    return 0 if done.returncode == 0 and said else 1


if __name__ == "__main__":
    sys.exit(main())
