"""How many examples a law tries: few in the default suite, more by command (``TIREMAP_EXAMPLES=10``: ten times)."""

import os

TIMES = float(os.environ.get("TIREMAP_EXAMPLES", "1"))


def examples(usual: int) -> int:
    """The number of examples for ``usual`` ones in the default suite."""
    return max(1, round(usual * TIMES))
