"""The sheets of the set, composed from views and what the piece says of itself."""
