"""The firm's diary: which visits are still to be made, by whom and when; desk, engineer and office all look into it."""
