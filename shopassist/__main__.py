"""``python -m shopassist``."""
