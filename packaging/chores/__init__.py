"""What ``bootstrap.py`` does: set up, check, measure, prove. Standard library only."""
