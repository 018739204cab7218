"""Frozen records: measurements as taken, size codes, the job. No Qt, no matplotlib, no geometry."""
