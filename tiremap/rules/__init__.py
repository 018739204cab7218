"""One question about a repair per file, listed in ``book.py`` in the order a technician asks."""
