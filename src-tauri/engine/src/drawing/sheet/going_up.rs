//! How the tubes go up, on one page: the mast after each stage, the pins and from where they are set.

use crate::drawing::marks::Area;
use crate::drawing::pages::GAP_MM;
use crate::drawing::pages::block::{Block, Figure};
use crate::drawing::pages::flow::{Draft, Drafts};
use crate::drawing::pages::title::Title;
use crate::drawing::stages_picture::stages_picture;
use crate::drawing::words::workshop as sentences;
use crate::job::Job;
use crate::workshop::stages::Stages;

use super::{Wanted, words};

/// Letters in the picture; ISO 3098-1 has 2.5 mm in its series (from memory).
const PICTURE_TEXT_MM: f64 = 2.5;

/// Nothing where nothing is cranked up.
pub(super) fn draw(drafts: &mut Drafts, job: &Job, stages: &Stages, wanted: &Wanted) {
    let Some(picture) = stages_picture(stages, job.units) else { return };
    let scene = picture.scene;
    let what = sentences::STAGES_PICTURE.to_owned();
    let title = Title { made: words::made(&wanted.about), ..Title::strip_of(&job.name, &what) };
    let mut draft = Draft::new(what, scene.description.clone(), wanted.paper.size_mm(), title);
    let room = draft.room();
    let aspect = scene.bounds.width() / scene.bounds.height();
    let width_mm = room.w.min(aspect * room.h);
    let area = Area::new(room.x, room.y + GAP_MM, width_mm, width_mm / aspect);
    let scale_denominator = 1000.0 * scene.bounds.width() / area.w;
    draft.put(area, Block::Figure(Figure { scene, scale_denominator, text_mm: PICTURE_TEXT_MM }));
    drafts.push(draft);
}
