//! Step cards: what to do, who stands where, what can hurt, when to stop, what has to hold before and why.

use crate::cards::{
    CardCaution, CardKind, CardMissing, CardPhase, NeedWhy, NumberOf, StopRule, Tool, YardState,
};
use crate::lifting::GustBy;

pub(crate) const CAUTION: &str = "A card is no licence. Look up for wires, follow local rules, and ask somebody licensed where it is \
about wiring or where people could be hurt. Nobody is beneath a mast that moves. Whoever is in doubt calls stop, and everybody stops.";

pub(crate) const NOT_KNOWN: &str = "not known yet";
pub(crate) const NO_NUMBER_FOR_GUST: &str =
    "In which gust it may be turned or cranked up is not known yet. Nobody begins until it is.";

pub(crate) const NO_NUMBER_COMING_DOWN: &str =
    "In which gust it holds while it comes down is not known yet. Be done before any wind comes.";

/// Up to which gust, what gives first, and whether one is forecast.
pub(crate) fn gust(limit: &str, begin: &str, margin_percent: f64, by: &str) -> String {
    format!(
        "It holds in gusts up to {limit}: the first to give is {by}. Begin only where no gust above {begin} is forecast until the guys are fast: \
{margin_percent:.0} % less, since gusts come stronger than forecast."
    )
}

pub(crate) fn gust_by(by: &GustBy) -> String {
    match by {
        GustBy::Hands => "the people at the mast or in the line".into(),
        GustBy::Side { guy } => format!("{}, which keeps it from going over sideways", guy),
        GustBy::Stop { guy } => format!("{}, which stops it at plumb", guy),
        GustBy::RopesInHands => "the helpers at the ropes, since no guy stays fast meanwhile".into(),
        GustBy::Strap => "the strap or its hook".into(),
        GustBy::Part { part } => super::part(&part.name),
        GustBy::HighWind => {
            "nothing that is worked out here, but above it counts as high wind, in which nobody handles such things".into()
        }
    }
}

pub(crate) fn forecast(gust: &str) -> String {
    format!(" Forecast, as entered: {gust}.")
}

pub(crate) const NO_FORECAST: &str = " No forecast gust is entered: look it up first.";

pub(crate) fn forecast_too_strong(forecast: &str, begin: &str) -> [String; 2] {
    [
        format!("Gusts of {forecast} are forecast, and nobody begins with more than {begin} forecast."),
        "Wait for calmer hours, or have more people or better held ropes where these give first.".into(),
    ]
}

pub(crate) fn kicks_out(away: &str, holds: &str) -> [String; 2] {
    [
        format!("The foot kicks out with {away}, and what holds it bears {holds}."),
        "Drive longer, thicker or more stakes, or raise a lighter mast. Nobody's foot holds it.".into(),
    ]
}

pub(crate) fn hinge_lifts(lifts: &str, at: &str) -> [String; 2] {
    [
        format!("The push lifts the hinge off with {lifts}, at {at} to the level."),
        "Run the tubes down or take weight off the top; or raise it by a line over a prop, which presses the foot down. A stake does not hold it down."
            .into(),
    ]
}

pub(crate) fn tube_bends(tube: &str, percent: &str) -> [String; 2] {
    [
        format!(
            "By its own weight on the way up {} is used to {percent} of what it may carry in bending.",
            named(tube)
        ),
        "Take weight off the top, run the tubes down, or hold it nearer to its middle.".into(),
    ]
}

pub(crate) fn too_late(takes: &str, left: &str, keep_off: &str) -> [String; 2] {
    [
        format!("It takes {takes}, as you rehearsed it, and the gust is forecast in {left}."),
        format!(
            "Do not begin: pull the plug, keep everybody at least {keep_off} away, and wait until it has passed."
        ),
    ]
}

pub(crate) fn minutes(value: f64) -> String {
    format!("{:.0} min", value.ceil())
}

/// While it comes down: how far it holds meanwhile.
pub(crate) fn gust_coming_down(limit: &str, begin: &str, by: &str) -> String {
    format!(
        "While it comes down it holds in gusts up to {limit}: the first to give is {by}. Be done before gusts above {begin} come."
    )
}

pub(crate) fn no_way_clear(degrees: u32) -> [String; 2] {
    [
        format!("Along none of the {degrees} bearings that were looked at can the mast lie and turn up clear."),
        "Build, How it goes up, names what refuses each bearing: clear the least of it away, run the tubes down for a shorter mast, or put the mast \
elsewhere (Checks, Where it can stand)."
            .into(),
    ]
}

pub(crate) const NONE_CLEAR: &str = "All round was looked at: no bearing is clear.";

/// What is known of the job's own way and of others.
pub(crate) fn around(own_clear: Option<bool>, best: Option<&str>) -> String {
    match (own_clear, best) {
        (Some(true), None) => {
            "The way along which it lies is clear; whether others are was not looked for.".into()
        }
        (Some(true), Some(best)) => {
            format!(
                "The way along which it lies is clear. All round was looked at: the best lies towards {best}."
            )
        }
        (Some(false), None) => {
            "The way along which it lies is not clear. Whether it is clear along another was not looked for."
                .into()
        }
        (Some(false), Some(best)) => format!(
            "The way along which it lies is not clear. Towards {best} it is: say so under Build, How it goes up."
        ),
        (None, None) => {
            "Along which way it lies was not said, and whether any is clear was not looked for.".into()
        }
        (None, Some(best)) => {
            format!(
                "Along which way it lies was not said. Towards {best} it is clear: say so under Build, How it goes up."
            )
        }
    }
}

pub(crate) const NO_LEVER: [&str; 2] = [
    "The line over the prop passes so near to the hinge that nobody can pull the mast up by it.",
    "Set the prop higher, tie the line farther up the mast, or pull from farther back.",
];

pub(crate) fn percent(value: f64) -> String {
    format!("{:.0} %", value.ceil())
}
pub(crate) const FIRST_UP_CHOSEN: &str =
    "The bare lower tube is stood up first, to find plumb and to measure the foot.";
pub(crate) const FIRST_UP_OFFERED: &str =
    "Another plan: stand the bare lower tube up first, find plumb, measure the foot, and only then cut it.";

pub(crate) fn first_up_refused(tube: &str, most: &str) -> String {
    format!(
        "The bare lower tube weighs {tube}: more than the {most} that one person may hold up by hand, so it is not stood up first."
    )
}

pub(crate) fn headline(done: usize, of: usize) -> String {
    match done {
        0 => format!("{of} cards, none done yet."),
        done if done >= of => format!("All {of} cards are done."),
        done => format!("{done} of {of} cards done."),
    }
}

/// What notes name a part of the day by, as its address on the screens does.
pub(crate) fn phase_key(phase: CardPhase) -> &'static str {
    match phase {
        CardPhase::Base => "base",
        CardPhase::Raise => "raise",
        CardPhase::Crank => "crank",
        CardPhase::Lights => "lights",
        CardPhase::Lower => "lower",
        CardPhase::LayDown => "lay_down",
    }
}

pub(crate) fn phase(phase: CardPhase) -> &'static str {
    match phase {
        CardPhase::Base => "Set the base",
        CardPhase::Raise => "Raise",
        CardPhase::Crank => "Crank up",
        CardPhase::Lights => "Lights",
        CardPhase::Lower => "Run it down",
        CardPhase::LayDown => "Lay it down",
    }
}

pub(crate) fn people(at_least: Option<u32>, lifting: Option<u32>) -> String {
    match (at_least, lifting) {
        (Some(all), Some(lifting)) => {
            format!("At least {all} people, {lifting} of them at the mast or in its line.")
        }
        (Some(1), None) => "One person.".to_owned(),
        (Some(all), None) => format!("At least {all} people at once."),
        (None, _) => "How many people it takes is not known yet.".to_owned(),
    }
}

pub(crate) fn too_few_in_the_line(named: u32, needed: u32, force: &str, together: &str) -> [String; 2] {
    [
        format!(
            "{} cannot pull the mast up: it takes {force} in the line, and together they pull {together}.",
            pushing(named)
        ),
        format!(
            "Get {needed} to pull, set the prop higher, or tie the line farther up the mast. Never try it with fewer."
        ),
    ]
}

pub(crate) fn too_few(named: u32, needed: u32, force: &str, together: &str) -> [String; 2] {
    let why = if named > 1 { ", which is less than each alone, added up" } else { "" };
    [
        format!(
            "{} cannot push the mast up: it takes {force} at the hands, and {together} is what they lift at best{why}.",
            pushing(named)
        ),
        format!(
            "Get {needed} to push, or raise it by a line from a prop or a shorter, lighter mast. Never try it with fewer."
        ),
    ]
}

pub(crate) fn too_heavy(people: u32, force: &str, together: &str) -> [String; 2] {
    [
        format!(
            "It takes {force} at the hands, and {people} people lift {together} at best; more of them get in each other's way."
        ),
        "Raise it by a line over a prop, run the tubes down, or take weight off the top. Never try it with more hands.".into(),
    ]
}

fn pushing(named: u32) -> String {
    match named {
        1 => "One person".to_owned(),
        named => format!("{named} people"),
    }
}

fn at_leg(leg: &str) -> String {
    format!("the {leg} leg")
}

fn pull_of(pull: u32, pulls: Option<u32>) -> String {
    match pulls {
        Some(1) => String::new(),
        Some(pulls) => format!(", pull {pull} of {pulls}"),
        None => String::new(),
    }
}

pub(crate) fn title(kind: &CardKind) -> String {
    match kind {
        CardKind::LayBase => "Lay the base with its front leg along".into(),
        CardKind::StandBareTube => "Stand the bare lower tube in the base and hold it".into(),
        CardKind::MeasureFoot => "With the tube plumb, measure under the front leg".into(),
        CardKind::LayBareTube => "Lay the bare tube down again".into(),
        CardKind::SetFoot { leg } => format!("Put foot or shims under {}", at_leg(leg)),
        CardKind::LevelBase => "Level the base both ways".into(),
        CardKind::StakeBase => "Stake the base down".into(),
        CardKind::TellEverybody => "Say who calls, what stop means, and where each one steps aside".into(),
        CardKind::ClearTheWay => "Clear the ground where it lies, moves and could fall".into(),
        CardKind::TestStrands => "Light every strand on the ground, number it, then pull the plug".into(),
        CardKind::PinTubes => "Pin every tube so that none slides out while it lies".into(),
        CardKind::LayMast => "Lay the mast with its top towards".into(),
        CardKind::TieStrandsAlong => "Tie the strands along the mast, all of their length".into(),
        CardKind::HoldEdge => {
            "Drive the stakes outside the edge and lash the cross leg to both, low down".into()
        }
        CardKind::SetSideGuys => "Make the side guys fast".into(),
        CardKind::SetStopGuys => "Make the stop guys fast, as long as they are at plumb".into(),
        CardKind::TakeRopes => "Put a helper at every rope that is given and taken in".into(),
        CardKind::WalkUp => "Walk the mast up and hold it at plumb against the stop guys".into(),
        CardKind::RigLine => "Stand the prop up, rope it to both sides and back, run the line over it".into(),
        CardKind::PullUp => "Pull the mast up by the line and hold it at plumb against the stop guys".into(),
        CardKind::SetFarGuys => "Make the far guys fast, while hands hold the mast".into(),
        CardKind::LetGoEdge => "Draw the stakes of the edge".into(),
        CardKind::PlumbMast => "Plumb the mast by its guys".into(),
        CardKind::FreeStrands => "Untie the strands, let them hang loose, lay their ends out".into(),
        CardKind::HangStrands => "Hang the strands from the top, their ends laid out".into(),
        CardKind::GiveRope { tube } => {
            format!("Untie the guys that rise with {}, a helper at each", named(tube))
        }
        CardKind::PinRod { tube, pull, pulls } => {
            format!("Pin the rod to {}{}", named(tube), pull_of(*pull, *pulls))
        }
        CardKind::ClearBeneath { tube, pull, pulls } => {
            format!("Send everybody out from beneath before {} moves{}", named(tube), pull_of(*pull, *pulls))
        }
        CardKind::CrankTube { tube, pull, pulls } => {
            format!("Crank {} up{}", named(tube), pull_of(*pull, *pulls))
        }
        CardKind::SetPin { last: true, .. } => "Hand on the crank: put the pin through both tubes".into(),
        CardKind::SetPin { last: false, .. } => {
            "Hand on the crank: put the pin through, over the mouth of the tube below".into()
        }
        CardKind::LowerOntoPin { .. } => {
            "Let it down until the weight stands on the pin and the strap is slack".into()
        }
        CardKind::SecondPin { tube } => {
            format!("Put the second pin through {}, a quarter turn round", named(tube))
        }
        CardKind::MakeFastAgain { tube } => {
            format!("Make the guys that rose with {} fast again", named(tube))
        }
        CardKind::PlumbAgain => "Plumb it again, guys snug all round".into(),
        CardKind::LayRing => "Lay the ring round the mast".into(),
        CardKind::HoldRing => "Tie the ring down".into(),
        CardKind::TieLowerEnds => "Tie every strand to the ring".into(),
        CardKind::SetStrands => "Draw every strand to its tension, one from each side in turn".into(),
        CardKind::LayLead => "Lay the lead: off the ways, a drip loop, joints off the ground".into(),
        CardKind::PowerOff => "Switch off and pull the plug; it stays in somebody’s pocket".into(),
        CardKind::LoosenStrands => "Untie the strands from the ring, let them hang loose".into(),
        CardKind::UntieToLower { tube } => {
            format!("Untie the guys that come down with {}, a helper at each", named(tube))
        }
        CardKind::SecondPinOut { tube } => format!("Draw the second pin of {}", named(tube)),
        CardKind::TakeLoad { tube, pull, pulls } => {
            format!(
                "Crank until the strap carries {} and its pin is free{}",
                named(tube),
                pull_of(*pull, *pulls)
            )
        }
        CardKind::DrawPin { tube } => format!("Hand on the crank: draw the pin beneath {}", named(tube)),
        CardKind::LetDownByCrank { tube, pull, pulls } => {
            format!("Let {} down by the crank{}", named(tube), pull_of(*pull, *pulls))
        }
        CardKind::HandBack { onto_stool: true, .. } => {
            "Let it down until it stands on its stool and the strap is slack".into()
        }
        CardKind::HandBack { onto_stool: false, .. } => {
            "Hand the weight back: let it down until it stands on the pin and the strap is slack".into()
        }
        CardKind::MakeFastLower { tube } => {
            format!("Make the guys that came down with {} fast again, snug", named(tube))
        }
        CardKind::TakeStrandsOff => "Take the strands off the mast, coil and number them".into(),
        CardKind::DrawBaseStakes => "Draw the base’s own stakes: it tilts with the mast".into(),
        CardKind::TakeMast => "Take hold of the mast, or of its line, at plumb".into(),
        CardKind::FreeFarGuys => "Untie the far guys, while hands hold the mast".into(),
        CardKind::LetMastDown => "Let the mast down the way it came up".into(),
        CardKind::SwitchOn => "Test the residual-current device, then switch on".into(),
    }
}

fn named(tube: &str) -> String {
    let mut letters = tube.chars();
    let lower = letters.next().map(|first| first.to_lowercase().collect::<String>() + letters.as_str());
    format!("the {}", lower.unwrap_or_default())
}

pub(crate) fn number_is(what: &NumberOf) -> String {
    let fixed = match what {
        NumberOf::FrontLegBearing => "true bearing of the front leg",
        NumberOf::BareTubeWeight => "weight of the bare lower tube",
        NumberOf::GapUnder { leg } => {
            return format!("from the ground to the timber under {}, at the middle of the foot", at_leg(leg));
        }
        NumberOf::Stakes => "stakes",
        NumberOf::LiesToward => "true bearing from the foot to the top",
        NumberOf::LyingAngle => "lying, to the level",
        NumberOf::CorridorReach => "round the foot is kept clear",
        NumberOf::PeopleNeeded => "people at once, on the card that takes most, and who calls is one of them",
        NumberOf::Strands => "strands",
        NumberOf::TubesToPin => "tubes to pin",
        NumberOf::EyeToCollar { guy } => return format!("{guy}, straight from eye to collar at plumb"),
        NumberOf::SlackAtMost => "slack at most on the way",
        NumberOf::RopesToTend => "ropes in hands",
        NumberOf::ForceAtHands => {
            "push at the hands where it is hardest, square to the tube, all who push together"
        }
        NumberOf::HardestAt => "of the mast to the level where it is hardest",
        NumberOf::WholeWeight => "all that turns up",
        NumberOf::LeansAtMost => "off plumb or level at most",
        NumberOf::LongestStrand => "the longest strand",
        NumberOf::GuyGives { tube } => {
            return format!("comes up with {}, each rope gives about as much", named(tube));
        }
        NumberOf::RodPinHeight => "above the ground: where the rod is pinned",
        NumberOf::PullRises => "comes up in this pull",
        NumberOf::MarkStopsAt => "from its lower end: the mark at which cranking stops",
        NumberOf::CrankTurns => "turns of the crank",
        NumberOf::CrankHand => "hand on the crank",
        NumberOf::OnTheStrap => "on the strap at its hardest",
        NumberOf::PinHeight => "above the ground: the pin",
        NumberOf::SecondPinHeight => "above the ground: the second pin",
        NumberOf::PlatformFloor => "floor of the platform above the ground",
        NumberOf::WeightOnPin => "comes to stand on the pin, rod and all",
        NumberOf::RingRadius => "from the mast to the ring, measured level",
        NumberOf::RingTies => "ties round the ring",
        NumberOf::TiePull => "each tie is pulled up with, in still air",
        NumberOf::BetweenTies => "from one strand's tie to the next, straight",
        NumberOf::StrandTension => "pull in each strand",
        NumberOf::Current => "current of all strands together, by their labels",
        NumberOf::BreakerAtLeast => {
            "the breaker at least: a quarter more than the lights take, and what else runs on it"
        }
        NumberOf::LeadLength => {
            "of cord: along the ground, down from the outlet, up the mast, loops and a tenth to spare"
        }
        NumberOf::LeadOnGround => "along the ground from the outlet to the mast",
        NumberOf::TripPoints => "places where somebody crosses it: lead it round or over, or pin a mat on it",
        NumberOf::VoltageKept => "of the voltage stays in the lead; more than 3 % dims the lamps",
        NumberOf::LeadOnMast => "of cord hangs on the mast: tie it to the tube every arm's length",
        NumberOf::PlugsAtLead => "plugs at the end of the lead, each begins a run of strands",
        NumberOf::StrandSlackLeast => {
            "slack that the strand with least of it needs before this tube goes up, where strands are tied to the ring already; Current and lead has each"
        }
        NumberOf::StrandSlackMost => "and the one with most: with less it is dragged",
        NumberOf::StrandsStraightBelow => {
            "below the end of this way all strands may be tied straight, without pull: the rest of the way draws them tight"
        }
        NumberOf::StrandPullsLeast => "pulls then in the strand that gets least",
        NumberOf::StrandPullsMost => "and in the one that gets most",
        NumberOf::TieAt { strand } => return format!("round the ring from tie to tie: strand {strand}"),
        NumberOf::StrandsLit => "of them lit on the ground so far; number each, bundle it, number 1 on top",
        NumberOf::GustToRaiseIn => "the strongest gust that may be forecast when it is turned up",
        NumberOf::GustToCrankIn => "the strongest gust that may be forecast when this tube goes up",
        NumberOf::KickOut => "the foot pushes out, away from those who raise it, where it matters most",
        NumberOf::HeldAtHinge => "is what stakes or ground hold against it; nobody’s foot is counted",
        NumberOf::HingeLifted => "lifts the hinge at most; 0 where it is pressed down all the way",
        NumberOf::GroundAlong => "slope of the ground along the lying mast, below 0 downhill from the hinge",
        NumberOf::GroundAcross => {
            "slope across it, to the right; the hinge is level, so it changes no force: who stands lower grips higher"
        }
        NumberOf::OnLevelGround => "would be the push on level ground",
        NumberOf::TubeBends { tube } if tube.is_empty() => {
            "of what a tube may carry in bending, by its own weight on the way"
        }
        NumberOf::TubeBends { tube } => {
            return format!(
                "of what {} may carry in bending, by the mast’s own weight on the way",
                named(tube)
            );
        }
        NumberOf::MouthPresses => {
            "the mouth of a tube presses on the one in it: look at the rims; what they bear is not worked out"
        }
        NumberOf::GuyTakesIn { tube } => {
            return format!("comes down with {}, each rope is taken in by about as much", named(tube));
        }
        NumberOf::PullComesDown => "comes down in this pull",
        NumberOf::FarGuys => "far guys",
        NumberOf::RehearsedMinutes => "took it when you rehearsed it",
        NumberOf::RehearsedPeople => "people did it then",
        NumberOf::LinePull => {
            "pull in the line where it is hardest, and on its anchor, over a pulley; over a bare edge it is more"
        }
        NumberOf::PropHeight => "from the ground at the mast to the prop’s head",
        NumberOf::PropBehind => "the prop’s head behind the hinge",
        NumberOf::LineAnchor => {
            "behind the hinge, measured level: where they stand who pull, or what the line is made fast to"
        }
        NumberOf::PropPressed => "presses down on the prop",
        NumberOf::PropPushed => "pushes the prop’s head level: its ropes hold it",
    };
    fixed.to_owned()
}

/// When a guy takes over.
pub(crate) fn guy_holds(guy: &str, side: bool, from: Option<&str>) -> String {
    let holds = if side { "keeps it from going over sideways" } else { "stops it" };
    match from {
        None => format!("{guy} is taut all the way and {holds}."),
        Some(from) => {
            format!(
                "{guy} takes over at {from} to the level and {holds}; before that it hangs slack and only hands hold it."
            )
        }
    }
}

/// What has to slide freely, what stays slack, what stays fast.
pub(crate) fn runs_freely(tube: &str, strands: bool, slack: &[String], fast: &[String]) -> String {
    let along = if strands { " with its strands" } else { "" };
    let mut says = format!("Must slide freely: {} in its mouth{along}.", named(tube));
    if !slack.is_empty() {
        says += &format!(" Stay slack in hands until the weight is on its pin: {}.", slack.join(", "));
    }
    let stays = if fast.is_empty() { "no guy".to_owned() } else { fast.join(", ") };
    format!("{says} Fast meanwhile: {stays}.")
}

pub(crate) fn forces_title(by_line: bool) -> &'static str {
    if by_line { "Pull in the line by angle" } else { "Push at the hands by angle" }
}

pub(crate) fn forces_note(by_line: bool) -> &'static str {
    if by_line {
        "Angle of the mast to the level, pull in the line, its part straight up on the mast, from the hinge along the mast to where it is tied, \
         and how hard the foot pushes away from the lying side."
    } else {
        "Angle of the mast to the level, push square to the tube by all together, its part straight up, from the hinge along the tube to the \
         hands, and how hard the foot pushes out."
    }
}

pub(crate) const TEAMS_TITLE: &str = "One to four people where it is hardest";
pub(crate) const TEAMS_NOTE: &str = "What each of so many has of the push, and what they lift together at best: one 23 kg (NIOSH 94-110), two \
two thirds and three half of what each lifts alone added up (HSE L23); four two fifths, which nobody publishes. More than four get in each \
other's way.";

pub(crate) fn team(enough: bool) -> &'static str {
    if enough { "enough" } else { "too few" }
}

pub(crate) fn turns(value: f64) -> String {
    format!("{value:.1}")
}

pub(crate) fn missing(missing: CardMissing) -> &'static str {
    match missing {
        CardMissing::Ground => "Measure the ground under it: Measure, Slope and heights.",
        CardMissing::HowItTurnsUp => "Say it under Build, How it goes up.",
        CardMissing::CordWeight => "Weigh a strand and enter it: Parts, Strands.",
        CardMissing::RodAndWinch => {
            "Enter rod, pin and the winch's height: Build, The workshop, Winch and lift."
        }
        CardMissing::CrankAndDrum => {
            "Enter drum, strap, crank and gear: Build, The workshop, Winch and lift."
        }
        CardMissing::RingSupports => {
            "Enter the ring's pipe and its supports: Build, The workshop, Circles and ring."
        }
        CardMissing::StakesInSoil => {
            "Say what the soil is: Measure, Soil. Loam, gravel and fill have no published number: nobody lifts on a guess."
        }
        CardMissing::TubeStrength => "Say what the tubes are: Parts, Tubes.",
        CardMissing::CordThickness => "Measure how thick a strand’s cable is: Parts, Strands.",
        CardMissing::HangingStrands => {
            "What a breeze does to hanging strands is not worked out: tie them along the mast, or put them on later."
        }
        CardMissing::RopesAndAnchors => {
            "Say what ropes and anchors hold that are fast on the way: Parts, Guys."
        }
        CardMissing::NothingHolds => "No guy holds it on one side: see How it goes up.",
        CardMissing::PartsInWind => {
            "A part is not shown to hold in wind: Checks, Which wind it takes, says which."
        }
        CardMissing::StrapLabel => {
            "Enter what the labels of strap and hook say: Build, The workshop, Winch and lift."
        }
        CardMissing::Rehearsal => {
            "Rehearse it once with everybody on a calm day, and enter minutes and people: Build, Step by step."
        }
        CardMissing::CircuitLabel => {
            "Read the breaker, and say what else runs on its circuit: Build, Lights, Current and lead."
        }
        CardMissing::LeadWay => {
            "Say where the outlet is, how high, and where the strands are plugged in: Build, Lights, Current and lead."
        }
        CardMissing::CordLabel => "Read the cord's label: Build, Lights, Current and lead.",
        CardMissing::StrandStretch => {
            "Pull a strand by a luggage scale and see how much longer it gets; enter its stretch (Parts, Strands) and say so: Build, Lights, Current and lead."
        }
        CardMissing::EndToEnd => {
            "Say how many strands are plugged one behind the other: Build, Lights, Current and lead."
        }
        CardMissing::StrandLabel => {
            "Read watts or amperes and volts on one strand's label and enter them: Build, Lights, Current and lead."
        }
    }
}

pub(crate) fn stand(people: Option<u32>, place: &str) -> String {
    match people {
        Some(1) => format!("One {place}"),
        Some(people) => format!("{people} {place}"),
        None => format!("As many as it takes {place}"),
    }
}

pub(crate) mod places {
    pub(crate) const BASE: &str = "at the base";
    pub(crate) const CALLER: &str = "calls, in view of everybody and out of reach of what falls";
    pub(crate) const MAST: &str = "beside the mast on both sides, never astride it and never beneath";
    pub(crate) const LINE: &str = "in the line behind the prop, gloves on, no rope round a hand or a body";
    pub(crate) const HINGE: &str = "beside the hinge, not before it: a foot against it holds nothing";
    pub(crate) const CRANK: &str = "at the side of the crank, out of its circle";
    pub(crate) const PIN: &str = "at the side of the pin, on the ground, arms only beneath";
    pub(crate) const RING: &str = "on the ring";
    pub(crate) const OUTLET: &str = "at the outlet";

    pub(crate) fn anchor(guy: &str) -> String {
        format!("at the anchor of {guy}")
    }

    pub(crate) fn platform(floor: Option<&str>) -> String {
        match floor {
            Some(floor) => format!(
                "at the pin with a pole, or on a platform {floor} up that stands by itself, never on a ladder against the mast"
            ),
            None => "with a pole, or on a platform that stands by itself, never on a ladder against the mast"
                .to_owned(),
        }
    }

    pub(crate) fn escape_toward(bearing: &str) -> String {
        format!("; on stop steps aside towards {bearing}")
    }

    pub(crate) fn escape_own_side(left: &str, right: &str) -> String {
        format!("; on stop each steps aside on the own side, {left} or {right}")
    }

    pub(crate) const ESCAPE_FROM_THE_MAST: &str = "; on stop straight away from the mast, not along a rope";

    pub(crate) fn outside(radius: &str) -> String {
        format!("Everybody else at least {radius} from the foot")
    }
}

pub(crate) fn caution(caution: CardCaution) -> &'static str {
    match caution {
        CardCaution::Heavy => {
            "Lift with two and with straight backs; gloves on; no fingers between timber and ground."
        }
        CardCaution::BuriedServices => {
            "Nothing is driven in before the locate service has answered and every line is marked, private ones too. Glasses on."
        }
        CardCaution::Falls => {
            "Look up for wires first. What stands by hands alone can fall any way: nobody within its length who has nothing to do there."
        }
        CardCaution::KicksOut => {
            "The foot pushes away from who walks it up, and it kicks out if it is not held. Nobody stands before the hinge or beneath the mast. \
             Each one knows to which side to step."
        }
        CardCaution::RopesRun => {
            "Gloves on; no rope round a hand or a body; stand beside the rope, not in its line."
        }
        CardCaution::StrapAndCrank => {
            "Strap, hook and crank can slip. Nobody is beneath; no hand leaves the crank before the weight is on the pin; keep out of its circle."
        }
        CardCaution::PinAndHeight => {
            "Never a finger in a hole: line it up with a pin. No ladder leans on the mast. Both hands for yourself where you stand high."
        }
        CardCaution::Electric => {
            "The plug is pulled while anybody handles a strand. Only what is marked for outdoors, behind a residual-current device. Wiring and earthing \
             are for local rules and a licensed person."
        }
    }
}

pub(crate) fn stop_rule(rule: StopRule) -> &'static str {
    match rule {
        StopRule::Rocks => "it rocks, slides, or a foot sinks in",
        StopRule::StakeMeetsSomething => "a stake meets something that is not soil",
        StopRule::AnybodyCallsStop => "anybody calls stop, or somebody walks in",
        StopRule::LeavesItsLine => {
            "the top leaves its line, a guy goes taut too early, the hinge lifts or a gust comes: hold, then let it down the way it came"
        }
        StopRule::AnchorMoves => "an anchor moves, a knot slips, or a rope runs through the hands",
        StopRule::TightSpot => {
            "the crank goes harder or a tube sticks: do not force it; let down a hand's width, see that ropes and strands run free, oil it, try again"
        }
        StopRule::PinWillNotGo => {
            "the pin does not go through by hand: never hammer it; move the tube a little"
        }
        StopRule::StrandCatches => "a strand catches, or its cable is nicked",
        StopRule::Trips => {
            "the breaker or the residual-current device trips, or a plug is wet or warm: leave it off and have it looked at"
        }
    }
}

pub(crate) fn tool(tool: Tool) -> &'static str {
    match tool {
        Tool::Gloves => "gloves",
        Tool::Glasses => "safety glasses",
        Tool::Helmets => "helmets for all who come near",
        Tool::Tape => "tape",
        Tool::SpiritLevel => "spirit level",
        Tool::Mallet => "mallet",
        Tool::Saw => "saw",
        Tool::Shims => "shims",
        Tool::SpareLine => "a spare line, as strong as a guy",
        Tool::Pins => "all pins, and two more",
        Tool::SpareStakes => "stakes, and two more",
        Tool::StandForPins => "pole or platform for the pins",
        Tool::Oil => "oil",
        Tool::CrankAndStrap => "crank, strap and hook, looked at for damage",
        Tool::Ties => "ties",
        Tool::Tester => "tester for the strands",
        Tool::ResidualCurrentDevice => "residual-current device",
        Tool::WindForecast => "the forecast of gusts for the next hours",
    }
}

/// What has to hold, as it is said where it does not yet.
pub(crate) fn state(state: YardState) -> &'static str {
    match state {
        YardState::HandsFree => "All hands are free",
        YardState::BaseLaid => "The base lies in its place",
        YardState::FootSet { .. } => "Every leg has what goes under it",
        YardState::BaseLevel => "The base is level",
        YardState::BaseStaked => "The base is staked",
        YardState::BareTubeHeld => "The bare tube stands in somebody's hands",
        YardState::FootMeasured => "The foot is measured",
        YardState::EverybodyTold => "Everybody knows the calls",
        YardState::WayClear => "The ground is clear",
        YardState::StrandsTested => "Every strand was lit on the ground",
        YardState::StrandsTiedAlong => "The strands are tied along the mast",
        YardState::TubesPinned => "The tubes are pinned",
        YardState::MastLies => "The mast lies ready",
        YardState::HingeHeld => "The hinge is held",
        YardState::SideGuysFast => "The side guys are fast",
        YardState::StopGuysSet => "The stop guys are set",
        YardState::FarGuysFree => "The far guys are free",
        YardState::RopesInHands => "A helper is at each rope in hands",
        YardState::LineRigged => "The prop stands by its ropes and the line runs over it",
        YardState::HeldAtPlumb => "Hands hold the mast at plumb",
        YardState::GuysFast => "Every guy is fast",
        YardState::MastPlumb => "The mast is plumb",
        YardState::StrandsLoose => "The strands hang loose",
        YardState::RopeGiven { .. } => "The guys that rise are in hands",
        YardState::WeightOnPin { .. } => "The weight is on the pin or the stool",
        YardState::RodPinned { .. } => "The rod is pinned",
        YardState::StrapSlack => "The strap is slack",
        YardState::BeneathOpen => "Nothing hangs in the strap",
        YardState::BeneathClear => "Nobody is beneath",
        YardState::HandOnCrank { .. } => "A hand is on the crank",
        YardState::PinThrough { .. } => "The pin is through",
        YardState::Pulled { .. } => "The pull before is over",
        YardState::SecondPinSet { .. } => "The second pin is set",
        YardState::StageUp { .. } => "The tube before is up",
        YardState::SecondPinDrawn { .. } => "The second pin is drawn",
        YardState::PinDrawn { .. } => "The pin is drawn, the strap carries",
        YardState::CameDown { .. } => "It came down for this pull",
        YardState::LetDown { .. } => "It stands on its pin or stool again",
        YardState::StageDown { .. } => "The tube before is down",
        YardState::BaseFreed => "The base’s own stakes are drawn",
        YardState::RingLaid => "The ring lies",
        YardState::RingHeld => "The ring is tied down",
        YardState::LowerEndsTied => "The strands are tied to the ring",
        YardState::StrandsSet => "The strands are drawn to their tension",
        YardState::LeadLaid => "The lead is laid",
        YardState::Lit => "The lights are on",
        YardState::PowerOff => "The plug is pulled",
    }
}

/// Why, as the second half of a sentence.
pub(crate) fn why(why: NeedWhy) -> &'static str {
    match why {
        NeedWhy::HandsAreFull => "who lets go to do something else drops what is held",
        NeedWhy::StandsOnIt => "what stands on it tilts with it",
        NeedWhy::FootIsCutToIt => "the foot is cut to what is measured",
        NeedWhy::NobodyKnowsTheCall => "without one who calls, two do two things at once",
        NeedWhy::FallsThere => "what falls, falls there",
        NeedWhy::DarkOnTheGround => "a dark strand is changed on the ground, not at the top",
        NeedWhy::LooseStrandsCatch => "loose strands trail and catch",
        NeedWhy::TubesSlideOut => "a loose tube slides out as it is lifted",
        NeedWhy::DoneWhileItLies => "it is done while the mast lies",
        NeedWhy::FootKicksOut => "else the foot kicks out",
        NeedWhy::GoesOverSideways => "else it goes over sideways",
        NeedWhy::GoesOverPastPlumb => "else it goes over past plumb",
        NeedWhy::TooShortUntilPlumb => "they are too short until it is plumb",
        NeedWhy::RopeUntended => "a rope that nobody holds goes taut or trails",
        NeedWhy::HandsHoldIt => "only hands hold it until then",
        NeedWhy::OnlyGuysHoldIt => "nothing else keeps it up",
        NeedWhy::PropGoesOver => "the prop goes over as the line pulls at it",
        NeedWhy::StillHeldByIt => "these stakes still hold it",
        NeedWhy::EasierLow => "they can be reached only while it is low",
        NeedWhy::BindsOutOfPlumb => "tubes bind where it leans",
        NeedWhy::FastGuyStopsIt => "a guy that is fast stops the tube or pulls the mast over",
        NeedWhy::InnerFirst => "the outer tube carries the inner one up",
        NeedWhy::StrapAlone => "the strap never holds alone with somebody beneath",
        NeedWhy::StrapCanSlip => "strap, hook and crank can slip",
        NeedWhy::RodCarries => "the rod may be moved only while it carries nothing",
        NeedWhy::NothingToPull => "the crank has nothing to pull at",
        NeedWhy::CrankRunsBack => "the crank runs back when it is let go",
        NeedWhy::NothingToRestOn => "let down onto nothing, it comes all the way down",
        NeedWhy::SecondPinHoldsToo => "it hangs on one pin until then",
        NeedWhy::StrandsRunFreely => "what the tube takes along must run freely",
        NeedWhy::MeasuredFromTheMast => "it is measured from the standing mast",
        NeedWhy::RingLifts => "the strands lift it",
        NeedWhy::CurrentInHands => "nobody handles what has current",
        NeedWhy::StrapFirst => "drawn before the strap carries, all of it falls",
        NeedWhy::PinStopsIt => "the pin stops it",
        NeedWhy::SecondPinStopsIt => "the second pin stops it, and bends",
        NeedWhy::OuterFirst => "the outer tube comes down first, so that the inner one can be reached",
        NeedWhy::StakesStopTheBase => "staked down the base cannot tilt",
        NeedWhy::PullAfterPull => "pull comes after pull",
        NeedWhy::DoneInTurn => "the one goes on from the other",
    }
}

pub(crate) fn waits(state: &str, why: &str) -> String {
    format!("Not yet: {}. Why: {why}.", lower(state))
}

pub(crate) fn needs(state: &str, why: &str) -> String {
    format!("{state}: {why}.")
}

fn lower(words: &str) -> String {
    let mut letters = words.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_lowercase().collect::<String>() + letters.as_str())
}

pub(crate) const STOPPED: &str = "This part of the work has a stop: see what it says before it begins.";
pub(crate) const RESTS_ON_NOTHING: &str =
    "It was ticked off, but what it rests on is no longer done: look at it again.";

pub(crate) fn stop_when(rule: &str) -> String {
    format!("Stop when {rule}.")
}

/// All of a card as it is read out: every number, then what has to be entered where one is not known and what else it says, then who stands
/// where.
pub(crate) fn aloud(
    title: &str,
    numbers: &[String],
    besides: &[String],
    stands: &[String],
    caution: &str,
    stop: &str,
) -> String {
    let mut said = format!("{title}. {}.", numbers.join(". "));
    for sentence in besides {
        said = said + " " + sentence;
    }
    if !stands.is_empty() {
        said = said + " " + &stands.join(". ") + ".";
    }
    format!("{said} {caution} {stop}")
}

pub(crate) fn number_aloud(number: &str, is: &str) -> String {
    format!("{number}, {is}")
}
