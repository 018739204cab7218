"""Scenes laid on matplotlib figures, on screen and on paper, at true scale."""
