"""All disk access."""
