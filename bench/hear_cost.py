"""What hearing a recording costs: time against its length, and memory at its highest, all processes together.

    python bench/hear_cost.py RECORDING --machine KIND [--ear both] [--minutes N]

With ``--minutes`` the recording is repeated until it is that long. Prints the real-time factor (seconds of
work for each second of sound; the aim is 0.25 with both ears, 0.12 with the general ear alone, on 2 cores)
and the highest sum of the proportional set sizes of saycheck and its ears (the aim is 700 MB for an hour).
Linux only.
"""

import argparse
import resource
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path

TIMES = {"both": 0.25, "builtin": 0.12}
MOST_MB = 700


def pss_mb(leader: int) -> float:
    """Memory of all processes of a session in MB, pages that several share counted once."""
    total = 0
    for place in Path("/proc").glob("[0-9]*"):
        try:
            if int((place / "stat").read_text().rpartition(")")[2].split()[3]) != leader:
                continue
            for line in (place / "smaps_rollup").read_text().splitlines():
                if line.startswith("Pss:"):
                    total += int(line.split()[1])
        except (OSError, ValueError):  # it ended meanwhile
            continue
    return total / 1024


def repeated(recording: Path, minutes: float, folder: Path) -> Path:
    """The recording over and over as a FLAC file of about that many minutes."""
    from saycheck.capture.files import blocks
    from saycheck.capture.keep import KeptSound

    path = folder / "long.flac"
    with KeptSound(path) as kept:
        while kept.seconds < minutes * 60:
            for block in blocks(recording):
                kept.write(block)
    return path


def main() -> int:
    """Hear once and print; exit status 1 where an aim is missed."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("recording", type=Path)
    parser.add_argument("--machine", required=True)
    parser.add_argument("--ear", default="both")
    parser.add_argument("--minutes", type=float)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        recording = repeated(asked.recording, asked.minutes, folder) if asked.minutes else asked.recording
        command = [
            sys.executable, "-m", "saycheck", "hear", str(recording.resolve()), "--machine", asked.machine,
            "--ear", asked.ear, "--out", str(folder / "walk"),
        ]  # fmt: skip
        begin = time.perf_counter()
        hearing = subprocess.Popen(command, stdout=subprocess.DEVNULL, start_new_session=True)
        most = [0.0]

        def watch() -> None:
            while hearing.poll() is None:
                most[0] = max(most[0], pss_mb(hearing.pid))
                time.sleep(0.5)

        watcher = threading.Thread(target=watch)
        watcher.start()
        hearing.wait()
        seconds = time.perf_counter() - begin
        spent = resource.getrusage(resource.RUSAGE_CHILDREN)
        watcher.join()
        if hearing.returncode:
            return hearing.returncode
        from saycheck.walkfolder import read

        length = read(folder / "walk").source.duration_s
    factor = seconds / length
    print(f"{asked.ear}: {length:.0f} s of sound in {seconds:.0f} s, real-time factor {factor:.3f}")
    work = (spent.ru_utime + spent.ru_stime) / length
    print(
        f"processor time for each second of sound: {work:.3f} s; on two idle cores not below {work / 2:.3f}"
    )
    print(f"memory at its highest: {most[0]:.0f} MB")
    return int(factor > TIMES.get(asked.ear, 1.0) or most[0] > MOST_MB)


if __name__ == "__main__":
    sys.exit(main())
