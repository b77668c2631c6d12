"""A board and its site on disk: reading, the photo cache, staging and the swap."""
