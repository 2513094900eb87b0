"""Everything of Tundish that touches the world: pages, addresses, a database, a command."""
