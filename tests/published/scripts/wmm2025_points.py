#!/usr/bin/env python3
"""Writes tests/published/data/wmm2025_points.csv: WMM2025 at points all over the world by pygeomag.

pygeomag (PyPI, MIT) is a general-purpose library by other hands; version 1.1.0, Python 3.11.7.

    pip install pygeomag==1.1.0
    python3 tests/published/scripts/wmm2025_points.py > tests/published/data/wmm2025_points.csv

The points come from a Halton sequence, so that they are the same on every run.
"""

from pygeomag import GeoMag


def halton(index, base):
    value, share = 0.0, 1.0
    while index:
        share /= base
        value += share * (index % base)
        index //= base
    return value


model = GeoMag(coefficients_file="wmm/WMM_2025.COF")
print("year,height_km,latitude_deg,longitude_deg,x_nt,y_nt,z_nt,declination_deg")
for i in range(1, 65):
    year = round(2025 + 5 * halton(i, 2), 3)
    height = round(-0.5 + 9.5 * halton(i, 3), 3)
    latitude = round(-89 + 178 * halton(i, 5), 3)
    longitude = round(-180 + 360 * halton(i, 7), 3)
    r = model.calculate(glat=latitude, glon=longitude, alt=height, time=year)
    print(f"{year},{height},{latitude},{longitude},{r.x:.9f},{r.y:.9f},{r.z:.9f},{r.d:.12f}")
