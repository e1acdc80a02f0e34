#!/usr/bin/env python3
"""Writes src-tauri/engine/src/survey/wmm2025.rs from the official WMM2025 coefficient file.

The coefficients are NOAA/NCEI and BGS data in the public domain (file WMM.COF, header date 11/13/2024). The copy
inside the PyPI wheel pygeomag 1.1.0 (file pygeomag/wmm/WMM_2025.COF) was used:

    pip download --no-deps pygeomag==1.1.0
    python3 tests/published/scripts/wmm2025_table.py pygeomag-1.1.0-py3-none-any.whl \
        > src-tauri/engine/src/survey/wmm2025.rs

Written with Python 3.11.7.
"""

import sys
import zipfile

HEAD = """\
//! The Gauss coefficients of the World Magnetic Model 2025, epoch 2025.0.
//!
//! NOAA/NCEI and BGS, public domain; file `WMM.COF` of {date}. Written by
//! `tests/published/scripts/wmm2025_table.py`: do not edit by hand.

/// One line of the coefficient file: degree, order, g and h in nT, their change in nT a year.
#[derive(Debug, Clone, Copy)]
pub(super) struct Gauss {{
    pub n: usize,
    pub m: usize,
    pub g_nt: f64,
    pub h_nt: f64,
    pub g_nt_per_year: f64,
    pub h_nt_per_year: f64,
}}

const fn line(n: usize, m: usize, g_nt: f64, h_nt: f64, g_nt_per_year: f64, h_nt_per_year: f64) -> Gauss {{
    Gauss {{ n, m, g_nt, h_nt, g_nt_per_year, h_nt_per_year }}
}}

/// Year of the coefficients.
pub(super) const EPOCH: f64 = {epoch};

/// Degree and order of the model.
pub(super) const DEGREE: usize = 12;

#[rustfmt::skip]
pub(super) const COEFFICIENTS: [Gauss; {count}] = [
"""


def main(wheel):
    text = zipfile.ZipFile(wheel).read("pygeomag/wmm/WMM_2025.COF").decode("ascii")
    header, *rest = text.splitlines()
    epoch, model, date = header.split()
    assert model == "WMM-2025", model
    rows = [line.split() for line in rest if not line.startswith("9999")]
    assert len(rows) == 90 and rows[-1][:2] == ["12", "12"], len(rows)
    out = sys.stdout
    out.write(HEAD.format(date=date, epoch=epoch, count=len(rows)))
    for n, m, *values in rows:
        out.write(f"    line({n}, {m}, {', '.join(str(float(value)) for value in values)}),\n")
    out.write("];\n")


main(sys.argv[1])
