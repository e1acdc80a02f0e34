//! Step cards, in words.

use serde::Serialize;

use super::circles::BigNumber;
use super::next_year::lessons;
use super::words::cards as say;
use super::{FindingText, finding_text, format};
use crate::cards::{
    Card, CardEscape, CardForceAt, CardKind, CardNumber, CardPhase, CardSays, CardStand, CardValue, Deck,
    PhaseGust, PhasePrepared, PhaseStop, PhaseWays, Progress, StandPlace, WaysLooked,
};
use crate::job::Job;
use crate::lifting::hands::TeamAtMast;
use crate::quantity::Units;
use crate::source::SourceKey;

/// The cards of the day, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CardsReport {
    pub headline: String,
    pub caution: String,
    pub phases: Vec<CardPhaseText>,
    pub cards: Vec<StepCardText>,
    /// Keys of the cards that may come now, the one that usually does first.
    pub may_come: Vec<String>,
    /// The card that was done last; none where none is.
    pub last_done: Option<String>,
    pub first_up: CardFirstUpText,
}

/// Whether the bare lower tube is stood up first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CardFirstUpText {
    pub offered: bool,
    pub chosen: bool,
    pub says: String,
}

/// A phase before it begins.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CardPhaseText {
    pub phase: CardPhase,
    pub title: String,
    pub done: u32,
    pub of: u32,
    pub tools: Vec<String>,
    pub people: String,
    /// What keeps it from beginning, each with its remedy.
    pub stops: Vec<CardStopText>,
    /// Checks that could not be made, and what is missing for a number.
    pub not_known: Vec<String>,
    /// Whether the mast may lie along some bearing; empty where it does not turn.
    pub around: String,
    /// Nobody has looked all round yet.
    pub may_look: bool,
    /// Up to which gust; empty where it does not matter.
    pub wind: String,
    /// False where that is not known yet.
    pub wind_known: bool,
    /// Notes from last time, each with its day.
    pub lessons: Vec<String>,
}

/// What keeps a phase from beginning.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CardStopText {
    pub sentence: String,
    pub numbers: String,
    pub remedy: String,
    pub source: String,
}

/// How a card stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CardStanding {
    Done,
    MayCome,
    Waits,
    /// Ticked off, and yet open: what it rests on is not done.
    RestsOnNothing,
}

/// The picture of this yard that goes with a card.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum CardPicture {
    /// The staking map.
    Map,
    /// What goes under the front leg.
    Profile,
    /// The mast turning up, from the side.
    Tilt,
    /// The lights' lead on its part of the map.
    Lead,
    /// The mast before and after one of the stages, counted from 0.
    Stage { stage: u32 },
}

/// A card in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct StepCardText {
    pub key: String,
    pub phase: CardPhase,
    pub title: String,
    pub standing: CardStanding,
    pub number: BigNumber,
    /// False where the number is not known yet.
    pub known: bool,
    /// What is missing for it; empty where it is known.
    pub missing: String,
    pub more: Vec<BigNumber>,
    /// What else there is to know, a sentence each.
    pub says: Vec<String>,
    pub stands: Vec<String>,
    pub caution: String,
    pub stop: String,
    /// Why it may not come yet; empty where it may.
    pub waits: Vec<String>,
    /// All that has to hold before it, and why.
    pub needs: Vec<String>,
    /// As it is read out.
    pub aloud: String,
    pub picture: CardPicture,
    /// Force by angle and person by person, on the card that raises the mast or lays it down; none on all others.
    pub forces: Option<CardForcesText>,
    /// Of a card that is done: the keys that are left once it is taken back.
    pub left_without: Vec<String>,
    /// Notes from last time, each with its day.
    pub lessons: Vec<String>,
}

/// The forces of the way up, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CardForcesText {
    pub title: String,
    pub angles: Vec<CardForceRow>,
    /// What the columns are.
    pub note: String,
    pub teams_title: String,
    /// None where a line raises it.
    pub teams: Vec<CardTeamRow>,
    pub teams_note: String,
}

/// The mast at one angle of its way up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CardForceRow {
    pub at: String,
    pub force: String,
    pub up: String,
    pub grip: String,
    pub kick_out: String,
    pub hardest: bool,
}

/// So many people at the mast where it is hardest.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CardTeamRow {
    pub people: String,
    pub each: String,
    pub together: String,
    pub enough: bool,
    pub says: String,
}

/// Puts the cards into words.
pub fn cards(job: &Job, deck: &Deck) -> CardsReport {
    let ticked = job.cards.ticked();
    let progress = deck.progress(&ticked);
    let telling = Telling { job, units: job.units, deck, progress: &progress, ticked: &ticked };
    let key = |at: &usize| deck.cards[*at].key.clone();
    CardsReport {
        headline: say::headline(progress.done.len(), deck.cards.len()),
        caution: say::CAUTION.to_owned(),
        phases: deck.phases.iter().map(|phase| telling.phase(phase)).collect(),
        cards: (0..deck.cards.len()).map(|at| telling.card(at)).collect(),
        may_come: progress.may_come.iter().map(key).collect(),
        last_done: progress.done.last().map(key),
        first_up: telling.first_up(),
    }
}

struct Telling<'a> {
    job: &'a Job,
    units: Units,
    deck: &'a Deck,
    progress: &'a Progress,
    ticked: &'a [String],
}

impl Telling<'_> {
    fn first_up(&self) -> CardFirstUpText {
        let first = self.deck.first_up;
        let mass = |kg: f64| format::mass(kg, self.units);
        let says = match (first.offered, first.chosen) {
            (true, true) => say::FIRST_UP_CHOSEN.to_owned(),
            (true, false) => say::FIRST_UP_OFFERED.to_owned(),
            (false, _) => say::first_up_refused(&mass(first.tube_kg), &mass(first.most_kg)),
        };
        CardFirstUpText { offered: first.offered, chosen: first.chosen, says }
    }

    fn phase(&self, phase: &PhasePrepared) -> CardPhaseText {
        let own = |at: &&usize| self.deck.cards[**at].phase == phase.phase;
        let of = self.deck.cards.iter().filter(|card| card.phase == phase.phase).count();
        let text = |finding: &crate::finding::Finding| -> FindingText { finding_text(finding, self.units) };
        let open = phase.not_known.iter().map(|finding| {
            let said = text(finding);
            format!("{} {}", said.sentence, said.remedy)
        });
        let mut not_known: Vec<String> = open.collect();
        for missing in phase.missing.iter().map(|it| say::missing(*it).to_owned()) {
            if !not_known.contains(&missing) {
                not_known.push(missing);
            }
        }
        CardPhaseText {
            phase: phase.phase,
            title: say::phase(phase.phase).to_owned(),
            done: self.progress.done.iter().filter(own).count() as u32,
            of: of as u32,
            tools: phase.tools.iter().map(|tool| say::tool(*tool).to_owned()).collect(),
            people: say::people(phase.people.at_least, phase.people.lifting),
            stops: phase.stops.iter().map(|stop| self.stop(stop)).collect(),
            not_known,
            around: phase.around.map_or_else(String::new, around),
            may_look: phase.around.is_some_and(|ways| ways.looked == WaysLooked::NotYet),
            wind: phase.gust.as_ref().map_or_else(String::new, |gust| self.gust(phase.phase, gust)),
            wind_known: phase.gust.as_ref().is_none_or(|gust| gust.limit_m_per_s.is_some()),
            lessons: lessons(self.job, say::phase_key(phase.phase)),
        }
    }

    fn gust(&self, phase: CardPhase, gust: &PhaseGust) -> String {
        let speed = |value: f64| format::speed_rounded_down(value, self.units);
        let (Some(limit), Some(begin), Some(by)) = (gust.limit_m_per_s, gust.begin_m_per_s, &gust.by) else {
            let comes_down = matches!(phase, CardPhase::Lower | CardPhase::LayDown);
            let says = if comes_down { say::NO_NUMBER_COMING_DOWN } else { say::NO_NUMBER_FOR_GUST };
            return says.to_owned();
        };
        if matches!(phase, CardPhase::Lower | CardPhase::LayDown) {
            return say::gust_coming_down(&speed(limit), &speed(begin), &say::gust_by(by));
        }
        let says = say::gust(&speed(limit), &speed(begin), gust.margin_percent, &say::gust_by(by));
        let forecast = gust.forecast_m_per_s.map(|value| say::forecast(&format::speed(value, self.units)));
        says + forecast.as_deref().unwrap_or(say::NO_FORECAST)
    }

    fn stop(&self, stop: &PhaseStop) -> CardStopText {
        match stop {
            PhaseStop::Found { finding } => {
                let FindingText { sentence, numbers, remedy, source, .. } = finding_text(finding, self.units);
                CardStopText { sentence, numbers, remedy, source }
            }
            other => self.stop_of_forces(other),
        }
    }

    fn stop_of_forces(&self, stop: &PhaseStop) -> CardStopText {
        let force = |value_n: f64| format::force(value_n, self.units);
        let (words, source) = match stop {
            PhaseStop::Found { .. } => ([String::new(), String::new()], SourceKey::CommonPractice),
            PhaseStop::TooFewHands { force_n, together_n, named, needed, by_line } => {
                let (whole, together) = (force(*force_n), force(*together_n));
                if *by_line {
                    (say::too_few_in_the_line(*named, *needed, &whole, &together), SourceKey::HseL23)
                } else {
                    let source = if *named > 1 { SourceKey::HseL23 } else { SourceKey::Niosh94_110 };
                    (say::too_few(*named, *needed, &whole, &together), source)
                }
            }
            PhaseStop::TooHeavyForHands { force_n, together_n, people } => {
                (say::too_heavy(*people, &force(*force_n), &force(*together_n)), SourceKey::HseL23)
            }
            PhaseStop::KicksOut { away_n, holds_n, source } => {
                (say::kicks_out(&force(*away_n), &force(*holds_n)), *source)
            }
            PhaseStop::HingeLifts { lifts_n, at_deg } => {
                (say::hinge_lifts(&force(*lifts_n), &format::angle(*at_deg)), SourceKey::Geometry)
            }
            PhaseStop::TubeBends { tube, percent } => {
                (say::tube_bends(tube, &say::percent(*percent)), SourceKey::En1993_1_1)
            }
            PhaseStop::TooLate { takes_minutes, left_minutes, keep_off_m } => {
                let (takes, left) = (say::minutes(*takes_minutes), say::minutes(left_minutes.floor()));
                let keep_off = format::length(*keep_off_m, self.units);
                (say::too_late(&takes, &left, &keep_off), SourceKey::CommonPractice)
            }
            PhaseStop::NoWayClear { degrees } => (say::no_way_clear(*degrees), SourceKey::CommonPractice),
            PhaseStop::LineHasNoLever => (say::NO_LEVER.map(str::to_owned), SourceKey::Geometry),
            PhaseStop::GustForecast { forecast_m_per_s, begin_m_per_s } => {
                let forecast = format::speed(*forecast_m_per_s, self.units);
                let begin = format::speed_rounded_down(*begin_m_per_s, self.units);
                (say::forecast_too_strong(&forecast, &begin), SourceKey::CommonPractice)
            }
        };
        let [sentence, remedy] = words;
        CardStopText { sentence, numbers: String::new(), remedy, source: source.source().citation.to_owned() }
    }

    fn card(&self, at: usize) -> StepCardText {
        let card = &self.deck.cards[at];
        let number = self.number(&card.number);
        let stands: Vec<String> = card.stands.iter().map(|stand| self.stand(stand)).collect();
        let stop = say::stop_when(say::stop_rule(card.stop_rule));
        let (title, caution) = (say::title(&card.kind), say::caution(card.caution).to_owned());
        let standing = self.standing(at);
        let more: Vec<BigNumber> = card.more.iter().map(|number| self.number(number)).collect();
        let numbered: Vec<String> = [&number]
            .into_iter()
            .chain(&more)
            .map(|number| say::number_aloud(&number.number, &number.is))
            .collect();
        let says: Vec<String> = card.says.iter().map(says).collect();
        let besides: Vec<String> = missing_words(card).into_iter().chain(says.iter().cloned()).collect();
        StepCardText {
            key: card.key.clone(),
            phase: card.phase,
            standing,
            known: card.number.value.is_some(),
            missing: card.number.missing.map_or(String::new(), |it| say::missing(it).to_owned()),
            more,
            waits: self.waits(at, standing),
            needs: card.needs.iter().map(|it| say::needs(say::state(it.state), say::why(it.why))).collect(),
            aloud: say::aloud(&title, &numbered, &besides, &stands, &caution, &stop),
            says,
            picture: picture(card),
            forces: self.forces(card),
            left_without: match standing {
                CardStanding::Done => self.deck.taken_back(self.ticked, &card.key),
                _ => Vec::new(),
            },
            lessons: lessons(self.job, &card.key),
            title,
            number,
            stands,
            caution,
            stop,
        }
    }

    fn forces(&self, card: &Card) -> Option<CardForcesText> {
        let moves = matches!(card.kind, CardKind::WalkUp | CardKind::PullUp | CardKind::LetMastDown);
        let forces = self.deck.forces.as_ref().filter(|_| moves)?;
        let force = |value_n: f64| format::force(value_n, self.units);
        let row = |at: &CardForceAt| CardForceRow {
            at: format::angle(at.elevation_deg),
            force: force(at.force_n),
            up: force(at.up_n),
            grip: format::length(at.at_m, self.units),
            kick_out: force(at.kick_out_n),
            hardest: at.hardest,
        };
        let team = |team: &TeamAtMast| CardTeamRow {
            people: team.people.to_string(),
            each: force(team.each_n),
            together: force(team.together_n),
            enough: team.enough,
            says: say::team(team.enough).to_owned(),
        };
        Some(CardForcesText {
            title: say::forces_title(forces.by_line).to_owned(),
            angles: forces.angles.iter().map(row).collect(),
            note: say::forces_note(forces.by_line).to_owned(),
            teams_title: say::TEAMS_TITLE.to_owned(),
            teams: forces.teams.iter().map(team).collect(),
            teams_note: say::TEAMS_NOTE.to_owned(),
        })
    }

    fn standing(&self, at: usize) -> CardStanding {
        if self.progress.done.contains(&at) {
            CardStanding::Done
        } else if self.progress.rests_on_nothing.contains(&at) {
            CardStanding::RestsOnNothing
        } else if self.progress.may_come.contains(&at) {
            CardStanding::MayCome
        } else {
            CardStanding::Waits
        }
    }

    fn waits(&self, at: usize, standing: CardStanding) -> Vec<String> {
        let mut says = Vec::new();
        if standing == CardStanding::RestsOnNothing {
            says.push(say::RESTS_ON_NOTHING.to_owned());
        }
        if let Some(waits) = self.progress.waits.iter().find(|it| it.card == at) {
            says.extend(waits.stopped.then(|| say::STOPPED.to_owned()));
            for need in &waits.missing {
                let one = say::waits(say::state(need.state), say::why(need.why));
                if !says.contains(&one) {
                    says.push(one);
                }
            }
        }
        says
    }

    /// An interval stands with what the number is, so that the number keeps to one line.
    fn number(&self, number: &CardNumber) -> BigNumber {
        let words = number.value.map_or_else(|| say::NOT_KNOWN.to_owned(), |value| self.value(value));
        let is = say::number_is(&number.what);
        let interval = match number.value {
            Some(CardValue::Length { half_width_95_m: Some(half_m), .. }) => {
                format::length_interval(half_m, self.units)
            }
            _ => String::new(),
        };
        BigNumber { number: words, is: if interval.is_empty() { is } else { format!("{interval}, {is}") } }
    }

    fn value(&self, value: CardValue) -> String {
        match value {
            CardValue::Length { value_m, .. } => format::length(value_m, self.units),
            CardValue::Force { value_n } => format::force(value_n, self.units),
            CardValue::Mass { value_kg } => format::mass(value_kg, self.units),
            CardValue::Angle { value_deg } => format::angle(value_deg),
            CardValue::Bearing { value_deg } => format::bearing(value_deg),
            CardValue::Turns { value } => say::turns(value),
            CardValue::Count { value } => value.to_string(),
            CardValue::Gust { value_m_per_s } => format::speed_rounded_down(value_m_per_s, self.units),
            CardValue::Minutes { value } => say::minutes(value),
            CardValue::Amps { value_amps } => format::amps(value_amps),
            CardValue::Percent { value } => say::percent(value),
        }
    }

    fn stand(&self, stand: &CardStand) -> String {
        use say::places;
        let place = self.place(stand);
        let bearing = |value_deg: f64| format::bearing(value_deg);
        match stand.escape {
            None => place,
            Some(CardEscape::Toward { bearing_deg }) => place + &places::escape_toward(&bearing(bearing_deg)),
            Some(CardEscape::OwnSide { left_deg, right_deg }) => {
                place + &places::escape_own_side(&bearing(left_deg), &bearing(right_deg))
            }
            Some(CardEscape::FromTheMast) => place + places::ESCAPE_FROM_THE_MAST,
        }
    }

    fn place(&self, stand: &CardStand) -> String {
        use say::places;
        let length = |value_m: f64| format::length(value_m, self.units);
        match &stand.place {
            StandPlace::OutsideTheFall { radius_m } => places::outside(&length(*radius_m)),
            StandPlace::AtTheBase => say::stand(stand.people, places::BASE),
            StandPlace::Caller => say::stand(stand.people, places::CALLER),
            StandPlace::BesideTheMast => say::stand(stand.people, places::MAST),
            StandPlace::AtTheLine => say::stand(stand.people, places::LINE),
            StandPlace::BesideTheHinge => say::stand(stand.people, places::HINGE),
            StandPlace::AtAnchor { guy } => say::stand(stand.people, &places::anchor(guy)),
            StandPlace::AtTheCrank => say::stand(stand.people, places::CRANK),
            StandPlace::AtThePinFromTheGround => say::stand(stand.people, places::PIN),
            StandPlace::AtThePinFromAPlatform { floor_m } => {
                let floor = (*floor_m > 0.0).then(|| length(*floor_m));
                say::stand(stand.people, &places::platform(floor.as_deref()))
            }
            StandPlace::OnTheRing => say::stand(stand.people, places::RING),
            StandPlace::AtTheOutlet => say::stand(stand.people, places::OUTLET),
        }
    }
}

fn says(of: &CardSays) -> String {
    match of {
        CardSays::GuyHolds { guy, side, from_deg, all_the_way } => {
            let from = (!all_the_way).then(|| format::angle(*from_deg));
            say::guy_holds(guy, *side, from.as_deref())
        }
        CardSays::RunsFreely { tube, strands, slack, fast } => say::runs_freely(tube, *strands, slack, fast),
    }
}

/// What has to be entered for a card's numbers, each once.
fn missing_words(card: &Card) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for missing in [&card.number].into_iter().chain(&card.more).filter_map(|number| number.missing) {
        let said = say::missing(missing).to_owned();
        if !words.contains(&said) {
            words.push(said);
        }
    }
    words
}

fn around(ways: PhaseWays) -> String {
    let best = match ways.looked {
        WaysLooked::NotYet => None,
        WaysLooked::NoneClear { .. } => return say::NONE_CLEAR.to_owned(),
        WaysLooked::Clear { best_deg } => Some(format::bearing(best_deg)),
    };
    say::around(ways.own_clear, best.as_deref())
}

fn picture(card: &Card) -> CardPicture {
    match &card.kind {
        CardKind::MeasureFoot | CardKind::LevelBase => CardPicture::Profile,
        // It shows the front leg's foot, with its height: beside another leg's number that would be the wrong one.
        CardKind::SetFoot { leg } if leg == "front" => CardPicture::Profile,
        CardKind::StandBareTube
        | CardKind::LayBareTube
        | CardKind::LayMast
        | CardKind::PinTubes
        | CardKind::TieStrandsAlong
        | CardKind::HoldEdge
        | CardKind::WalkUp
        | CardKind::RigLine
        | CardKind::PullUp
        | CardKind::TakeMast
        | CardKind::FreeFarGuys
        | CardKind::DrawBaseStakes
        | CardKind::LetMastDown
        | CardKind::SetFarGuys
        | CardKind::LetGoEdge
        | CardKind::PlumbMast => CardPicture::Tilt,
        CardKind::LayLead => CardPicture::Lead,
        _ => card.stage.map_or(CardPicture::Map, |stage| CardPicture::Stage { stage }),
    }
}

#[cfg(test)]
mod tests;
