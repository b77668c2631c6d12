"""`python3 site_demo`: makes the environment, builds the demo board, serves it.

It runs `swapboard preview`; with `--once`, `swapboard build`, and gives its exit code.
"""

import os
import signal
import subprocess
import sys

if sys.version_info < (3, 11):
    sys.exit(
        "Swapboard needs Python 3.11 or newer; this is Python %d.%d. "
        "Run it with a newer one, such as: python3.11 site_demo" % tuple(sys.version_info[:2])
    )

from argparse import ArgumentParser
from pathlib import Path

import environment

DEMO = Path(__file__).resolve().parent
DAY = "2026-10-10"


def swapboard(place, command, demo=DEMO, day=DAY):
    """Runs `swapboard COMMAND` on the demo board with the environment `place`.

    Gives its exit code. Ctrl-C reaches the command as well, which ends by itself and
    is waited for; being asked to end is passed on to it.
    """
    asked = [str(place / "bin" / "swapboard"), command, str(demo), "--today", day]
    running, ending = [], []

    def pass_on(*_):
        ending.append(True)
        for run in running:
            run.terminate()

    # Both are set before the command runs: it may be asked to end at its first moment.
    handlers = {signal.SIGTERM: pass_on}
    if signal.getsignal(signal.SIGINT) is not signal.SIG_IGN:
        handlers[signal.SIGINT] = lambda *_: None
    before = {number: signal.signal(number, does) for number, does in handlers.items()}
    try:
        running.append(subprocess.Popen(asked, env=environment.clean(os.environ)))
        if ending:
            running[0].terminate()
        return running[0].wait()
    finally:
        for number, did in before.items():
            signal.signal(number, did)


def main(arguments=None):
    """Runs the command and gives its exit code."""
    parser = ArgumentParser(prog="python3 site_demo", description=__doc__.splitlines()[0])
    parser.add_argument("--once", action="store_true", help="build and stop")
    asked = parser.parse_args(arguments)
    try:
        place = environment.ensure(DEMO.parent)
        environment.say_at_once("Building the demo board as of %s ..." % DAY)
        return swapboard(place, "build" if asked.once else "preview")
    except environment.Trouble as trouble:
        print("Stopped: %s" % trouble, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return 130


if __name__ == "__main__":
    sys.exit(main())
