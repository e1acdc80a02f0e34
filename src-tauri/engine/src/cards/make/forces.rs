//! Numbers of the cards that are forces and gusts.

use super::{Making, length};
use crate::cards::card::{CardForceAt, CardForces, CardMissing, CardNumber, CardValue, NumberOf};
use crate::lifting::{GustFound, GustMissing, TiltWork, hands};
use crate::numerics::real::atan_deg;

fn force(value_n: f64) -> CardValue {
    CardValue::Force { value_n }
}

/// The force that raises it, and where it is hardest.
pub(super) fn hardest(making: &Making, missing: CardMissing) -> [CardNumber; 2] {
    let found = making.tilt().map(|tilt| match &tilt.line {
        Some(pull) => (pull.pull_n, pull.elevation_deg),
        None => (tilt.hardest.force_n, tilt.hardest.elevation_deg),
    });
    let found = found.filter(|(value_n, _)| value_n.is_finite());
    let by_line = making.job.raising.line.is_some();
    let what = if by_line { NumberOf::LinePull } else { NumberOf::ForceAtHands };
    // A line without a lever: how it is rigged has to be changed.
    let missing = if making.tilt().is_some() { CardMissing::HowItTurnsUp } else { missing };
    [
        CardNumber::or(what, found.map(|it| force(it.0)), missing),
        CardNumber::or(NumberOf::HardestAt, found.map(|it| CardValue::Angle { value_deg: it.1 }), missing),
    ]
}

/// The foot's push, and what holds it.
pub(super) fn kick(making: &Making) -> Vec<CardNumber> {
    let open = if making.way.is_some() { CardMissing::CordWeight } else { CardMissing::HowItTurnsUp };
    let Some(tilt) = making.tilt() else {
        return vec![
            CardNumber::missing(NumberOf::KickOut, open),
            CardNumber::missing(NumberOf::HeldAtHinge, open),
        ];
    };
    let holds = tilt.kick.holds_n.map(|value_n| force(value_n.min(1e6)));
    vec![
        CardNumber::known(NumberOf::KickOut, force(tilt.kick.most_n)),
        CardNumber::or(NumberOf::HeldAtHinge, holds, CardMissing::StakesInSoil),
    ]
}

/// All that is told of the way up.
pub(super) fn on_the_way(making: &Making) -> Vec<CardNumber> {
    let mut numbers = kick(making);
    let Some(tilt) = making.tilt() else { return numbers };
    let lifted = tilt.hinge_lifts.map_or(0.0, |it| it.most_n);
    numbers.push(CardNumber::known(NumberOf::HingeLifted, force(lifted)));
    numbers.extend(bent(tilt));
    let slope = |value: f64| CardValue::Angle { value_deg: atan_deg(value) };
    numbers.push(CardNumber::known(NumberOf::GroundAlong, slope(tilt.lie.along)));
    numbers.push(CardNumber::known(NumberOf::GroundAcross, slope(tilt.lie.across)));
    if tilt.line.is_none() {
        numbers.push(CardNumber::known(NumberOf::OnLevelGround, force(tilt.level_hardest_n)));
    }
    numbers
}

/// Degrees between two rows of the table of forces; lying, where it is hardest and plumb have rows of their own.
const ROW_DEG: f64 = 5.0;

/// Angle by angle, and person by person.
pub(super) fn on_the_way_up(making: &Making) -> Option<CardForces> {
    let tilt = making.tilt().filter(|tilt| tilt.angles.iter().all(|at| at.force_n.is_finite()))?;
    let hardest_deg = match &tilt.line {
        Some(pull) => pull.elevation_deg,
        None => tilt.hardest.elevation_deg,
    };
    let rows = tilt.angles.iter().enumerate().filter(|(place, at)| {
        *place == 0 || at.elevation_deg % ROW_DEG == 0.0 || at.elevation_deg == hardest_deg
    });
    let angles = rows.map(|(_, at)| CardForceAt {
        elevation_deg: at.elevation_deg,
        force_n: at.force_n,
        up_n: at.up_n,
        at_m: at.at_m,
        kick_out_n: at.away_n,
        hardest: at.elevation_deg == hardest_deg,
    });
    let by_line = tilt.line.is_some();
    let teams = if by_line { Vec::new() } else { hands::teams(tilt.hardest.force_n).to_vec() };
    Some(CardForces { by_line, angles: angles.collect(), teams })
}

fn bent(tilt: &TiltWork) -> Vec<CardNumber> {
    let Some(bend) = &tilt.bend else {
        let what = NumberOf::TubeBends { tube: String::new() };
        return vec![CardNumber::missing(what, CardMissing::TubeStrength)];
    };
    let percent = CardValue::Percent { value: 100.0 * bend.utilisation };
    let mut numbers = vec![CardNumber::known(NumberOf::TubeBends { tube: bend.tube.clone() }, percent)];
    numbers.extend(bend.socket_n.map(|value_n| CardNumber::known(NumberOf::MouthPresses, force(value_n))));
    numbers
}

/// What the prop of a line gets where the pull is hardest.
pub(super) fn prop(making: &Making) -> Vec<CardNumber> {
    let pull = making.tilt().and_then(|tilt| tilt.line).filter(|pull| pull.pull_n.is_finite());
    let number = |what: NumberOf, value_n: Option<f64>| {
        CardNumber::or(what, value_n.map(force), CardMissing::CordWeight)
    };
    let mut numbers = vec![
        number(NumberOf::LinePull, pull.map(|pull| pull.pull_n)),
        number(NumberOf::PropPressed, pull.map(|pull| pull.prop_down_n)),
        number(NumberOf::PropPushed, pull.map(|pull| pull.prop_toward_n.abs())),
    ];
    let line = making.job.raising.line.as_ref();
    let places = line
        .map(|line| [(NumberOf::PropBehind, line.prop_behind_m), (NumberOf::LineAnchor, line.pulled_from_m)]);
    let places = places.into_iter().flatten();
    numbers.extend(places.map(|(what, value_m)| CardNumber::known(what, length(value_m))));
    numbers
}

/// The gust up to which anybody begins: the limit less the job's margin.
pub(super) fn begins(making: &Making, limit_m_per_s: f64) -> f64 {
    limit_m_per_s * (1.0 - making.job.wind.margin_percent / 100.0).max(0.0)
}

pub(super) fn gust(making: &Making, what: NumberOf, found: &GustFound) -> CardNumber {
    let open = found.missing.first().map_or(CardMissing::PartsInWind, |it| missing(*it));
    let value = found
        .limit
        .as_ref()
        .map(|limit| CardValue::Gust { value_m_per_s: begins(making, limit.gust_m_per_s) });
    CardNumber::or(what, value, open)
}

pub(super) fn missing(of: GustMissing) -> CardMissing {
    match of {
        GustMissing::HowItTurnsUp => CardMissing::HowItTurnsUp,
        GustMissing::CordWeight => CardMissing::CordWeight,
        GustMissing::CordThickness => CardMissing::CordThickness,
        GustMissing::HangingStrands => CardMissing::HangingStrands,
        GustMissing::RopesAndAnchors => CardMissing::RopesAndAnchors,
        GustMissing::NothingHolds => CardMissing::NothingHolds,
        GustMissing::PartsInWind => CardMissing::PartsInWind,
        GustMissing::StrapLabel => CardMissing::StrapLabel,
        GustMissing::RodAndWinch => CardMissing::RodAndWinch,
    }
}
