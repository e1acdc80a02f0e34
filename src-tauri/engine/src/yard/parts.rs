//! The parts of the work that are measured against the yard.

use super::approach::ChainKind;
use super::clearance::Work;
use super::flat::{P2, along};
use super::solid::{BoundingBox, Nearest, P3, Solid, chain_to_solids};
use crate::finding::Subject;
use crate::finding::yard::{PegKind, PegName, WorkPart};
use crate::guys::GuyResult;
use crate::numerics::chi_square::CHI_SQUARE_95_2;
use crate::numerics::vector::{norm, subtract};
use crate::quantity::UnitSystem;
use crate::quantity::estimate::COVERAGE_95;

/// A point of the work that stands on or goes into the ground.
#[derive(Debug, Clone)]
pub(super) struct Peg {
    pub kind: PegKind,
    pub subject: Subject,
    pub name: String,
    pub at: P3,
    pub sigma_m: f64,
}

impl Peg {
    pub(super) fn named(&self) -> PegName {
        PegName { kind: self.kind, name: self.name.clone() }
    }
}

/// A chain of points of the work: a guy's rope, the mast's axis, a strand.
#[derive(Debug, Clone)]
pub(super) struct Chain {
    pub subject: Subject,
    pub name: String,
    pub points: Vec<P3>,
    pub bounds: BoundingBox,
    pub sigma_m: f64,
    /// Half its thickness.
    pub radius_m: f64,
    /// How far it reaches from one end when the other is let loose.
    pub loose_m: f64,
    /// The thing that its lower end is made fast to, by its id.
    pub fast_to: Option<String>,
}

impl Chain {
    pub(super) fn named(&self, kind: ChainKind) -> WorkPart {
        match kind {
            ChainKind::Rope => WorkPart::Rope(self.name.clone()),
            ChainKind::Mast => WorkPart::Mast,
            ChainKind::Strand => WorkPart::Strand,
            ChainKind::Cone => WorkPart::Cone,
        }
    }

    /// The rope without its lowest part, so long along it.
    pub(super) fn without_end(&self, end_m: f64) -> Self {
        let mut left_m = end_m;
        let mut points = self.points.clone();
        while let [a, b, ..] = points[..] {
            let long_m = norm(subtract(b, a));
            if long_m > left_m {
                points[0] = along(a, b, left_m / long_m);
                break;
            }
            left_m -= long_m;
            points.remove(0);
        }
        let bounds = BoundingBox::of(points.iter().copied());
        Self { points, bounds, ..self.clone() }
    }

    /// From this chain to the nearest of the solids, as far as it is nearer than `cut_m`.
    pub(super) fn to_solids(&self, solids: &[(Solid, BoundingBox)], cut_m: f64) -> Nearest {
        let near = chain_to_solids(&self.points, solids, cut_m + self.radius_m);
        Nearest { distance_m: (near.distance_m - self.radius_m).max(0.0), ..near }
    }
}

/// How each chain of the work stands to one thing.
pub(super) struct Approaches {
    /// The nearest of all: number of the chain and where.
    pub worst: Option<(usize, Nearest)>,
    /// All whose 95 % interval reaches below what is needed.
    pub short: Vec<(usize, Nearest)>,
}

/// Measures chains to solids; far ones are ruled out by their boxes.
pub(super) fn approaches(
    chains: &[Chain],
    solids: &[(Solid, BoundingBox)],
    needed_m: f64,
    sigma_m: f64,
) -> Approaches {
    let gap = |chain: &Chain| {
        solids.iter().map(|(_, around)| chain.bounds.gap(around)).fold(f64::INFINITY, f64::min)
            - chain.radius_m
    };
    let mut order: Vec<(f64, usize)> =
        chains.iter().map(gap).zip(0..).filter(|(g, _)| g.is_finite()).collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut found = Approaches { worst: None, short: Vec::new() };
    for (gap_m, i) in order {
        let reach_m = needed_m + half_width_95(chains[i].sigma_m, sigma_m);
        let cut_m = found.worst.map_or(f64::INFINITY, |(_, near)| near.distance_m).max(reach_m);
        if gap_m >= cut_m {
            continue;
        }
        let near = chains[i].to_solids(solids, cut_m);
        if near.distance_m < reach_m {
            found.short.push((i, near));
        }
        if near.distance_m < found.worst.map_or(f64::INFINITY, |(_, worst)| worst.distance_m) {
            found.worst = Some((i, near));
        }
    }
    found.short.sort_by_key(|(i, _)| *i);
    found
}

pub(super) struct Timber {
    pub subject: Subject,
    pub outline: Vec<P2>,
    pub underside_m: f64,
}

/// All parts of the work, gathered once.
pub(super) struct Parts {
    /// In which a finding says how far to move.
    pub system: UnitSystem,
    pub pegs: Vec<Peg>,
    pub ropes: Vec<Chain>,
    pub mast: Chain,
    pub strands: Vec<Chain>,
    pub timbers: Vec<Timber>,
    pub ring: Vec<P3>,
    pub foot: P3,
    pub fall_radius_m: f64,
    pub sigma_m: f64,
}

impl Parts {
    pub(super) fn of(work: &Work, system: UnitSystem) -> Self {
        let mast = work.mast;
        let top_z = mast.foot_m + mast.raised_height_m;
        let (x, y) = (mast.east_m, mast.north_m);
        let radius_m = mast.stages.iter().map(|s| s.outside_mm / 2000.0).fold(0.0, f64::max);
        let axis = vec![[x, y, mast.foot_m.min(mast.ground_m)], [x, y, top_z]];
        Parts {
            system,
            pegs: pegs(work),
            ropes: work.guys.iter().map(|guy| rope(guy, work.sigma_m)).collect(),
            mast: Chain { radius_m, ..chain(Subject::Mast, "mast", axis, work.sigma_m) },
            strands: strands(work),
            timbers: timbers(work),
            ring: work.ring.map(|ring| ring.points.clone()).unwrap_or_default(),
            foot: [x, y, mast.foot_m],
            fall_radius_m: mast.fall_radius_m,
            sigma_m: work.sigma_m,
        }
    }
}

/// The half-width of the 95 % interval of a distance between two independent points.
pub(crate) fn half_width_95(sigma_a_m: f64, sigma_b_m: f64) -> f64 {
    COVERAGE_95 * (sigma_a_m * sigma_a_m + sigma_b_m * sigma_b_m).sqrt()
}

pub(super) fn anchor_sigma(guy: &GuyResult, mast_sigma_m: f64) -> f64 {
    let landing = guy.landing_95.semi_major_m / CHI_SQUARE_95_2.sqrt();
    (landing * landing + mast_sigma_m * mast_sigma_m).sqrt()
}

fn pegs(work: &Work) -> Vec<Peg> {
    // Nothing is driven in where a guy is made fast to a thing of the yard.
    let in_ground = work.guys.iter().filter(|guy| guy.made_fast.is_none());
    let told = in_ground.filter(|guy| guy.tells_of_anchor(work.guys));
    let anchors = told.map(|guy| Peg {
        kind: PegKind::Anchor,
        subject: Subject::Guy { id: guy.id.clone() },
        name: guy.anchor_name(work.guys),
        at: [guy.east_m, guy.north_m, guy.ground_m],
        sigma_m: anchor_sigma(guy, work.sigma_m),
    });
    let stakes = work.base.stakes.iter().map(|stake| Peg {
        kind: PegKind::Stake,
        subject: Subject::Stake { id: stake.id.clone() },
        name: stake.id.clone(),
        at: [stake.east_m, stake.north_m, stake.ground_m],
        sigma_m: work.sigma_m,
    });
    anchors.chain(stakes).collect()
}

fn chain(subject: Subject, name: &str, points: Vec<P3>, sigma_m: f64) -> Chain {
    let bounds = BoundingBox::of(points.iter().copied());
    Chain {
        subject,
        name: name.to_owned(),
        points,
        bounds,
        sigma_m,
        radius_m: 0.0,
        loose_m: 0.0,
        fast_to: None,
    }
}

fn rope(guy: &GuyResult, mast_sigma_m: f64) -> Chain {
    let points = if guy.rope.len() >= 2 { guy.rope.clone() } else { vec![guy.eye, guy.attach] };
    let subject = Subject::Guy { id: guy.id.clone() };
    // The whole cut rope swings, tail and all.
    let fast_to = guy.made_fast.as_ref().map(|it| it.thing.clone());
    Chain {
        loose_m: guy.cut_m.value,
        fast_to,
        ..chain(subject, &guy.name, points, anchor_sigma(guy, mast_sigma_m))
    }
}

/// Straight from the circle at the top to each ring point.
fn strands(work: &Work) -> Vec<Chain> {
    let Some(ring) = work.ring else { return Vec::new() };
    let ends = ring.tops.iter().zip(&ring.points).zip(&ring.strand_lengths_m);
    ends.map(|((top, end), length)| {
        let points = vec![*top, *end];
        Chain { loose_m: *length, ..chain(Subject::Ring, "strand", points, work.sigma_m) }
    })
    .collect()
}

fn timbers(work: &Work) -> Vec<Timber> {
    let legs = work.base.legs.iter().filter(|leg| leg.outline.len() >= 3);
    legs.map(|leg| Timber {
        subject: Subject::Leg { id: leg.id.clone() },
        outline: leg.outline.clone(),
        underside_m: work.base.underside_m,
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A thin chain 0.8 m off and a thick one whose middle is 1.0 m off, but whose skin of 0.3 m comes to 0.7 m: it is the
    /// nearest, and where 0.75 m are needed the only one too near.
    #[test]
    fn a_thick_chain_is_measured_from_its_skin() {
        let upright = |east: f64| vec![[east, 0.0, 0.0], [east, 0.0, 5.0]];
        let thin = chain(Subject::Mast, "thin", upright(0.8), 0.0);
        let thick = Chain { radius_m: 0.3, ..chain(Subject::Mast, "thick", upright(1.0), 0.0) };
        let post = Solid::Upright { a: [0.0, 0.0], b: [0.0, 0.0], radius_m: 0.0, z0: 0.0, z1: 5.0 };
        let bounds = post.bounds();
        let solids = [(post, bounds)];
        for chains in [[thin.clone(), thick.clone()], [thick.clone(), thin.clone()]] {
            let nearest = |needed_m: f64| approaches(&chains, &solids, needed_m, 0.0);
            let (worst, near) = nearest(0.0).worst.expect("there is a post");
            assert_eq!(chains[worst].name, "thick");
            assert!((near.distance_m - 0.7).abs() < 1e-9, "{}", near.distance_m);
            let short: Vec<&str> =
                nearest(0.75).short.iter().map(|(i, _)| chains[*i].name.as_str()).collect();
            assert_eq!(short, ["thick"]);
            assert_eq!(nearest(0.9).short.len(), 2);
        }
    }
}
