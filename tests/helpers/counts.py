"""How many examples a law tries: few in the default suite, more by command (``TIREMAP_EXAMPLES=10``: ten times)."""

import os

DEFAULT_SHARE = 0.6
"""Of what a law calls usual, so that the default suite stays under five minutes on two cores."""
TIMES = DEFAULT_SHARE * float(os.environ.get("TIREMAP_EXAMPLES", "1"))


def examples(usual: int) -> int:
    """The number of examples for ``usual`` ones."""
    return max(1, round(usual * TIMES))
