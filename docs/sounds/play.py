#!/usr/bin/env python3
"""Plays the daemon's cues on a buzzer at a GPIO pin, or says them.

    standpipe watch --json | python3 play.py buzzer --chip gpiochip0 --line 17
    standpipe watch --json | python3 play.py speech --volume 150

Reads one view a line; its `cue` says what is to be heard now. The rhythms are the program's own table, asked once with
`standpipe watch --cues`. buzzer needs `gpioset` of libgpiod 2 and an active buzzer (one pitch will do: every cue differs
in its rhythm); speech needs `espeak-ng`. --dry-run prints what would be run. Silence of the daemon is a cue too: it says
`no-reading` itself, and the end of the input is played as such.
"""
import argparse
import json
import subprocess
import sys
import threading


def arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("how", choices=["buzzer", "speech"])
    parser.add_argument("--chip", default="gpiochip0")
    parser.add_argument("--line", default="17")
    parser.add_argument("--volume", default="100", help="of the speech, 0 (mute) to 200")
    parser.add_argument("--cues", help="the table from a file instead of `standpipe watch --cues`")
    parser.add_argument("--dry-run", action="store_true")
    return parser.parse_args()


def table(path):
    text = open(path).read() if path else subprocess.check_output(["standpipe", "watch", "--cues"], text=True)
    patterns = [json.loads(line) for line in text.splitlines()]
    return {pattern["cue"]: pattern for pattern in patterns}


def command(args, pattern, times):
    if args.how == "speech":
        return ["espeak-ng", "-a", args.volume, pattern["says"]]
    periods = []
    for note in pattern["notes"] * times:
        periods += [note["on_ms"], max(note["off_ms"], 1)]
    # The pin is high first and changes after each period; a period of 0 ends it, low.
    periods = [f"{ms}ms" for ms in periods[:-1]] + ["0"]
    return ["gpioset", "-t", ",".join(periods), "-c", args.chip, f"{args.line}=1"]


class Player:
    def __init__(self, args):
        self.args, self.table, self.cue, self.timer = args, table(args.cues), None, None

    def set(self, cue):
        if cue == self.cue:
            return
        self.cue = cue
        if self.timer:
            self.timer.cancel()
        if cue in self.table:
            self.play(cue, self.table[cue]["times"])

    def play(self, cue, times):
        if cue != self.cue:
            return
        run = command(self.args, self.table[cue], times)
        if self.args.dry_run:
            print(" ".join(run), flush=True)
        else:
            subprocess.Popen(run)
        every = self.table[cue].get("every_ms")
        if every and not self.args.dry_run:
            self.timer = threading.Timer(every / 1000, self.play, (cue, 1))
            self.timer.daemon = True
            self.timer.start()


def main():
    player = Player(arguments())
    for line in sys.stdin:
        player.set(json.loads(line).get("cue"))
    player.set("no-reading")


if __name__ == "__main__":
    main()
