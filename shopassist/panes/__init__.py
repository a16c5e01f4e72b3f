"""One package a pane; panes never import one another."""
