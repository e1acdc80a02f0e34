//! The lights' current: labels, circuit, lead.

use super::format;
use crate::finding::lights::{LightsPart, LightsQuestion, LightsRemedy, LightsRule};

pub(crate) const NO_STRANDS: &str = "There are no strands on this mast: nothing takes current.";

pub(crate) const STRANDS: &str = "Test, number and bundle";
pub(crate) const LOAD: &str = "What they take";
pub(crate) const LEAD: &str = "The lead";

pub(crate) const STRANDS_CAUTION: &str = "Test on dry ground, behind a residual-current device, with nobody's hands on a strand while it is plugged \
in. A strand with a nick, a cracked holder or a warm plug is thrown away, not taped.";

pub(crate) const LOAD_CAUTION: &str = "These are sums from the labels you read, no permission. Earthing, wiring and what a circuit may carry are \
for local rules and a licensed person: ask before anything but a plug is touched.";

pub(crate) const LEAD_CAUTION: &str = "One cord without a joint on the way. Where plugs meet, off the ground, out of the rain, never in a bag that \
holds water. Uncoil all of it: a coil gets hot. Nobody digs or stakes where it lies. The plug stays out until all stand clear.";

pub(crate) fn headline(stops: usize, open: usize) -> String {
    match (stops, open) {
        (0, 0) => {
            "All labels are read and nothing says stop. Test the residual-current device each time.".into()
        }
        (0, 1) => "One thing is not known yet.".into(),
        (0, open) => format!("{open} things are not known yet."),
        (1, _) => "STOP: one thing must not be switched on like this.".into(),
        (stops, _) => format!("STOP: {stops} things must not be switched on like this."),
    }
}

pub(crate) const STRANDS_IN_ALL: &str = "strands";
pub(crate) const TESTED: &str = "lit when plugged in on the ground";
pub(crate) const FACES: &str = "true bearing from the mast that the cone faces";

pub(crate) fn of(some: usize, all: usize) -> String {
    format!("{some} of {all}")
}

pub(crate) const HOW_TO_TEST: [&str; 3] = [
    "Plug in each strand on the ground, all of it uncoiled, for as long as it takes to look at every lamp.",
    "Pull the plug, then write its number on tape at both ends: 1 is tied where the cone faces or where its open side begins, the \
     others follow clockwise as seen from above.",
    "Bundle each by itself, lower end outside, and lay the last number lowest: number 1 comes off the pile first.",
];

pub(crate) fn strand(bearing: &str, length: &str, next: Option<&str>, lit: Option<bool>) -> String {
    let next = next.map_or_else(String::new, |next| format!(", {next} to the next tie"));
    let lit = match lit {
        Some(true) => "lit",
        Some(false) => "STAYS DARK",
        None => "not tried yet",
    };
    format!("ties at {bearing} from the mast, {length} long{next}: {lit}")
}

pub(crate) const WATTS: &str = "all strands together";
pub(crate) const AMPS: &str = "current of all strands together";
pub(crate) const NEEDS: &str = "the breaker at least: a quarter more than lights take that burn for three hours or longer, and what else runs";
pub(crate) const NEEDS_ALONE: &str =
    "the breaker at least for the lights alone: what else runs on the circuit is not known yet";
pub(crate) const RUNS: &str = "plugs at the end of the lead: so many runs of strands start there";
pub(crate) const FIRST_PLUG: &str = "goes through the first plug of a run";
pub(crate) const DROP: &str =
    "of the voltage stays in the lead, all of the load taken at its end and the wire warm";

/// Percent of a small share: to a tenth.
pub(crate) fn percent(value: f64) -> String {
    format!("{value:.1} %")
}

pub(crate) fn ohms(citation: &str) -> String {
    format!("What the wire resists: {citation}.")
}

pub(crate) const SLACK: &str = "Slack before the last tube";
pub(crate) const SLACK_CAUTION: &str = "A strand that is dragged tears at its lamps, and at the top it pulls the mast aside: somebody watches all of them at \
every turn of the crank. Nobody is beneath, and the plug is out.";
pub(crate) const COMES_UP: &str = "the strands' upper ends still come up with the last tube";
pub(crate) const STRAIGHT_BELOW: &str =
    "before the end of that way all strands may be tied straight, without pull: the rest draws them tight";
pub(crate) const GET_LEAST: &str = "pulls then in the strand that gets least";
pub(crate) const GET_MOST: &str = "and in the one that gets most, which is what is to be set";
pub(crate) const STRETCH_NOT_KNOWN: &str = "How a strand gives is not known yet: hang one up straight, pull at it by a luggage scale, and read how much \
longer it gets. Enter that in per cent at its parts (Parts, Strands), and say below that it was measured; a spring at its lower end with its own \
pull and way.";

pub(crate) fn slack(pull: Option<&str>) -> String {
    let pull = pull.map_or_else(String::new, |pull| format!("; tied straight as said above it gets {pull}"));
    format!("of slack before the last tube goes up{pull}")
}

pub(crate) fn slack_of(number: u32, slack: &str) -> String {
    format!("{number}: {slack}")
}

pub(crate) const NEEDED: &str = "of cord, all told";
pub(crate) const ALONG_GROUND: &str = "along the ground from below the outlet to the mast's foot";
pub(crate) const DOWN: &str = "from the outlet down to the ground";
pub(crate) const UP: &str = "up the mast to where the strands hang";
pub(crate) const LOOPS: &str = "two drip loops, one at the outlet, one where the strands are plugged in";
pub(crate) const SPARE: &str = "spare: a tenth, since a cord lies in bows";
pub(crate) const BOUGHT: &str = "is the cord in hand";
pub(crate) const ON_MAST: &str =
    "of cord hangs on the mast: tie it to the tube every arm's length, so that no plug carries it";
pub(crate) const OF_MAST: &str = "of what tubes, topper and strands weigh. The gust limit does not count it: tied close, it hardly adds to the tube's width";
pub(crate) const TRIPS: &str = "places where somebody crosses it";

pub(crate) fn trip(name: &str, on_it: &str, vehicles: bool) -> String {
    let how = if vehicles { "driven" } else { "walked" };
    format!("from the outlet: {name} is {how} over it, {on_it} of cord on the way")
}

pub(crate) const DRIP_LOOP: &str = "At the outlet and wherever plugs meet let the cord hang lower than the plug, so that rain drips off before it gets there.";

/// What is asked, with where it is read.
pub(crate) fn ask(question: LightsQuestion) -> &'static str {
    match question {
        LightsQuestion::StrandLoad => "Watts or amperes: on the label of one strand's plug.",
        LightsQuestion::StrandVolts => {
            "Volts at the strand's plug: on its label, or on its transformer behind \"input\"."
        }
        LightsQuestion::EndToEnd => {
            "How many strands may be plugged one behind the other: on the strand's label or its leaflet."
        }
        LightsQuestion::EndToEndPlugged => "How many you will plug one behind the other.",
        LightsQuestion::StrandsOutdoors => "Whether the strands' label says outdoors (or IP44 and more).",
        LightsQuestion::SupplyVolts => "Volts of the outlet: 120 or 230, as your country has it.",
        LightsQuestion::Breaker => "Amperes of the circuit: on its breaker or fuse.",
        LightsQuestion::OtherLoad => {
            "What else runs on that circuit: switch the breaker off and see what goes dark, then add up their labels."
        }
        LightsQuestion::ResidualCurrentDevice => {
            "Whether a residual-current device (GFCI) guards the outlet: it has a button marked T or TEST."
        }
        LightsQuestion::Outlet => "Where the outlet is.",
        LightsQuestion::OutletHeight => "How high the outlet is above the ground.",
        LightsQuestion::Feeds => "Where the strands are plugged in: at the mast's foot or at its top.",
        LightsQuestion::CordLength => "How long the cord is.",
        LightsQuestion::Conductor => {
            "How thick its wires are: printed on the cord, such as 14 AWG or 1.5 mm²."
        }
        LightsQuestion::CordRating => "How many amperes the cord may carry: on its label.",
        LightsQuestion::CordOutdoors => {
            "Whether the cord is marked for outdoors: a W on it, or H07RN-F, or the label's word."
        }
        LightsQuestion::CordMass => "What the cord weighs a length: on its label, or weigh all of it.",
    }
}

pub(super) fn sentence(rule: &LightsRule) -> String {
    match rule {
        LightsRule::NotSaid { open } => {
            let asked: Vec<&str> = open.iter().map(|question| ask(*question)).collect();
            format!("Not known yet of the lights' current: {}", asked.join(" "))
        }
        LightsRule::LeadNotFound => {
            "A point of the lead's way can't be found, or fits in two places: how long it is is not known yet.".into()
        }
        LightsRule::VoltsDiffer { plug_volts, supply_volts } => format!(
            "The strands are for {}, and the outlet gives {}.",
            format::volts(*plug_volts),
            format::volts(*supply_volts)
        ),
        LightsRule::BreakerTooSmall { needs_amps, breaker_amps, at_least } => {
            let (needs, breaker) = (format::amps(*needs_amps), format::amps(*breaker_amps));
            if *at_least {
                format!("The lights alone want a breaker of {needs}, and this one is of {breaker}.")
            } else {
                format!("What runs on the circuit wants a breaker of {needs}, and this one is of {breaker}.")
            }
        }
        LightsRule::CordOverloaded { amps, rated_amps } => format!(
            "The strands take {}, and the cord may carry {}.",
            format::amps(*amps),
            format::amps(*rated_amps)
        ),
        LightsRule::TooManyEndToEnd { plugged, most } => {
            format!("{plugged} strands are plugged one behind the other, and their label allows {most}.")
        }
        LightsRule::CordTooShort => "The cord does not reach from the outlet to the strands.".into(),
        LightsRule::CordBarelyReaches => {
            "Whether the cord reaches hangs on where the outlet is: that is not measured so finely.".into()
        }
        LightsRule::NotForOutdoors { part: LightsPart::Strands } => "The strands are not for outdoors.".into(),
        LightsRule::NotForOutdoors { part: LightsPart::Lead } => "The cord is not for outdoors.".into(),
        LightsRule::NoResidualCurrentDevice => "No residual-current device guards the outlet.".into(),
        LightsRule::DropsTooMuch { percent: drop, most_percent } => format!(
            "The lead keeps {} of the voltage back, more than {}: lamps dim, and the cord warms.",
            percent(*drop),
            percent(*most_percent)
        ),
        LightsRule::CrossesWay { name, vehicles: false } => {
            format!("The lead crosses {name}: somebody trips over it.")
        }
        LightsRule::CrossesWay { name, vehicles: true } => {
            format!("The lead crosses {name}: wheels crush it, and who gets out trips over it.")
        }
        LightsRule::LeadThrough { name } => {
            format!("As it was entered the lead goes through {name}: its length is not the way that it takes.")
        }
        LightsRule::StayDark { strands } => match strands.as_slice() {
            [one] => format!("Strand {one} stays dark, all of it or some lamps."),
            some => format!("Strands {} stay dark, all of them or some lamps.", some.join(", ")),
        },
    }
}

pub(super) fn remedy(remedy: &LightsRemedy) -> &'static str {
    match remedy {
        LightsRemedy::ReadTheLabels => "Read them off and enter them: Build, Lights, Current and lead.",
        LightsRemedy::SayWhereTheLeadLies => "Look at its points: Build, Lights, Current and lead.",
        LightsRemedy::OtherTransformer => "Do not plug them in: use the transformer that belongs to them.",
        LightsRemedy::LessOnTheCircuit => {
            "Take something else off the circuit, use another circuit, or fewer strands. A larger breaker is no remedy: the wires behind \
             it were chosen for this one."
        }
        LightsRemedy::ThickerCord => "Use a cord with thicker wires, or two cords on two circuits.",
        LightsRemedy::MorePlugs => "Begin more runs, each with a plug of its own at the lead.",
        LightsRemedy::LongerCord => "Use one longer cord, rather than two with a joint in the grass.",
        LightsRemedy::MeasureTheWay => {
            "Run a tape along the way, or lay the cord out before anything is cut or bought."
        }
        LightsRemedy::BuyForOutdoors => "Use what is marked for outdoors. A bag round a plug keeps water in.",
        LightsRemedy::GuardTheCircuit => {
            "Use an outlet with one, or plug one in at the outlet, before the cord; or have one fitted by a licensed person."
        }
        LightsRemedy::ThickerOrShorter => "Use thicker wires, a shorter cord, or an outlet nearer by.",
        LightsRemedy::LeadOverTheWay => {
            "Lead it round, or high over the way; else under a ramp or a mat that is pinned down, with a light on it at night."
        }
        LightsRemedy::LeadUnderWheels => {
            "Lead it round, or high over the way; else in a cable ramp made for wheels, never in the grass beside it."
        }
        LightsRemedy::GoRound => "Enter the bends that lead it round.",
        LightsRemedy::MendOrLeaveOut => "Change lamps or fuse with the plug pulled, or use another strand.",
    }
}
