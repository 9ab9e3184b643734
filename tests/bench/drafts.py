"""How much of what was said becomes a draft: `python tests/bench/drafts.py [-v]`, on recordings with their truth.

The ones that the reading was tuned on stand apart from those that were only scored. With -v what was missed is listed.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.draft_scores import Score, score
from support.recordings import drafted, recordings, truth_of

HEADING = "| recording | steps | found | of those proposed, true | technique | `at` within 20 s | instead, parts, dry, stops |"


def line(name: str, one: Score) -> str:
    """A row of the table."""
    return f"| {name} | {one.truth} | " + " | ".join(f"{value:.2f}" for value in one.row) + " |"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("-v", "--verbose", action="store_true", help="list what was missed or wrong")
    verbose = parser.parse_args().verbose
    print(HEADING)
    print("|---|---:|---:|---:|---:|---:|---:|")
    for kind in ("tuned", "scored"):
        total = Score()
        for file in recordings(kind):
            one = score(drafted(file), truth_of(file))
            total = total + one
            print(line(f"{kind}/{file.name}", one))
            if verbose:
                print(*(f"    {wrong}" for wrong in one.wrong), sep="\n", file=sys.stderr)
        print(line(f"**{kind}, all**", total))


if __name__ == "__main__":
    main()
