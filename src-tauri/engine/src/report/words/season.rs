//! The season's diary: what to look at and why, what was found, what changed.

use crate::season::{LookCause, LookWhy, SeasonDiary, SeasonMissing, SeasonStanding, SeasonThing};

pub(crate) const CAUTION: &str = "Looking finds what can be seen and no more. Go round in daylight and calm air, keep from under the mast, \
and do not climb. What is to be mended is mended before the next wind, or the mast comes down first. Local rules and a licensed \
person’s word go before this list.";

pub(crate) const CHANGES: &str = "What changed since last time";
pub(crate) const LEAN: &str = "Lean of the mast";
pub(crate) const NOT_KNOWN: &str = "not known yet";
/// Which way a part of the lean goes: with a plus, with a minus.
pub(crate) const FRONT: [&str; 2] = ["towards the front leg", "away from the front leg"];
pub(crate) const RIGHT: [&str; 2] = ["to the right of it", "to the left of it"];

pub(crate) fn headline(diary: &SeasonDiary) -> &'static str {
    match diary.standing {
        SeasonStanding::ToMend => "Something is to be mended.",
        SeasonStanding::Moved => "Something has moved by more than the readings leave open. Look why.",
        SeasonStanding::NotKnown => "How it stands is not known yet.",
        SeasonStanding::Fine => "All that was looked at is fine, and nothing has moved.",
        SeasonStanding::Down => "The mast is down.",
    }
}

pub(crate) fn missing(missing: &SeasonMissing) -> String {
    match missing {
        SeasonMissing::NoRound => "Nobody has gone round yet since it stands.".to_owned(),
        SeasonMissing::NotLookedAt { count: 1 } => {
            "1 thing was to be looked at, and nobody has: it does not count as fine.".to_owned()
        }
        SeasonMissing::NotLookedAt { count } => {
            format!("{count} things were to be looked at, and nobody has: they do not count as fine.")
        }
        SeasonMissing::Late => "The next round was due.".to_owned(),
        SeasonMissing::NoInterval => {
            "Say how often somebody goes round: until then nobody knows how long this holds.".to_owned()
        }
    }
}

pub(crate) fn next(down: bool, every_days: Option<u16>, due: Option<&str>, late: bool) -> String {
    match (due, every_days) {
        _ if down => "It is down: no round is due until it stands again.".to_owned(),
        (Some(due), _) if late => format!("The next round was due on {due}. Go now."),
        (Some(due), _) => {
            format!("The next round is due on {due}; sooner after wind, lasting rain, frost or heat.")
        }
        (None, Some(_)) => "The next round is due now: nobody has gone round yet.".to_owned(),
        (None, None) => "When the next round is due is not known yet.".to_owned(),
    }
}

pub(crate) fn mend_since(day: &str) -> String {
    format!("to be mended since {day}")
}

pub(crate) fn not_looked_at(thing: &SeasonThing) -> String {
    format!("{}: not looked at", self::thing(thing))
}

pub(crate) fn cause(cause: LookCause) -> &'static str {
    match cause {
        LookCause::StoodUp => "Just stood up",
        LookCause::Wind => "After wind",
        LookCause::Rain => "After lasting rain",
        LookCause::Frost => "After frost",
        LookCause::Heat => "After heat",
        LookCause::Routine => "The usual round",
        LookCause::TakenDown => "Taken down",
    }
}

pub(crate) fn cause_with_gust(what: LookCause, gust: Option<&str>) -> String {
    match (what, gust) {
        (LookCause::Wind, Some(gust)) => format!("{}, gusts up to {gust}", cause(what)),
        (LookCause::Wind, None) => format!("{}, how strong nobody said", cause(what)),
        _ => cause(what).to_owned(),
    }
}

pub(crate) fn list(cause: LookCause) -> &'static str {
    match cause {
        LookCause::StoodUp => {
            "Everything once, while you remember how it was made. Then measure the lean and read every guy: all \
             later rounds are held against this one."
        }
        LookCause::Wind => "A gust pulls at everything. Then measure the lean and read the guys.",
        LookCause::Rain => {
            "Wet ground holds less, and wet ropes change. Then measure the lean and read the guys."
        }
        LookCause::Frost => {
            "Ground that freezes lifts what stands in it. Then measure the lean and read the guys."
        }
        LookCause::Heat => "Ropes creep, plastic goes soft, clay shrinks. Then read the guys.",
        LookCause::Routine => "Everything, as it is. Then measure the lean.",
        LookCause::TakenDown => "Nothing is left to look at. The diary stays, for next year.",
    }
}

pub(crate) fn thing(thing: &SeasonThing) -> String {
    match thing {
        SeasonThing::Anchor { name, .. } => format!("Anchor of {name}"),
        SeasonThing::Fixing { name, thing, .. } => format!("{thing}, where {name} is made fast"),
        SeasonThing::Stake { id } => format!("Base stake {id}"),
        SeasonThing::Foot { leg } => format!("What stands under the {leg} leg"),
        SeasonThing::Guys { name, .. } => format!("Guys: {name}"),
        SeasonThing::Collar { name, .. } => format!("Collar of {name}"),
        SeasonThing::Pin { name, .. } => format!("Pins of {name}"),
        SeasonThing::Tubes => "The tubes".to_owned(),
        SeasonThing::Topper => "The topper".to_owned(),
        SeasonThing::Ring => "The ring on the ground".to_owned(),
        SeasonThing::Strands => "The strands of lights".to_owned(),
        SeasonThing::Lead => "The lead to the mast".to_owned(),
    }
}

pub(crate) fn why(why: LookWhy) -> &'static str {
    match why {
        LookWhy::AnchorDrawn => {
            "has it come up or towards the mast? Look for lifted soil, a crack round it, a gap behind it"
        }
        LookWhy::FixingMoved => "has the thing itself moved, or the rope cut into it?",
        LookWhy::StakeWorkedLoose => "can it be moved by hand? Gusts work stakes to and fro",
        LookWhy::FootShifted => "has it slid or tipped? Does the timber still rest on all of it?",
        LookWhy::KnotsAndChafe => {
            "has a knot slipped or a turnbuckle turned? Does the rope rub anywhere? Feel it for flat and fluffy places"
        }
        LookWhy::CollarSlipped => "does it still sit where it was made fast, square to the tube?",
        LookWhy::PinWorkedOut => "is it all the way through, with its clip, and is its hole still round?",
        LookWhy::TubeBent => "look up along it from two sides: bent, dented, cracked at a hole?",
        LookWhy::TopperTurned => "does it still sit straight, and has nothing come loose up there?",
        LookWhy::RingShifted => "does it lie where it lay, with every support?",
        LookWhy::StrandsRubbed => "do they rub at a guy, an edge or each other? Are their ends still tied?",
        LookWhy::LeadPulled => {
            "is it pulled tight or out of a plug? Does it still hang in a loop before the plug?"
        }
        LookWhy::ClayWentSoft => "push the ground with your heel: wet clay holds about half",
        LookWhy::WashedOut => "has water washed the soil away from it?",
        LookWhy::WetRope => "has it gone slack or tight? Wet ropes change their length and lose strength",
        LookWhy::WaterInPlugs => "is any plug or joint wet? Unplug it before you touch it",
        LookWhy::FrostLifted => {
            "has the frost lifted it? Hold its height against the ground beside it, and look again at the thaw"
        }
        LookWhy::IceHangs => "does ice hang on the ropes? It weighs on all of it: keep away until it is off",
        LookWhy::FrozenIn => "is it frozen in? Do not knock it: wait for the thaw",
        LookWhy::WaterFroze => "has water frozen inside a tube and split it? Look at the lowest holes",
        LookWhy::StiffPlastic => "is the sheath cracked where it bends? Cold plastic breaks",
        LookWhy::ClayShrank => "is there a gap round it? Dry clay shrinks away",
        LookWhy::RopeCrept => "has it grown slack? Ropes under load creep in the heat",
        LookWhy::RingBowed => "has it bowed or lifted? Plastic grows in the sun",
        LookWhy::LeadWarm => "is a plug or a coil warm? Lay coils out",
        LookWhy::FirstLook => "as it was made today: what you see now is what later rounds are held against",
        LookWhy::Week => "as it was last time?",
    }
}

pub(crate) fn lean_now(parts: &str, within: &str, when: &str) -> String {
    format!("{parts}, {within} each, on {when}")
}

pub(crate) fn lean_change(by: &str, within: &str, parts: &str, since: &str, moved: bool) -> String {
    if moved {
        format!("It has moved since {since} by {by} ({within}): {parts}.")
    } else {
        format!("No more than the readings leave open since {since}: {by} ({within}).")
    }
}

pub(crate) fn trend_along(way: &str, by: &str, within: &str, sure: bool) -> String {
    if sure {
        format!("{by} a week {way} ({within})")
    } else {
        format!("none to be told {way} ({by} a week, {within})")
    }
}

pub(crate) fn lean_trend(front: &str, right: &str, readings: u32) -> String {
    format!("Trend over {readings} readings: {front}; {right}.")
}

pub(crate) fn change_not_known(readings: usize) -> String {
    match readings {
        0 => "What changed is not known yet: nobody has measured it.".to_owned(),
        _ => "What changed is not known yet: it was measured once.".to_owned(),
    }
}

pub(crate) fn trend_not_known(readings: usize) -> String {
    let fewest = crate::season::trend::FEWEST_FOR_A_TREND;
    if readings < fewest {
        format!("The trend is not known yet: {readings} of {fewest} readings.")
    } else {
        "The trend is not known: the readings do not say how sure they are, or lie at one moment.".to_owned()
    }
}

pub(crate) fn read_on(tension: &str, when: &str) -> String {
    format!("{tension}, on {when}")
}

pub(crate) fn tension_change(by: &str, within: &str, tighter: bool, since: &str, moved: bool) -> String {
    let way = if tighter { "tighter" } else { "slacker" };
    if moved {
        format!("{by} {way} than on {since} ({within}).")
    } else {
        format!("As on {since}, as far as the readings tell: {by} {way} ({within}).")
    }
}

pub(crate) fn tension_trend(by: &str, within: &str, tighter: bool, sure: bool, readings: u32) -> String {
    let way = if tighter { "tighter" } else { "slacker" };
    if sure {
        format!("Trend over {readings} days: {by} {way} a week ({within}).")
    } else {
        format!("No trend to be told over {readings} days: {by} {way} a week ({within}).")
    }
}

pub(crate) fn looked_by(who: &str) -> String {
    format!("Looked: {who}")
}

pub(crate) fn found(fine: u32, to_mend: &[&str]) -> String {
    let things = if fine == 1 { "1 thing fine".to_owned() } else { format!("{fine} things fine") };
    if to_mend.is_empty() {
        format!("{things}.")
    } else {
        format!("{things}; to mend: {}.", to_mend.join(", "))
    }
}

pub(crate) fn left_out(count: usize) -> String {
    if count == 1 {
        "1 thing was not looked at.".to_owned()
    } else {
        format!("{count} things were not looked at.")
    }
}

pub(crate) fn photos(count: usize) -> String {
    if count == 1 { "1 photo".to_owned() } else { format!("{count} photos") }
}

pub(crate) fn leaned(parts: &str, within: &str) -> String {
    format!("Lean {parts}, {within} each.")
}

/// What stands in a calendar on the day of the next round.
pub(crate) const DUE: &str = "Go round the mast";
pub(crate) const DUE_SAYS: &str =
    "Look at everything on the list, measure the lean, read the guys, and write it into the diary.";
