//! ASME B1.20.1, taper pipe threads: basic dimensions as printed in a pipe seller's table (read), and what they leave of
//! conduit.

use mastwright_engine::resistance::threaded::{npt, under_thread};
use mastwright_engine::resistance::tube::SteelTube;

/// Size, height of thread in mm, pitch diameter E1 in mm, as printed; the table rounds both to 1 µm.
#[test]
fn heights_and_pitch_diameters() {
    for (size, height_mm, pitch_mm) in [
        ("1/2", 1.451, 19.772),
        ("3/4", 1.451, 25.117),
        ("1", 1.767, 31.461),
        ("1-1/4", 1.767, 40.218),
        ("1-1/2", 1.767, 46.287),
        ("2", 1.767, 58.325),
        ("2-1/2", 2.540, 70.159),
        ("3", 2.540, 86.068),
        ("3-1/2", 2.540, 98.776),
        ("4", 2.540, 111.433),
    ] {
        let thread = npt(size).unwrap();
        assert!((thread.height_mm() - height_mm).abs() < 1e-3, "{size}");
        assert!((thread.pitch_diameter_in * 25.4 - pitch_mm).abs() < 1e-3, "{size}");
        assert!((thread.root_diameter_mm() - (pitch_mm - height_mm)).abs() < 2e-3, "{size}");
    }
}

/// 2 in schedule 40 (2.375 × 0.154 in), by hand: root 2.29627 − 0.06957 = 2.22670 in, wall (2.22670 − 2.067)/2 =
/// 0.07985 in. The table rounds the height to five digits.
#[test]
fn what_is_left_of_two_inch_pipe() {
    let pipe = SteelTube { outside_mm: 2.375 * 25.4, wall_mm: 0.154 * 25.4, yield_mpa: 240.0 };
    let root = under_thread(&pipe, npt("2").unwrap()).unwrap();
    assert!((root.outside_mm / 25.4 - 2.22670).abs() < 2e-5);
    assert!((root.wall_mm / 25.4 - 0.07985).abs() < 2e-5);
}
