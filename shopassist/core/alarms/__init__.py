"""Alarms: what is due from clocks, readings and pots, who is called, and what was answered."""
