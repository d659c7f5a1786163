"""The dry fit: each module asks one question of a piece and answers with findings and what it proved."""
