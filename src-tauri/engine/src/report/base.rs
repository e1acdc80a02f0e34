//! The base: a section for each leg with its foot or shim, then the turn onto the contour.

use super::rows::{self, row};
use super::words::cautions;
use super::{Label, NOT_MEASURED, ReportSection, Row, SectionTitle, Source, format, words};
use crate::finding::Subject;
use crate::plan::{ContourState, LegResult, Support};
use crate::quantity::Units;

pub(super) fn sections(source: &Source) -> Vec<ReportSection> {
    let legs = &source.computed.plan.base.legs;
    let mut sections: Vec<ReportSection> = legs.iter().map(|leg| leg_section(source, leg)).collect();
    sections.push(whole(source));
    sections
}

fn leg_section(source: &Source, leg: &LegResult) -> ReportSection {
    let units = source.units();
    let length = |value| rows::length(value, units);
    if !source.computed.plan.knows_under(&leg.id) {
        let rows = vec![pointing(leg), reach(leg, units), row(Label::UnderTip, NOT_MEASURED)];
        return section(leg, rows);
    }
    let support = match leg.support {
        Support::OnGround => "rests on the ground",
        Support::Shim => "shims",
        Support::Foot => "a cut foot",
    };
    let mut rows = vec![
        pointing(leg),
        reach(leg, units),
        row(Label::UnderTip, support),
        row(
            if leg.support == Support::OnGround { Label::TipGap } else { Label::FootCentre },
            rows::length_95(&leg.gap_centre_m, units),
        ),
    ];
    if leg.support != Support::OnGround {
        rows.extend([
            row(Label::FootInner, length(leg.gap_inner_m)),
            row(Label::FootOuter, length(leg.gap_outer_m)),
            row(Label::FootLeft, length(leg.gap_left_m)),
            row(Label::FootRight, length(leg.gap_right_m)),
            bevel(Label::BevelAlong, leg.bevel_along_deg, "outwards"),
            bevel(Label::BevelAcross, leg.bevel_across_deg, "to the right"),
        ]);
    }
    section(leg, rows)
}

fn pointing(leg: &LegResult) -> Row {
    row(Label::LegPoints, rows::bearing(leg.bearing_deg))
}

fn reach(leg: &LegResult, units: Units) -> Row {
    row(Label::LegReach, rows::length(leg.reach_m, units))
}

fn section(leg: &LegResult, rows: Vec<Row>) -> ReportSection {
    ReportSection {
        id: "base".into(),
        title: words::title(&SectionTitle::BaseLeg { leg: leg.id.clone() }),
        subject: Some(Subject::Leg { id: leg.id.clone() }),
        rows,
        caution: String::new(),
    }
}

/// A bevel with the way the ground goes.
fn bevel(key: Label, angle_deg: f64, way: &str) -> Row {
    let value = if angle_deg.abs() < 0.05 {
        "square".to_string()
    } else {
        let goes = if angle_deg > 0.0 { "rises" } else { "falls" };
        format!("{}, ground {goes} {way}", format::angle(angle_deg.abs()))
    };
    row(key, value)
}

fn whole(source: &Source) -> ReportSection {
    let base = &source.computed.plan.base;
    let units = source.units();
    let contour = &base.contour;
    let mut rows = vec![row(Label::Underside, rows::length(base.underside_m, units))];
    if let Some(side_mm) = source.job.rig.base.joint_pad_mm {
        // The timbers are checked with it; without it they would have to bend from foot to foot.
        let size = format::length(side_mm / 1000.0, units);
        rows.push(row(Label::JointBoard, format!("{size} square, before the mast stands")));
    }
    match (contour.front_bearing_deg, contour.turn_deg) {
        (Some(bearing), Some(turn)) if turn.abs() < 0.05 => {
            rows.push(row(Label::OnContour, format!("it is: front leg at {}", format::bearing(bearing))));
        }
        (Some(bearing), Some(turn)) => {
            let way = if turn > 0.0 { "clockwise" } else { "anticlockwise" };
            let value = format!("turn {} {way}, to {}", format::angle(turn.abs()), format::bearing(bearing));
            rows.push(row(Label::TurnToContour, value));
        }
        _ => {
            let says = match contour.state {
                ContourState::Level => "level as far as it was measured: any turn will do",
                _ => {
                    "not worked out: a tip comes over the edge of what was measured; add spot heights round the base"
                }
            };
            rows.push(row(Label::OnContour, says));
        }
    }
    if let Some(foot) = contour.foot_after_m {
        rows.push(row(Label::FootOnContour, rows::length(foot, units)));
    }
    rows.push(row(Label::BaseStakes, rows::count(base.stakes.len())));
    ReportSection {
        id: "base".into(),
        title: words::title(&SectionTitle::WholeBase),
        subject: Some(Subject::Base),
        rows,
        caution: cautions::FEET.into(),
    }
}
