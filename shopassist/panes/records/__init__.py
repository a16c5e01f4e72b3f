"""Records: resin sheets and pot plates, edited on screen."""
