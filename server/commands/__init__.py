"""The commands of `tundish`, a subject a module; `server.cli` puts them together."""
