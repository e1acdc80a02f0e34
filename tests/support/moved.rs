//! The same job turned about its origin, or seen in a mirror that swaps east and west.

use mastwright_engine::job::{AnchorLayout, BearingReference, Job, Measurement, PointFix, Shape, Side};

/// How every point and bearing of a job is changed.
#[derive(Debug, Clone, Copy)]
pub enum Move {
    /// Turned clockwise.
    Turn { by_deg: f64 },
    /// East becomes west.
    Mirror,
}

impl Move {
    pub fn point(self, [east, north]: [f64; 2]) -> [f64; 2] {
        match self {
            Self::Turn { by_deg } => {
                let (sin, cos) = by_deg.to_radians().sin_cos();
                [east * cos + north * sin, north * cos - east * sin]
            }
            Self::Mirror => [-east, north],
        }
    }

    pub fn bearing(self, bearing_deg: f64) -> f64 {
        let moved = match self {
            Self::Turn { by_deg } => bearing_deg + by_deg,
            Self::Mirror => -bearing_deg,
        };
        moved.rem_euclid(360.0)
    }

    /// A turn from one direction to another.
    pub fn turn(self, turn_deg: f64) -> f64 {
        match self {
            Self::Turn { .. } => turn_deg,
            Self::Mirror => -turn_deg,
        }
    }

    fn side(self, side: Side) -> Side {
        match (self, side) {
            (Self::Turn { .. }, side) => side,
            (Self::Mirror, Side::Left) => Side::Right,
            (Self::Mirror, Side::Right) => Side::Left,
        }
    }

    /// `readings`: whether bearings as read turn too. By a compass they stay, and its north turns instead.
    fn fix(self, fix: &mut PointFix, readings: bool) {
        match fix {
            PointFix::BearingTape { .. } | PointFix::SlopeTape { .. } if !readings => {}
            PointFix::Origin => {}
            PointFix::Coordinates { east_m, north_m } => {
                [*east_m, *north_m] = self.point([*east_m, *north_m])
            }
            PointFix::BearingTape { bearing_deg, .. } => *bearing_deg = self.bearing(*bearing_deg),
            PointFix::SlopeTape { bearing_deg, .. } => *bearing_deg = self.bearing(*bearing_deg),
            PointFix::TwoTapes { side, .. } => *side = side.map(|side| self.side(side)),
            PointFix::Offset { side, .. } => *side = self.side(*side),
            PointFix::NextCorner { turn, .. } => *turn = self.side(*turn),
            PointFix::ThreeTapes { .. } => {}
        }
    }

    /// The whole job moved. Its bearings must be true ones, or by a compass whose declination the job gives: that turns
    /// with the yard.
    pub fn job(self, job: &Job) -> Job {
        let mut job = job.clone();
        let readings = match (&mut job.yard.bearings, self) {
            (BearingReference::True, _) => true,
            (
                BearingReference::Magnetic { declination_deg: Some(declination_deg) },
                Self::Turn { by_deg },
            ) => {
                *declination_deg = (*declination_deg + by_deg + 180.0).rem_euclid(360.0) - 180.0;
                false
            }
            _ => panic!("this job's north can't be moved"),
        };
        for_each_fix(&mut job, |fix| self.fix(fix, readings));
        if readings {
            for slope in &mut job.yard.slopes {
                slope.bearing_deg = self.bearing(slope.bearing_deg);
            }
            for measurement in &mut job.yard.measurements {
                if let Measurement::Bearing { bearing_deg, .. } = measurement {
                    *bearing_deg = self.bearing(*bearing_deg);
                }
            }
        }
        job.placement.front_bearing_deg = self.bearing(job.placement.front_bearing_deg);
        job.placement.guy_turn_deg = self.turn(job.placement.guy_turn_deg);
        job.raising.lies_toward_deg = job.raising.lies_toward_deg.map(|deg| self.bearing(deg));
        for standpoint in &mut job.standpoints {
            standpoint.toward_deg = standpoint.toward_deg.map(|deg| self.bearing(deg));
        }
        if let Some(strands) = &mut job.rig.strands {
            strands.facing_turn_deg = self.turn(strands.facing_turn_deg);
        }
        job
    }
}

fn for_each_fix(job: &mut Job, mut change: impl FnMut(&mut PointFix)) {
    let yard = &mut job.yard;
    yard.marks.iter_mut().for_each(|mark| change(&mut mark.at));
    yard.spot_heights.iter_mut().for_each(|spot| change(&mut spot.at));
    for obstacle in &mut yard.obstacles {
        match &mut obstacle.shape {
            Shape::Tree { at, .. } | Shape::Post { at, .. } => change(at),
            Shape::Building { outline, .. } | Shape::KeepOff { outline } => {
                outline.iter_mut().for_each(&mut change)
            }
            Shape::Barrier { line, .. } | Shape::Path { line, .. } => line.iter_mut().for_each(&mut change),
        }
    }
    yard.boundary.iter_mut().flat_map(|boundary| &mut boundary.outline).for_each(&mut change);
    yard.overhead_lines
        .iter_mut()
        .flat_map(|line| &mut line.supports)
        .for_each(|support| change(&mut support.at));
    yard.buried_services.iter_mut().flat_map(|service| &mut service.line).for_each(&mut change);
    for level in &mut job.rig.guy_levels {
        if let AnchorLayout::Free { anchors } = &mut level.anchor_layout {
            anchors.iter_mut().for_each(&mut change);
        }
    }
    job.standpoints.iter_mut().for_each(|standpoint| change(&mut standpoint.at));
    change(&mut job.placement.mast);
}
