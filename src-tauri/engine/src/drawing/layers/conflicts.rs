//! What a `Stop` finding forbids, drawn over the work so that nobody pegs it out unawares.

use crate::drawing::canvas::Canvas;
use crate::drawing::geometry::{distance, middle, plan};
use crate::drawing::scene::Role;
use crate::finding::{Finding, Severity, Subject};
use crate::plan::Clearance;

use super::View;

pub(crate) fn draw(canvas: &mut Canvas, view: &View) {
    let mut drawn: Vec<&Subject> = Vec::new();
    for finding in view.computed.plan.findings.iter().filter(|f| f.severity == Severity::Stop) {
        if !drawn.contains(&&finding.subject) {
            drawn.push(&finding.subject);
            outline(canvas, view, &finding.subject);
        }
        cross(canvas, view, finding);
    }
}

/// The work concerned, drawn again as a conflict.
fn outline(canvas: &mut Canvas, view: &View, subject: &Subject) {
    let plan_ = &view.computed.plan;
    let own = Some(subject.clone());
    match subject {
        Subject::Guy { id } => {
            if let Some(guy) = plan_.guys.iter().find(|guy| guy.id == *id) {
                canvas.line(Role::Conflict, own, vec![plan(guy.attach), [guy.east_m, guy.north_m]]);
            }
        }
        Subject::Leg { id } => {
            for leg in plan_.base.legs.iter().filter(|leg| leg.id == *id) {
                canvas.line(Role::Conflict, own.clone(), closed(&leg.outline));
            }
        }
        Subject::Base => {
            for leg in &plan_.base.legs {
                canvas.line(Role::Conflict, own.clone(), closed(&leg.outline));
            }
        }
        Subject::Ring => {
            if let Some(ring) = &plan_.ring {
                canvas.circle(Role::Conflict, own, view.mast(), ring.radius_m);
            }
        }
        _ => {}
    }
}

fn closed(outline: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut line = outline.to_vec();
    line.extend(outline.first().copied());
    line
}

/// A cross where it is too near, with a line to what it is too near to.
fn cross(canvas: &mut Canvas, view: &View, finding: &Finding) {
    let own = Some(finding.subject.clone());
    if let Some(clearance) = clearance_of(view, finding) {
        let (from, to) = (plan(clearance.from_point), plan(clearance.to_point));
        canvas.line(Role::Conflict, own.clone(), vec![from, to]);
        canvas.sign(Role::Conflict, own, middle(from, to), 0.0);
        return;
    }
    if let Some(at) = place_of(view, &finding.subject) {
        // Beside the mast, whose own sign has to stay in sight.
        let aside = if finding.subject == Subject::Mast { 1.3 * canvas.text_m } else { 0.0 };
        canvas.sign(Role::Conflict, own, [at[0] + aside, at[1] + aside], 0.0);
    }
}

fn clearance_of<'a>(view: &'a View, finding: &Finding) -> Option<&'a Clearance> {
    let against = finding.against.as_ref()?;
    let mut both =
        view.computed.plan.clearances.iter().filter(|c| c.work == finding.subject && c.to == *against);
    both.find(|c| c.distance_m < c.needed_m)
}

fn place_of(view: &View, subject: &Subject) -> Option<[f64; 2]> {
    let plan_ = &view.computed.plan;
    match subject {
        Subject::Mast | Subject::Base | Subject::Ring => Some(view.mast()),
        Subject::Guy { id } => plan_.guys.iter().find(|g| g.id == *id).map(|g| [g.east_m, g.north_m]),
        Subject::Leg { id } => plan_.base.legs.iter().find(|leg| leg.id == *id).map(|leg| leg.tip),
        Subject::Stake { id } => {
            plan_.base.stakes.iter().find(|s| s.id == *id).map(|s| [s.east_m, s.north_m])
        }
        Subject::OverheadLine { id } => {
            let lines = &view.computed.yard.overhead_lines;
            let wire = lines.iter().find(|line| line.id == *id).map(|line| line.wire.iter());
            wire?.map(|p| plan(*p)).min_by(|a, b| {
                let off = |p: &[f64; 2]| distance(*p, view.mast());
                off(a).total_cmp(&off(b))
            })
        }
        Subject::Mark { id } => {
            view.computed.yard.marks.iter().find(|m| m.id == *id).map(|m| [m.at[0], m.at[1]])
        }
        _ => None,
    }
}
