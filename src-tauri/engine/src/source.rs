//! The publications that the engine computes by: one entry each, cited by code, findings and docs.
//! Each key is also the entry's key in `docs/references.bib`; a test holds the two together.

use serde::{Deserialize, Serialize};

pub mod values;

/// How sure we are that a value is what the publication says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Confidence {
    /// The text was read, or its number in at least one good text that others wrote ([`values`]).
    Read,
    /// Recalled, not read: check it before relying on it.
    FromMemory,
    /// A habit of the trade without a single publication.
    CommonPractice,
    /// Follows from geometry or arithmetic alone.
    Derived,
}

/// A publication or habit, with the place in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Source {
    /// Key in `docs/references.bib`.
    pub key: &'static str,
    /// As shown beside a number: short title, edition, clause.
    pub citation: &'static str,
    pub confidence: Confidence,
}

macro_rules! sources {
    ($($(#[$doc:meta])* $name:ident = $key:literal, $confidence:ident, $citation:literal;)*) => {
        /// The key of a source; `docs/references.bib` has an entry of the same key.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        #[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
        pub enum SourceKey { $($(#[$doc])* #[serde(rename = $key)] $name,)* }

        impl SourceKey {
            /// Every source, in the order of declaration.
            pub const ALL: &'static [SourceKey] = &[$(SourceKey::$name,)*];

            /// The publication behind the key.
            pub fn source(self) -> Source {
                match self {
                    $(SourceKey::$name => Source { key: $key, citation: $citation, confidence: Confidence::$confidence },)*
                }
            }
        }
    };
}

sources! {
    Geometry = "geometry", Derived, "Plane and solid geometry";
    CommonPractice = "common-practice", CommonPractice, "Common practice of the trade";
    /// Power-line clearance for equipment, used as the least habit.
    Cfr1926_1408 = "cfr1926-1408", Read, "29 CFR 1926.1408, Table A";
    ApwaColour = "apwa-colour", Read, "APWA Uniform Color Code (ANSI Z535.1)";
    /// Tolerance zone of a buried service.
    CgaTolerance = "cga-best-practices", Read, "CGA Best Practices and utilities' pages: 18 or 24 in from the outside edge, 48 in in Michigan";
    CgaTicketLife = "cga-ticket-life", Read, "CGA Best Practices 20.0, 5.23: a locate notice holds ideally 10 and at most 20 working days where no law says otherwise; 17, 21, 28, 30 days in four states";
    OneCallNotice = "one-call-notice", Read, "One-call centres' pages: whole working days between notice and digging, South Carolina 3, Alabama and Illinois 2, elsewhere others";
    AdaHeadroom = "ada2010-307", Read, "2010 ADA Standards, 307.4: vertical clearance 80 in";
    VehicleHeadroom = "rast06", Read, "RASt 06 (FGSV, Germany): clearance height of motor traffic 4.50 m";
    Wmm2025 = "wmm2025", Read, "World Magnetic Model 2025 (NOAA/BGS)";
    Gum2008 = "gum2008", Read, "ISO/IEC Guide 98-3:2008 (GUM)";
    Ghilani = "ghilani2010", Read, "Ghilani, Adjustment Computations";
    OpenGlPerspective = "opengl-perspective", Read, "OpenGL reference, gluPerspective: the pinhole camera";
    Crow1977 = "crow1977", FromMemory, "Crow, Shadow algorithms for computer graphics (SIGGRAPH 1977)";
    SutherlandHodgman1974 = "sutherland-hodgman1974", FromMemory, "Sutherland and Hodgman, Reentrant polygon clipping (CACM 17(1), 1974)";
    Meisters1975 = "meisters1975", FromMemory, "Meisters, Polygons have ears (American Mathematical Monthly 82, 1975)";
    Stopwatch2019 = "stopwatch2019", Read, "Am. J. Phys. 87(2), 110 (2019): how well a hand stops a watch (abstract)";
    SmithSasp = "smith-sasp", Read, "Smith, Spectral Audio Signal Processing, tab. 5.3: padding for a parabola through three bins";
    RifeBoorstyn1974 = "rife-boorstyn1974", FromMemory, "Rife and Boorstyn, Single-tone parameter estimation (IEEE Trans. Inf. Theory 20, 1974)";
    Irvine1981 = "irvine1981", FromMemory, "Irvine, Cable Structures (1981), ch. 2";
    ApparentDip = "ragan2009", FromMemory, "Ragan, Structural Geology: apparent dip";
    PhoneTilt = "phone-tilt", Read, "Phone tilt after reversal, 0.2–0.5°";
    LvivPhones = "lpnu2017", Read, "Lviv Polytechnic, smartphones for orientation angles in the field";
    TiaGuys = "tia222", Read, "ANSI/TIA-222 13.3.2 (initial tension, plumb), as quoted in a Planning Advisory Notice";
    Tia222Inspection = "tia222-14", Read, "ANSI/TIA-222-G and -H, section 14: a guyed mast is looked over after severe wind, ice and other extremes (as quoted)";
    AnsiC80_1 = "ansi-c80-1", Read, "ANSI C80.1 rigid metal conduit";
    AnsiC80_6 = "ansi-c80-6", Read, "ANSI C80.6 intermediate metal conduit";
    AnsiC80_3 = "ansi-c80-3", Read, "ANSI C80.3 electrical metallic tubing";
    AsmeB36_10 = "asme-b36-10", Read, "ASME B36.10M steel pipe";
    AstmA53 = "astm-a53", Read, "ASTM A53: diameters, wall 12.5 % under, mass 10 % over (as a pipe seller quotes it)";
    AstmD1785 = "astm-d1785", Read, "ASTM D1785-88, PVC pipe schedule 40 (limits as quoted)";
    En1993_1_8 = "en1993-1-8", Read, "EN 1993-1-8:2005, Table 3.3: holes at least 1.2 diameters from an end, 2.2 from each other (as quoted)";
    AiscPins = "aisc360-16-pins", Read, "AISC 360-16, D5, J3.6, J7: pins and bolts in shear and bearing (worked examples read)";
    BeerJohnston = "beer-johnston-collar", Read, "Beer & Johnston, Vector Mechanics: Statics, Sample Problem 4.13: a collar that holds by friction";
    Gieck = "gieck", Read, "Gieck, Technical Formulae: friction of steel, by tables that quote it; the books differ five times";
    Lobben = "lobben", Read, "Lobben, Machinists' and Draftsmen's Handbook, p. 325: the crank of a hand derrick";
    FallProtection = "fall-protection4", Read, "Introduction to Fall Protection, 4th ed., p. 370: cranking for several minutes (as quoted)";
    HookRules = "cfr1910-179", Read, "29 CFR 1910.179(j)(2)(iii): hooks out of service (as quoted)";
    En39 = "en39", Read, "EN 39:2001 scaffold tube";
    En10255 = "en10255", Read, "EN 10255 medium series";
    NavedtraPickets = "navedtra14251", Read, "NAVEDTRA 14251, Steelworker vol. 2";
    Fieller1954 = "fieller1954", Read, "Fieller, Some problems in interval estimation, J. R. Stat. Soc. B 16 (1954)";
    Brent1973 = "brent1973", FromMemory, "Brent, Algorithms for Minimization without Derivatives (1973), ch. 4";
    /// Weight of steel.
    En1991_1_1 = "en1991-1-1", Read, "EN 1991-1-1:2002, Table A.4: steel 77.0–78.5 kN/m³";
    W3cMotion = "w3c-devicemotion", Read, "W3C Device Orientation and Motion: axes, accelerationIncludingGravity";
    Widrow2008 = "widrow2008", Read, "Widrow & Kollár, Quantization Noise (2008)";
    Asce7_16 = "asce7-16", Read, "ASCE 7-16, 26.10: velocity pressure (constants read in open-source libraries)";
    Asce7_22 = "asce7-22", Read, "ASCE 7-22, 26.10: velocity pressure (constants read in public implementations)";
    /// How far houses or wood have to reach upwind.
    Asce7Fetch = "asce7-fetch", Read, "ASCE 7-16, 26.7.3: exposure B upwind for more than 1,500 ft, above 30 ft of height 2,600 ft or 20 heights (as quoted publicly)";
    En1991_1_4 = "en1991-1-4", Read, "EN 1991-1-4:2005+A1:2010, section 4: peak velocity pressure";
    En1991_1_4Drag = "en1991-1-4-drag", Read, "EN 1991-1-4, 7.9 and 7.13: round cylinders (worked sums and open-source code read)";
    Iso2533 = "iso2533", Read, "ISO 2533:1975 standard atmosphere";
    Hoerner1965 = "hoerner1965", Read, "Hoerner, Fluid-Dynamic Drag (1965), ch. 3: cross-flow principle";
    Iso12494 = "iso12494", Read, "ISO 12494:2001 atmospheric icing: glaze 900 kg/m³; ASCE 7-16 eq. 10.4-1";
    WmoBeaufort = "wmo-beaufort", Read, "WMO Beaufort scale: ten-minute mean at 10 m";
    Wmo1555 = "wmo-td1555", Read, "WMO/TD-1555 (2010), Table 1.1: gust over mean, as carried by a weather office";
    Ibc1806 = "ibc1806", Read, "IBC 2012, Table 1806.2: presumptive values of soils";
    /// Consistency of clay by thumb and fist.
    Tm5_818_1 = "tm5-818-1", Read, "TM 5-818-1 (UFC 3-220-03FA), Table 2-2: consistency of clays";
    /// Friction and weight of sand by density.
    Em1110_2504 = "em1110-2-2504", Read, "EM 1110-2-2504, Table 3-1: granular soils (after Teng)";
    Ufc3_220_20 = "ufc3-220-20", Read, "UFC 3-220-20 (2025), eq. 6-55: factor 2.0 on live load with Broms's method, as in an open-source library";
    HoytClemence1989 = "hoyt-clemence1989", Read, "Hoyt & Clemence (1989): uplift of helical anchors from torque, as quoted in a technical manual";
    Ac358 = "icc-es-ac358", Read, "ICC-ES AC358: torque factors, factor of safety 2.0, as told in makers' manuals";
    HelixBearing = "mitsch-clemence1985", Read, "Bearing of a helix: 9·c in clay; in sand 0.5·(12φ)^(φ/54), said to be Mitsch & Clemence's (1985), as in public code";
    MeyerhofAdams1968 = "meyerhof-adams1968", Read, "Meyerhof & Adams (1968): uplift of plates in sand, values as reprinted in a 2017 book";
    DasAnchors = "das2013", FromMemory, "Das & Shukla, Earth Anchors: shape factors, critical depths, plates in clay";
    Tm5_5420 = "tm5-5420-278-10", Read, "TM 5-5420-278-10, Table 9: deadman holding power";
    RescuePickets = "usar-fog-2006", Read, "USACE Urban Search and Rescue Field Operations Guide (2006), after FHWA-IP-84-11: pickets in clay and sand, as in an open-source table";
    HelixManual = "helical-manual", Read, "A maker's technical manual of helical anchors, p. 40: 5 diameters deep, 3 diameters apart";
    ScrewSpacing = "shaheen-demars1995", Read, "Shaheen & Demars (1995): screw anchors 5 diameters apart in dense sand, by its abstract";
    WetGround = "wet-ground", Read, "Anchor makers' rule of thumb: saturated soil holds about half";
    Fm5_125 = "fm5-125", FromMemory, "FM 5-125: picket holdfasts and soil factors";
    BromsClay = "broms1964-clay", Read, "Broms (1964), piles in cohesive soil, as given in two textbooks";
    BromsSand = "broms1964-sand", Read, "Broms (1964), piles in cohesionless soil, as in two public implementations";
    Tia222F = "tia222f", FromMemory, "ANSI/TIA-222-F: factor of safety 2.0 on guys and on anchors against uplift";
    En1993_1_1 = "en1993-1-1", Read, "EN 1993-1-1:2005, 5.2 to 5.5, 6.2, 6.3 (values read in open-source code; strut table of 18 lengths)";
    Aisc360 = "aisc360-16", Read, "AISC 360-16, B4.1, E3, E7, F8, H1 (values read in open-source code; Manual Tables 3-14 and 4-5 in part)";
    Aisc360E2 = "aisc360-16-e2", FromMemory, "AISC 360-16, E2, user note: slenderness of a compression member preferably at most 200; Table C-A-7.1, K = 2.0 of a cantilever";
    HseL23 = "hse-l23", Read, "HSE L23 and INDG143: to start a pull 20 kg for men, 15 kg for women (as their pages have it); teams: two lift 2/3, three 1/2 of their sum, more than four unlikely to work (as quoted)";
    Cfr1926_968 = "cfr1926-968", Read, "29 CFR 1926.968, definitions: high wind, more than 30 mph where material is handled (as quoted)";
    Niosh94_110 = "niosh94-110", FromMemory, "NIOSH 94-110, lifting equation: load constant 23 kg (51 lb)";
    AsmeB1_20_1 = "asme-b1-20-1", Read, "ASME B1.20.1: pipe threads, height 0.8 of the pitch";
    Tm5_3810 = "tm5-3810-305-10", Read, "TM 5-3810-305-10, Table 4: efficiency of rope terminations";
    Navedtra14026 = "navedtra14026", Read, "NAVEDTRA 14026, p. 1-8: wire rope clips";
    CordageInstitute = "ci1308", Read, "CI 1308-96 fibre rope: design factor 5 to 12";
    RopeLore = "rope-lore", Read, "Rope sellers' tables: knots halve a rope, figure-eight loop 35 % loss";
    RopeSplices = "rope-splices", Read, "A rigger's page: a splice keeps 70–90 % of the breaking load, a knot 30–50 %";
    WetRope = "wet-rope", Read, "Rope notes: wet nylon loses 10–20 %, wet natural fibre up to half";
    Nds2018 = "nds2018", Read, "NDS Supplement 2018, Table 4A: compression perpendicular to grain (read in open-source libraries)";
    IllinoisTies = "il77-870-200", Read, "77 Ill. Adm. Code 870.200 (b): tie-down anchors proved to 1.5 of the working load";
    Caltrans46 = "caltrans-46-2", Read, "Caltrans Standard Specifications, 46-2.01D: proof test to 1.5 of the design force, held 10 minutes";
    AstmA615 = "astm-a615", Read, "ASTM A615: reinforcing bar, Grade 40 yields at 280 MPa";
    GhilaniWolf = "ghilaniwolf2012", FromMemory, "Ghilani & Wolf, Elementary Surveying";
    Rfc7946 = "rfc7946", Read, "RFC 7946, The GeoJSON Format";
    Przemieniecki1968 = "przemieniecki1968", FromMemory, "Przemieniecki, Theory of Matrix Structural Analysis (1968), ch. 15: geometric stiffness, buckling";
    Crisfield1997 = "crisfield1997", FromMemory, "Crisfield, Non-linear Finite Element Analysis, vol. 2 (1997), ch. 17: corotational beams";
    Simo1992 = "simo1992", FromMemory, "Simo, The (symmetric) Hessian for geometrically nonlinear models in solid mechanics (1992)";
    Absil2008 = "absil2008", FromMemory, "Absil, Mahony & Sepulchre, Optimization Algorithms on Matrix Manifolds (2008), ch. 4: retractions";
    Genz1998 = "genz1998", Read, "Genz & Monahan, Stochastic integration rules for infinite regions, SIAM J. Sci. Comput. 19 (1998), by its abstract: directions and radius apart";
    Higham2002 = "higham2002", FromMemory, "Higham, Accuracy and Stability of Numerical Algorithms, 2nd ed. (2002), 10.3: Cholesky with complete pivoting";
    Gonzalez2010 = "gonzalez2010", Read, "González, Measurement of areas on a sphere using Fibonacci and latitude–longitude lattices, Math. Geosci. 42 (2010) 49–64";
    Nocedal2006 = "nocedal2006", FromMemory, "Nocedal & Wright, Numerical Optimization, 2nd ed. (2006), 3.4: Hessian modification";
    Baarda1968 = "baarda1968", Read, "Baarda, A testing procedure for use in geodetic networks (1968): one reading at a time, 80 % power (values read in teaching slides and a program's help)";
    Dunn1961 = "dunn1961", FromMemory, "Dunn, Multiple comparisons among means, J. Am. Stat. Assoc. 56 (1961): the level shared among all tests";
    HeldKarp1962 = "held-karp1962", FromMemory, "Held & Karp, A dynamic programming approach to sequencing problems, J. SIAM 10 (1962)";
    GilmoreGomory1961 = "gilmore-gomory1961", FromMemory, "Gilmore & Gomory, A linear programming approach to the cutting-stock problem (Operations Research 9, 1961)";
    Farley1990 = "farley1990", FromMemory, "Farley, A note on bounding a class of linear programming problems (Operations Research 38, 1990)";
    Nec210_20 = "nec-210-20", Read, "NEC (NFPA 70), 210.20(A): breaker at least other loads plus 125 % of a continuous one (as a maker's data bulletin quotes it)";
    Nec210_19 = "nec-210-19", FromMemory, "NEC (NFPA 70), 210.19(A), informational note: 3 % of the voltage on the way to the farthest outlet";
    Nec210_8 = "nec-210-8", FromMemory, "NEC (NFPA 70), 210.8: outlets outdoors are guarded against leakage of current";
    NecTable8 = "nec-table8", FromMemory, "NEC (NFPA 70), chapter 9, table 8: stranded copper at 75 °C (the solid column of 14 to 10 AWG, 2 % less, read on a public page)";
    Iec60228 = "iec60228", Read, "IEC 60228, class 5: the most that flexible copper wires resist (as on two public pages)";
    NecBends = "nec-bends", Read, "NEC (NFPA 70), chapter 9, table 2: least radius to the middle line, one-shot and full-shoe benders, as on a maker's chart";
    PvcColdBend = "pvc-cold-bend", Read, "Makers of PVC conduit and water pipe: bent cold to no less than 300 outside diameters; some utilities forbid it";
    Golub = "golub-vanloan", FromMemory, "Golub & Van Loan, Matrix Computations, 4th ed. (2013): block tridiagonal systems, inertia";
}
