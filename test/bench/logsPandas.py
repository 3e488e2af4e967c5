"""The same figures from the same export by pandas (Debian: apt-get install python3-pandas). Prints one line of JSON."""

import json
import resource
import sys

import numpy
import pandas

path = sys.argv[1]
frame = pandas.read_csv(path, parse_dates=["time"])
seconds = (frame["time"] - frame["time"].iloc[0]).dt.total_seconds().to_numpy()
watts = frame["P [W]"].to_numpy()
on = numpy.nonzero(watts > 90)[0]
print(
    json.dumps(
        {
            "rows": len(frame),
            "integralWh": float(numpy.sum((watts[1:] + watts[:-1]) / 2 * numpy.diff(seconds)) / 3600),
            "counterWh": float(frame["E [Wh]"].iloc[-1] - frame["E [Wh]"].iloc[0]),
            "gaps": int(numpy.sum(numpy.diff(seconds) > 2)),
            "onS": float(seconds[on[0]]),
            "offS": float(seconds[on[-1]]),
            "peakMB": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        }
    )
)
