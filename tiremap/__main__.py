"""Starts the command line: ``python -m tiremap`` and the ``tiremap`` script."""

import os
import sys

from tiremap.cli import run


def main() -> None:
    """Run the command line and leave with its exit code."""
    try:
        sys.exit(run(sys.argv[1:]))
    except BrokenPipeError:  # the reader of our output has had enough, as with `| head`
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)


if __name__ == "__main__":
    main()
