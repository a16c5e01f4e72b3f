"""The batch log: every batch with its facts, its outcome, and *Again*."""
