"""The trade's arithmetic and rules: pure functions on SI floats."""
