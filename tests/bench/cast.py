"""The same semi-discrete cast by SciPy's stiff integrators: JSON in, for each accuracy and each its time and error out."""

import json
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import diags

s = json.load(sys.stdin)
C, G, heat = (np.array(s[k]) for k in ("capacity", "conductance", "heat"))
blood, arterial, doubling = (np.array(s[k]) for k in ("blood", "arterial", "doubling"))
n, first = len(C), s["first"]
k, o = s["kinetics"], s["outer"]
room = o["room"] + 273.15
sigma = 5.670374419e-8
times = np.array(s["times"])


def saturation(t):
    p = 0.6112 * np.exp(17.62 * t / (243.12 + t))
    return p, p * 17.62 * 243.12 / (243.12 + t) ** 2


vapour = o["humidity"] * saturation(o["room"])[0]


def into_surface(t):
    """Heat into the outer surface, and its slope."""
    kelvin = t + 273.15
    film = o["convection"] + o["emissivity"] * sigma * (kelvin + room) * (kelvin**2 + room**2)
    rise = o["emissivity"] * sigma * ((kelvin**2 + room**2) + 2 * kelvin * (kelvin + room))
    through = 1 / (1 / film + o["resistance"])
    q = through * (o["room"] - t)
    dq = -through + through**2 / film**2 * rise * (o["room"] - t)
    p, dp = saturation(t)
    if o["evaporating"] and p > vapour:
        q -= o["evaporating"] * (p - vapour)
        dq -= o["evaporating"] * dp
    return q, dq


def outer(cell):
    t = cell
    for _ in range(30):
        q, dq = into_surface(t)
        step = (o["conductance"] * (cell - t) + o["area"] * q) / (o["conductance"] - o["area"] * dq)
        t += step
        if abs(step) < 1e-12 * max(1, abs(t)):
            break
    return o["conductance"] * (t - cell)


def drive(t):
    kelvin = t + 273.15
    log = lambda a, b, c, d, e: a + b * kelvin + c / kelvin + d * np.log10(kelvin) + e / kelvin**2
    return 10 ** ((log(*s["beta"]) - log(*s["gypsum"])) / 2) - 1


reference = drive(25.0)


def slope(_, y):
    T, a = y[0::2], y[1::2]
    flow = np.zeros(n)
    between = G * (T[1:] - T[:-1])
    flow[:-1] += between
    flow[1:] -= between
    flow += blood * np.minimum(10, 2 ** ((T - 33) / doubling)) * (arterial - T)
    flow[0] += s["inner"]["conductance"] * (s["inner"]["fixed"] - T[0])
    flow[-1] += outer(T[-1])
    t, x = T[first:], a[first:]
    warmth = np.exp(-k["activation"] / 8.314462618 * (1 / (t + 273.15) - 1 / 298.15))
    rate = np.zeros(n)
    rate[first:] = (
        k["k25"]
        * warmth
        * (np.maximum(0, drive(t)) / reference) ** k["order"]
        * np.cbrt(np.maximum(0, x) + k["seed"]) ** 2
        * np.maximum(0, 1 - x)
    )
    out = np.empty(2 * n)
    out[0::2] = (flow + heat * rate) / C
    out[1::2] = rate
    return out


start = np.zeros(2 * n)
start[0::2] = s["start"]
band = diags([np.ones(2 * n - abs(d)) for d in range(-2, 3)], list(range(-2, 3)))
extra = {"LSODA": {"lband": 2, "uband": 2}, "BDF": {"jac_sparsity": band}, "Radau": {"jac_sparsity": band}}


def solve(method, tolerance):
    return solve_ivp(
        slope, (0, times[-1]), start, method=method, t_eval=times, rtol=1e-12 + tolerance / 100, atol=tolerance, **extra[method]
    ).y[0::2]


truth = solve("Radau", 1e-7)
result = {"truth": truth[first].tolist(), "peers": []}
for method in extra:
    tolerances = iter((1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 5e-3, 2e-3, 1e-3, 5e-4, 2e-4, 1e-4, 1e-5, 1e-6))
    tolerance, error = None, np.inf
    # From rough to fine: the loosest tolerance that serves.
    for accuracy in sorted(s["accuracies"], reverse=True):
        while error > accuracy:
            tolerance = next(tolerances)
            error = float(np.abs(solve(method, tolerance)[first] - truth[first]).max())
        runs = []
        for _ in range(5):
            began = time.perf_counter()
            solve(method, tolerance)
            runs.append(time.perf_counter() - began)
        milliseconds = 1000 * sorted(runs)[2]
        result["peers"].append({"method": method, "accuracy": accuracy, "milliseconds": milliseconds, "error": error})
print(json.dumps(result))
