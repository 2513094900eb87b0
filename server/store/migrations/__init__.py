"""How each version of the database becomes the next."""
