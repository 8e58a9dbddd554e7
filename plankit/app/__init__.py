"""The command line: words in, exit codes and messages out. The work is done in the rooms above."""
