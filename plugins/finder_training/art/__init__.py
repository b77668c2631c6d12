"""What is drawn on cards: each kind of art from a seed alone."""
