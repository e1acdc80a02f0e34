//! The work against overhead lines.

use super::PlacedOverheadLine;
use super::clearance::{Log, Span};
use super::flat::{P2, point_to_line};
use super::parts::{Chain, Parts, approaches, half_width_95};
use super::say::{Measure, Rule};
use super::solid::{Bounds, Nearest, Solid, boxed, chain_to_solids, plan};
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::habits::{feet_or_metres, rounded_up};
use crate::quantity::UnitSystem;
use crate::quantity::estimate::COVERAGE_95;
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

/// Every finding about an overhead line ends with this.
pub(super) const KEEP_AWAY: &str = "Keep yourself, the mast, ropes, strands and ladders away from the line. Ask the utility what \
     distance it wants and whether it can switch off or cover the line. Never find its height by touching: no pole, \
     no tape, no thrown line. The distances of 29 CFR 1926.1408 are a crane rule, used here as the least habit.";

pub(super) fn check(line: &PlacedOverheadLine, parts: &Parts, log: &mut Log) {
    let to = Subject::OverheadLine { id: line.id.clone() };
    let view = View { line, to: &to, band_m: band_m(line, parts.system), curtains: curtains(line), parts };
    view.voltage(log);
    if view.curtains.is_empty() {
        return;
    }
    view.chains(&parts.ropes, "guy", "rope", log);
    view.chains(std::slice::from_ref(&parts.mast), "mast", "mast", log);
    view.chains(&parts.strands, "strand", "strand", log);
    view.reach(log);
    view.loose(&parts.ropes, "guy", log);
    view.loose(&parts.strands, "strand", log);
    view.beneath(log);
}

/// The distance measured against. An unknown voltage is held against the least band, but never called checked;
/// beyond the table nothing less than its last row can do.
pub fn band_m(line: &PlacedOverheadLine, system: UnitSystem) -> f64 {
    let feet = line.voltage_kv.map_or(10.0, |kv| table_a_ft(kv).unwrap_or(45.0));
    feet_or_metres(feet, system)
}

/// The wire may hang anywhere within the 95 % interval of its estimated height: 1.96 sigma is taken off the
/// vertical part of every distance, upwards and downwards.
fn curtains(line: &PlacedOverheadLine) -> Vec<(Solid, Bounds)> {
    let half_m = COVERAGE_95 * line.height_sigma_m;
    line.wire.windows(2).map(|ends| boxed(Solid::Curtain { a: ends[0], b: ends[1], half_m })).collect()
}

struct View<'a> {
    line: &'a PlacedOverheadLine,
    to: &'a Subject,
    band_m: f64,
    curtains: Vec<(Solid, Bounds)>,
    parts: &'a Parts,
}

impl View<'_> {
    fn rule<'n>(&self, severity: Severity, name: &'n str, subject: &Subject) -> Rule<'n> {
        Rule {
            severity,
            name,
            subject: subject.clone(),
            against: Some(self.to.clone()),
            source: SourceKey::Cfr1926_1408,
        }
    }

    fn measure(&self, value_m: f64, limit_m: f64, sigma_m: f64) -> Measure {
        Measure { value_m, limit_m, half_width_95_m: half_width_95(sigma_m, self.line.sigma_m) }
    }

    fn voltage(&self, log: &mut Log) {
        let name = &self.line.name;
        match self.line.voltage_kv {
            None => {
                let sentence = format!(
                    "Nobody has asked which voltage {name} carries, so how far to keep from it is not known."
                );
                let remedy = format!(
                    "Ask the utility for the voltage and for the distance to keep; until then this line is not \
                     checked, whatever the distances say. {KEEP_AWAY}"
                );
                let rule = self.rule(Severity::Unchecked, "overhead_voltage_unknown", self.to);
                log.findings.push(Finding { against: None, ..rule.finding(None, sentence, remedy) });
            }
            Some(kv) if table_a_ft(kv).is_none() => {
                let sentence = format!("{name} carries more than the table of distances covers.");
                let remedy = format!(
                    "Build somewhere else unless the utility has set a distance in writing. {KEEP_AWAY}"
                );
                let rule = self.rule(Severity::Stop, "overhead_beyond_table", self.to);
                log.findings.push(Finding {
                    against: None,
                    measured: Some(Quantity::VoltageKv { value: kv }),
                    limit: Some(Quantity::VoltageKv { value: 1000.0 }),
                    ..rule.finding(None, sentence, remedy)
                });
            }
            Some(_) => {}
        }
    }

    fn what(&self, part: &str) -> String {
        match self.line.voltage_kv {
            None => format!("{part} to wire, voltage unknown"),
            Some(_) => format!("{part} to wire"),
        }
    }

    /// No part of the work within the band. Doubt counts as failure here: the whole 95 % interval must be clear.
    fn chains(&self, chains: &[Chain], rule: &str, word: &str, log: &mut Log) {
        let found = approaches(chains, &self.curtains, self.band_m, self.line.sigma_m);
        let Some((worst, near)) = found.worst else { return };
        let span = Span { distance_m: near.distance_m, needed_m: self.band_m, from: near.from, to: near.to };
        log.list(&chains[worst].subject, self.to, self.what(word), span);
        for (i, near) in found.short.iter().filter(|(i, _)| rule != "strand" || *i == worst) {
            self.chain_finding(&chains[*i], rule, word, near, log);
        }
    }

    fn chain_finding(&self, chain: &Chain, rule: &str, word: &str, near: &Nearest, log: &mut Log) {
        let measure = self.measure(near.distance_m, self.band_m, chain.sigma_m);
        let who = match rule {
            "guy" => format!("The rope of {}", chain.name),
            "mast" => "The mast".to_owned(),
            _ => format!("A {word}"),
        };
        let comes = if measure.fails() { "comes" } else { "may come" };
        let sentence = format!("{who} {comes} within the danger distance of {}.", self.line.name);
        let remedy = format!(
            "Move the work at least {} further from the line. {KEEP_AWAY}",
            rounded_up(measure.shortfall(), self.parts.system)
        );
        let name = format!("{rule}_near_overhead_line");
        log.findings.push(self.rule(Severity::Stop, &name, &chain.subject).finding(
            Some(&measure),
            sentence,
            remedy,
        ));
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
        log.list(&Subject::Mast, self.to, self.what("mast's foot, were it to fall,"), span);
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let reaches = if measure.fails() { "reaches" } else { "may reach" };
        let sentence =
            format!("If the mast falls that way it {reaches} the danger distance of {}.", self.line.name);
        let way =
            super::say::towards(near.to, near.from).map_or(String::new(), |way| format!(" to the {way}"));
        let remedy = format!(
            "Move the mast at least {}{way}, or make it lower by as much. {KEEP_AWAY}",
            rounded_up(measure.shortfall(), self.parts.system)
        );
        log.findings.push(self.rule(Severity::Stop, "overhead_reach", &Subject::Mast).finding(
            Some(&measure),
            sentence,
            remedy,
        ));
    }

    /// A rope or strand let loose at one end swings about the other. The one that comes nearest is named.
    fn loose(&self, chains: &[Chain], rule: &str, log: &mut Log) {
        let swings = chains.iter().filter_map(|chain| {
            let limit_m = chain.loose_m + self.band_m;
            let ends = [chain.points.first()?, chain.points.last()?];
            let near = ends
                .map(|end| chain_to_solids(&[*end, *end], &self.curtains, limit_m + 10.0))
                .into_iter()
                .fold(Nearest::FAR, Nearest::or_nearer);
            let measure = self.measure(near.distance_m, limit_m, chain.sigma_m);
            (measure.fails() || measure.in_doubt()).then_some((chain, measure))
        });
        let Some((chain, measure)) = swings.min_by(|a, b| a.1.margin().total_cmp(&b.1.margin())) else {
            return;
        };
        let who = if rule == "guy" { format!("The rope of {}", chain.name) } else { "A strand".to_owned() };
        let sentence =
            format!("{who}, let loose at one end, can swing into the danger distance of {}.", self.line.name);
        let remedy = format!(
            "Never let go of a loose end: tie it off before it is freed, in still air only, or use a place further \
             from the line. {KEEP_AWAY}"
        );
        let name = format!("loose_{rule}_reach");
        log.findings.push(self.rule(Severity::Caution, &name, &chain.subject).finding(
            Some(&measure),
            sentence,
            remedy,
        ));
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
        let word = peg.kind.word();
        let sentence = format!("A {word} ({}) stands under {} or close beside it.", peg.name, self.line.name);
        let remedy = format!(
            "Move it at least {} further from the line, or carry bars and stakes lying down there. {KEEP_AWAY}",
            rounded_up(measure.shortfall(), self.parts.system)
        );
        log.findings.push(self.rule(Severity::Caution, "peg_under_overhead_line", &peg.subject).finding(
            Some(&measure),
            sentence,
            remedy,
        ));
    }
}
