"""The one place that builds and joins everything."""
