//! What is asked of an operation and what it answers.

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset};
use mastwright_engine::calls::CallList;
use mastwright_engine::cards::WaysLooked;
use mastwright_engine::drawing::Paper;
use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::drawing::sheet::SheetSet;
use mastwright_engine::finding::Subject;
use mastwright_engine::job::{Capture, Instrument, LogEntry, SpotHeight};
use mastwright_engine::pegging::PegOutGuide;
use mastwright_engine::plan::{ContourTurn, MastResult, Plan};
use mastwright_engine::quantity::{FieldError, Units};
use mastwright_engine::raising::RaiseWays;
use mastwright_engine::report::{
    CallsReport, FindingText, PegOutReport, RaiseOrderReport, RaiseReport, Report, RigsReport, SharesReport,
    SitingReport, SpreadReport,
};
use mastwright_engine::rigs::{RigChoice, RigWishes};
use mastwright_engine::shares::ReadingShares;
use mastwright_engine::siting::{Siting, SitingWishes};
use mastwright_engine::spread::YardSpread;
use mastwright_engine::survey::walk::Walk;
use mastwright_engine::tube::TubeTable;
use mastwright_engine::verdict::Verdict;
use serde::{Deserialize, Serialize};

/// A request that asks for nothing in particular.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Nothing {}

/// How far a watched operation is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Progress<A> {
    pub done: u32,
    pub of: u32,
    /// The answer as far as it is known, where the operation has something to show before its end.
    pub partial: Option<A>,
}

/// A request about one job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct JobRequest {
    /// Checked whole, so that every error is named at once.
    #[cfg_attr(feature = "typegen", ts(type = "unknown"))]
    pub job: serde_json::Value,
}

/// A request for an empty job to fill in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct BlankRequest {
    pub units: Units,
}

/// Which map goes with a plan.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct MapWish {
    /// Height of the lettering in metres at the map's present scale: the labels keep clear of each other at that size.
    pub text_m: f64,
    /// `map_static` of an answer whose static shapes the asker keeps: where they are the same, the map comes without
    /// them, so that a dragging finger waits for the moving ones only.
    #[serde(default)]
    pub static_kept: Option<String>,
    /// Draws the swing ties of this point.
    #[serde(default)]
    pub ties_for: Option<Subject>,
}

/// What to compute and draw for a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlanRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// None leaves the map out.
    #[serde(default)]
    pub map: Option<MapWish>,
    /// Whether to draw the profile along the front leg.
    #[serde(default)]
    pub profile: bool,
    /// Whether to write the report, the shown texts, and the plan's tables of points, pegs and clearances
    /// (left out while a finger drags).
    #[serde(default)]
    pub report: bool,
}

/// Asks for what is shown of a job first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct FirstPlanRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    pub map: MapWish,
}

/// A plan with its map, before its words are there.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct FirstPlanAnswer {
    pub plan: Plan,
    pub map: Option<Scene>,
    /// As in a plan's answer.
    pub map_static: String,
    pub front_foot: String,
    pub verdict_says: String,
}

/// Hands over a job to be kept in hand, as it is now.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct HoldJobRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// Names this state of it: another one for every edit.
    pub name: String,
}

/// Asks for the plan of the job in hand with its mast in another place, as while a finger drags it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlaceRequest {
    /// The state that is meant, as `hold_job` named it.
    pub held: String,
    #[cfg_attr(feature = "typegen", ts(type = "Placement"))]
    pub placement: serde_json::Value,
    /// As in a plan's request.
    #[serde(default)]
    pub map: Option<MapWish>,
}

/// A plan with its pictures and words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PlanAnswer {
    /// Without the report its `points`, `pegs` and `clearances` are empty.
    pub plan: Plan,
    /// Without its first `static_count` shapes where the asker keeps them.
    pub map: Option<Scene>,
    /// Names the map's static shapes: the same shapes have the same name within one run of the engine.
    pub map_static: String,
    pub profile: Option<Scene>,
    pub report: Option<Report>,
    /// Height of the front foot at its centre, as the user would read it on a tape.
    pub front_foot: String,
    /// The plan's verdict in a word or two.
    pub verdict_says: String,
    /// For every number of the job, by its JSON pointer: how the user would write it. Empty without the report.
    #[cfg_attr(feature = "typegen", ts(type = "Record<string, string>"))]
    pub shown: BTreeMap<String, String>,
}

/// What follows a finger that drags the mast: the map and the few figures beside it. The rest of the plan is asked for
/// when the finger lifts.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PlaceAnswer {
    /// Without its first `static_count` shapes where the asker keeps them.
    pub map: Option<Scene>,
    /// Names the map's static shapes, as in a plan's answer.
    pub map_static: String,
    pub mast: MastResult,
    pub contour: ContourTurn,
    /// Height of the front foot at its centre, as the user would read it on a tape.
    pub front_foot: String,
    /// What is to be thought of the plan so far, and that in a word or two.
    pub verdict: Option<Verdict>,
    pub verdict_says: String,
}

/// What is wrong with a document; empty where nothing is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CheckAnswer {
    pub errors: Vec<FieldError>,
    /// How many more there are.
    pub unlisted: usize,
}

/// A request with a text alone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct TextRequest {
    pub text: String,
}

/// A job as its document has it: with fields of a newer minor version, which the types here do not know.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct OpenedJob(#[cfg_attr(feature = "typegen", ts(type = "Job"))] pub serde_json::Value);

/// A request to read a file as text.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct FileRequest {
    /// Its bytes in base64 (RFC 4648, 4); of a file too large to be read its beginning is enough.
    pub base64: String,
    /// Its whole size.
    pub size_bytes: usize,
}

/// A request to read what the user typed into a field.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct EntryRequest {
    /// The field's JSON pointer or name; its unit suffix (`_m`, `_mm`, `_deg`, …) says what is read.
    pub field: String,
    pub text: String,
    pub units: Units,
}

/// The number that was typed, in the unit of the field's name.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct EntryAnswer {
    pub value: f64,
}

/// A request for sheets to print, as pictures or as PDF.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SheetsRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    pub paper: Paper,
    /// When they are made, by the face's own clock: the sheets say so.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(type = "string | null", optional))]
    pub made_at: Option<DateTime<FixedOffset>>,
    /// Who makes them.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(optional))]
    pub author: Option<String>,
    /// Which sheets; those for the yard where nothing is said.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(optional, as = "Option<SheetSet>"))]
    pub set: SheetSet,
}

/// Sheets to print.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SheetsAnswer {
    pub pages: Vec<SheetPage>,
    /// Letters that a PDF of them shows as empty boxes, in words; empty where there are none.
    pub not_shown: String,
}

/// One of them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SheetPage {
    pub name: String,
    /// Width and height of the paper.
    pub size_mm: [f64; 2],
    pub svg: String,
}

/// A text to keep or to read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TextAnswer {
    pub text: String,
}

/// What stood in a file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct FileAnswer {
    pub text: String,
    /// The photos beside a job.
    pub photos: Vec<PhotoFile>,
}

/// A photo's bytes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PhotoFile {
    pub sha256: String,
    /// RFC 4648, 4.
    pub base64: String,
}

/// A request for one file of a job and its photos.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PackRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    pub photos: Vec<PhotoFile>,
}

/// A zip archive.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PackAnswer {
    pub base64: String,
}

/// A request to bring the survey log up to the job as it stands after a change.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct LogReadingsRequest {
    /// With its log so far.
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// The hour by the phone's clock, with its zone.
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub taken_at: DateTime<FixedOffset>,
    /// Who took the readings; may be empty.
    #[serde(default)]
    pub who: String,
    /// What the new values came from, but for those captured.
    #[serde(default)]
    pub instrument: Instrument,
    #[serde(default)]
    pub captures: Vec<Capture>,
    /// Places with an open conflict, as JSON pointers: there the log is right whichever side the job shows.
    #[serde(default)]
    pub open: Vec<String>,
}

/// What is to be added to the survey log.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LogReadingsAnswer {
    pub entries: Vec<LogEntry>,
    /// The date of survey to set: there is a compass reading now, and none was entered.
    pub survey_date: Option<SurveyDate>,
}

/// A date of survey, also in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SurveyDate {
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub surveyed_at: DateTime<FixedOffset>,
    pub says: String,
}

/// A request for the survey log in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct LogTextRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// Only the entries about this.
    #[serde(default)]
    pub subject: Option<Subject>,
}

/// The sizes of one published table of tubes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TubeSizes {
    pub table: TubeTable,
    pub title: String,
    pub sizes: Vec<String>,
}

/// All published tables of tubes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TubeSizesAnswer {
    pub tables: Vec<TubeSizes>,
}

/// A request to draw the whole yard by chance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SpreadRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// How many yards; 10,000 where nothing is said.
    #[serde(default = "usual_draws")]
    #[cfg_attr(feature = "typegen", ts(as = "Option<u32>", optional))]
    pub draws: u32,
    /// The same seed gives the same draws.
    pub seed: u32,
}

/// Enough for the ends of a 95 % interval to two digits.
pub fn usual_draws() -> u32 {
    10_000
}

/// How the drawn yards came out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SpreadAnswer {
    pub seed: u32,
    pub simulation: YardSpread,
    pub report: SpreadReport,
}

/// How much of each number's ± comes from what, and the one more reading that would help most.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SharesAnswer {
    pub shares: ReadingShares,
    pub report: SharesReport,
}

/// A request to look for every place where the mast can stand.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SitingRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// What is wished of a place; the usual wishes where nothing is said.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(as = "Option<SitingWishes>", optional))]
    pub wishes: SitingWishes,
    /// After so many whole plans the search stops, with what is known by then.
    #[serde(default = "usual_plans")]
    #[cfg_attr(feature = "typegen", ts(as = "Option<u32>", optional))]
    pub plans: u32,
}

/// Enough for a large yard in a quarter of a metre; a phone plans as many in a quarter of a minute.
pub fn usual_plans() -> u32 {
    10_000
}

/// Where the mast can stand.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SitingAnswer {
    pub siting: Siting,
    pub report: SitingReport,
}

/// A job, and when something is asked of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct DatedRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// The moment of asking, with the zone: what is late by then, and when a calendar was made.
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub now: DateTime<FixedOffset>,
}

/// Whom to call or ask first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CallsAnswer {
    pub list: CallList,
    pub report: CallsReport,
}

/// The way from peg to peg.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PegOutAnswer {
    pub guide: PegOutGuide,
    pub report: PegOutReport,
}

/// In which order the mast goes up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseOrderAnswer {
    pub report: RaiseOrderReport,
}

/// Which ways the mast goes up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseWaysAnswer {
    pub ways: RaiseWays,
    /// The same for the cards of the day, which are asked with it.
    pub looked: WaysLooked,
    pub report: RaiseReport,
}

/// A request for masts that can be built.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct RigsRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    pub wishes: RigWishes,
}

/// Masts that can be built.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RigsAnswer {
    pub choice: RigChoice,
    pub report: RigsReport,
}

/// A request for the plan's points as a file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PointsFileRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    pub format: PointsFormat,
    /// The mark whose latitude and longitude the yard's place is; of no account for CSV.
    pub mark: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PointsFormat {
    /// Site frame, metres.
    Csv,
    /// WGS 84 degrees, RFC 7946.
    Geojson,
}

/// A request to look into a GeoJSON document.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct GeojsonRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// The document.
    pub text: String,
    /// The mark whose latitude and longitude the yard's place is.
    pub mark: String,
}

/// What stands in a GeoJSON document.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct GeojsonAnswer {
    pub shapes: Vec<GeojsonShape>,
    /// What can't be used, by its field.
    pub skipped: Vec<FieldError>,
    /// How many more of these there are.
    pub skipped_unlisted: usize,
    /// Where they would lie.
    pub picture: Scene,
    /// In words: where the yard's north comes from. What is brought in turns with it.
    pub north: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct GeojsonShape {
    /// Empty where the document gives none.
    pub name: String,
    pub kind: GeojsonKind,
    /// How big it is, or where, in words.
    pub says: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GeojsonKind {
    Point,
    Line,
    Outline,
}

/// A request to put shapes of a GeoJSON document into the job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct ImportRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    pub text: String,
    pub mark: String,
    /// What each of its shapes is, in their order.
    pub uses: Vec<ImportAs>,
    /// The device that ids are made on, as it names itself; empty where there is but one.
    #[serde(default)]
    pub device: String,
}

/// What a shape comes in as.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "as", rename_all = "snake_case", deny_unknown_fields)]
pub enum ImportAs {
    LeaveOut,
    /// In place of the boundary there is.
    Boundary,
    Thing {
        name: String,
        /// An obstacle's shape with its sizes; its points come from the document.
        #[cfg_attr(feature = "typegen", ts(type = "unknown"))]
        shape: serde_json::Value,
    },
}

/// A request to follow a line walked over the ground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WalkRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    pub walk: Walk,
    /// The device that ids are made on, as it names itself; empty where there is but one.
    #[serde(default)]
    pub device: String,
}

/// A walked line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WalkAnswer {
    /// In section, with what the plan had the ground for.
    pub picture: Scene,
    /// Of each step's point: how far out, how high, how sure.
    pub said: Vec<String>,
    /// The points as they go into the job.
    pub spots: Vec<SpotHeight>,
    /// What the plan would say of the ground with them.
    pub plane: Vec<FindingText>,
    /// The front foot with them, as it is read on a tape.
    pub front_foot: String,
}
