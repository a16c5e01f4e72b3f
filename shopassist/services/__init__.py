"""Application state, one service a concern, free of Qt; defines the ports."""
