//! The lights' current, in words.

use serde::Serialize;

use super::circles::{BigNumber, CircleText};
use super::words::lights as say;
use super::{FindingText, finding_text, format};
use crate::finding::lights::{LightsPart, LightsQuestion, LightsRule};
use crate::finding::{Finding, Rule, Severity};
use crate::job::Job;
use crate::lighting::{LastTube, LeadWork, LightLoad, LightsWork, NumberedStrand};

/// All of it: strands, load and lead.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LightsReport {
    /// Empty where there are strands.
    pub nothing: String,
    pub headline: String,
    pub standing: LightsStanding,
    /// Strands, load, lead: in this order.
    pub cards: Vec<CircleText>,
    /// The strands before the last tube goes up; none where nothing is cranked.
    pub slack: Option<CircleText>,
}

/// What is to be thought of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LightsStanding {
    Stop,
    NotKnown,
    Look,
}

/// The card on which something is told.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Told {
    Strands,
    Load,
    Lead,
}

/// Puts it into words.
pub fn lights(job: &Job, work: Option<&LightsWork>) -> LightsReport {
    let Some(work) = work else {
        return LightsReport {
            nothing: say::NO_STRANDS.to_owned(),
            headline: String::new(),
            standing: LightsStanding::Look,
            cards: Vec::new(),
            slack: None,
        };
    };
    let telling = Telling { job, work };
    let count = |severity| work.findings.iter().filter(|finding| finding.severity == severity).count();
    let stops = count(Severity::Stop);
    // A strand that nobody has tried is no good strand.
    let untried = work.strands.iter().filter(|strand| strand.lit.is_none()).count();
    let open = work.findings.iter().map(open_things).sum::<usize>() + untried;
    LightsReport {
        nothing: String::new(),
        headline: say::headline(stops, open),
        standing: match (stops, open) {
            (0, 0) => LightsStanding::Look,
            (0, _) => LightsStanding::NotKnown,
            _ => LightsStanding::Stop,
        },
        cards: vec![telling.strands(), telling.load(&work.load), telling.lead()],
        slack: work.last_tube.as_ref().map(|last| telling.slack(last)),
    }
}

/// How many things a finding leaves open.
fn open_things(finding: &Finding) -> usize {
    match &finding.rule {
        Rule::Lights(LightsRule::NotSaid { open }) => open.len(),
        _ => usize::from(finding.severity == Severity::Unchecked),
    }
}

fn of_rule(rule: &LightsRule) -> Told {
    match rule {
        LightsRule::StayDark { .. } | LightsRule::NotForOutdoors { part: LightsPart::Strands } => {
            Told::Strands
        }
        LightsRule::VoltsDiffer { .. }
        | LightsRule::BreakerTooSmall { .. }
        | LightsRule::TooManyEndToEnd { .. }
        | LightsRule::NoResidualCurrentDevice
        | LightsRule::NotSaid { .. } => Told::Load,
        LightsRule::LeadNotFound
        | LightsRule::CordOverloaded { .. }
        | LightsRule::CordTooShort
        | LightsRule::CordBarelyReaches
        | LightsRule::NotForOutdoors { part: LightsPart::Lead }
        | LightsRule::DropsTooMuch { .. }
        | LightsRule::CrossesWay { .. }
        | LightsRule::LeadThrough { .. } => Told::Lead,
    }
}

fn of_question(question: LightsQuestion) -> Told {
    use LightsQuestion::*;
    match question {
        StrandsOutdoors => Told::Strands,
        StrandLoad
        | StrandVolts
        | EndToEnd
        | EndToEndPlugged
        | SupplyVolts
        | Breaker
        | OtherLoad
        | ResidualCurrentDevice => Told::Load,
        Outlet | OutletHeight | Feeds | CordLength | Conductor | CordRating | CordOutdoors | CordMass => {
            Told::Lead
        }
    }
}

struct Telling<'a> {
    job: &'a Job,
    work: &'a LightsWork,
}

fn big(number: String, is: &str) -> BigNumber {
    BigNumber { number, is: is.to_owned() }
}

impl Telling<'_> {
    fn length(&self, m: f64) -> String {
        format::length(m, self.job.units)
    }

    /// A card with what is wrong, doubtful or open of its subject.
    fn card(&self, told: Told, title: &str, caution: &str) -> CircleText {
        let (mut stops, mut says, mut missing) = (Vec::new(), Vec::new(), Vec::new());
        for finding in &self.work.findings {
            let Rule::Lights(rule) = &finding.rule else { continue };
            if let LightsRule::NotSaid { open } = rule {
                let own = open.iter().filter(|question| of_question(**question) == told);
                missing.extend(own.map(|question| say::ask(*question).to_owned()));
            } else if of_rule(rule) == told {
                let FindingText { sentence, numbers, remedy, .. } = finding_text(finding, self.job.units);
                let numbers = if numbers.is_empty() { numbers } else { format!(" ({numbers})") };
                let said = format!("{sentence}{numbers} {remedy}");
                match finding.severity {
                    Severity::Stop => stops.push(said),
                    Severity::Unchecked => missing.push(said),
                    Severity::Caution | Severity::Note => says.push(said),
                }
            }
        }
        let (title, caution) = (title.to_owned(), caution.to_owned());
        CircleText { title, numbers: Vec::new(), says, stops, missing, list: Vec::new(), caution }
    }

    fn strands(&self) -> CircleText {
        let mut card = self.card(Told::Strands, say::STRANDS, say::STRANDS_CAUTION);
        let strands = &self.work.strands;
        let lit = strands.iter().filter(|strand| strand.lit == Some(true)).count();
        card.numbers = vec![
            big(strands.len().to_string(), say::STRANDS_IN_ALL),
            big(say::of(lit, strands.len()), say::TESTED),
            big(format::bearing(self.work.view_bearing_deg), say::FACES),
        ];
        card.says.extend(say::HOW_TO_TEST.map(str::to_owned));
        card.list = strands.iter().map(|strand| self.strand(strand)).collect();
        card
    }

    fn strand(&self, strand: &NumberedStrand) -> BigNumber {
        let next = strand.to_next_m.map(|m| self.length(m));
        let (bearing, length) = (format::bearing(strand.bearing_deg), self.length(strand.length_m));
        BigNumber {
            number: strand.number.to_string(),
            is: say::strand(&bearing, &length, next.as_deref(), strand.lit),
        }
    }

    fn load(&self, load: &LightLoad) -> CircleText {
        let mut card = self.card(Told::Load, say::LOAD, say::LOAD_CAUTION);
        let needs = match (load.needs_amps, load.lights_need_amps) {
            (Some(needs), _) => Some(big(format::amps(needs), say::NEEDS)),
            (None, alone) => alone.map(|alone| big(format::amps(alone), say::NEEDS_ALONE)),
        };
        let numbers = [
            load.total_watts.map(|watts| big(format::watts(watts), say::WATTS)),
            load.total_amps.map(|amps| big(format::amps(amps), say::AMPS)),
            needs,
            load.runs.map(|runs| big(runs.to_string(), say::RUNS)),
            load.first_plug_amps.map(|amps| big(format::amps(amps), say::FIRST_PLUG)),
        ];
        card.numbers = numbers.into_iter().flatten().collect();
        card
    }

    fn lead(&self) -> CircleText {
        let mut card = self.card(Told::Lead, say::LEAD, say::LEAD_CAUTION);
        card.says.push(say::DRIP_LOOP.to_owned());
        if let Some(lead) = &self.work.lead {
            card.numbers = self.lead_numbers(lead);
            let trip = |trip: &crate::lighting::TripPoint| BigNumber {
                number: self.length(trip.along_m),
                is: say::trip(&trip.name, &self.length(trip.on_it_m), trip.vehicles),
            };
            card.list = lead.trips.iter().map(trip).collect();
        }
        let load = &self.work.load;
        if let (Some(percent), Some(source)) = (load.drop_percent, load.ohm_source) {
            card.numbers.push(big(say::percent(percent), say::DROP));
            card.says.push(say::ohms(source.source().citation));
        }
        card
    }

    fn slack(&self, last: &LastTube) -> CircleText {
        let units = self.job.units;
        let pulls: Vec<f64> = last.strands.iter().filter_map(|strand| strand.tension_n).collect();
        let end = |of: Option<f64>, is: &str| of.map(|n| big(format::force(n, units), is));
        let numbers = [
            Some(big(self.length(last.drop_m), say::COMES_UP)),
            last.tie_below_m.map(|m| big(self.length(m), say::STRAIGHT_BELOW)),
            end(pulls.iter().copied().reduce(f64::min), say::GET_LEAST),
            end(pulls.iter().copied().reduce(f64::max), say::GET_MOST),
        ];
        let one = |strand: &crate::lighting::StrandSlack| {
            let slack = strand.slack_m?;
            let pull = strand.tension_n.map(|n| format::force(n, units));
            Some(BigNumber {
                number: say::slack_of(strand.number, &self.length(slack)),
                is: say::slack(pull.as_deref()),
            })
        };
        let list: Vec<BigNumber> = last.strands.iter().filter_map(one).collect();
        let missing = if list.is_empty() { vec![say::STRETCH_NOT_KNOWN.to_owned()] } else { Vec::new() };
        CircleText {
            title: say::SLACK.to_owned(),
            numbers: numbers.into_iter().flatten().collect(),
            says: Vec::new(),
            stops: Vec::new(),
            missing,
            list,
            caution: say::SLACK_CAUTION.to_owned(),
        }
    }

    fn lead_numbers(&self, lead: &LeadWork) -> Vec<BigNumber> {
        let units = self.job.units;
        let length = |m: Option<f64>, is: &str| m.map(|m| big(self.length(m), is));
        let interval = format::length_interval(lead.ground_half_width_95_m, units);
        let ground = if interval.is_empty() {
            say::ALONG_GROUND.to_owned()
        } else {
            format!("{interval}, {}", say::ALONG_GROUND)
        };
        let hangs = lead.up_m.is_some_and(|up_m| up_m > 0.0);
        let numbers = [
            length(lead.needed_m, say::NEEDED),
            length(lead.bought_m, say::BOUGHT),
            Some(big(self.length(lead.ground_m), &ground)),
            length(lead.drop_m, say::DOWN),
            length(lead.up_m.filter(|up_m| *up_m > 0.0), say::UP),
            length(Some(lead.loops_m), say::LOOPS),
            length(lead.spare_m, say::SPARE),
            Some(big(lead.trips.len().to_string(), say::TRIPS)),
            lead.mass_on_mast_kg.filter(|_| hangs).map(|kg| big(format::mass(kg, units), say::ON_MAST)),
            lead.of_mast_percent.filter(|_| hangs).map(|share| big(say::percent(share), say::OF_MAST)),
        ];
        numbers.into_iter().flatten().collect()
    }
}
