"""Reusable Qt pieces that know core types and no services."""
