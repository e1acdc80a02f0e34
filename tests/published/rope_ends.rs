//! TM 5-3810-305-10, Table 4 (ends of wire rope), NAVEDTRA 14026 p. 1-8 (clips), CI 1308-96 (manila): read.

use mastwright_engine::resistance::rope::{
    Breaking, GuyRope, LEAST_FIBRE_FACTOR, RopeEnd, RopeMaterial, clip_spacing_mm, clips_needed,
};

#[test]
fn efficiencies() {
    for (end, percent) in [
        (RopeEnd::Clips, 80.0),
        (RopeEnd::Sleeve, 92.5),
        (RopeEnd::ThimbleSplice, 76.0),
        (RopeEnd::WedgeSocket, 75.0),
    ] {
        assert!((end.efficiency().unwrap().0 * 100.0 - percent).abs() < 1e-9);
    }
}

/// 3·D + 1: 1 in takes 4, 1/2 in takes 2.5, that is 3; six diameters apart.
#[test]
fn clips() {
    assert_eq!([25.4, 12.7, 6.35, 4.76].map(clips_needed), [4, 3, 2, 2]);
    assert!((clip_spacing_mm(12.7) - 76.2).abs() < 1e-9);
}

/// Manila of 1/4 in breaks at 540 lb at least. Sellers' tables print a tenth of that, 54 lb, as its working load: the
/// factor 10 of manila. With a knot and in the rain a quarter of it is left: 13.5 lb.
#[test]
fn manila() {
    let rope = GuyRope {
        breaking: Breaking::Least { strength_n: 540.0 * 4.448_222 },
        material: RopeMaterial::Natural,
        ends: [RopeEnd::Knot; 2],
        factor: None,
    };
    assert!((rope.resistance().allowable_n().unwrap() / 4.448_222 - 13.5).abs() < 1e-6);
}

/// CI 1308-96 and CI 1401: 5 to 12 on fibre rope. A guy stands for weeks, knotted, in sun and rain, over people: no
/// material's own factor is the least one, and none is beyond the range.
#[test]
fn fibre_ropes_have_a_factor_within_the_published_range() {
    let fibres =
        [RopeMaterial::Polyester, RopeMaterial::Nylon, RopeMaterial::Polypropylene, RopeMaterial::Natural];
    for material in fibres {
        assert!((7.0..=12.0).contains(&material.design_factor()), "{material:?}");
    }
    assert_eq!(LEAST_FIBRE_FACTOR, 5.0);
}
