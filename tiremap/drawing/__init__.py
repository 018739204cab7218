"""Assessments laid out as scenes: marks with a shape in millimeters, a style name and a key."""
