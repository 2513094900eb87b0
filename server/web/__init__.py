"""What every room's pages share: how a page is made, which headers it carries, how errors look."""
