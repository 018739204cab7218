"""The window: the only room that knows Qt. Shows assessments and passes on wishes."""
