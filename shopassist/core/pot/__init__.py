"""The pressure-pot procedure: ``advance(state, event, now)``, pure, and what it asks next."""
