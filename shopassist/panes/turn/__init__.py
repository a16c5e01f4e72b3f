"""Cards for the lathe and after: speed, drill, putty, papers, coats, air."""
