"""Adapters to the machine."""
