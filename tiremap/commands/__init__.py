"""One command of the command line per file."""
