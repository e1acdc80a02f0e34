//! TM 5-3810-305-10, Table 4 (ends of wire rope), NAVEDTRA 14026 p. 1-8 (clips), CI 1308-96 (manila): read.

use mastwright_engine::resistance::rope::{
    Breaking, FIBRE_FACTOR, RopeEnd, RopeMaterial, clip_spacing_mm, clips_needed, resistance,
};

#[test]
fn efficiencies() {
    for (end, percent) in [
        (RopeEnd::Clips, 80.0),
        (RopeEnd::Sleeve, 92.5),
        (RopeEnd::ThimbleSplice, 76.0),
        (RopeEnd::WedgeSocket, 75.0),
    ] {
        assert!((end.efficiency().0 * 100.0 - percent).abs() < 1e-9);
    }
}

/// 3·D + 1: 1 in takes 4, 1/2 in takes 2.5, that is 3; six diameters apart.
#[test]
fn clips() {
    assert_eq!([25.4, 12.7, 6.35, 4.76].map(clips_needed), [4, 3, 2, 2]);
    assert!((clip_spacing_mm(12.7) - 76.2).abs() < 1e-9);
}

/// Manila of 1/4 in breaks at 540 lb at least; with knots at both ends and the least design factor of 5, 54 lb in use:
/// the tenth that the sellers' tables print as its working load.
#[test]
fn manila() {
    let held = resistance(
        Breaking::Least { strength_n: 540.0 * 4.448_222 },
        RopeMaterial::Fibre,
        [RopeEnd::Knot; 2],
    );
    assert!((held.allowable_n().unwrap() / 4.448_222 - 54.0).abs() < 1e-6);
    assert_eq!(FIBRE_FACTOR, 5.0);
}
