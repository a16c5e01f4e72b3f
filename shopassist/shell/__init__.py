"""The main window and what surrounds the panes."""
