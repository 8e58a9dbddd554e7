"""`python -m plankit`: the command line, after a look at which Python this is."""

import sys

if sys.version_info < (3, 12):  # noqa: UP036 - this file is read by older ones, to say so
    sys.exit("plankit needs Python 3.12 or newer; this is Python {}.{}.".format(*sys.version_info[:2]))

from plankit.app.command import main

main()
