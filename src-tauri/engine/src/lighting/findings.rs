//! What is wrong, and what nobody has read yet.

use super::lead::goes_through;
use super::load::{MOST_DROP_PERCENT, VOLTS_ALIKE};
use super::results::{CordReach, LeadWork, LightsWork};
use crate::finding::lights::{LightsPart, LightsQuestion as Ask, LightsRemedy, LightsRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::job::{CordConductor, Job, LabelSays, LeadFeeds};
use crate::plan::Computed;
use crate::source::SourceKey;

pub(super) fn findings(job: &Job, computed: &Computed, work: &LightsWork) -> Vec<Finding> {
    let mut found = Vec::new();
    found.extend(labels(job, work));
    found.extend(circuit(job, work));
    if let Some(lead) = &work.lead {
        found.extend(reach(lead));
        found.extend(crossings(lead));
        found.extend(goes_through(lead, &computed.yard.obstacles).into_iter().map(|(id, name)| Finding {
            against: Some(Subject::Obstacle { id }),
            ..thumb(Severity::Caution, LightsRule::LeadThrough { name }, LightsRemedy::GoRound)
        }));
    } else if !job.lights.lead.way.is_empty() {
        found.push(thumb(Severity::Unchecked, LightsRule::LeadNotFound, LightsRemedy::SayWhereTheLeadLies));
    }
    let open = open(job);
    if !open.is_empty() {
        found.push(thumb(Severity::Unchecked, LightsRule::NotSaid { open }, LightsRemedy::ReadTheLabels));
    }
    found.sort_by_key(|finding| finding.severity);
    found
}

fn thumb(severity: Severity, rule: LightsRule, remedy: LightsRemedy) -> Finding {
    Finding::rule_of_thumb(severity, rule, Subject::Ring, remedy)
}

/// What the labels of strands and cord forbid.
fn labels(job: &Job, work: &LightsWork) -> Vec<Finding> {
    let (strand, lead) = (&job.lights.strand, &job.lights.lead);
    let mut found = Vec::new();
    if let (Some(plugged), Some(most)) = (strand.end_to_end, strand.most_end_to_end)
        && plugged > most
    {
        found.push(thumb(
            Severity::Stop,
            LightsRule::TooManyEndToEnd { plugged, most },
            LightsRemedy::MorePlugs,
        ));
    }
    for (part, says) in [(LightsPart::Strands, strand.outdoors), (LightsPart::Lead, lead.outdoors)] {
        if says == LabelSays::No {
            found.push(thumb(
                Severity::Stop,
                LightsRule::NotForOutdoors { part },
                LightsRemedy::BuyForOutdoors,
            ));
        }
    }
    if let (Some(amps), Some(rated_amps)) = (work.load.total_amps, lead.rated_amps)
        && amps > rated_amps
    {
        found.push(thumb(
            Severity::Stop,
            LightsRule::CordOverloaded { amps, rated_amps },
            LightsRemedy::ThickerCord,
        ));
    }
    let dark = work.strands.iter().filter(|strand| strand.lit == Some(false));
    let strands: Vec<String> = dark.map(|strand| strand.number.to_string()).collect();
    if !strands.is_empty() {
        found.push(thumb(Severity::Stop, LightsRule::StayDark { strands }, LightsRemedy::MendOrLeaveOut));
    }
    found
}

/// What the circuit does not bear.
fn circuit(job: &Job, work: &LightsWork) -> Vec<Finding> {
    let (circuit, load) = (&job.lights.circuit, &work.load);
    let mut found = Vec::new();
    if let (Some(plug_volts), Some(supply_volts)) = (job.lights.strand.plug_volts, circuit.supply_volts)
        && (plug_volts - supply_volts).abs() > VOLTS_ALIKE * supply_volts
    {
        let rule = LightsRule::VoltsDiffer { plug_volts, supply_volts };
        found.push(thumb(Severity::Stop, rule, LightsRemedy::OtherTransformer));
    }
    // Where nobody knows what else runs on it, the lights alone may be too much already.
    let needs = load.needs_amps.or(load.lights_need_amps);
    if let (Some(needs_amps), Some(breaker_amps)) = (needs, circuit.breaker_amps)
        && needs_amps > breaker_amps
    {
        let at_least = load.needs_amps.is_none();
        let rule = LightsRule::BreakerTooSmall { needs_amps, breaker_amps, at_least };
        let finding = thumb(Severity::Stop, rule, LightsRemedy::LessOnTheCircuit);
        found.push(Finding { source: SourceKey::Nec210_20, ..finding });
    }
    if circuit.residual_current_device == LabelSays::No {
        let finding =
            thumb(Severity::Stop, LightsRule::NoResidualCurrentDevice, LightsRemedy::GuardTheCircuit);
        found.push(Finding { source: SourceKey::Nec210_8, ..finding });
    }
    if let Some(percent) = load.drop_percent.filter(|percent| *percent > MOST_DROP_PERCENT) {
        let rule = LightsRule::DropsTooMuch { percent, most_percent: MOST_DROP_PERCENT };
        let finding = thumb(Severity::Caution, rule, LightsRemedy::ThickerOrShorter);
        found.push(Finding { source: SourceKey::Nec210_19, ..finding });
    }
    found
}

fn reach(lead: &LeadWork) -> Option<Finding> {
    let (severity, rule, remedy) = match lead.reach {
        CordReach::TooShort => (Severity::Stop, LightsRule::CordTooShort, LightsRemedy::LongerCord),
        CordReach::Barely => (Severity::Caution, LightsRule::CordBarelyReaches, LightsRemedy::MeasureTheWay),
        CordReach::NotKnown | CordReach::Reaches => return None,
    };
    let length = |value: f64| Quantity::LengthM { value };
    Some(Finding {
        measured: lead.bought_m.map(length),
        limit: lead.needed_m.and_then(|needed| Limit::at_least(length(needed))),
        ..thumb(severity, rule, remedy)
    })
}

fn crossings(lead: &LeadWork) -> impl Iterator<Item = Finding> {
    lead.trips.iter().map(|trip| {
        let rule = LightsRule::CrossesWay { name: trip.name.clone(), vehicles: trip.vehicles };
        let remedy = if trip.vehicles { LightsRemedy::LeadUnderWheels } else { LightsRemedy::LeadOverTheWay };
        Finding {
            against: Some(Subject::Obstacle { id: trip.id.clone() }),
            ..thumb(Severity::Caution, rule, remedy)
        }
    })
}

/// What nobody has said, in the order in which it is asked.
fn open(job: &Job) -> Vec<Ask> {
    let (strand, circuit, lead) = (&job.lights.strand, &job.lights.circuit, &job.lights.lead);
    let unsaid = |says: LabelSays| says == LabelSays::Unsaid;
    // Watts do without amperes only where the volts are known, which are asked by themselves.
    let asked = [
        (Ask::StrandLoad, strand.load_amps.is_none() && strand.load_watts.is_none()),
        (Ask::StrandVolts, strand.plug_volts.is_none()),
        (Ask::EndToEnd, strand.most_end_to_end.is_none()),
        (Ask::EndToEndPlugged, strand.end_to_end.is_none()),
        (Ask::StrandsOutdoors, unsaid(strand.outdoors)),
        (Ask::SupplyVolts, circuit.supply_volts.is_none()),
        (Ask::Breaker, circuit.breaker_amps.is_none()),
        (Ask::OtherLoad, circuit.other_amps.is_none()),
        (Ask::ResidualCurrentDevice, unsaid(circuit.residual_current_device)),
        (Ask::Outlet, lead.way.is_empty()),
        (Ask::OutletHeight, lead.outlet_height_m.is_none()),
        (Ask::Feeds, lead.feeds == LeadFeeds::Unsaid),
        (Ask::CordLength, lead.bought_m.is_none()),
        (Ask::Conductor, lead.conductor == CordConductor::Unsaid),
        (Ask::CordRating, lead.rated_amps.is_none()),
        (Ask::CordOutdoors, unsaid(lead.outdoors)),
        (Ask::CordMass, lead.feeds == LeadFeeds::Top && lead.mass_g_per_m.is_none()),
    ];
    asked.into_iter().filter(|(_, open)| *open).map(|(ask, _)| ask).collect()
}
