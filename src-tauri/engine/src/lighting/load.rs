//! What the strands take, what the circuit gives, what the lead takes of it on the way.

use super::conductor::ohm_per_m;
use super::results::{LeadWork, LightLoad};
use crate::job::{Lights, StrandLabel};

/// A load that lasts three hours or more counts a quarter more: NEC 210.20(A).
pub const CONTINUOUS: f64 = 1.25;

/// More than this of the voltage is better not lost on the way to the farthest lamp: NEC 210.19(A), informational note.
pub const MOST_DROP_PERCENT: f64 = 3.0;

/// Labels differ by a little between 110 and 127, or 220 and 240 volts; more than this is another supply. Common practice.
pub const VOLTS_ALIKE: f64 = 0.12;

/// Adds up the labels of `count` strands.
pub(super) fn load(lights: &Lights, count: usize, lead: Option<&LeadWork>) -> LightLoad {
    let (label, circuit) = (&lights.strand, &lights.circuit);
    let number = count as f64;
    let strand_amps = amps(label);
    let total_amps = strand_amps.map(|amps| number * amps);
    let volts = label.plug_volts.or(circuit.supply_volts);
    let total_watts = label.load_watts.map(|watts| number * watts).or_else(|| Some(total_amps? * volts?));
    let lights_need_amps = total_amps.map(|amps| CONTINUOUS * amps);
    let plugged = label.end_to_end;
    let wire = ohm_per_m(lights.lead.conductor);
    let long_m = lead.and_then(carries_over_m).or(lights.lead.bought_m);
    // There and back, all of the load at the far end.
    let drop_volts = wire.and_then(|(ohm, _)| Some(2.0 * ohm * long_m? * total_amps?));
    LightLoad {
        strand_amps,
        total_amps,
        total_watts,
        lights_need_amps,
        needs_amps: lights_need_amps.and_then(|amps| Some(amps + circuit.other_amps?)),
        breaker_amps: circuit.breaker_amps,
        runs: plugged.map(|plugged| count.div_ceil(usize::from(plugged.max(1))) as u32),
        first_plug_amps: strand_amps.and_then(|amps| Some(amps * f64::from(plugged?).min(number))),
        drop_volts,
        drop_percent: drop_volts.and_then(|drop| Some(100.0 * drop / circuit.supply_volts?)),
        ohm_per_m: wire.map(|(ohm, _)| ohm),
        ohm_source: wire.map(|(_, source)| source),
    }
}

/// The greater of what the label says and what its watts come to: transformers take more amperes than watts over volts.
fn amps(label: &StrandLabel) -> Option<f64> {
    let by_watts = label.load_watts.and_then(|watts| Some(watts / label.plug_volts?));
    match (label.load_amps, by_watts) {
        (Some(said), Some(by_watts)) => Some(said.max(by_watts)),
        (said, by_watts) => said.or(by_watts),
    }
}

/// All of the cord, coiled or not, resists.
fn carries_over_m(lead: &LeadWork) -> Option<f64> {
    match (lead.needed_m, lead.bought_m) {
        (Some(needed), Some(bought)) => Some(needed.max(bought)),
        (needed, bought) => bought.or(needed),
    }
}
