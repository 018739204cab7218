"""Mouse and key gestures as plain generators over millimeter points."""
