"""The mix pane: ratio, basis and amount to grams in the cup."""
