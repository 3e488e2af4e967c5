"""The SciPy side of the fit bench: reads one JSON line with the log, then fits once for each line read after that.

As a practised user would write it: the exact step as a first-order filter (scipy.signal.lfilter), block means by reshape,
least_squares with the method for small problems and columns scaled. "blocks" is the same analysis as ours: ordinary least squares
on 60 s means, the autocorrelation of the residuals, and least squares again after Prais and Winsten. "native" is plain
least squares on every reading, which is what most would do, and states too small uncertainties.
"""
import json
import resource
import sys

import numpy as np
import scipy
from scipy.optimize import least_squares
from scipy.signal import lfilter

log = json.loads(sys.stdin.readline())
temperature = np.array(log["temperaturesK"])
power = np.array(log["powerW"])
ambient = log["ambientK"]
h = log["stepS"]
block = log["blockS"] // h
count = len(temperature) // block


def model(theta):
    heating, loss, start = theta
    z = loss * h
    decay = np.exp(-z)
    if abs(z) < 1e-4:
        phi1 = 1 - z / 2 + z * z / 6
        phi2 = 0.5 - z / 6 + z * z / 24
    else:
        phi1 = -np.expm1(-z) / z
        phi2 = (1 - phi1) / z
    late = heating * h * phi2
    early = heating * h * (phi1 - phi2)
    excess = start - ambient
    body, _ = lfilter([late, early], [1.0, -decay], power[1:], zi=[early * power[0] + decay * excess])
    return ambient + np.concatenate(([excess], body))


def means(values):
    return values[: count * block].reshape(count, block).mean(axis=1)


def solve(residuals, start):
    return least_squares(residuals, start, method="lm", x_scale="jac")


def covariance(result):
    spread = 2 * result.cost / (len(result.fun) - len(result.x))
    return spread * np.linalg.inv(result.jac.T @ result.jac)


def native(start):
    return solve(lambda theta: model(theta) - temperature, start)


def blocks(start):
    observed = means(temperature)
    first = solve(lambda theta: means(model(theta)) - observed, start)
    e = first.fun - first.fun.mean()
    r = (e[1:] @ e[:-1]) / (e @ e)
    rho = min(0.995, r + (1 + 3 * r + (len(start) - 1) * (1 + r)) / count)

    def whitened(theta):
        e = means(model(theta)) - observed
        return np.concatenate(([e[0] * np.sqrt(1 - rho * rho)], e[1:] - rho * e[:-1]))

    return solve(whitened, first.x)


print(json.dumps({"scipy": scipy.__version__}), flush=True)
for line in sys.stdin:
    ask = json.loads(line)
    result = (native if ask["how"] == "native" else blocks)(np.array(ask["start"]))
    u = np.sqrt(np.diag(covariance(result)))
    print(
        json.dumps(
            {
                "parameters": result.x.tolist(),
                "standardErrors": u.tolist(),
                "evaluations": int(result.nfev),
                "peakMb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
            }
        ),
        flush=True,
    )
