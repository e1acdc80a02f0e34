//! Step cards: what to do, who stands where, what can hurt, when to stop, what has to hold before and why.

use crate::cards::{
    CardCaution, CardKind, CardMissing, CardPhase, NeedWhy, NumberOf, StopRule, Tool, YardState,
};

pub(crate) const CAUTION: &str = "A card is no licence. Look up for wires, follow local rules, and ask somebody licensed where it is \
about wiring or where people could be hurt. Nobody is beneath a mast that moves. Whoever is in doubt calls stop, and everybody stops.";

pub(crate) const NOT_KNOWN: &str = "not known yet";
pub(crate) const NO_NUMBER_FOR_GUST: &str = "In which gust it may be turned or cranked up is not worked out here. Begin in a calm, with \
none forecast until the guys are fast, and not while leaves and small twigs move all the time.";
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

pub(crate) fn phase(phase: CardPhase) -> &'static str {
    match phase {
        CardPhase::Base => "Set the base",
        CardPhase::Raise => "Raise",
        CardPhase::Crank => "Crank up",
        CardPhase::Lights => "Lights",
    }
}

pub(crate) fn people(at_least: Option<u32>, lifting: Option<u32>) -> String {
    match (at_least, lifting) {
        (Some(all), Some(lifting)) => {
            format!("At least {all} people, {lifting} of them pushing at the mast.")
        }
        (Some(1), None) => "One person.".to_owned(),
        (Some(all), None) => format!("At least {all} people at once."),
        (None, _) => "How many people it takes is not known yet.".to_owned(),
    }
}

pub(crate) fn too_few(named: u32, needed: u32, force: &str, one: &str) -> [String; 2] {
    [
        format!(
            "{} cannot push the mast up: it takes {force} at the hands, and {one} is what one person lifts at best.",
            pushing(named)
        ),
        format!(
            "Get {needed} to push, or raise it by a line from a prop or a shorter, lighter mast. Never try it with fewer."
        ),
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
        CardKind::HoldEdge => "Drive the stakes that hold the edge about which the base turns".into(),
        CardKind::SetSideGuys => "Make the side guys fast".into(),
        CardKind::SetStopGuys => "Make the stop guys fast, as long as they are at plumb".into(),
        CardKind::TakeRopes => "Put a helper at every rope that is given and taken in".into(),
        CardKind::WalkUp => "Walk the mast up and hold it at plumb against the stop guys".into(),
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
        NumberOf::PeopleNeeded => {
            "people: those who push, a helper at each rope in hands, one at the hinge, one who calls"
        }
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
        NumberOf::Current => "current of all strands together",
        NumberOf::GustToRaiseIn => "gust up to which it may be turned up",
    };
    fixed.to_owned()
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
        CardMissing::NotWorkedOut => "It is not worked out here.",
        CardMissing::StrandLabel => {
            "Add up what the strands' labels say, and hold it against what the circuit gives."
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

/// All of a card as it is read out.
pub(crate) fn aloud(title: &str, number: &str, stands: &[String], caution: &str, stop: &str) -> String {
    let stands = stands.join(". ");
    format!("{title}. {number}. {stands}. {caution} {stop}")
}

pub(crate) fn number_aloud(number: &str, is: &str) -> String {
    format!("{number}, {is}")
}
