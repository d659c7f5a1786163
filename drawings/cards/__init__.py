"""Cards to work from at the machine: one for each setting, with all the parts it serves."""
