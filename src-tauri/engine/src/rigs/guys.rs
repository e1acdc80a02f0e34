//! Where the guys of an offered mast are made fast, and how slender it is between them.

use crate::job::{AnchorLayout, GuyLevel, Rig, WhenLowered};
use crate::quantity::UnitSystem;

use super::tubes::{TubeSet, down, up};

/// Slenderness of a compression member that should not be exceeded. Source: AISC 360-16, E2, user note; from memory.
pub const MOST_SLENDER: f64 = 200.0;
/// A cantilever above the highest guys buckles like a column twice as long. Source: AISC 360-16, Table C-A-7.1 (f), K = 2.0;
/// from memory.
const CANTILEVER: f64 = 2.0;

/// Masts above this have two levels. Common practice.
const ONE_LEVEL_M: f64 = 5.0;
/// Of the height: where one level is made fast, and the upper one of two. Common practice.
const ONE_AT: f64 = 0.8;
const UPPER_AT: f64 = 0.9;
/// A collar sits below the end of its tube. Common practice.
const BELOW_END_M: f64 = 0.15;

/// Heights of the levels above the foot, the lower first.
pub fn heights_m(set: &TubeSet, light_height_m: f64) -> Vec<f64> {
    let tops_m = set.tops_m();
    let lower_m = tops_m[0] - BELOW_END_M;
    let two = light_height_m > ONE_LEVEL_M || tops_m.len() > 2;
    match tops_m.len() {
        _ if !two => vec![ONE_AT * light_height_m],
        2 => vec![lower_m, UPPER_AT * light_height_m],
        // A level in the middle of three: on the lowest tube it would leave two tubes above it.
        _ => vec![tops_m[1] - BELOW_END_M - 0.5 * (tops_m[1] - tops_m[0]), UPPER_AT * light_height_m],
    }
}

/// The guys in place of those of the rig in hand: as those of its uppermost level are, at the heights of this mast, their anchors
/// as far out as the highest is made fast, which is 45° on level ground. Common practice.
pub fn levels(rig: &Rig, set: &TubeSet, light_height_m: f64, system: UnitSystem) -> Vec<GuyLevel> {
    let heights_m: Vec<f64> =
        heights_m(set, light_height_m).into_iter().map(|height_m| down(height_m, system)).collect();
    let radius_m = up(heights_m.iter().copied().fold(0.0, f64::max), system);
    let tops_m = set.tops_m();
    let each = heights_m.iter().enumerate().filter_map(|(i, &attach_height_m)| {
        let like = rig.guy_levels.get(i).or(rig.guy_levels.last())?;
        let on = tops_m.iter().position(|&top_m| attach_height_m <= top_m)?;
        let collar_mm = like.collar_radius_mm.max(0.5 * set.sections[on].outside_mm);
        let name = match (heights_m.len(), i) {
            (1, _) => "Guys",
            (_, 0) => "Lower guys",
            _ => "Upper guys",
        };
        Some(GuyLevel {
            id: format!("guys-{}", i + 1),
            name: name.to_owned(),
            attach_height_m,
            collar_radius_mm: collar_mm,
            anchor_layout: AnchorLayout::EqualRadius { radius_m },
            // What was pulled at held another rope.
            proof_pull_n: None,
            to_thing: None,
            // Whose collar comes down with its tube is made fast again.
            when_lowered: WhenLowered::MadeFast,
            ..like.clone()
        })
    });
    each.collect()
}

/// The most slender length of the mast between foot, guys and top: length over radius of gyration of the thinnest tube in it.
pub fn slenderness(set: &TubeSet, light_height_m: f64) -> f64 {
    let mut held_m = vec![0.0];
    held_m.extend(heights_m(set, light_height_m));
    let top_m = set.raised_m();
    let between = held_m.windows(2).map(|pair| (pair[0], pair[1], 1.0));
    let above = held_m.last().map(|&last_m| (last_m, top_m, CANTILEVER));
    let tops_m = set.tops_m();
    let slender = |(from_m, to_m, factor): (f64, f64, f64)| {
        let in_it = tops_m.iter().enumerate().filter(|&(i, &tube_top_m)| {
            let tube_foot_m = if i == 0 { 0.0 } else { tops_m[i - 1] };
            tube_top_m > from_m && tube_foot_m < to_m
        });
        let thinnest_mm =
            in_it.map(|(i, _)| set.sections[i].radius_of_gyration_mm()).fold(f64::INFINITY, f64::min);
        factor * 1000.0 * (to_m - from_m) / thinnest_mm
    };
    between.chain(above).map(slender).fold(0.0, f64::max)
}
