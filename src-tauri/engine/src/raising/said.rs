//! What the job says of turning up, and the mast as it is then.

use super::body::{HangingStrands, StiffPiece};
use super::guys::GuyToTilt;
use super::motion::TiltMotion;
use super::results::SweptPart;
use crate::base::frame::Frame;
use crate::finding::raising::RaisingQuestion;
use crate::job::{FastBefore, Hinge, Job, Strands, StrandsInTilt, TiltedTubes};
use crate::numerics::real::hypot;
use crate::numerics::vector::Vector;
use crate::plan::Computed;
use crate::quantity::bearing::wrap_360;
use crate::wind_capacity::MastHeight;
use crate::wind_capacity::standing::Standing;

/// What nobody has said and has to be for any way at all, and what besides for the job's own.
pub(super) fn open_questions(job: &Job, of_one_way: bool) -> Vec<RaisingQuestion> {
    let said = &job.raising;
    // Fixed in its base it lies where that lets it.
    let bearing_open = said.lies_toward_deg.is_none() && said.hinge != Hinge::BaseEdge;
    let all = [
        (RaisingQuestion::Hinge, said.hinge == Hinge::Unsaid),
        (RaisingQuestion::Bearing, of_one_way && bearing_open),
        (RaisingQuestion::Tubes, said.tubes == TiltedTubes::Unsaid && job.rig.tubes.len() > 1),
        (RaisingQuestion::Strands, strands_open(job)),
        (RaisingQuestion::FastBefore, of_one_way && said.fast_before == FastBefore::Unsaid),
    ];
    all.into_iter().filter(|(_, open)| *open).map(|(question, _)| question).collect()
}

fn strands_open(job: &Job) -> bool {
    let said = &job.raising;
    said.strands == StrandsInTilt::Unsaid && !said.strands_hang && job.rig.strands.is_some()
}

/// The mast as it is turned up, wherever it lies. Made only of a job that says all of it.
pub(super) struct Setup<'a> {
    pub job: &'a Job,
    pub computed: &'a Computed,
    standing: Standing<'a>,
    tied_along_m: f64,
}

/// The base as it lies for one way.
pub(super) struct BaseOnGround {
    pub front_bearing_deg: f64,
    pub frame: Frame,
    pub foot_m: f64,
}

/// Cords of unknown thickness are taken as this thick, and said to be unknown: twice the usual. Common practice.
const THICK_CORD_M: f64 = 0.02;

/// The share of a bundle's room that its cords fill when tied by hand: round ones laid best fill 0.91. Common practice.
const FILLED: f64 = 0.6;

impl<'a> Setup<'a> {
    pub fn of(job: &'a Job, computed: &'a Computed) -> Self {
        let height = match job.raising.tubes {
            TiltedTubes::RunDown => MastHeight::Lowered,
            TiltedTubes::DrawnOut | TiltedTubes::Unsaid => MastHeight::Raised,
        };
        let standing = Standing::of(job, &computed.layout, height);
        let mut setup = Self { job, computed, standing, tied_along_m: 0.0 };
        let tied = job.rig.strands.as_ref().filter(|_| job.raising.strands == StrandsInTilt::TiedAlong);
        setup.tied_along_m = tied.map_or(0.0, |strands| setup.bundle_m(strands));
        setup
    }

    /// How far what is tied along the mast stands out from the thickest tube: the ring round that has room for all cords,
    /// laid to and fro as often as they are longer than the mast.
    fn bundle_m(&self, strands: &Strands) -> f64 {
        let cord_m = strands.cord.diameter_mm.map_or(THICK_CORD_M, |mm| mm / 1000.0);
        let ring = self.computed.layout.ring.as_ref();
        let length_m: f64 = ring.map_or(0.0, |ring| ring.strand_lengths_m.iter().sum());
        let along_m = self.standing.strands_top_m.max(0.3);
        // Cords by their squares: π/4 drops out on both sides.
        let square_m2 = length_m / along_m * cord_m * cord_m / FILLED;
        let tube_m = self.tube_radius_m();
        0.5 * (4.0 * tube_m * tube_m + square_m2).sqrt() - tube_m
    }

    pub fn strand_thickness_unknown(&self) -> bool {
        let strands = self.job.rig.strands.as_ref();
        let said = &self.job.raising;
        let hang = said.strands == StrandsInTilt::Unsaid && said.strands_hang;
        (hang || said.strands == StrandsInTilt::TiedAlong)
            && strands.is_some_and(|strands| strands.cord.diameter_mm.is_none())
    }

    fn tube_radius_m(&self) -> f64 {
        self.standing.tubes.iter().map(|tube| tube.outside_m / 2.0).fold(0.0, f64::max)
    }

    /// Half the mast's thickness, with what is tied along it.
    pub fn mast_radius_m(&self) -> f64 {
        self.tube_radius_m() + self.tied_along_m
    }

    /// The strands where they hang with loose lower ends: the middle of their upper ends with the mast plumb, how far these are
    /// from it, and how long the longest is.
    pub fn hanging(&self, base: &BaseOnGround) -> Option<HangingStrands> {
        let said = &self.job.raising;
        let hang = said.strands == StrandsInTilt::Unsaid && said.strands_hang;
        let ring = self.computed.layout.ring.as_ref().filter(|_| hang)?;
        let strands = self.job.rig.strands.as_ref()?;
        let [east, north] = self.mast_at();
        let cord_m = strands.cord.diameter_mm.map_or(THICK_CORD_M, |mm| mm / 1000.0);
        Some(HangingStrands {
            top: [east, north, base.foot_m + self.standing.strands_top_m],
            length_m: ring.strand_lengths_m.iter().copied().fold(0.0, f64::max),
            radius_m: ring.top_radius_m + cord_m / 2.0,
        })
    }

    /// How long each guy's cut rope is, in the order of [`Setup::guys`].
    pub fn rope_lengths_m(&self) -> Vec<f64> {
        self.standing.guys.iter().map(|guy| guy.planned.cut_m.value).collect()
    }

    pub fn mast_at(&self) -> [f64; 2] {
        [self.computed.layout.mast.east_m, self.computed.layout.mast.north_m]
    }

    pub fn turns_with_base(&self) -> bool {
        self.job.raising.hinge == Hinge::BaseEdge
    }

    /// Fixed in the base, the mast lies opposite to the front leg: where it is to lie elsewhere, the base is turned.
    pub fn base_for(&self, lies_toward_deg: f64) -> BaseOnGround {
        let layout = &self.computed.layout;
        let own_deg = layout.placed_work.front_bearing_deg;
        let front_bearing_deg =
            if self.turns_with_base() { wrap_360(lies_toward_deg + 180.0) } else { own_deg };
        let frame = Frame::lay(&self.job.rig.base, &self.computed.ground, self.mast_at(), front_bearing_deg);
        let timbers = &self.job.rig.base;
        let foot_m = frame.underside_m + (timbers.timber_depth_mm + timbers.seat_height_mm) / 1000.0;
        BaseOnGround { front_bearing_deg, frame, foot_m }
    }

    pub fn turn(&self, base: &BaseOnGround, lies_toward_deg: f64) -> TiltMotion {
        let [east, north] = self.mast_at();
        let half_m = self.job.rig.base.timber_width_mm / 2000.0;
        let at = |out_m: f64, up_m: f64| {
            let along = TiltMotion::about([east, north, up_m], lies_toward_deg).plan(out_m, 0.0);
            TiltMotion::about([along[0], along[1], up_m], lies_toward_deg)
        };
        match self.job.raising.hinge {
            Hinge::Pin { height_m } => at(0.0, self.computed.layout.mast.ground_m + height_m),
            Hinge::BaseEdge | Hinge::Unsaid => at(half_m, base.frame.underside_m),
        }
    }

    /// Whether a guy is made fast to this thing of the yard.
    pub fn is_fast_to(&self, guy: &str, thing: &str) -> bool {
        let guy = self.standing.guys.iter().find(|it| it.planned.id == guy);
        guy.and_then(|it| it.planned.made_fast.as_ref()).is_some_and(|it| it.thing == thing)
    }

    /// How far the top of the tubes and of what stands on them is above the foot.
    pub fn top_m(&self) -> f64 {
        self.standing.top_m + self.job.rig.topper.as_ref().map_or(0.0, |topper| topper.height_m)
    }

    /// All that turns, as it is with the mast plumb.
    pub fn pieces(&self, base: &BaseOnGround, turn: &TiltMotion) -> Vec<StiffPiece> {
        let [east, north] = self.mast_at();
        let on_axis = |up_m: f64| [east, north, base.foot_m + up_m];
        let mut pieces = vec![StiffPiece {
            part: SweptPart::Mast,
            ends: [on_axis(0.0), on_axis(self.standing.top_m)],
            radius_m: self.mast_radius_m(),
        }];
        if let Some(topper) = &self.job.rig.topper {
            // Its corners: the piece is the way of its middle, as thick as it is wide.
            let ends = [on_axis(self.standing.top_m), on_axis(self.standing.top_m + topper.height_m)];
            pieces.push(StiffPiece { part: SweptPart::Topper, ends, radius_m: topper.width_m / 2.0 });
        }
        if self.turns_with_base() {
            pieces.extend(self.timbers(base, turn));
        }
        pieces
    }

    /// The timbers by the way of their middles, as thick as their corners are off it.
    fn timbers(&self, base: &BaseOnGround, turn: &TiltMotion) -> [StiffPiece; 2] {
        let timbers = &self.job.rig.base;
        let [east, north] = self.mast_at();
        let up_m = base.frame.underside_m + timbers.timber_depth_mm / 2000.0;
        let radius_m = hypot(timbers.timber_width_mm, timbers.timber_depth_mm) / 2000.0;
        let from_axis =
            |way: Vector, far_m: f64| [east + way[0] * far_m, north + way[1] * far_m, up_m + way[2] * far_m];
        let (front, side) = (timbers.front_reach_m, timbers.side_reach_m);
        let axis = [east, north, up_m];
        [
            StiffPiece { part: SweptPart::FrontLeg, ends: [axis, from_axis(turn.toward, -front)], radius_m },
            StiffPiece {
                part: SweptPart::CrossLeg,
                ends: [from_axis(turn.right, -side), from_axis(turn.right, side)],
                radius_m,
            },
        ]
    }

    /// The guys with their collars where they are on the mast that is turned up.
    pub fn guys(&self, base: &BaseOnGround) -> Vec<GuyToTilt> {
        let [east, north] = self.mast_at();
        let each = self.standing.guys.iter().map(|guy| {
            let [off_east, off_north, off_up] = guy.collar_offset_m;
            let up_m = base.foot_m + guy.attach_height_m + off_up;
            let (rope, planned) = (&guy.level.rope, guy.planned);
            GuyToTilt {
                id: planned.id.clone(),
                name: planned.name.clone(),
                eye: planned.eye,
                collar: [east + off_east, north + off_north, up_m],
                gives_m: guy.level.tension_n / rope.stiffness_n() * planned.chord_m,
            }
        });
        each.collect()
    }
}
