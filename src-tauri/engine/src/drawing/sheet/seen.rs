//! What is seen from each standpoint of the job, a page each: the picture, how large it looks, and what is in it in words.

use crate::drawing::marks::Area;
use crate::drawing::pages::GAP_MM;
use crate::drawing::pages::block::{Block, Figure};
use crate::drawing::pages::flow::{Draft, Drafts};
use crate::drawing::pages::notes::{Notes, Paragraph};
use crate::drawing::pages::title::Title;
use crate::drawing::seen::{PictureWish, picture};
use crate::drawing::words::seen as sentences;
use crate::job::{Job, Standpoint};
use crate::numerics::real::tan_deg;
use crate::plan::{Computed, survey};
use crate::pointer;
use crate::report;
use crate::view::{Eyes, USUAL_FIELD_DEG, YardToSee, eyes_of};

use super::{Wanted, words};

const WORDS_MM: f64 = 2.8;
/// Letters in the picture; ISO 3098-1 has 2.5 mm in its series (from memory).
const PICTURE_TEXT_MM: f64 = 2.5;
/// Of the picture, width over height.
const ASPECT: f64 = 1.5;
/// Its scene is so wide.
const SCENE_WIDTH: f64 = 100.0;

pub(super) fn draw(drafts: &mut Drafts, job: &Job, computed: &Computed, wanted: &Wanted) {
    if job.standpoints.is_empty() {
        return;
    }
    // What was computed was surveyed: this can't fail.
    let Ok(surveyed) = survey(&job.yard, job.units) else { return };
    let yard = YardToSee::of(job, computed);
    for (index, standpoint) in job.standpoints.iter().enumerate() {
        let eyes = eyes_of(&surveyed, standpoint, &pointer!(standpoints[index].at));
        page(drafts, job, &yard, (standpoint, eyes.ok()), wanted);
    }
}

fn page(
    drafts: &mut Drafts,
    job: &Job,
    yard: &YardToSee,
    (standpoint, eyes): (&Standpoint, Option<Eyes>),
    wanted: &Wanted,
) {
    let what = sentences::title(&standpoint.name);
    let title = Title { made: words::made(&wanted.about), ..Title::strip_of(&job.name, &what) };
    let Some(eyes) = eyes else {
        let said = Paragraph::plain(sentences::not_placed(&standpoint.name));
        return drafts.flow(wanted.paper, &title, vec![notes(vec![said])]);
    };
    let seen = yard.seen_from(&eyes);
    let look = seen.look(standpoint.toward_deg, None, USUAL_FIELD_DEG, ASPECT);
    let size_mm = wanted.paper.size_mm();
    let mut draft = Draft::new(what.clone(), String::new(), size_mm, title.clone());
    let room = draft.room();
    let wish = PictureWish { night: false, text: SCENE_WIDTH * PICTURE_TEXT_MM / room.w };
    let scene = picture(&seen, &look, &wish, job.units);
    draft = Draft::new(what.clone(), scene.description.clone(), size_mm, title.clone());
    let area = Area::new(room.x, room.y, room.w, room.w / ASPECT);
    let scale_denominator = 1000.0 * SCENE_WIDTH / room.w;
    draft.put(area, Block::Figure(Figure { scene, scale_denominator, text_mm: PICTURE_TEXT_MM }));
    let told = report::view(&seen.told(&look), job.units);
    let far_mm = 0.5 * room.w / tan_deg(look.field_deg / 2.0);
    let mut said = vec![
        Paragraph::plain(told.standing),
        Paragraph::plain(told.cone),
        Paragraph::plain(sentences::held_off(far_mm, job.units)),
    ];
    said.extend(
        told.things.into_iter().map(|thing| Paragraph::plain(format!("{}: {}", thing.name, thing.says))),
    );
    said.push(Paragraph::plain(told.caution));
    let top = area.bottom() + GAP_MM;
    let low = Area::new(room.x, top, room.w, room.bottom() - top);
    let rest = draft.put_what_fits(low, notes(said));
    drafts.push(draft);
    drafts.flow(wanted.paper, &title, rest.into_iter().collect());
}

fn notes(paragraphs: Vec<Paragraph>) -> Block {
    Block::Notes(Notes { paragraphs, size_mm: WORDS_MM, framed: false })
}
