"""Following the talk: each instruction, in turn, to the steps that it adds or changes."""
