"""The numpy side of the bench: reads one JSON line with the model, then runs it once for each line read after that.

Written as a practised user would: whole arrays, the fastest generator numpy has (SFC64), Horner's rule in place, and one
partition in place of a sort of everything. With "blocks" the model is evaluated in blocks that stay in the cache.
"""
import json
import resource
import sys

import numpy as np


def horner(coefficients, z):
    result = np.full_like(z, coefficients[-1])
    for coefficient in coefficients[-2::-1]:
        result *= z
        result += coefficient
    return result


def uniform(rng, half, size):
    return rng.uniform(-half, half, size)


def efficiency(rng, m, size):
    gain = rng.normal(0, m["scaleGain"], size)
    full = m["full"] + uniform(rng, m["scaleStep"], size)
    full -= m["empty"] + uniform(rng, m["scaleStep"], size)
    gain += 1
    full *= gain
    air = rng.normal(m["air"], m["airU"], size)
    mass = full * (1 - air / 8000) / (1 - air / m["water"])
    offset = uniform(rng, m["offset"], size)
    start = m["start"] + offset + uniform(rng, m["startStep"], size)
    end = m["end"] + offset + uniform(rng, m["stirring"], size)
    slope = 2 / (m["high"] - m["low"])
    rise = horner(m["coefficients"], (end - m["low"]) * slope - 1)
    rise -= horner(m["coefficients"], (start - m["low"]) * slope - 1)
    rise *= 1 + uniform(rng, m["formulation"], size)
    energy = m["energy"] * (1 + uniform(rng, m["meterGain"], size)) + uniform(rng, m["counterStep"], size)
    return mass * rise / energy


def once(m, seed):
    rng = np.random.Generator(np.random.SFC64(seed))
    size = m["trials"]
    if m["blocks"]:
        values = np.empty(size)
        for at in range(0, size, m["blocks"]):
            count = min(m["blocks"], size - at)
            values[at : at + count] = efficiency(rng, m, count)
    else:
        values = efficiency(rng, m, size)
    mean, deviation = values.mean(), values.std(ddof=1)
    within = int(m["coverage"] * size + 0.5)
    outside = size - within
    values.partition((outside, within - 1))
    low = np.sort(values[:outside])
    high = np.sort(values[within:])
    middle = (outside + 1) // 2 - 1
    best = np.argmin(high - low)
    return [mean, deviation, low[middle], high[middle], low[best], high[best]]


model = json.loads(sys.stdin.readline())
print(json.dumps({"numpy": np.__version__}), flush=True)
for line in sys.stdin:
    model["blocks"] = json.loads(line)["blocks"]
    figures = once(model, json.loads(line)["seed"])
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(json.dumps({"figures": [float(each) for each in figures], "peakMb": peak}), flush=True)
