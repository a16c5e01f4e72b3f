"""The plan: stages of the batches in a real week, and the day's list."""
