//! What each operation does: read the request, ask the engine, gather the answer.

mod calls;
mod exchange;
mod file;
mod pegging;
mod walk;

use mastwright_engine::cards::WaysLooked;
use mastwright_engine::demo;
use mastwright_engine::drawing;
use mastwright_engine::drawing::pages;
use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::drawing::sheet::Wanted;
use mastwright_engine::job::{self, Document, Job};
use mastwright_engine::judge::judged;
use mastwright_engine::plan::{self, Computed, Plan};
use mastwright_engine::quantity::{FieldError, FieldErrors};
use mastwright_engine::quantity::{entry, format};
use mastwright_engine::raising;
use mastwright_engine::report::{self, LogText};
use mastwright_engine::rigs;
use mastwright_engine::shares;
use mastwright_engine::siting::{Siting, SitingEnd, SitingSearch};
use mastwright_engine::spread;
use mastwright_engine::survey::log;
use mastwright_engine::tube::TubeTable;
use mastwright_engine::tube::tables;
use mastwright_engine::verdict::Verdict;

pub use crate::cards::cards;
pub use crate::lighting::lights;
use crate::messages::*;
use crate::operations::Watch;
pub use crate::plumb::{plumb_geometry, plumb_live};
pub use crate::ringing::{ring, tensions};
pub use crate::season::{packing, same_place, season, season_calendar};
pub use crate::workshop::workshop;
pub use calls::{calls, calls_calendar};
pub use exchange::{import_geojson, look_into_geojson, points_file};
pub use file::{file_text, open_job, pack_job};
pub use pegging::peg_out;

pub use crate::workshop::buying::{circles, shopping, shopping_csv};
pub use walk::walk_line;

pub use crate::capture::{bearing, flat_slope, height, hold, plumb, tilt};
pub use crate::codes::{code_picture, find_codes, job_codes, read_codes};
pub use crate::kept::read_kept;
pub use crate::merge::{
    compare_jobs, job_fate, merge_jobs, note_history, open_conflicts, reopen_conflict, settle_conflict,
};
pub use crate::view::standpoints;
pub use crate::wind::{wind_capacity, wind_changes, wind_table};

pub fn demo(_: &Nothing) -> Result<Job, FieldErrors> {
    Ok(demo::lantern_green())
}

pub fn blank(request: &BlankRequest) -> Result<Job, FieldErrors> {
    Ok(job::blank(request.units))
}

pub fn check(request: &JobRequest) -> Result<CheckAnswer, FieldErrors> {
    let wrong = job::read_job_value(&request.job).err();
    Ok(wrong.map_or(CheckAnswer { errors: Vec::new(), unlisted: 0 }, |FieldErrors { errors, unlisted }| {
        CheckAnswer { errors, unlisted }
    }))
}

/// Radius of the handle that the screens put over the mast, in letter heights of the map.
const HANDLE_EM: f64 = 3.2;

pub fn plan(request: &PlanRequest) -> Result<PlanAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let map = request.map.as_ref();
    let profile = |computed: &Computed| {
        request.profile.then(|| drawing::leg_profile::leg_profile(&job, computed).rounded())
    };
    if !request.report {
        let computed = plan::compute(&job)?;
        let profile = profile(&computed);
        return Ok(PlanAnswer { profile, ..quick_answer(&job, computed, map) });
    }
    // A dozen solutions in still air are for a finger that has let go.
    let computed = judged(&job)?;
    let profile = profile(&computed);
    let report = Some(report::report(&job, &computed));
    Ok(PlanAnswer { profile, report, shown: job::shown(&job), ..answer(&job, computed, map) })
}

pub fn first_plan(request: &FirstPlanRequest) -> Result<FirstPlanAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let (map, map_static) = drawn(&job, &computed, Some(&request.map));
    Ok(FirstPlanAnswer {
        map,
        map_static,
        front_foot: front_foot(&job, &computed),
        verdict_says: report::verdict::short(computed.plan.verdict.as_ref()),
        plan: computed.plan,
    })
}

pub fn plan_text(request: &JobRequest) -> Result<TextAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    Ok(TextAnswer { text: report::text(&report::report(&job, &judged(&job)?)) })
}

/// The plan without its three longest tables, which would all have to be written and read.
fn quick_answer(job: &Job, computed: Computed, map: Option<&MapWish>) -> PlanAnswer {
    let answer = answer(job, computed, map);
    let plan = Plan { points: Vec::new(), pegs: Vec::new(), clearances: Vec::new(), ..answer.plan };
    PlanAnswer { plan, ..answer }
}

/// What a finger waits for.
pub(crate) fn place_answer(job: &Job, computed: Computed, wish: Option<&MapWish>) -> PlaceAnswer {
    let (map, map_static) = drawn(job, &computed, wish);
    let verdict_says = report::verdict::short(computed.plan.verdict.as_ref());
    PlaceAnswer {
        map,
        map_static,
        front_foot: front_foot(job, &computed),
        mast: computed.plan.mast,
        contour: computed.plan.base.contour,
        verdict: computed.plan.verdict,
        verdict_says,
    }
}

fn answer(job: &Job, computed: Computed, wish: Option<&MapWish>) -> PlanAnswer {
    let (map, map_static) = drawn(job, &computed, wish);
    PlanAnswer {
        map,
        map_static,
        profile: None,
        report: None,
        front_foot: front_foot(job, &computed),
        verdict_says: report::verdict::short(computed.plan.verdict.as_ref()),
        shown: Default::default(),
        plan: computed.plan,
    }
}

/// The map that is wished for, without the static shapes that the asker keeps, and their name.
fn drawn(job: &Job, computed: &Computed, wish: Option<&MapWish>) -> (Option<Scene>, String) {
    let Some(wish) = wish else { return (None, String::new()) };
    let options = drawing::staking_map::MapOptions {
        text_m: wish.text_m,
        ties_for: wish.ties_for.clone(),
        handle_em: HANDLE_EM,
    };
    let mut map = drawing::staking_map::staking_map(job, computed, &options).rounded();
    let name = map.static_name();
    if wish.static_kept.as_ref() == Some(&name) {
        map.shapes.drain(..map.static_count.min(map.shapes.len()));
    }
    (Some(map), name)
}

fn front_foot(job: &Job, computed: &Computed) -> String {
    if !computed.plan.knows_under("front") {
        return "not known".to_owned();
    }
    let front = computed.plan.base.legs.iter().find(|leg| leg.id == "front");
    front.map_or_else(String::new, |leg| format::length(leg.gap_centre_m.value, job.units))
}

pub fn read_entry(request: &EntryRequest) -> Result<EntryAnswer, FieldErrors> {
    Ok(EntryAnswer { value: entry::read_quantity(&request.field, &request.text, request.units)? })
}

pub fn sheets(request: &SheetsRequest) -> Result<SheetsAnswer, FieldErrors> {
    Ok(svg_pages(judged_sheets(request)?.0))
}

/// The pages as SVG.
pub fn svg_pages(document: pages::PaperDocument) -> SheetsAnswer {
    let svgs = document.svg();
    let not_shown = document.letters_not_shown().unwrap_or_default();
    let pages = document.pages.into_iter().zip(svgs);
    let pages = pages.map(|(page, svg)| SheetPage { name: page.name, size_mm: page.size_mm, svg }).collect();
    SheetsAnswer { pages, not_shown }
}

/// The laid-out pages of a request, for whoever writes them in another form, and the verdict on the job.
pub fn judged_sheets(
    request: &SheetsRequest,
) -> Result<(pages::PaperDocument, Option<Verdict>), FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = judged(&job)?;
    let about =
        pages::About { title: String::new(), author: request.author.clone(), made_at: request.made_at };
    let document =
        drawing::sheets(&job, &computed, &Wanted { paper: request.paper, about, set: request.set });
    Ok((document, computed.plan.verdict))
}

pub fn job_text(request: &JobRequest) -> Result<TextAnswer, FieldErrors> {
    Ok(TextAnswer { text: Document::of(&request.job)?.text() })
}

pub fn log_readings(request: &LogReadingsRequest) -> Result<LogReadingsAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let how = log::How {
        taken_at: request.taken_at,
        who: request.who.clone(),
        instrument: request.instrument,
        captures: request.captures.clone(),
        open: request.open.clone(),
    };
    let entries = log::record(&job, &how);
    let wants_date = job.yard.surveyed_at.is_none() && log::compass_read(&job, &entries);
    let survey_date = wants_date.then(|| SurveyDate {
        surveyed_at: request.taken_at,
        says: request.taken_at.format("%-d %B %Y, %H:%M").to_string(),
    });
    Ok(LogReadingsAnswer { entries, survey_date })
}

pub fn log_text(request: &LogTextRequest) -> Result<LogText, FieldErrors> {
    Ok(report::log_text(&job::read_job_value(&request.job)?, request.subject.as_ref()))
}

pub fn log_csv(request: &JobRequest) -> Result<TextAnswer, FieldErrors> {
    Ok(TextAnswer {
        text: mastwright_engine::exchange::log_csv::log_csv(&job::read_job_value(&request.job)?),
    })
}

pub fn tube_sizes(_: &Nothing) -> Result<TubeSizesAnswer, FieldErrors> {
    let sizes = |table| TubeSizes {
        table,
        title: tables::source(table).source().citation.to_owned(),
        sizes: tables::sizes(table).iter().map(|size| size.size.to_owned()).collect(),
    };
    Ok(TubeSizesAnswer { tables: TubeTable::ALL.iter().copied().map(sizes).collect() })
}

pub fn spread(
    request: &SpreadRequest,
    watch: &mut Watch<'_, SpreadAnswer>,
) -> Result<SpreadAnswer, FieldErrors> {
    let (draws, seed) = (request.draws, request.seed);
    if !spread::DRAWS.contains(&draws) {
        let allowed = format!("{} to {}", spread::DRAWS.start(), spread::DRAWS.end());
        return Err(FieldError::new("/draws", draws.to_string(), allowed).into());
    }
    let job = job::read_job_value(&request.job)?;
    let mut progress = |done| watch(Progress { done, of: draws, partial: None });
    let simulation = spread::yard_spread(&job, draws, seed.into(), &mut progress)?;
    let report = report::spread(&job, &plan::compute(&job)?, &simulation);
    Ok(SpreadAnswer { seed, simulation, report })
}

pub fn shares(
    request: &JobRequest,
    watch: &mut Watch<'_, SharesAnswer>,
) -> Result<SharesAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let mut progress = |done, of| watch(Progress { done, of, partial: None });
    let shares = shares::reading_shares(&job, &mut progress)?;
    let report = report::shares(&job, &plan::compute(&job)?, &shares);
    Ok(SharesAnswer { shares, report })
}

pub fn rigs(request: &RigsRequest) -> Result<RigsAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let choice = rigs::rigs(&job, &request.wishes)?;
    Ok(RigsAnswer { report: report::rigs(&job, &choice), choice })
}

/// Degrees all round.
const ALL_BEARINGS: u32 = 360;

pub fn raise_ways(
    request: &JobRequest,
    watch: &mut Watch<'_, RaiseWaysAnswer>,
) -> Result<RaiseWaysAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let mut progress = |done| watch(Progress { done, of: ALL_BEARINGS, partial: None });
    let ways = raising::raise_ways(&job, &computed, &mut progress);
    Ok(RaiseWaysAnswer { report: report::raising(&job, &ways), looked: WaysLooked::of(&ways), ways })
}

pub fn raise_order(request: &JobRequest) -> Result<RaiseOrderAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let order = raising::order_as_said(&job, &computed);
    Ok(RaiseOrderAnswer { report: report::raise_order(&job, &order) })
}

/// Plans between two tellings: about the fifth part of a second on a phone.
const PLANS_AT_ONCE: u32 = 100;

/// Whole plans with each other pattern of guys; as many as a trial of what opens a place takes.
const PLANS_A_PATTERN: u32 = 600;

/// After so many plans of a search what is known by then is shown for the first time.
const FIRST_SHOWN: u32 = 8 * PLANS_AT_ONCE;

pub fn siting(
    request: &SitingRequest,
    watch: &mut Watch<'_, SitingAnswer>,
) -> Result<SitingAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let surveyed = plan::survey(&job.yard, job.units)?;
    let computed = plan::compute_on(&surveyed, &job)?;
    let mut search = SitingSearch::begin(&surveyed, &job, &request.wishes)?;
    let said = |siting: Siting| SitingAnswer { report: report::siting(&job, &computed, &siting), siting };
    let (mut done, of) = (0, request.plans);
    // The quick rules' answer is worth showing while the plans are made.
    let mut goes_on = watch(Progress { done, of, partial: Some(said(search.answer()?)) });
    let mut shown_next = FIRST_SHOWN;
    while goes_on && done < of {
        let now = PLANS_AT_ONCE.min(of - done);
        if !search.go_on(now)? {
            break;
        }
        done += now;
        // What is known so far, twice as much work apart each time: an answer of its own costs some plans.
        let shows = done >= shown_next;
        shown_next *= if shows { 2 } else { 1 };
        let partial = if shows { Some(said(search.answer()?)) } else { None };
        goes_on = watch(Progress { done, of, partial });
    }
    let planned = search.answer()?;
    // So are the best places by their plans, and that nothing fits: what takes longer comes after.
    if !goes_on || of == 0 || !watch(Progress { done, of, partial: Some(said(planned.clone())) }) {
        return Ok(said(planned));
    }
    looked_closer(&mut search, of, &mut |done, of, partial| {
        watch(Progress { done, of, partial: partial.map(said) })
    })
    .map(said)
}

/// The best places with all their marks, what other patterns of guys open, and where nothing fits what would have to change.
fn looked_closer(
    search: &mut SitingSearch,
    plans: u32,
    tell: &mut dyn FnMut(u32, u32, Option<Siting>) -> bool,
) -> Result<Siting, FieldErrors> {
    let mut goes_on = true;
    search.look_closer(&mut |done, of| {
        goes_on = tell(done, of, None);
        goes_on
    })?;
    if goes_on {
        search.try_patterns(PLANS_A_PATTERN.min(plans), &mut |done, of| {
            goes_on = tell(done, of, None);
            goes_on
        })?;
    }
    let mut siting = search.answer()?;
    let nowhere = siting.best.is_empty() && siting.end == SitingEnd::Whole;
    if goes_on && nowhere && tell(0, 1, Some(siting.clone())) {
        siting.openings = Some(search.openings(&mut |done, of| tell(done, of, None))?);
    }
    Ok(siting)
}
