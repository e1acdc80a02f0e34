//! The picture from a standpoint against published relations of the pinhole camera, and two scenes worked by hand.
//! OpenGL reference, gluPerspective: f = cot(fovy/2); angle of view 2·atan(w/2f).

use mastwright_engine::view::{Camera, Look};

fn look(field_deg: f64, aspect: f64) -> Look {
    Look { toward_deg: 0.0, pitch_deg: 0.0, field_deg, aspect }
}

/// In degrees over the horizontal, as a row of a level picture has it.
fn elevation_deg(camera: &Camera, row: f64, field_deg: f64) -> f64 {
    assert_eq!(camera.look().pitch_deg, 0.0);
    (row * (field_deg / 2.0).to_radians().tan()).atan().to_degrees()
}

/// fovy 60°, aspect 4/3: the point (1, 2, −5) is at (0.2598076, 0.6928203) of a picture from −1 to 1 either way, and at
/// (503.923, 92.154) of 800 × 600 pixels, y down.
#[test]
fn a_point_lies_where_the_perspective_matrix_puts_it() {
    let field_deg = 2.0 * ((4.0 / 3.0) * 30.0_f64.to_radians().tan()).atan().to_degrees();
    let camera = Camera::new([0.0; 3], look(field_deg, 4.0 / 3.0));
    assert!((camera.look().field_up_deg() - 60.0).abs() < 1e-9);
    // Right 1, up 2, ahead 5: looking north that is east 1, north 5, up 2.
    let [x, y] = camera.on_picture(camera.before([1.0, 5.0, 2.0]));
    let y = y / camera.half_height();
    assert!((x - 0.259_807_6).abs() < 1e-7 && (y - 0.692_820_3).abs() < 1e-7, "{x} {y}");
    let px = [400.0 * (1.0 + x), 300.0 * (1.0 - y)];
    assert!((px[0] - 503.923).abs() < 1e-3 && (px[1] - 92.154).abs() < 1e-3, "{px:?}");
}

/// 1280 × 720 pixels, f 1027.3 and 1026.9: 63.845° by 38.638°.
#[test]
fn an_angle_of_view_follows_from_the_other() {
    let camera = Camera::new([0.0; 3], look(63.845, 1280.0 / 720.0));
    assert!((camera.look().field_up_deg() - 38.638).abs() < 0.02, "{}", camera.look().field_up_deg());
}

/// 2.00 m at 5.00 m cover 1,200 of the 4,000 pixels of a picture of 67.38° (f = 3,000 px); 650 px off its middle are 12.23°.
#[test]
fn a_known_length_covers_its_pixels() {
    let camera = Camera::new([0.0; 3], look(67.380_135, 1.5));
    let px = |p: [f64; 3]| 2000.0 * camera.on_picture(camera.before(p))[0];
    assert!((px([1.0, 5.0, 0.0]) - px([-1.0, 5.0, 0.0]) - 1200.0).abs() < 0.01);
    let off = px([12.23_f64.to_radians().tan(), 1.0, 0.0]);
    assert!((off - 650.0).abs() < 0.5, "{off}");
}

/// Eyes 1.60 m over the ground; a mast of 9.00 m stands 20 m away on ground 0.50 m lower: its top +19.03°, its foot −5.99°.
#[test]
fn a_mast_covers_its_angle() {
    let field_deg = 60.0;
    let camera = Camera::new([0.0, 0.0, 1.6], look(field_deg, 1.2));
    let row = |z: f64| camera.on_picture(camera.before([0.0, 20.0, z]))[1];
    let top_deg = elevation_deg(&camera, row(8.5), field_deg);
    let foot_deg = elevation_deg(&camera, row(-0.5), field_deg);
    assert!((top_deg - 19.03).abs() < 0.005 && (foot_deg + 5.99).abs() < 0.005, "{top_deg} {foot_deg}");
}
