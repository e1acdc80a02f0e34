//! What is to be built: fall circle, ring and strands, base, stakes, guys with their anchors, the mast.

use crate::drawing::canvas::Canvas;
use crate::drawing::geometry::{along, plan};
use crate::drawing::labels::{WhereTo, Wish};
use crate::drawing::scene::{Bounds, Role};
use crate::drawing::signs::half_size_em;
use crate::drawing::words::map as words;
use crate::finding::Subject;
use crate::job::Job;
use crate::plan::{GuyResult, LegResult, Support};
use crate::quantity::bearing;
use crate::report::format;

use super::{View, priority, quiet};

pub(crate) fn fall_circle(canvas: &mut Canvas, view: &View) {
    let mast = &view.computed.plan.mast;
    canvas.circle(Role::FallCircle, Some(Subject::Mast), view.mast(), mast.fall_radius_m);
    let text = format!("fall circle {}", format::length_short(mast.fall_radius_m, view.units()));
    let places = around(view.mast(), mast.fall_radius_m + 0.8 * canvas.text_m);
    canvas.label(quiet(vec![text], Some(Subject::Mast), priority::CIRCLE, places));
}

/// Places for words that follow a circle, from its top round.
fn around(centre: [f64; 2], radius_m: f64) -> Vec<([f64; 2], f64)> {
    let at = |bearing_deg: f64| {
        let turn = bearing::turn_deg(0.0, bearing_deg);
        let upright = if turn.abs() > 90.0 { bearing::turn_deg(180.0, turn) } else { turn };
        (along(centre, bearing_deg, radius_m), upright)
    };
    (0..24)
        .map(|i| if i % 2 == 0 { 7.5 * f64::from(i) } else { 360.0 - 7.5 * f64::from(i + 1) })
        .map(at)
        .collect()
}

pub(crate) fn ring(canvas: &mut Canvas, view: &View) {
    let Some(ring) = &view.computed.plan.ring else { return };
    let points: Vec<[f64; 2]> = ring.points.iter().copied().map(plan).collect();
    for (&top, &point) in ring.tops.iter().zip(&points) {
        canvas.line(Role::Strand, Some(Subject::Ring), vec![plan(top), point]);
    }
    let full = view.job.rig.strands.as_ref().is_none_or(|strands| strands.sweep_deg >= 360.0);
    if full {
        canvas.circle(Role::Ring, Some(Subject::Ring), view.mast(), ring.radius_m);
    } else {
        canvas.line(Role::Ring, Some(Subject::Ring), points);
    }
    let text = format!("ring {}", format::length_short(ring.radius_m, view.units()));
    let places = around(view.mast(), ring.radius_m + 0.8 * canvas.text_m);
    canvas.label(quiet(vec![text], Some(Subject::Ring), priority::CIRCLE, places));
}

pub(crate) fn base(canvas: &mut Canvas, view: &View) {
    let base = &view.computed.plan.base;
    for leg in &base.legs {
        let subject = Some(Subject::Leg { id: leg.id.clone() });
        canvas.area(Role::BaseTimber, subject.clone(), leg.outline.clone());
        if leg.support != Support::OnGround {
            canvas.area(Role::Foot, subject, foot_outline(view, leg));
            foot_label(canvas, view, leg);
        }
    }
    for stake in &base.stakes {
        let subject = Some(Subject::Stake { id: stake.id.clone() });
        canvas.sign(Role::Stake, subject, [stake.east_m, stake.north_m], 0.0);
    }
}

/// The foot in plan: its outer face flush with the tip.
fn foot_outline(view: &View, leg: &LegResult) -> Vec<[f64; 2]> {
    let base = &view.job.rig.base;
    let half = base.foot_width_mm / 2000.0;
    let inner = along(leg.tip, leg.bearing_deg, -base.foot_thickness_mm / 1000.0);
    let corner = |from: [f64; 2], side: f64| along(from, leg.bearing_deg + 90.0, side * half);
    vec![corner(inner, -1.0), corner(inner, 1.0), corner(leg.tip, 1.0), corner(leg.tip, -1.0)]
}

fn foot_label(canvas: &mut Canvas, view: &View, leg: &LegResult) {
    let what = if leg.support == Support::Foot { "foot" } else { "shim" };
    let text = format!("{what} {}", format::length(leg.gap_centre_m.value, view.units()));
    canvas.label(Wish {
        lines: vec![text],
        role: Role::LabelQuiet,
        subject: Some(Subject::Leg { id: leg.id.clone() }),
        priority: priority::FOOT,
        must: false,
        where_to: WhereTo::Beside { at: leg.tip, clear_m: 0.3 * canvas.text_m, away_from: Some(view.mast()) },
    });
}

pub(crate) fn guys(canvas: &mut Canvas, view: &View) {
    for guy in &view.computed.plan.guys {
        let subject = Some(Subject::Guy { id: guy.id.clone() });
        canvas.line(Role::Guy, subject, vec![plan(guy.attach), anchor_of(guy)]);
    }
    let guys = &view.computed.plan.guys;
    for guy in guys.iter().filter(|guy| guy.tells_of_anchor(guys)) {
        anchor(canvas, view, guy);
    }
}

fn anchor_of(guy: &GuyResult) -> [f64; 2] {
    [guy.east_m, guy.north_m]
}

fn anchor(canvas: &mut Canvas, view: &View, guy: &GuyResult) {
    let subject = Some(Subject::Guy { id: guy.id.clone() });
    let at = anchor_of(guy);
    canvas.ellipse(Role::AnchorEllipse, subject.clone(), at, &guy.landing_95);
    canvas.sign(Role::Anchor, subject.clone(), at, guy.azimuth_deg);
    let guys = &view.computed.plan.guys;
    // Every guy on the anchor with its own angle.
    let here = guys.iter().filter(|other| other.id == guy.id || guy.shared_with.contains(&other.id));
    let tape = format!("tape {}", format::length(guy.tape_m, view.units()));
    let mut lines = if guy.shared_with.is_empty() {
        vec![guy.name.clone(), format!("{tape}, {}", format::angle(guy.angle_deg))]
    } else {
        // A line for each keeps the words narrow.
        let own = here.map(|guy| format!("{}, {}", guy.name, format::angle(guy.angle_deg)));
        own.chain([tape]).collect()
    };
    if let Some(fast) = &guy.made_fast {
        lines.push(words::made_fast(&fast.name, &format::length(fast.height_m, view.units())));
    }
    canvas.label(Wish {
        lines,
        role: Role::Label,
        subject,
        priority: priority::ANCHOR,
        must: true,
        where_to: WhereTo::Beside {
            at,
            clear_m: half_size_em(Role::Anchor) * canvas.text_m,
            away_from: Some(view.mast()),
        },
    });
}

/// Radius of a turning knob with a little room.
const KNOB_EM: f64 = 1.3;

/// Where a screen puts the knobs that turn the base and the guys: just outside the front leg's tip, one beyond the
/// other. None on paper, and none once the work stands.
pub(crate) fn knobs(canvas: &Canvas, view: &View) -> Vec<[f64; 2]> {
    let Job { rig, placement, as_built, .. } = view.job;
    if canvas.handle_m <= 0.0 || as_built.is_some() {
        return Vec::new();
    }
    let em = canvas.text_m;
    let front_m = (rig.base.front_reach_m + knob::BEYOND_TIP_EM * em).max(knob::LEAST_EM * em);
    let guy_m = front_m + knob::APART_EM * em;
    let front_deg = placement.front_bearing_deg;
    vec![
        along(view.mast(), front_deg, front_m),
        along(view.mast(), front_deg + placement.guy_turn_deg, guy_m),
    ]
}

/// Distances of the turning knobs from the mast in letter heights, for the screens too (`key.ts`).
pub(crate) mod knob {
    pub const BEYOND_TIP_EM: f64 = 2.9;
    pub const LEAST_EM: f64 = 6.5;
    pub const APART_EM: f64 = 5.1;
}

pub(crate) fn mast(canvas: &mut Canvas, view: &View) {
    let at = view.mast();
    canvas.sign(Role::MastAxis, Some(Subject::Mast), at, 0.0);
    // The handle is round: words may reach into the corners of the square around it.
    canvas.keep_clear(Bounds::around(at, 0.75 * canvas.handle_m));
    for knob in knobs(canvas, view) {
        canvas.keep_clear(Bounds::around(knob, KNOB_EM * canvas.text_m));
    }
    let height = format::length_short(view.computed.plan.mast.raised_height_m, view.units());
    canvas.label(Wish {
        lines: vec![format!("mast {height}")],
        role: Role::Label,
        subject: Some(Subject::Mast),
        priority: priority::MAST,
        must: true,
        where_to: WhereTo::Beside {
            at,
            clear_m: (half_size_em(Role::MastAxis) * canvas.text_m).max(canvas.handle_m),
            away_from: None,
        },
    });
}
