//! The base's joints in words.

use super::{
    WorkCard, WorkFigure, WorkMeasured, WorkPage, apart, drill_or, figure, small_or, tape, tape_at_least,
};
use crate::job::Job;
use crate::quantity::{Units, sold};
use crate::report::Row;
use crate::report::rows::{Said, angle, force, length};
use crate::report::words::workshop as say;
use crate::workshop::joints::{
    BaseJoints, BaseShape, BoardNeed, BoardsNeeded, CrossingBolts, FootBlock, LapJoint, MastSeat,
    ShapeOnGround, StakeWork,
};

pub(super) fn page(job: &Job, base: &BaseJoints) -> WorkPage {
    let units = job.units;
    let [waits_for, findings] = apart(&base.findings, units);
    let mut cards = vec![match &base.lap {
        Some(lap) => lap_card(job, lap),
        None => card(job, "", say::LAP, Vec::new(), vec![say::NO_LAP.to_owned()]),
    }];
    cards.push(seat_card(job, &base.seat));
    cards.extend(base.bolts.as_ref().map(|bolts| bolts_card(job, bolts)));
    cards.push(stakes_card(job, &base.stakes));
    cards.extend(base.feet.iter().map(|foot| foot_card(job, foot)));
    cards.push(boards_card(job, &base.boards));
    if !base.shapes.is_empty() {
        cards.push(shapes_card(job, &base.shapes));
    }
    let other = base.shapes.iter().find(|shape| shape.fits && !shape.chosen);
    WorkPage {
        title: say::BASE_TITLE.to_owned(),
        headline: say::base_headline(
            base.feet.len(),
            other.map(|other| say::figure(shape_figure(other.shape))),
        ),
        waits_for,
        findings,
        cards,
        says: base.not_measured.iter().map(|leg| say::foot_not_measured(leg)).collect(),
        caution: say::BASE_CAUTION.to_owned(),
    }
}

/// A card with a tick where it has a part to be made.
fn card(job: &Job, part: &str, title: &str, rows: Vec<Row>, says: Vec<String>) -> WorkCard {
    WorkCard {
        done: !part.is_empty() && job.workshop.is_done(part),
        part: part.to_owned(),
        title: title.to_owned(),
        rows,
        big: Vec::new(),
        says,
        measured: Vec::new(),
    }
}

fn big(figures: &[WorkFigure]) -> Vec<String> {
    figures.iter().map(|figure| figure.id().to_owned()).collect()
}

fn lap_card(job: &Job, lap: &LapJoint) -> WorkCard {
    let units = job.units;
    let rows = vec![
        figure(WorkFigure::LapDepth, tape(lap.depth_mm, units)),
        figure(WorkFigure::LapOther, tape(lap.other_depth_mm, units)),
        figure(WorkFigure::LapLength, tape(lap.length_mm, units)),
        figure(WorkFigure::LapLeft, tape(lap.left_mm, units)),
    ];
    let shoulder = |at: &crate::workshop::joints::LapShoulder| {
        say::shoulder(&at.leg, &crate::report::format::length(at.from_tip_m, units))
    };
    let says = lap.shoulders.iter().map(shoulder).collect();
    WorkCard {
        big: big(&[WorkFigure::LapDepth, WorkFigure::LapOther]),
        measured: vec![WorkMeasured {
            part: lap.part.clone(),
            label: say::figure(WorkFigure::LapDepth).to_owned(),
        }],
        ..card(job, &lap.part, say::LAP, rows, says)
    }
}

fn seat_card(job: &Job, seat: &MastSeat) -> WorkCard {
    let units = job.units;
    let peg = |peg_mm: Option<f64>| figure(WorkFigure::Peg, small_or(peg_mm, units));
    let (rows, says, large) = match *seat {
        MastSeat::Socket { bore_mm, depth_mm, left_below_mm, left_beside_mm } => (
            vec![
                figure(WorkFigure::SocketBore, drill_or(Some(bore_mm), units)),
                figure(WorkFigure::SocketDepth, tape(depth_mm, units)),
                figure(WorkFigure::LeftBelow, tape(left_below_mm, units)),
                figure(WorkFigure::LeftBeside, tape(left_beside_mm, units)),
            ],
            vec![say::SOCKET.to_owned()],
            vec![WorkFigure::SocketBore, WorkFigure::SocketDepth],
        ),
        MastSeat::Plate { side_mm, thickness_mm, peg_mm } => (
            vec![
                figure(WorkFigure::PlateSide, tape(side_mm, units)),
                figure(WorkFigure::PlateThick, small_or(thickness_mm, units)),
                peg(peg_mm),
            ],
            vec![say::PEG.to_owned()],
            vec![WorkFigure::PlateSide],
        ),
        MastSeat::OnWood { peg_mm } => (
            vec![peg(peg_mm)],
            vec![say::SEAT_ON_WOOD.to_owned(), say::PEG.to_owned()],
            vec![WorkFigure::Peg],
        ),
    };
    WorkCard { big: big(&large), ..card(job, "seat", say::SEAT, rows, says) }
}

fn bolts_card(job: &Job, bolts: &CrossingBolts) -> WorkCard {
    let units = job.units;
    let mut rows = vec![
        figure(WorkFigure::BoltThick, sold::thickness(bolts.bolt_mm, units)),
        figure(WorkFigure::BoltHole, drill_or(Some(bolts.hole_mm), units)),
        figure(WorkFigure::BoltLength, sold::bolt_length(bolts.least_length_mm, units)),
        figure(WorkFigure::FromEdge, tape(bolts.from_edge_mm, units)),
        figure(WorkFigure::FromMiddle, tape(bolts.from_middle_mm, units)),
    ];
    let mut says = vec![say::TWO_BOLTS.to_owned()];
    if let Some(edge_mm) = bolts.plate_edge_mm {
        rows.push(figure(WorkFigure::PlateEdge, tape(edge_mm, units)));
        says.push(say::THROUGH_PLATE.to_owned());
    }
    WorkCard {
        big: big(&[WorkFigure::BoltThick, WorkFigure::BoltLength]),
        ..card(job, "crossing-bolts", say::BOLTS, rows, says)
    }
}

fn stakes_card(job: &Job, stakes: &StakeWork) -> WorkCard {
    let units = job.units;
    match stakes {
        StakeWork::NoStakes => card(job, "", say::STAKES, Vec::new(), vec![say::NO_STAKES.to_owned()]),
        StakeWork::Beside { from_tip_m, off_face_mm, .. } => {
            let rows = vec![
                figure(WorkFigure::StakeFromTip, length(*from_tip_m, units)),
                figure(WorkFigure::StakeOffFace, tape(*off_face_mm, units)),
            ];
            let says = vec![say::STAKES_BESIDE.to_owned()];
            WorkCard {
                big: big(&[WorkFigure::StakeFromTip]),
                ..card(job, "stake-marks", say::STAKES, rows, says)
            }
        }
        StakeWork::Through { holes, slant_deg, hole_mm, mouth_mm, .. } => {
            let places = |of: fn(&crate::workshop::joints::StakeHole) -> f64| {
                let all: Vec<String> =
                    holes.iter().map(|hole| crate::report::format::length(of(hole), units)).collect();
                all.join(", ")
            };
            let rows = vec![
                figure(WorkFigure::StakeHole, drill_or(Some(*hole_mm), units)),
                figure(WorkFigure::StakeSlant, angle(*slant_deg, units)),
                figure(WorkFigure::StakeOnTop, places(|hole| hole.on_top_m)),
                figure(WorkFigure::StakeUnder, places(|hole| hole.underneath_m)),
                figure(WorkFigure::StakeMouth, tape(*mouth_mm, units)),
            ];
            let says = vec![say::STAKES_THROUGH.to_owned()];
            WorkCard {
                big: big(&[WorkFigure::StakeHole, WorkFigure::StakeSlant]),
                ..card(job, "stake-holes", say::STAKES, rows, says)
            }
        }
    }
}

fn foot_card(job: &Job, foot: &FootBlock) -> WorkCard {
    let units = job.units;
    let edges = [
        WorkFigure::EdgeOuterRight,
        WorkFigure::EdgeOuterLeft,
        WorkFigure::EdgeInnerLeft,
        WorkFigure::EdgeInnerRight,
    ];
    let mut rows: Vec<Row> =
        edges.iter().zip(foot.edges_mm).map(|(edge, mm)| figure(*edge, length(mm / 1000.0, units))).collect();
    rows.push(figure(WorkFigure::BevelAlong, angle(foot.bevel_along_deg.abs(), units)));
    rows.push(figure(WorkFigure::BevelAcross, angle(foot.bevel_across_deg.abs(), units)));
    let mut says = vec![say::BLOCK.to_owned()];
    match foot.strap_mm {
        Some(strap_mm) => {
            rows.push(figure(WorkFigure::FootStrap, tape(strap_mm, units)));
            says.push(say::STRAPS.to_owned());
        }
        None => says.push(say::NO_STRAP.to_owned()),
    }
    WorkCard { big: big(&edges), ..card(job, &foot.part, &say::foot_title(&foot.leg), rows, says) }
}

fn boards_card(job: &Job, boards: &BoardsNeeded) -> WorkCard {
    let units = job.units;
    let or_not = |value: Option<f64>| value.map_or_else(|| Said::from(say::NOT_KNOWN), |n| force(n, units));
    let mut rows = vec![
        figure(WorkFigure::FootPush, or_not(boards.still_n)),
        figure(WorkFigure::FootPushAtLimit, or_not(boards.guys_at_limit_n)),
    ];
    let mut add = |need: &BoardNeed, [wanted, has]: [WorkFigure; 2]| {
        let most_mm = need.still_mm.zip(need.guys_at_limit_mm).map(|(still, limit)| still.max(limit));
        rows.push(figure(
            wanted,
            most_mm.map_or_else(|| Said::from(say::NOT_KNOWN), |mm| tape_at_least(mm, units)),
        ));
        rows.push(figure(has, tape(need.has_mm, units)));
    };
    add(&boards.foot, [WorkFigure::BoardFoot, WorkFigure::BoardFootHas]);
    if let Some(need) = &boards.crossing {
        add(need, [WorkFigure::BoardCrossing, WorkFigure::BoardCrossingHas]);
    }
    WorkCard { big: big(&[WorkFigure::BoardFoot]), ..card(job, "", say::BOARDS, rows, Vec::new()) }
}

fn shape_figure(shape: BaseShape) -> WorkFigure {
    match shape {
        BaseShape::Tee => WorkFigure::ShapeTee,
        BaseShape::Cross => WorkFigure::ShapeCross,
        BaseShape::LevelBox => WorkFigure::ShapeBox,
    }
}

fn shapes_card(job: &Job, shapes: &[ShapeOnGround]) -> WorkCard {
    let words = |mm: f64, units: Units| crate::report::format::length(mm / 1000.0, units);
    let row = |shape: &ShapeOnGround| {
        let [highest, most] = [shape.highest_mm, shape.most_mm].map(|mm| words(mm, job.units));
        let says = say::shape(shape.fits, shape.chosen, shape.feet, &highest, &most);
        figure(shape_figure(shape.shape), says)
    };
    let says = vec![say::SHAPES_AS_TURNED.to_owned(), say::BOX_BALLAST.to_owned()];
    card(job, "", say::SHAPES, shapes.iter().map(row).collect(), says)
}
