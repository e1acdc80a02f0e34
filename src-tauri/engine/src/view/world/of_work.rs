//! The mast, its guys, the strands and the base.

use super::{Thing, Topper, YardToSee};
use crate::finding::Subject;
use crate::job::Job;
use crate::plan::{Computed, LegResult, Support};
use crate::view::camera::P3;
use crate::view::results::{HeightOf, ThingKind};
use crate::view::seen::LineKind;

pub(super) fn put(yard: &mut YardToSee, job: &Job, computed: &Computed) {
    mast(yard, job, computed);
    for guy in &computed.plan.guys {
        let rope = if guy.rope.len() >= 2 { guy.rope.clone() } else { vec![guy.eye, guy.attach] };
        let thing = yard.thing(Thing {
            subject: Subject::Guy { id: guy.id.clone() },
            kind: ThingKind::Guy,
            name: guy.name.clone(),
            height: known(guy.attach[2] - computed.plan.mast.ground_m),
            footprint: vec![[guy.eye[0], guy.eye[1]], [guy.attach[0], guy.attach[1]]],
            closed: false,
            radius_m: 0.0,
            top: guy.attach,
            label: guy.eye,
        });
        yard.line(thing, LineKind::Guy, rope);
    }
    strands(yard, job, computed);
    base(yard, computed);
}

fn known(height_m: f64) -> HeightOf {
    HeightOf::Known { height_m, sigma_m: 0.0 }
}

fn mast(yard: &mut YardToSee, job: &Job, computed: &Computed) {
    let mast = &computed.plan.mast;
    let at = |z: f64| [mast.east_m, mast.north_m, z];
    let top_z = mast.foot_m + mast.raised_height_m;
    let topper = job.rig.topper.as_ref();
    let head_z = top_z + topper.map_or(0.0, |topper| topper.height_m);
    let thing = yard.thing(Thing {
        subject: Subject::Mast,
        kind: ThingKind::Mast,
        name: "Mast".to_owned(),
        height: known(mast.top_above_ground_m),
        footprint: vec![[mast.east_m, mast.north_m]],
        closed: false,
        radius_m: 0.0,
        // Its height is that of the tubes: the angle beside it is theirs, too. The name stands over the topper.
        top: at(top_z),
        label: at(head_z),
    });
    yard.line(thing, LineKind::Mast, vec![at(mast.foot_m), at(top_z)]);
    yard.topper = topper.map(|topper| Topper {
        middle: at(top_z + topper.height_m / 2.0),
        half_width_m: topper.width_m / 2.0,
        half_height_m: topper.height_m / 2.0,
        thing,
    });
}

fn strands(yard: &mut YardToSee, job: &Job, computed: &Computed) {
    let (Some(ring), Some(strands)) = (&computed.plan.ring, &job.rig.strands) else { return };
    let plan: Vec<[f64; 2]> = ring.points.iter().map(|p| [p[0], p[1]]).collect();
    let Some(first) = ring.points.first() else { return };
    let mast = &computed.plan.mast;
    let whole = strands.sweep_deg >= 360.0 && plan.len() > 2;
    let thing = yard.thing(Thing {
        subject: Subject::Ring,
        kind: ThingKind::Strands,
        name: "Light strands".to_owned(),
        height: known(strands.top_height_m + mast.foot_m - mast.ground_m),
        footprint: plan,
        closed: whole,
        radius_m: 0.0,
        top: [mast.east_m, mast.north_m, mast.foot_m + strands.top_height_m],
        label: *first,
    });
    let mut circle = ring.points.clone();
    circle.extend(whole.then_some(*first));
    yard.line(thing, LineKind::Ring, circle);
    for (top, point) in ring.tops.iter().zip(&ring.points) {
        yard.line(thing, LineKind::Strand, vec![*top, *point]);
    }
}

fn base(yard: &mut YardToSee, computed: &Computed) {
    let base = &computed.plan.base;
    let outlines: Vec<[f64; 2]> = base.legs.iter().flat_map(|leg| leg.outline.iter().copied()).collect();
    if outlines.is_empty() {
        return;
    }
    let mast = &computed.plan.mast;
    let thing = yard.thing(Thing {
        subject: Subject::Base,
        kind: ThingKind::Base,
        name: "Base".to_owned(),
        height: known(base.underside_m - mast.ground_m),
        footprint: outlines,
        closed: false,
        radius_m: 0.0,
        top: [mast.east_m, mast.north_m, base.underside_m],
        label: [mast.east_m, mast.north_m, base.underside_m],
    });
    for leg in base.legs.iter().filter(|leg| leg.outline.len() >= 3) {
        yard.line(thing, LineKind::Base, timber(leg, base.underside_m));
        if leg.support != Support::OnGround {
            let [x, y] = leg.tip;
            let foot = vec![[x, y, base.underside_m], [x, y, computed.ground.height(leg.tip)]];
            yard.line(thing, LineKind::Base, foot);
        }
    }
}

/// Its underside, all round.
fn timber(leg: &LegResult, z: f64) -> Vec<P3> {
    leg.outline.iter().chain(leg.outline.first()).map(|p| [p[0], p[1], z]).collect()
}
