//! The quick rules: what the plan view alone shows, at every place and turn. A place that they refuse is refused by the
//! whole plan as well; one that they pass is only possible.

use serde::{Deserialize, Serialize};

use crate::finding::Subject;
use crate::ground::Ground;
use crate::yard::flat::{P2, Patch, contains, point_to_edge};
use crate::yard::obstacle::footprint;
use crate::yard::overhead::band_m;
use crate::yard::{PlacedObstacle, PlacedShape, PlacedYard};

use super::poses::{BaseTurn, GuyTurn};
use super::zones::{Nearby, YardGrid, Zone, ZoneIndex};

/// The part of the work that the quick rules hold against the yard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SitingPart {
    Mast,
    /// The mast as far as it falls.
    Fall,
    Timber,
    Stake,
    Anchor,
    /// A guy that is to be made fast to a thing, and does not come to it.
    GuyToThing,
}

/// What keeps the mast from a place.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct BindingRule {
    pub part: SitingPart,
    pub against: Subject,
}

/// What the quick rules say of one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Quick {
    /// These poses, one bit each.
    Possible(u64),
    /// What stands in the way of most poses, as a number of the rules' list.
    Refused(u32),
}

/// Rounding of coordinates: a place is never refused for less.
const ROUNDING_M: f64 = 1e-9;

/// What the quick rules look into.
pub(super) struct QuickRules<'a> {
    ground: &'a Ground,
    outline: &'a [P2],
    turns: &'a [BaseTurn],
    /// For anchors and stakes.
    pegs: ZoneIndex,
    mast: Vec<MastZone>,
    near_mast: Nearby,
    raised_m: f64,
    things: Vec<KeptGround>,
    near_base: Nearby,
    /// Within this of the boundary's edge the base may reach over it.
    reach_of_base_m: f64,
    fall_within_m: f64,
    /// Every rule that can refuse a place.
    pub rules: Vec<BindingRule>,
    first: FirstRules,
}

/// Where the rules of each part begin in the list.
#[derive(Clone, Copy)]
struct FirstRules {
    stake: u32,
    timber: u32,
    mast: u32,
    fall_over_boundary: u32,
    /// A thing that a guy is to be made fast to, and is not met.
    aim: u32,
}

/// Where the mast may not stand.
struct MastZone {
    patch: Patch,
    reach_m: f64,
    /// From which level to which it stands in the mast's way; none: whatever its height.
    levels_m: Option<[f64; 2]>,
    rule: BindingRule,
}

/// A piece of ground that the timbers keep off.
struct KeptGround {
    patch: Patch,
    keep_off_m: f64,
    by: Subject,
}

/// Of the mast what the quick rules need.
#[derive(Clone, Copy)]
pub(super) struct MastSize {
    pub raised_m: f64,
    pub radius_m: f64,
}

impl<'a> QuickRules<'a> {
    pub fn new(
        yard: &PlacedYard,
        outline: &'a [P2],
        ground: &'a Ground,
        turns: &'a [BaseTurn],
        size: MastSize,
        clear_of_fall: bool,
        grid: YardGrid,
    ) -> Self {
        let reach_of_base_m = reach_of_base_m(turns);
        let things: Vec<KeptGround> = yard.obstacles.iter().flat_map(things_of).collect();
        let of_base: Vec<(&Patch, f64)> =
            things.iter().map(|it| (&it.patch, it.keep_off_m + reach_of_base_m + ROUNDING_M)).collect();
        let near_base = Nearby::new(grid, &of_base);
        let mast = mast_zones(yard, size, clear_of_fall);
        let of_mast: Vec<(&Patch, f64)> = mast.iter().map(|zone| (&zone.patch, zone.reach_m)).collect();
        let near_mast = Nearby::new(grid, &of_mast);
        let pegs = ZoneIndex::new(grid, peg_zones(yard), outline, ROUNDING_M);
        let aimed = turns.iter().flat_map(|turn| &turn.guy_turns).find_map(|guys| guys.aim.as_ref());
        let aimed = aimed.and_then(|aim| yard.obstacles.get(aim.thing)).map(obstacle);
        let (rules, first) = rules(&pegs, &things, &mast, aimed);
        let fall_within_m = if clear_of_fall { size.raised_m } else { 0.0 };
        Self {
            ground,
            outline,
            turns,
            pegs,
            mast,
            near_mast,
            raised_m: size.raised_m,
            things,
            near_base,
            reach_of_base_m,
            fall_within_m,
            rules,
            first,
        }
    }

    /// What they say of a mast that stands here.
    pub fn at(&self, mast: P2) -> Quick {
        let edge_m = point_to_edge(mast, self.outline).distance_m;
        if edge_m > self.reach_of_base_m && !contains(self.outline, mast) {
            return Quick::Refused(self.timber_over_boundary());
        }
        if let Some(rule) = self.mast_refused(mast, edge_m) {
            return Quick::Refused(rule);
        }
        let mut tally = Tally::default();
        let mut bit = 0;
        for turn in self.turns {
            let count = turn.guy_turns.len() as u32;
            match self.base_refused(mast, edge_m, turn) {
                Some(rule) => tally.refused(rule, count),
                None => {
                    for (offset, guys) in (0..).zip(&turn.guy_turns) {
                        match self.anchors_refused(mast, guys) {
                            Some(rule) => tally.refused(rule, 1),
                            None => tally.possible |= 1 << (bit + offset),
                        }
                    }
                }
            }
            bit += count;
        }
        tally.said()
    }

    fn timber_over_boundary(&self) -> u32 {
        self.first.mast - 1
    }

    fn mast_refused(&self, mast: P2, edge_m: f64) -> Option<u32> {
        if edge_m < self.fall_within_m - ROUNDING_M {
            return Some(self.first.fall_over_boundary);
        }
        let near = self.near_mast.at(mast);
        if near.is_empty() {
            return None;
        }
        let ground_m = self.ground.height(mast);
        let refuses = |number: &&u32| {
            let Some(zone) = self.mast.get(**number as usize) else { return false };
            // The mast reaches from the ground up to its length at least, standing on timbers.
            let meets =
                zone.levels_m.is_none_or(|[from, to]| from <= ground_m + self.raised_m && to >= ground_m);
            meets && zone.patch.near_point(mast).distance_m < zone.reach_m - ROUNDING_M
        };
        near.iter().find(refuses).map(|number| self.first.mast + number)
    }

    fn base_refused(&self, mast: P2, edge_m: f64, turn: &BaseTurn) -> Option<u32> {
        let moved = |p: &P2| [mast[0] + p[0], mast[1] + p[1]];
        let stake = turn.stakes.iter().find_map(|stake| self.pegs.refusing(moved(stake)));
        if let Some(number) = stake {
            return Some(self.first.stake + number);
        }
        let near = self.near_base.at(mast);
        let at_edge = edge_m <= self.reach_of_base_m;
        if near.is_empty() && !at_edge {
            return None;
        }
        for timber in &turn.timbers {
            let outline: Vec<P2> = timber.iter().map(moved).collect();
            if at_edge && outline.iter().any(|corner| self.is_outside(*corner)) {
                return Some(self.timber_over_boundary());
            }
            let touches =
                |number: &&u32| self.things.get(**number as usize).is_some_and(|it| it.refuses(&outline));
            if let Some(number) = near.iter().find(touches) {
                return Some(self.first.timber + number);
            }
        }
        None
    }

    fn is_outside(&self, p: P2) -> bool {
        !contains(self.outline, p) && point_to_edge(p, self.outline).distance_m > ROUNDING_M
    }

    fn anchors_refused(&self, mast: P2, guys: &GuyTurn) -> Option<u32> {
        if guys.aim.as_ref().is_some_and(|aim| !aim.shape.is_about(mast, aim.azimuth_deg, aim.within_deg)) {
            return Some(self.first.aim);
        }
        guys.anchors.iter().find_map(|p| self.pegs.refusing([mast[0] + p[0], mast[1] + p[1]]))
    }
}

impl KeptGround {
    fn refuses(&self, timber: &[P2]) -> bool {
        let distance_m = self.patch.near_area(timber).distance_m;
        distance_m <= 0.0 || distance_m < self.keep_off_m - ROUNDING_M
    }
}

/// How many poses each rule has refused.
#[derive(Default)]
struct Tally {
    possible: u64,
    refused: Vec<(u32, u32)>,
}

impl Tally {
    fn refused(&mut self, rule: u32, poses: u32) {
        match self.refused.iter_mut().find(|(known, _)| *known == rule) {
            Some((_, count)) => *count += poses,
            None => self.refused.push((rule, poses)),
        }
    }

    /// Of rules that refuse as many, the first in the list.
    fn said(self) -> Quick {
        if self.possible != 0 {
            return Quick::Possible(self.possible);
        }
        let most = self.refused.iter().max_by_key(|(rule, count)| (*count, std::cmp::Reverse(*rule)));
        most.map_or(Quick::Possible(0), |(rule, _)| Quick::Refused(*rule))
    }
}

fn obstacle(thing: &PlacedObstacle) -> Subject {
    Subject::Obstacle { id: thing.id.clone() }
}

fn things_of(thing: &PlacedObstacle) -> impl Iterator<Item = KeptGround> + '_ {
    let of = |patch| KeptGround { patch, keep_off_m: thing.keep_off_m, by: obstacle(thing) };
    footprint(&thing.shape).into_iter().map(of)
}

fn reach_of_base_m(turns: &[BaseTurn]) -> f64 {
    let corners = turns.iter().flat_map(|turn| turn.timbers.iter().flatten());
    corners.map(|p| (p[0] * p[0] + p[1] * p[1]).sqrt()).fold(0.0, f64::max)
}

/// Ground that nothing may be driven into.
fn peg_zones(yard: &PlacedYard) -> Vec<Zone> {
    let things = yard.obstacles.iter().flat_map(|thing| {
        let zone = |patch| Zone { patch, reach_m: thing.keep_off_m, by: obstacle(thing) };
        footprint(&thing.shape).into_iter().map(zone)
    });
    let services = yard.buried_services.iter().flat_map(|service| {
        service.line.windows(2).map(|ends| Zone {
            patch: Patch::Strip { a: ends[0], b: ends[1], half_m: service.width_m / 2.0 },
            reach_m: service.tolerance_m,
            by: Subject::BuriedService { id: service.id.clone() },
        })
    });
    things.chain(services).collect()
}

/// Crowns at the mast's height and wires within its fall; where it is wished, all that it would fall on. What stands on
/// the ground is kept by the timbers, which lie about the mast.
fn mast_zones(yard: &PlacedYard, size: MastSize, clear_of_fall: bool) -> Vec<MastZone> {
    let crowns = yard.obstacles.iter().filter_map(|thing| {
        let PlacedShape::Tree { at, crown_radius_m, crown_base_z, top_z, .. } = &thing.shape else {
            return None;
        };
        Some(MastZone {
            patch: Patch::Strip { a: *at, b: *at, half_m: *crown_radius_m },
            reach_m: thing.keep_off_m + size.radius_m,
            levels_m: Some([*crown_base_z, *top_z]),
            rule: BindingRule { part: SitingPart::Mast, against: obstacle(thing) },
        })
    });
    let wires = yard.overhead_lines.iter().flat_map(|line| {
        let reach_m = size.raised_m + band_m(line, yard.system);
        let rule =
            BindingRule { part: SitingPart::Fall, against: Subject::OverheadLine { id: line.id.clone() } };
        line.wire.windows(2).map(move |ends| MastZone {
            patch: Patch::Strip { a: [ends[0][0], ends[0][1]], b: [ends[1][0], ends[1][1]], half_m: 0.0 },
            reach_m,
            levels_m: None,
            rule: rule.clone(),
        })
    });
    let fallen_on = yard.obstacles.iter().filter(|thing| clear_of_fall && minds_the_fall(&thing.shape));
    let fallen_on = fallen_on.flat_map(|thing| {
        footprint(&thing.shape).into_iter().map(|patch| MastZone {
            patch,
            reach_m: size.raised_m,
            levels_m: None,
            rule: BindingRule { part: SitingPart::Fall, against: obstacle(thing) },
        })
    });
    crowns.chain(wires).chain(fallen_on).collect()
}

fn minds_the_fall(shape: &PlacedShape) -> bool {
    matches!(shape, PlacedShape::Building { .. } | PlacedShape::Path { .. })
}

/// Anchors, stakes, timbers, mast: each with what it is held against, the boundary last of its part.
fn rules(
    pegs: &ZoneIndex,
    things: &[KeptGround],
    mast: &[MastZone],
    aimed: Option<Subject>,
) -> (Vec<BindingRule>, FirstRules) {
    let of = |part| move |against| BindingRule { part, against };
    let mut rules: Vec<BindingRule> = pegs.subjects().map(of(SitingPart::Anchor)).collect();
    let stake = rules.len() as u32;
    rules.extend(pegs.subjects().map(of(SitingPart::Stake)));
    let timber = rules.len() as u32;
    rules.extend(things.iter().map(|it| of(SitingPart::Timber)(it.by.clone())));
    rules.push(of(SitingPart::Timber)(Subject::Boundary));
    let first_mast = rules.len() as u32;
    rules.extend(mast.iter().map(|zone| zone.rule.clone()));
    let fall_over_boundary = rules.len() as u32;
    rules.push(of(SitingPart::Fall)(Subject::Boundary));
    let aim = rules.len() as u32;
    rules.extend(aimed.map(of(SitingPart::GuyToThing)));
    (rules, FirstRules { stake, timber, mast: first_mast, fall_over_boundary, aim })
}
