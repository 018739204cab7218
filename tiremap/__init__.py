"""Tiremap: whether a tire puncture may be repaired, by which published rule, and by what margin."""

__version__ = "0.1.0"
