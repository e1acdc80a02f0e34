//! The publications that the engine computes by: one entry each, cited by code, findings and docs.
//! Each key is also the entry's key in `docs/references.bib`; a test holds the two together.

use serde::{Deserialize, Serialize};

/// How sure we are that a value is what the publication says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Confidence {
    /// The text was read.
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
        #[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
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
    CgaTolerance = "cga-best-practices", FromMemory, "CGA Best Practices: tolerance zone 18 in and more each side; states 18–30 in";
    AdaHeadroom = "ada2010-307", FromMemory, "2010 ADA Standards, 307.4: vertical clearance 80 in";
    VehicleHeadroom = "rast06", FromMemory, "RASt 06 (FGSV, Germany): clearance height of motor traffic 4.50 m";
    Wmm2025 = "wmm2025", Read, "World Magnetic Model 2025 (NOAA/BGS)";
    Gum2008 = "gum2008", FromMemory, "ISO/IEC Guide 98-3:2008 (GUM)";
    Ghilani = "ghilani2010", FromMemory, "Ghilani, Adjustment Computations";
    Irvine1981 = "irvine1981", FromMemory, "Irvine, Cable Structures (1981), ch. 2";
    ApparentDip = "ragan2009", FromMemory, "Ragan, Structural Geology: apparent dip";
    PhoneTilt = "phone-tilt", FromMemory, "Phone tilt after reversal, 0.2–0.5°";
    LvivPhones = "lpnu2017", Read, "Lviv Polytechnic, smartphones for orientation angles in the field";
    TiaGuys = "tia222", Read, "ANSI/TIA-222 13.3.2 (initial tension, plumb), as quoted in a Planning Advisory Notice";
    AnsiC80_1 = "ansi-c80-1", Read, "ANSI C80.1 rigid metal conduit";
    AnsiC80_6 = "ansi-c80-6", Read, "ANSI C80.6 intermediate metal conduit";
    AnsiC80_3 = "ansi-c80-3", Read, "ANSI C80.3 electrical metallic tubing";
    AsmeB36_10 = "asme-b36-10", Read, "ASME B36.10M steel pipe";
    En39 = "en39", Read, "EN 39:2001 scaffold tube";
    En10255 = "en10255", FromMemory, "EN 10255 medium series";
    NavedtraPickets = "navedtra14251", Read, "NAVEDTRA 14251, Steelworker vol. 2";
    Fieller1954 = "fieller1954", FromMemory, "Fieller, Some problems in interval estimation, J. R. Stat. Soc. B 16 (1954)";
    Brent1973 = "brent1973", FromMemory, "Brent, Algorithms for Minimization without Derivatives (1973), ch. 4";
    /// Weight of steel.
    En1991_1_1 = "en1991-1-1", FromMemory, "EN 1991-1-1:2002, Table A.4: steel 77.0–78.5 kN/m³";
    W3cMotion = "w3c-devicemotion", FromMemory, "W3C Device Orientation and Motion: axes, accelerationIncludingGravity";
    Widrow2008 = "widrow2008", FromMemory, "Widrow & Kollár, Quantization Noise (2008)";
}
