"""The warm-up pane: when to switch the cabinet on, and what that does."""
