"""Stabilise: from wet wood to a known uptake."""
