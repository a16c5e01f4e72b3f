"""The pot pane: one item at a time, and the word withheld until the signs are in."""
