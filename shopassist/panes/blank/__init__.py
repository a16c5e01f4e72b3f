"""Blank: from the mould and the core to the resin and the wall that is left."""
