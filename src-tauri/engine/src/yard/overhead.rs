//! The work against overhead lines.

use super::PlacedOverheadLine;
use super::approach::{Approach, ChainKind};
use super::clearance::{Log, Span};
use super::flat::{P2, point_to_line};
use super::measure::{Measure, YardFinding, toward_deg};
use super::parts::{Chain, Parts, approaches, half_width_95};
use super::solid::{BoundingBox, Nearest, P3, Solid, boxed, plan};
use crate::finding::overhead::{OverheadRemedy, OverheadRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::quantity::UnitSystem;
use crate::quantity::estimate::COVERAGE_95;
use crate::round_figures::feet_or_metres;
use crate::source::SourceKey;

/// Distance in feet to keep from an overhead line of this nominal voltage; none beyond the table, where the utility or a
/// registered engineer sets it.
///
/// # References
/// 29 CFR 1926.1408, Table A. The upper bound of each band belongs to it. A rule for cranes, used here as the least
/// habit.
pub fn table_a_ft(voltage_kv: f64) -> Option<f64> {
    const TABLE_A: [(f64, f64); 6] =
        [(50.0, 10.0), (200.0, 15.0), (350.0, 20.0), (500.0, 25.0), (750.0, 35.0), (1000.0, 45.0)];
    TABLE_A.iter().find(|(up_to_kv, _)| voltage_kv <= *up_to_kv).map(|(_, feet)| *feet)
}

pub(super) fn check(line: &PlacedOverheadLine, parts: &Parts, log: &mut Log) {
    let to = Subject::OverheadLine { id: line.id.clone() };
    let curtains = curtains(line);
    let around = BoundingBox::of(curtains.iter().flat_map(|(_, around)| [around.lo, around.hi]));
    let view = View { line, to: &to, band_m: band_m(line, parts.system), curtains, around, parts };
    view.voltage(log);
    if view.curtains.is_empty() {
        return;
    }
    view.chains(&parts.ropes, ChainKind::Rope, log);
    view.chains(std::slice::from_ref(&parts.mast), ChainKind::Mast, log);
    view.chains(&parts.strands, ChainKind::Strand, log);
    view.reach(log);
    view.loose(&parts.ropes, ChainKind::Rope, log);
    view.loose(&parts.strands, ChainKind::Strand, log);
    view.beneath(log);
}

/// The distance measured against. An unknown voltage is held against the least band, but never called checked;
/// beyond the table nothing less than its last row can do. The wind swings the wire nearer: by so much more is kept.
pub fn band_m(line: &PlacedOverheadLine, system: UnitSystem) -> f64 {
    let feet = line.voltage_kv.map_or(10.0, |kv| table_a_ft(kv).unwrap_or(45.0));
    feet_or_metres(feet, system) + line.sway_m
}

/// The wire may hang anywhere within the 95 % interval of its estimated height: 1.96 sigma is taken off the
/// vertical part of every distance, upwards and downwards.
pub(crate) fn curtains(line: &PlacedOverheadLine) -> Vec<(Solid, BoundingBox)> {
    let half_m = COVERAGE_95 * line.height_sigma_m;
    line.wire.windows(2).map(|ends| boxed(Solid::Curtain { a: ends[0], b: ends[1], half_m })).collect()
}

struct View<'a> {
    line: &'a PlacedOverheadLine,
    to: &'a Subject,
    band_m: f64,
    curtains: Vec<(Solid, BoundingBox)>,
    /// The box around all of them.
    around: BoundingBox,
    parts: &'a Parts,
}

impl View<'_> {
    fn about(&self, severity: Severity, subject: &Subject) -> YardFinding {
        let (subject, against) = (subject.clone(), Some(self.to.clone()));
        YardFinding { severity, subject, against, source: SourceKey::Cfr1926_1408 }
    }

    fn name(&self) -> String {
        self.line.name.clone()
    }

    fn voltage_known(&self) -> bool {
        self.line.voltage_kv.is_some()
    }

    fn measure(&self, value_m: f64, limit_m: f64, sigma_m: f64) -> Measure {
        Measure { value_m, limit_m, half_width_95_m: half_width_95(sigma_m, self.line.sigma_m) }
    }

    fn voltage(&self, log: &mut Log) {
        let line = self.name();
        match self.line.voltage_kv {
            None => {
                let rule = OverheadRule::VoltageUnknown { line };
                let about = self.about(Severity::Unchecked, self.to);
                let finding = about.finding(rule, None, OverheadRemedy::AskForTheVoltage);
                log.findings.push(Finding { against: None, ..finding });
            }
            Some(kv) if table_a_ft(kv).is_none() => {
                let rule = OverheadRule::BeyondTable { line };
                let about = self.about(Severity::Stop, self.to);
                log.findings.push(Finding {
                    against: None,
                    measured: Some(Quantity::VoltageKv { value: kv }),
                    limit: Limit::at_most(Quantity::VoltageKv { value: 1000.0 }),
                    ..about.finding(rule, None, OverheadRemedy::BuildElsewhere)
                });
            }
            Some(_) => {}
        }
    }

    /// No part of the work within the band. Doubt counts as failure here: the whole 95 % interval must be clear.
    fn chains(&self, chains: &[Chain], kind: ChainKind, log: &mut Log) {
        let found = approaches(chains, &self.curtains, self.band_m, self.line.sigma_m);
        let Some((worst, near)) = found.worst else { return };
        let span = Span { distance_m: near.distance_m, needed_m: self.band_m, from: near.from, to: near.to };
        let what = Approach::ChainToWire { kind, voltage_known: self.voltage_known() };
        log.list(&chains[worst].subject, self.to, what, span);
        for (i, near) in found.short.iter().filter(|(i, _)| kind != ChainKind::Strand || *i == worst) {
            self.chain_finding(&chains[*i], kind, near, log);
        }
    }

    fn chain_finding(&self, chain: &Chain, kind: ChainKind, near: &Nearest, log: &mut Log) {
        let measure = self.measure(near.distance_m, self.band_m, chain.sigma_m);
        let (part, in_doubt) = (chain.named(kind), !measure.fails());
        let rule = OverheadRule::Near { part, line: self.name(), in_doubt };
        let remedy = OverheadRemedy::MoveTheWork { by_m: measure.shortfall() };
        log.findings.push(self.about(Severity::Stop, &chain.subject).finding(rule, Some(&measure), remedy));
    }

    fn plan_wire(&self) -> Vec<P2> {
        self.line.wire.iter().map(|p| plan(*p)).collect()
    }

    /// The mast falling any way stays the band away from the wire: common practice of mast height plus band.
    fn reach(&self, log: &mut Log) {
        let near = point_to_line(plan(self.parts.foot), &self.plan_wire());
        let limit_m = self.parts.fall_radius_m + self.band_m;
        let measure = self.measure(near.distance_m, limit_m, self.parts.sigma_m);
        let below = self.line.wire.iter().min_by(|a, b| {
            let off = |p: &[f64; 3]| super::flat::distance(plan(*p), near.to);
            off(a).total_cmp(&off(b))
        });
        let wire_z = below.map_or(0.0, |p| p[2]);
        let span = Span {
            distance_m: near.distance_m,
            needed_m: limit_m,
            from: self.parts.foot,
            to: [near.to[0], near.to[1], wire_z],
        };
        let what = Approach::FallToWire { voltage_known: self.voltage_known() };
        log.list(&Subject::Mast, self.to, what, span);
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let rule = OverheadRule::Reach { line: self.name(), in_doubt: !measure.fails() };
        let toward_deg = toward_deg(near.to, near.from);
        let remedy = OverheadRemedy::MoveOrLowerMast { by_m: measure.shortfall(), toward_deg };
        log.findings.push(self.about(Severity::Stop, &Subject::Mast).finding(rule, Some(&measure), remedy));
    }

    /// A rope or strand let loose at one end swings about the other. The one that comes nearest is named.
    fn loose(&self, chains: &[Chain], kind: ChainKind, log: &mut Log) {
        let mut nearest: Option<(&Chain, Measure)> = None;
        for chain in chains {
            let limit_m = chain.loose_m + self.band_m;
            // What is farther off than this is out of all doubt, or no nearer than another.
            let doubt_m = half_width_95(chain.sigma_m, self.line.sigma_m).clamp(1e-6, 10.0);
            let cut_m = limit_m + nearest.as_ref().map_or(doubt_m, |(_, near)| near.margin().min(doubt_m));
            if chain.bounds.gap(&self.around) >= cut_m {
                continue;
            }
            let (Some(first), Some(last)) = (chain.points.first(), chain.points.last()) else { continue };
            let near_m = [first, last].into_iter().fold(cut_m, |cut_m, end| self.nearer_than(cut_m, *end));
            // Out of all doubt, as above.
            if near_m >= cut_m {
                continue;
            }
            let measure = self.measure(near_m, limit_m, chain.sigma_m);
            let less = nearest.as_ref().is_none_or(|(_, least)| measure.margin() < least.margin());
            if less && (measure.fails() || measure.in_doubt()) {
                nearest = Some((chain, measure));
            }
        }
        let Some((chain, measure)) = nearest else { return };
        let rule = OverheadRule::LooseReach { part: chain.named(kind), line: self.name() };
        let about = self.about(Severity::Caution, &chain.subject);
        log.findings.push(about.finding(rule, Some(&measure), OverheadRemedy::NeverLetGo));
    }

    /// How near a point comes to the wire; `cut_m` where that is no less.
    fn nearer_than(&self, cut_m: f64, at: P3) -> f64 {
        let point = BoundingBox { lo: at, hi: at };
        self.curtains.iter().fold(cut_m, |least_m, (curtain, around)| {
            if point.gap(around) < least_m { curtain.near_point(at).distance_m.min(least_m) } else { least_m }
        })
    }

    /// Anchors and stakes driven under the line: bars and hammers are swung upwards there.
    fn beneath(&self, log: &mut Log) {
        let wire = self.plan_wire();
        let pegs = self.parts.pegs.iter().map(|peg| {
            let near = point_to_line(plan(peg.at), &wire);
            (peg, self.measure(near.distance_m, self.band_m, peg.sigma_m))
        });
        let Some((peg, measure)) = pegs.min_by(|a, b| a.1.margin().total_cmp(&b.1.margin())) else { return };
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let rule = OverheadRule::PegUnder { peg: peg.named(), line: self.name() };
        let remedy = OverheadRemedy::MovePeg { by_m: measure.shortfall() };
        log.findings.push(self.about(Severity::Caution, &peg.subject).finding(rule, Some(&measure), remedy));
    }
}
