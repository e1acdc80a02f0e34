//! Tubes with taper pipe threads: the thread takes most of half the wall away.

use super::tube::SteelTube;
use super::unshown::TubeUnshown;

/// A taper pipe thread, NPT.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeThread {
    /// Trade size, as in the tube tables.
    pub size: &'static str,
    pub threads_per_inch: f64,
    /// Pitch diameter E1 where a coupling is hand-tight, inches.
    pub pitch_diameter_in: f64,
}

const fn thread(size: &'static str, threads_per_inch: f64, pitch_diameter_in: f64) -> PipeThread {
    PipeThread { size, threads_per_inch, pitch_diameter_in }
}

/// Threads of conduit (ANSI C80.1, C80.6) and pipe (ASME B1.20.1, basic dimensions; read).
pub const NPT: [PipeThread; 10] = [
    thread("1/2", 14.0, 0.778_43),
    thread("3/4", 14.0, 0.988_87),
    thread("1", 11.5, 1.238_63),
    thread("1-1/4", 11.5, 1.583_38),
    thread("1-1/2", 11.5, 1.822_34),
    thread("2", 11.5, 2.296_27),
    thread("2-1/2", 8.0, 2.762_15),
    thread("3", 8.0, 3.388_50),
    thread("3-1/2", 8.0, 3.888_81),
    thread("4", 8.0, 4.387_12),
];

/// The thread of a trade size.
pub fn npt(size: &str) -> Option<&'static PipeThread> {
    NPT.iter().find(|thread| thread.size == size.trim())
}

impl PipeThread {
    /// Height of the thread: 0.8 of the pitch (ASME B1.20.1, 2.4).
    pub fn height_mm(&self) -> f64 {
        0.8 * 25.4 / self.threads_per_inch
    }

    /// Diameter at the root in the plane of hand-tight engagement: E1 less one height of thread, half of it on each
    /// side below the pitch line. A tightened coupling ends a little farther up the taper, where there is more metal.
    pub fn root_diameter_mm(&self) -> f64 {
        self.pitch_diameter_in * 25.4 - self.height_mm()
    }
}

/// Under this there is no wall to speak of once the bore's own tolerance is taken off (common practice).
const LEAST_WALL_MM: f64 = 0.3;

/// The tube that is left under the thread: its outside is the root, its bore the tube's own.
///
/// Use it for compression and for bending at a coupling, and take [`moment_nm`] for the latter. Such a joint is
/// notched: nothing here speaks of fatigue, nor of the coupling itself.
///
/// # Errors
/// Where the thread leaves no wall (such as a pipe thread on thin-walled tubing).
pub fn under_thread(tube: &SteelTube, thread: &PipeThread) -> Result<SteelTube, TubeUnshown> {
    let inside_mm = tube.outside_mm - 2.0 * tube.wall_mm;
    if thread.pitch_diameter_in * 25.4 >= tube.outside_mm {
        return Err(TubeUnshown::ThreadOfLargerTube);
    }
    let outside_mm = thread.root_diameter_mm();
    let wall_mm = (outside_mm - inside_mm) / 2.0;
    if wall_mm.is_nan() || wall_mm < LEAST_WALL_MM {
        return Err(TubeUnshown::ThreadLeavesNoWall);
    }
    Ok(SteelTube { outside_mm, wall_mm, yield_mpa: tube.yield_mpa })
}

/// Moment at which the root of the thread begins to yield: elastic, since a notch has nothing to spare.
pub fn moment_nm(under_thread: &SteelTube) -> f64 {
    under_thread.elastic_modulus_mm3() * under_thread.yield_mpa / 1000.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thread_takes_about_half_of_the_wall() {
        // 2 in RMC: 60.325 × 3.708 mm.
        let tube = SteelTube { outside_mm: 60.325, wall_mm: 3.708, yield_mpa: 205.0 };
        let root = under_thread(&tube, npt("2").unwrap()).unwrap();
        assert!((root.wall_mm / tube.wall_mm - 0.49).abs() < 0.02, "{}", root.wall_mm);
        assert!(moment_nm(&root) < 0.55 * tube.elastic_modulus_mm3() * 0.205);
        // 2 in EMT is narrower than the pipe thread of its size.
        let emt = SteelTube { outside_mm: 55.8, wall_mm: 1.65, yield_mpa: 205.0 };
        assert!(under_thread(&emt, npt("2").unwrap()).is_err());
        let thin = SteelTube { outside_mm: 60.325, wall_mm: 1.65, yield_mpa: 205.0 };
        assert!(under_thread(&thin, npt("2").unwrap()).is_err());
        assert!(npt("7").is_none());
    }
}
