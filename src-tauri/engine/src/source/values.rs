//! Values recalled when the rules were written, each held against public text since: what was found, and where.
//!
//! Standards are not free: most rest on open-source code, teaching pages, makers' manuals and abstracts that give the
//! standard's number. That a second hand gives the same number does not mean that the standard was read.
//! `docs/validation.md` is written from here.

use super::{Confidence, SourceKey};
use Confidence::{FromMemory, Read};

/// A value with what became of the search for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Recalled {
    /// Key in `docs/references.bib`.
    pub key: &'static str,
    /// [`Read`] where it was found, [`FromMemory`] where it is still open.
    pub confidence: Confidence,
    pub value: &'static str,
    pub found: &'static str,
}

/// Every recalled value that was looked for.
pub fn looked_for() -> impl Iterator<Item = Recalled> {
    ROWS.iter().map(|&(key, confidence, value, found)| Recalled { key, confidence, value, found })
}

/// Sources that were not looked for: mathematics that second solvers hold, or habits of drawing.
pub fn not_looked_for() -> impl Iterator<Item = SourceKey> {
    let recalled = SourceKey::ALL.iter().filter(|key| key.source().confidence == FromMemory);
    recalled.copied().filter(|key| looked_for().all(|value| value.key != key.source().key))
}

const ROWS: &[(&str, Confidence, &str, &str)] = &[
    (
        "en1993-1-1",
        Read,
        "sway 1/200",
        "a software maker's knowledge base; kuisidu/metku; project leaves out both reductions: safe",
    ),
    ("en1993-1-1", Read, "second order under design loads", "two software makers' pages"),
    (
        "en1993-1-1",
        Read,
        "curve c 0.49, plateau 0.2, chi (6.49)",
        "waynemaranga/steelsnakes UK/checks/stability.py; alezen9/themis ec3-table-6.1.ts; open-source code; cold-formed c, hot-finished a",
    ),
    ("en1993-1-1", Read, "classes 50, 70, 90 eps²", "open-source code"),
    ("en1993-1-1", Read, "E 210 000, gamma M0 = M1 = 1.0", "kuisidu/metku eurocodes/en1993/constants.py"),
    ("en1991-1-1", Read, "steel 7850 kg/m³", "open-source code"),
    (
        "en1993-1-1",
        Read,
        "EN 12811-1: 1.5 · 1.1 = 1.65",
        "1.5 in many places; 1.1 by a strut table divided by 1.65",
    ),
    ("aisc360-16", Read, "walls 0.11, 0.07, 0.31, 0.45 E/Fy", "open-source code"),
    ("aisc360-16", Read, "F8 0.021, 0.33; E7 0.038 + 2/3", "open-source code"),
    ("aisc360-16", Read, "0.658, 0.877; omega 1.67; E 200 000", "open-source code"),
    ("asce7-22", Read, "2.41; 7.5/3280, 9.8/2460, 11.5/1935 ft", "open-source code"),
    ("asce7-22", Read, "direction factor out of q, into the force", "open-source code"),
    ("asce7-16", Read, "7/1200 etc.", "qsaad/stroogle and others"),
    (
        "asce7-16",
        Read,
        "round: Kd 1.0 (0.95 in 7-10)",
        "a software maker's worked check; tutajrobert/scripts",
    ),
    ("asce7-16", Read, "Ke = exp(-0.0000362 z ft)", "a software maker's worked check (0.9814 at 520 ft)"),
    ("asce7-16", Read, "29.4: round 0.5–1.2 (not used: 1.2 is taken)", "open-source code"),
    (
        "en1991-1-4-drag",
        Read,
        "c 1.2 below the fall; rough branch",
        "open-source code (1.20 to Re 2e5, all roughness)",
    ),
    (
        "en1991-1-4-drag",
        Read,
        "k: fine paint 0.006, spray 0.02, bright 0.05, galvanised 0.2, rust 2.0 mm",
        "open-source code (Table 7.13)",
    ),
    (
        "en1991-1-4-drag",
        Read,
        "nu 15e-6; slenderness l/b at most 70, 15–50 m interpolated",
        "open-source code",
    ),
    (
        "en1991-1-4-drag",
        Read,
        "end effect by slenderness",
        "one reading in open-source code; ours is lower by 5 % at 10, equal from 40",
    ),
    (
        "en1991-1-4",
        Read,
        "z0 0.003, 0.01, 0.05; zmin 1, 1, 2 m (0, I, II)",
        "kuisidu/metku EN 1991-1-4 file (10918661319)",
    ),
    (
        "en1991-1-4",
        FromMemory,
        "cables 1.2",
        "not as text; open-source code has 1.2 in working winds, 1.0 in storms",
    ),
    (
        "hoerner1965",
        Read,
        "force square to the member by n·abs(n)",
        "kdusling.github.io CrossFlowCylinder; open-source code (1.1 sin³)",
    ),
    ("iso2533", Read, "101325; 288.15; 0.0065; 287.05287", "open-source code"),
    ("iso12494", Read, "ice 900 kg/m³; 56 pcf; pi·t·(D+t)", "structed.org ice loads (56 lb/ft³ least)"),
    ("icc-es-ac358", Read, "square to 1.75 in: 10 per ft", "a maker's manual; Hoyt & Clemence (p. 37)"),
    (
        "icc-es-ac358",
        Read,
        "round 2.875: 9; 3.5: 7",
        "a maker's manual; a second calculator 8–9 and 7–8; two others 10; lower kept: safe",
    ),
    ("icc-es-ac358", FromMemory, "round 3.0: 8", "nowhere"),
    (
        "hoyt-clemence1989",
        Read,
        "91 tests; 10 and 7",
        "a maker's technical manual, p. 37; thinnest shaft 1.5 in",
    ),
    (
        "icc-es-ac358",
        Read,
        "all anchors: factor 2.0",
        "IBC 18-4; up.codes; a maker's page; lecture 2–2.5 (scribd 416102478)",
    ),
    (
        "mitsch-clemence1985",
        Read,
        "Nq = 0.5 (12 phi)^(phi/54)",
        "five open-source programs; who gave it first is not confirmed",
    ),
    (
        "mitsch-clemence1985",
        Read,
        "helix in clay: 9 c",
        "open-source code, from five diameters down; eng-tips 217669",
    ),
    (
        "meyerhof-adams1968",
        Read,
        "cone theory, four rows",
        "oreilly 9780128095645 app. G (Ku·tan phi 0.92, s 1.48–2.92); scribd 147373573",
    ),
    (
        "das2013",
        FromMemory,
        "plates: m, critical depths, Ku 0.95, clay 1.2·H/B up to 9",
        "the chapter's beginning only",
    ),
    (
        "das2013",
        FromMemory,
        "Meyerhof 1973: inclined pull not less than vertical",
        "abstract: interaction of the two components",
    ),
    ("broms1964-clay", Read, "clay, sand, short piles", "two textbooks, two open-source programs"),
    (
        "navedtra14251",
        Read,
        "700, 1800, 4000 lb",
        "two reprints; another table gives 300–700, 1000–2000, 4000",
    ),
    ("fm5-125", FromMemory, "1-1 1400, 2-1 2000, soil 0.5", "nowhere"),
    ("navedtra14251", Read, "steel picket of 25 mm: 350 kg safe each", "nzdl.org Disaster Rescue 8.3"),
    ("ibc1806", Read, "clay cohesion 130 psf, at most half the dead load", "open-source code"),
    ("ibc1806", Read, "1807.2.3: sliding 1.5", "eng-tips 244631 (written for retaining walls)"),
    ("nds2018", Read, "Cb = (lb + 0.375)/lb, lb < 6 in, 3 in from end", "open-source code"),
    ("nds2018", Read, "wet across the grain 0.67", "open-source code, two of them"),
    (
        "nds2018",
        Read,
        "across the grain DFL 625, SP 565, SPF 425, HF 405",
        "open-source code (Table 4A, all four)",
    ),
    ("nds2018", FromMemory, "SPF (South) 335", "nowhere"),
    ("nds2018", Read, "size factors 1.5 to 0.9 in bending", "open-source code"),
    ("astm-a615", Read, "grade 40: 280 MPa", "scribd 343162453; metal-stock.com"),
    ("en39", Read, "A53 and EN 39: 205, 240; 235 MPa", "scribd 299396556; allwinmetal.com"),
    ("en10255", Read, "S195T 195 MPa", "scribd 371499087 (least yield 195)"),
    (
        "en10255",
        Read,
        "masses 1.21 1.56 2.41 3.10 3.57 5.03",
        "tuspipe.com; scribd 371499087 (3.56 for size 40)",
    ),
    ("en10255", Read, "masses of DN65 and DN80", "arithmetic, within 0.3 %; not found as text"),
    ("asme-b36-10", Read, "masses by 10.69 t (D-t)", "engineeringtoolbox d_774"),
    ("ansi-c80-6", Read, "walls and weights (the least ones)", "two catalogues, which call them the least"),
    ("ansi-c80-6", FromMemory, "size 4: 682 lb", "list cut off before it"),
    (
        "rope-lore",
        Read,
        "knot 0.50, figure-eight 0.65",
        "CI 1401; knot tests in a sailing paper; not HMPE, not a reef knot",
    ),
    ("ci1308", Read, "5–12", "sellers' and makers' texts on CI 1401"),
    (
        "tia222f",
        FromMemory,
        "steel guys 2.0",
        "two engineers' recollections (1997, 2001) on a public mailing list",
    ),
    ("tia222", Read, "preload 7–15 %, plumb 0.25 %, tension within 10 %", "tifonline.org planning notice"),
    (
        "cga-best-practices",
        Read,
        "tolerance zone 18 in, 24 in",
        "utilities' pages: 18 in in five states, 24 in in four, 48 in in Michigan; no state with 30 in",
    ),
    (
        "one-call-notice",
        Read,
        "3 and 2 whole working days",
        "sc811.com notice calendar; al811.com life of ticket; illinois1call.com",
    ),
    ("ada2010-307", Read, "80 in", "corada.com 2010 standards 307.4; bluedag.com"),
    (
        "ifc503",
        Read,
        "13 ft 6 in",
        "pddfiles.eugene-or.gov 1770387 p. 95; one Washington district writes 14 ft",
    ),
    (
        "rast06",
        Read,
        "4.50 m",
        "sicherestrassen.de; spielplatzmobil.de (4.00 + 0.20 + 0.30; 2.50 m over paths)",
    ),
    (
        "ghilani2010",
        Read,
        "v/(sigma·sqrt r), worst out one at a time",
        "volue gemini help (Baarda 1968); xyht.com, Ghilani's own articles",
    ),
    (
        "ghilani2010",
        Read,
        "rejection at 3.29",
        "arithmetic: two-sided 0.1 % of the normal curve; the chapter was not read",
    ),
    ("fieller1954", Read, "quadratic, g > 1 open", "findatwiki; metricgate.com"),
    ("orear1982", Read, "sy² + (dy/dx)² sx²", "ned.ipac.caltech.edu Leo 7.3 (cites Orear)"),
    ("birge1932", Read, "widen by chi²/dof", "rdrr.io FitOCTlib; anthonyozerov/opg"),
    ("widrow2008", Read, "rounding q/sqrt 12", "dsprelated.com; studylib 18404877 (Widrow)"),
    ("law-kelton", Read, "batch means", "Bucknell notes node88; informs ijoc 9.3.296"),
    ("hyndman-fan1996", Read, "type 7", "rdrr.io stats quantile; authors prefer 8"),
    ("hanley1983", Read, "3/n", "jamanetwork 389714"),
    ("gum2008", Read, "k 1.96, 2; annex G exists", "iso.org JCGM100"),
    ("rfc7946", Read, "RFC 4180: CR LF, doubled quotes, quotes on CR too", "datatracker; erratum 5714"),
    (
        "w3c-devicemotion",
        Read,
        "+9.8 up on z, flat; iOS reversed",
        "MDN; w3c/deviceorientation issue 96; iOS reports in three issue threads; we turn the sign",
    ),
    ("phone-tilt", Read, "0.2–0.5°", "Mourcou 2015, PMC4610531 (static < 0.3°)"),
    (
        "lpnu2017",
        Read,
        "a phone's compass: wide band",
        "science.lpnu.ua 42954 (1–3° at first, later 2–3 times, singles 13–25°); Allmendinger 2017",
    ),
    (
        "lpnu2017",
        FromMemory,
        "a phone's field: 2 µT",
        "noise 0.2 µT seen, phones differ (andrewsenior.me.uk); 2 µT not found",
    ),
    ("abramowitz-stegun", Read, "DLMF 7.20.1: Q by erfc(z/sqrt 2)", "SAS, GSL, R docs"),
    ("iso128-2", Read, "widths 0.18–0.7; wide twice narrow", "zoboko 46; easytechcadsite (0.18–2)"),
    (
        "iso5457",
        Read,
        "10 mm rim",
        "expertsmind.com (10 mm for A2–A4, 20 mm for A0, A1: older edition); 1999 edition 20 mm on the binding side",
    ),
];

/// The part of `docs/validation.md` between its two marks.
pub fn as_markdown() -> String {
    let mut text = String::from(
        "**Recalled, and open.** Looked for in public text and not found, or found in one weak text only:\n\n\
         | key | value | what was found |\n|---|---|---|\n",
    );
    let row = |value: Recalled| format!("| `{}` | {} | {} |\n", value.key, value.value, value.found);
    text.extend(looked_for().filter(|value| value.confidence != Read).map(row));
    text.push_str(
        "\n**Recalled, and not looked for.** Mathematics that second solvers hold, or read elsewhere in part:\n\n\
         | key | source |\n|---|---|\n",
    );
    text.extend(not_looked_for().map(|key| {
        let source = key.source();
        format!("| `{}` | {} |\n", source.key, source.citation)
    }));
    text.push_str(
        "\n**Recalled once, and found.** That a second hand gives the same number does not mean that the standard was \
         read:\n\n| key | value | where it was found |\n|---|---|---|\n",
    );
    text.extend(looked_for().filter(|value| value.confidence == Read).map(row));
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A source all of whose recalled values were found is no longer called recalled, and one that is called read has
    /// at least one that was found.
    #[test]
    fn what_was_found_is_not_called_recalled() {
        for key in SourceKey::ALL {
            let source = key.source();
            let of_it: Vec<Recalled> = looked_for().filter(|value| value.key == source.key).collect();
            if of_it.is_empty() {
                continue;
            }
            let found = of_it.iter().any(|value| value.confidence == Read);
            assert_eq!(found, source.confidence == Read, "{}", source.key);
        }
    }
}
