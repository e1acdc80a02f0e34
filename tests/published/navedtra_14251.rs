//! NAVEDTRA 14251, Steelworker volume 2, figures 6-45 to 6-47: picket holdfasts in undisturbed loam. Read; the 1-1 and
//! 2-1 holdfasts are from memory of FM 5-125.

use mastwright_engine::anchor::deadman::MilitarySoil;
use mastwright_engine::anchor::picket::{Pickets, resistance};
use mastwright_engine::resistance::Resistance;
use mastwright_engine::source::Confidence;

#[test]
fn holding_power_in_loam() {
    for (pickets, pounds, confidence) in [
        (Pickets::Single, 700.0, Confidence::Read),
        (Pickets::OneOneOne, 1800.0, Confidence::Read),
        (Pickets::ThreeTwoOne, 4000.0, Confidence::Read),
        (Pickets::OneOne, 1400.0, Confidence::FromMemory),
        (Pickets::TwoOne, 2000.0, Confidence::FromMemory),
    ] {
        let Resistance::Shown(shown) = resistance(pickets, MilitarySoil::Loam) else {
            panic!("{pickets:?} is not shown")
        };
        assert!((shown.ultimate_n / 4.448_222 - pounds).abs() < 0.01);
        assert_eq!(shown.confidence, confidence);
        assert!((shown.allowable_n() * 2.0 - shown.ultimate_n).abs() < 1e-9);
    }
}
