"""Shopassist: a shop assistant for turned and cast work in wood and resin."""

__version__ = "0.1.0"
