"""The cure pane: what the clock counts to, at the temperature it really is."""
