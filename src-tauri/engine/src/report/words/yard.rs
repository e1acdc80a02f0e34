//! The things of the yard, and its boundary.

use super::at_least;
use crate::finding::yard::{
    Nearness, OverBoundary, PegKind, PegName, Thing, Turn, WorkPart, YardRemedy, YardRule,
};
use crate::quantity::UnitSystem;
use crate::round_figures::rounded_up;
use crate::yard::approach::{Approach, ChainKind};

pub(super) fn sentence(rule: &YardRule) -> String {
    match rule {
        YardRule::Near { part: WorkPart::Mast, thing: Thing::Path | Thing::KeepOff, name, .. } => {
            format!("The mast stands in {name} or too near to it.")
        }
        YardRule::Near {
            part: part @ (WorkPart::Rope(_) | WorkPart::Mast | WorkPart::Strand | WorkPart::Cone),
            name,
            how,
            ..
        } => {
            let who = named(part);
            match how {
                Nearness::Inside => format!("{who} runs into {name}."),
                Nearness::TooNear => format!("{who} passes nearer to {name} than it should."),
                Nearness::InDoubt => format!("{who} may pass nearer to {name} than it should: {UNDECIDED}."),
            }
        }
        YardRule::Near { part: WorkPart::Base, name, how, .. } => match how {
            Nearness::Inside => format!("The base lies on {name}."),
            Nearness::TooNear => format!("The base is nearer to {name} than it should be."),
            Nearness::InDoubt => format!("The base may be nearer to {name} than it should be: {UNDECIDED}."),
        },
        YardRule::Near { part: part @ WorkPart::Peg(_), thing, name, how } => {
            let who = named(part);
            let hazard = if *thing == Thing::Path { " People trip over it." } else { "" };
            match how {
                Nearness::Inside => format!("{who} stands in {name}.{hazard}"),
                Nearness::TooNear => format!("{who} is nearer to {name} than it should be.{hazard}"),
                Nearness::InDoubt => format!("{who} may be nearer to {name} than it should be: {UNDECIDED}."),
            }
        }
        YardRule::RingInKeepOff { name } => format!("Strands end in {name} or too near to it."),
        YardRule::FallReaches { name, .. } => format!("If the mast falls that way it reaches {name}."),
        YardRule::PathHeadroom { part, name, vehicles, in_doubt } => {
            let hangs = if *in_doubt { "may hang" } else { "hangs" };
            let who = if *vehicles { "vehicles" } else { "people" };
            format!("{} {hangs} too low over {name} for {who}.", named(part))
        }
        YardRule::BoundaryNotGiven => {
            "No boundary was given, so nobody knows whether the work stays on your ground.".into()
        }
        YardRule::OverBoundary { part, in_doubt } => {
            let what = match part {
                OverBoundary::Base => "Part of the base",
                OverBoundary::Ring => "Part of the ring",
                OverBoundary::Peg(PegKind::Anchor) => "An anchor",
                OverBoundary::Peg(PegKind::Stake) => "A stake",
            };
            let lies = if *in_doubt { "may lie" } else { "lies" };
            format!("{what} {lies} outside the boundary.")
        }
        YardRule::FallReachesOverBoundary => "If the mast falls it can reach beyond the boundary.".into(),
    }
}

const UNDECIDED: &str = "the measurements do not decide it";

/// What is compared, such as `rope to post`.
pub(crate) fn approach(what: Approach) -> String {
    let wire = |part: &str, voltage_known: bool| {
        let doubt = if voltage_known { "" } else { ", voltage unknown" };
        format!("{part} to wire{doubt}")
    };
    match what {
        Approach::Chain { kind, to } => format!("{} to {}", chain(kind), named_thing(to)),
        Approach::ChainToWire { kind, voltage_known } => wire(chain(kind), voltage_known),
        Approach::FallToWire { voltage_known } => wire("mast's foot, were it to fall,", voltage_known),
        Approach::Peg { kind, to } => format!("{} to {}", peg(kind), named_thing(to)),
        Approach::PegToService { kind } => format!("{} to the buried service's edge", peg(kind)),
        Approach::Timber { to } => format!("base timber to {}", named_thing(to)),
        Approach::MastFoot { to } => format!("mast to {}", named_thing(to)),
        Approach::StrandEnd => "strand end to ground to keep off".into(),
        Approach::RingToService => "ring to the buried service's edge".into(),
        Approach::Headroom { kind } => format!("headroom under {} over path", chain(kind)),
        Approach::Boundary { of } => {
            let part = match of {
                OverBoundary::Base => "base",
                OverBoundary::Ring => "ring",
                OverBoundary::Peg(kind) => peg(kind),
            };
            format!("{part} to boundary")
        }
    }
}

fn chain(kind: ChainKind) -> &'static str {
    match kind {
        ChainKind::Rope => "rope",
        ChainKind::Mast => "mast",
        ChainKind::Strand => "strand",
        ChainKind::Cone => "cone between two strands",
    }
}

fn named_thing(thing: Thing) -> &'static str {
    match thing {
        Thing::Tree => "tree",
        Thing::Building => "building",
        Thing::Barrier => "barrier",
        Thing::Post => "post",
        Thing::Path => "path",
        Thing::KeepOff => "ground to keep off",
    }
}

/// A part of the work as the start of a sentence.
pub(super) fn named(part: &WorkPart) -> String {
    match part {
        WorkPart::Rope(guy) => format!("The rope of {guy}"),
        WorkPart::Mast => "The mast".into(),
        WorkPart::Strand => "A strand".into(),
        WorkPart::Cone => "The cone of strands, between two of them,".into(),
        WorkPart::Base => "The base".into(),
        WorkPart::Peg(peg) => named_peg(peg),
    }
}

pub(super) fn named_peg(peg: &PegName) -> String {
    match peg.kind {
        PegKind::Anchor => format!("The anchor of {}", peg.name),
        PegKind::Stake => format!("The stake {}", peg.name),
    }
}

pub(super) fn peg(kind: PegKind) -> &'static str {
    match kind {
        PegKind::Anchor => "anchor",
        PegKind::Stake => "stake",
    }
}

pub(super) fn remedy(remedy: &YardRemedy, system: UnitSystem) -> String {
    match remedy {
        YardRemedy::MoveGuy { turn: Some(turn), clear } => format!(
            "Turn this guy {}, or move its anchor or the mast, so that the rope passes {}.",
            turned(*turn),
            at_least(clear, system)
        ),
        YardRemedy::MoveGuy { turn: None, clear } => {
            format!("Move this guy's anchor or the mast so that the rope passes {}.", at_least(clear, system))
        }
        YardRemedy::MoveMast { clear } => format!("Move the mast {}.", at_least(clear, system)),
        YardRemedy::MoveStrands { clear } => format!(
            "Move the mast, make the ring smaller or turn its open part this way, so that the strands pass {}.",
            at_least(clear, system)
        ),
        YardRemedy::MovePeg { kind, clear } => {
            format!("Move the {} {}.", peg(*kind), at_least(clear, system))
        }
        YardRemedy::MoveOrMarkPeg { kind, clear } => format!(
            "Move the {} {}; where it has to stay, close the way, or flag it and what is tied to it from the ground up to \
             head height, lit after dark.",
            peg(*kind),
            at_least(clear, system)
        ),
        YardRemedy::MoveMastOrTurnBase { clear } => format!(
            "Move the mast {}, or turn the base so that this leg points elsewhere.",
            at_least(clear, system)
        ),
        YardRemedy::SmallerRing => "Make the ring smaller, or leave its part over this area open.".into(),
        YardRemedy::FallElsewhere { name, farther_m } => format!(
            "Raise and lower it away from {name}, with nobody there, and lower it before strong wind. To be clear of it \
             the mast would have to stand about {} further away.",
            rounded_up(*farther_m, system)
        ),
        YardRemedy::CrossNearerToMast { nearer_m } => {
            let about = nearer_m.map_or_else(String::new, |m| format!("about {} ", rounded_up(m, system)));
            format!(
                "Turn or move it so that it crosses {about}nearer to the mast, where it is higher; or close the way, and \
                 mark the rope so that nobody runs into it."
            )
        }
        YardRemedy::AddCorners => "Add the corners of the ground that you may use.".into(),
        YardRemedy::MoveInside { clear } => format!("Move it {}.", at_least(clear, system)),
        YardRemedy::TellTheNeighbours => {
            "Tell the neighbours, raise and lower it away from them, and lower it before strong wind.".into()
        }
    }
}

fn turned(turn: Turn) -> String {
    let way = if turn.clockwise { "clockwise" } else { "anticlockwise" };
    format!("about {:.0}° {way}", turn.about_deg)
}
