//! Step cards on paper: a block a card, with its picture and its one number, in an order in which they may come.

use crate::cards::{CardsPlan, planned};
use crate::drawing::lead_map::{self, lead_map};
use crate::drawing::leg_profile::{self, leg_profile};
use crate::drawing::pages::block::Block;
use crate::drawing::pages::flow::Drafts;
use crate::drawing::pages::notes::{Notes, Paragraph};
use crate::drawing::pages::step::StepBlock;
use crate::drawing::pages::table::{Column, Table};
use crate::drawing::pages::title::Title;
use crate::drawing::scene::Scene;
use crate::drawing::stages_picture::{self, stage_picture};
use crate::drawing::staking_map::{MapOptions, staking_map};
use crate::drawing::tilt_picture::{self, tilt_picture};
use crate::job::Job;
use crate::plan::Computed;
use crate::report::{
    CardForceRow, CardForcesText, CardPhaseText, CardPicture, CardStanding, CardTeamRow, StepCardText, cards,
};

use super::{Wanted, words};

const WORDS_MM: f64 = 2.8;
/// Letters of the map in a card's picture, in shares of the picture's width: few enough to be read.
const MAP_LETTERS: f64 = 1.0 / 34.0;

/// Nothing where a section is unknown: the plan says so.
pub(super) fn draw(drafts: &mut Drafts, job: &Job, computed: &Computed, wanted: &Wanted) {
    let Ok(plan) = planned(job, computed) else { return };
    let report = cards(job, &plan.deck);
    let pictures = Pictures::of(job, computed, &plan);
    for about in &report.phases {
        let title = Title { made: words::made(&wanted.about), ..Title::strip_of(&job.name, &about.title) };
        let mut blocks = vec![Block::Heading(about.title.clone()), framed(report.caution.clone())];
        blocks.push(before(about));
        let own = report.cards.iter().filter(|card| card.phase == about.phase);
        for (number, card) in (1..).zip(own) {
            blocks.push(Block::Step(pictures.step(number, card)));
            blocks.extend(card.forces.iter().flat_map(by_angle));
        }
        drafts.flow(wanted.paper, &title, blocks);
    }
}

const FORCES: [Column; 5] = [
    Column { head: "Mast at", share: 0.16 },
    Column { head: "Force", share: 0.2 },
    Column { head: "Straight up", share: 0.2 },
    Column { head: "Where", share: 0.24 },
    Column { head: "Foot pushes", share: 0.2 },
];

const TEAMS: [Column; 4] = [
    Column { head: "People", share: 0.16 },
    Column { head: "Each", share: 0.24 },
    Column { head: "Together", share: 0.24 },
    Column { head: "Which is", share: 0.36 },
];

/// The table of forces and that of people, under the card that raises the mast.
fn by_angle(forces: &CardForcesText) -> Vec<Block> {
    let angle = |at: &CardForceRow| {
        let mark = if at.hardest { "> " } else { "" };
        vec![
            format!("{mark}{}", at.at),
            at.force.clone(),
            at.up.clone(),
            at.grip.clone(),
            at.kick_out.clone(),
        ]
    };
    let team = |team: &CardTeamRow| {
        vec![team.people.clone(), team.each.clone(), team.together.clone(), team.says.clone()]
    };
    let table = |columns: &[Column], rows: Vec<Vec<String>>, [title, note]: [&String; 2]| {
        let note = format!("{title}. {note}");
        (!rows.is_empty()).then(|| Block::Table(Table { columns: columns.to_vec(), rows, note }))
    };
    let angles = forces.angles.iter().map(angle).collect();
    let teams = forces.teams.iter().map(team).collect();
    let tables = [
        table(&FORCES, angles, [&forces.title, &forces.note]),
        table(&TEAMS, teams, [&forces.teams_title, &forces.teams_note]),
    ];
    tables.into_iter().flatten().collect()
}

fn framed(caution: String) -> Block {
    let paragraphs = vec![Paragraph::plain(caution)];
    Block::Notes(Notes { paragraphs, size_mm: WORDS_MM, framed: true })
}

/// Tools, people, what stops it, what is not known, and what was noted last time.
fn before(about: &CardPhaseText) -> Block {
    let mut paragraphs: Vec<Paragraph> = about
        .stops
        .iter()
        .map(|stop| Paragraph::heading(format!("STOP: {} {} {}", stop.sentence, stop.numbers, stop.remedy)))
        .collect();
    paragraphs.push(Paragraph::plain(about.people.clone()));
    paragraphs.push(Paragraph::plain(about.tools.join(", ")));
    let around = Some(&about.around).filter(|line| !line.is_empty());
    paragraphs.extend(around.map(|line| Paragraph::plain(line.clone())));
    let mark = if about.wind_known { "" } else { "? " };
    let wind = Some(&about.wind).filter(|line| !line.is_empty());
    paragraphs.extend(wind.map(|line| Paragraph::plain(format!("{mark}{line}"))));
    paragraphs.extend(about.not_known.iter().map(|line| Paragraph::plain(format!("? {line}"))));
    paragraphs.extend(about.lessons.iter().cloned().map(Paragraph::plain));
    Block::Notes(Notes { paragraphs, size_mm: WORDS_MM, framed: false })
}

/// What is drawn of this yard, each once, with the letters it was laid out with.
struct Pictures {
    map: (Scene, f64),
    profile: (Scene, f64),
    tilt: Option<(Scene, f64)>,
    lead: Option<(Scene, f64)>,
    stages: Vec<(Scene, f64)>,
}

impl Pictures {
    fn of(job: &Job, computed: &Computed, plan: &CardsPlan) -> Self {
        let across_m = 2.0 * computed.plan.mast.fall_radius_m;
        let text_m = MAP_LETTERS * across_m;
        let map = staking_map(job, computed, &MapOptions::lettering(text_m));
        let profile = leg_profile(job, computed);
        let profile_m = leg_profile::picture_text_m(&profile);
        let tilt = plan.tilt.as_ref().map(|it| {
            let scene = tilt_picture(it, job.units);
            (scene, tilt_picture::picture_text_m(&it.turning))
        });
        let lead = plan.lead.as_ref().map(|lead| {
            let scene = lead_map(job, computed, lead);
            let text_m = lead_map::picture_text_m(&scene);
            (scene, text_m)
        });
        let stages = (0..plan.stages.stages.len()).filter_map(|number| {
            let scene = stage_picture(&plan.stages, number, job.units)?;
            let text_m = stages_picture::picture_text_m(&scene);
            Some((scene, text_m))
        });
        Self { map: (map, text_m), profile: (profile, profile_m), tilt, lead, stages: stages.collect() }
    }

    fn step(&self, number: usize, card: &StepCardText) -> StepBlock {
        let picture = match card.picture {
            CardPicture::Map => None,
            CardPicture::Profile => Some(&self.profile),
            CardPicture::Tilt => self.tilt.as_ref(),
            CardPicture::Lead => self.lead.as_ref(),
            CardPicture::Stage { stage } => self.stages.get(stage as usize),
        };
        let (picture, picture_text_m) = picture.unwrap_or(&self.map).clone();
        let tick = if card.standing == CardStanding::Done { "[x]" } else { "[  ]" };
        let mut words: Vec<String> = card.stands.iter().chain(&card.says).cloned().collect();
        words.extend([card.missing.clone(), card.caution.clone(), card.stop.clone()]);
        words.extend(card.lessons.iter().cloned());
        words.retain(|words| !words.is_empty());
        StepBlock {
            title: format!("{number} {tick} {}", card.title),
            number: card.number.number.clone(),
            number_is: card.number.is.clone(),
            words,
            more: card.more.iter().map(|more| format!("{}: {}", more.number, more.is)).collect(),
            picture,
            picture_text_m,
        }
    }
}
