"""The office's room."""
