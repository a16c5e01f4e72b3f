"""Thermometers that write by themselves: their record, their lines, and what becomes of them."""
