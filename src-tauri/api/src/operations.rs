//! The list of operations, and how one is run by its name.

use mastwright_engine::job::{Job, MOST_FILE_BYTES};
use mastwright_engine::quantity::{FieldError, FieldErrors};
use mastwright_engine::report::LogText;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use crate::capture::{
    BearingAnswer, BearingRequest, FlatSlopeAnswer, FlatSlopeRequest, HeightAnswer, HeightRequest,
    HoldAnswer, HoldRequest, PlumbAnswer, PlumbRequest, TiltAnswer, TiltRequest,
};
use crate::cards::{CardsAnswer, CardsRequest};
use crate::codes::{
    CodePicture, CodePictureRequest, CodesAnswer, CodesRequest, FindCodesRequest, FoundCodes,
    ReadCodesAnswer, ReadCodesRequest,
};
use crate::kept::{KeptAnswer, KeptRequest};
use crate::lighting::LightsAnswer;
use crate::merge::{
    CompareAnswer, CompareRequest, ConflictsAnswer, ConflictsRequest, FateAnswer, FateRequest, HistoryAnswer,
    MergeAnswer, MergeRequest, NoteHistoryRequest, ReopenRequest, SettleRequest,
};
use crate::messages::*;
use crate::plumb::{PlumbLiveAnswer, PlumbLiveRequest};
use crate::ringing::{RingAnswer, RingRequest, TensionsAnswer};
use crate::run;
use crate::season::{PackingAnswer, SamePlaceAnswer, SamePlaceRequest, SeasonAnswer};
use crate::session::Session;
use crate::view::{LookRequest, PictureAnswer, StandAnswer, StandRequest, StandpointsAnswer};
use crate::wind::{
    WindCapacityAnswer, WindCapacityRequest, WindChangesAnswer, WindTableAnswer, WindTableRequest,
};
use crate::workshop::WorkshopAnswer;
use crate::workshop::buying::{CirclesAnswer, ShoppingAnswer, ShoppingRequest};
use mastwright_engine::plumbing::PlumbGeometry;

macro_rules! operations {
    (
        at_first { $($(#[doc = $first_doc:literal])* $at_first:ident: $first_request:ty => $first_answer:ty;)* }
        at_once { $($(#[doc = $doc:literal])* $name:ident: $request:ty => $answer:ty;)* }
        in_hand { $($(#[doc = $hand_doc:literal])* $in_hand:ident: $wish:ty => $reply:ty;)* }
        in_view { $($(#[doc = $view_doc:literal])* $in_view:ident: $stand:ty => $seen:ty;)* }
        watched { $($(#[doc = $watched_doc:literal])* $watched:ident: $question:ty => $found:ty;)* }
        on_paper { $($(#[doc = $paper_doc:literal])* $on_paper:ident: $order:ty => $print:ty;)* }
    ) => {
        /// The operations by name, each with what it does.
        pub const OPERATIONS: &[(&str, &str)] = &[
            $((stringify!($at_first), concat!($($first_doc),*)),)*
            $((stringify!($name), concat!($($doc),*)),)*
            $((stringify!($in_hand), concat!($($hand_doc),*)),)*
            $((stringify!($in_view), concat!($($view_doc),*)),)*
            $((stringify!($watched), concat!($($watched_doc),*)),)*
            $((stringify!($on_paper), concat!($($paper_doc),*)),)*
        ];

        /// Runs an operation that needs nothing in hand: as [`Session::call`] of a new session.
        pub fn call(operation: &str, request: &str) -> String {
            Session::default().call(operation, request)
        }

        impl Session {
            /// Runs an operation: `request` is its JSON request; the answer is `{"ok": …}` or
            /// `{"error": {"errors": […]}}`, always valid JSON. A watched operation runs to its end unwatched.
            pub fn call(&mut self, operation: &str, request: &str) -> String {
                match operation {
                    $(stringify!($name) => answer::<$request, $answer>(request, run::$name),)*
                    $(stringify!($in_view) => {
                        answer::<$stand, $seen>(request, |wish| self.$in_view(wish))
                    })*
                    other => self.call_at_first(other, request).unwrap_or_else(|| {
                        call_watched(other, request, &mut |_| true)
                    }),
                }
            }

            /// Runs an operation that a browser has from the beginning, for its first map and for a finger that drags it;
            /// none where it is no such one. Apart from [`Session::call`], so that a module which calls nothing else
            /// holds the code of these alone.
            pub fn call_at_first(&mut self, operation: &str, request: &str) -> Option<String> {
                match operation {
                    $(stringify!($at_first) => {
                        Some(answer::<$first_request, $first_answer>(request, run::$at_first))
                    })*
                    $(stringify!($in_hand) => {
                        Some(answer::<$wish, $reply>(request, |wish| self.$in_hand(wish)))
                    })*
                    _ => None,
                }
            }
        }

        /// Runs an operation that takes long enough to be watched. `watcher` is told how far it is and, where
        /// there is one, its answer so far; it stops the operation by answering false, which is then
        /// answered with what was found until then, and says so.
        pub fn call_watched(operation: &str, request: &str, watcher: &mut Watcher<'_>) -> String {
            match operation {
                $(stringify!($watched) => answer_watched::<$question, $found>(request, run::$watched, watcher),)*
                other => refused(unknown(other)),
            }
        }

        /// Runs an operation that puts a job on paper. Apart from [`call`], so that a browser loads the module that draws
        /// pages when somebody prints, and not before.
        pub fn call_on_paper(operation: &str, request: &str) -> String {
            match operation {
                $(stringify!($on_paper) => answer::<$order, $print>(request, run::$on_paper),)*
                other => refused(unknown(other)),
            }
        }

        /// Shows every request and answer to the writer of the TypeScript types.
        #[cfg(feature = "typegen")]
        pub fn visit_messages(visitor: &mut impl ts_rs::TypeVisitor) {
            visitor.visit::<Progress<Nothing>>();
            $(visitor.visit::<$first_request>(); visitor.visit::<$first_answer>();)*
            $(visitor.visit::<$request>(); visitor.visit::<$answer>();)*
            $(visitor.visit::<$wish>(); visitor.visit::<$reply>();)*
            $(visitor.visit::<$stand>(); visitor.visit::<$seen>();)*
            $(visitor.visit::<$question>(); visitor.visit::<$found>();)*
            $(visitor.visit::<$order>(); visitor.visit::<$print>();)*
        }

        /// The operations as TypeScript: two interfaces of request and answer by name.
        #[cfg(feature = "typegen")]
        pub fn typescript_interfaces(config: &ts_rs::Config) -> String {
            let at_first = [
                $(typescript_line::<$first_request, $first_answer>(
                    config, stringify!($at_first), concat!($($first_doc),*)
                ),)*
                $(typescript_line::<$wish, $reply>(config, stringify!($in_hand), concat!($($hand_doc),*)),)*
            ];
            let at_once = [
                $(typescript_line::<$request, $answer>(config, stringify!($name), concat!($($doc),*)),)*
                $(typescript_line::<$stand, $seen>(config, stringify!($in_view), concat!($($view_doc),*)),)*
            ];
            let watched =
                [$(typescript_line::<$question, $found>(config, stringify!($watched), concat!($($watched_doc),*))),*];
            let on_paper =
                [$(typescript_line::<$order, $print>(config, stringify!($on_paper), concat!($($paper_doc),*))),*];
            format!(
                "/** What a browser's first module is asked and what it answers. */\n\
                 export interface FirstOperations {{\n{}}}\n\n\
                 /** What each operation is asked and what it answers. */\n\
                 export interface Operations extends FirstOperations {{\n{}}}\n\n\
                 /** The same of the operations that take long enough to be watched and stopped. */\n\
                 export interface WatchedOperations {{\n{}}}\n\n\
                 /** The same of the operations that put a job on paper. */\n\
                 export interface PaperOperations {{\n{}}}\n",
                at_first.concat(),
                at_once.concat(),
                watched.concat(),
                on_paper.concat(),
            )
        }
    };
}

operations! {
    at_first {
        /// The demo job, Lantern Green.
        demo: Nothing => Job;
        /// An empty job to fill in.
        blank: BlankRequest => Job;
        /// Whether a text that was kept can be opened as a job, though what it says may still be wrong.
        read_kept: KeptRequest => KeptAnswer;
        /// The plan without its words, and its map: what is shown first.
        first_plan: FirstPlanRequest => FirstPlanAnswer;
    }
    at_once {
        /// Everything wrong with a document.
        check: JobRequest => CheckAnswer;
        /// The plan with its pictures and words.
        plan: PlanRequest => PlanAnswer;
        /// The plan in words, as a terminal shows it.
        plan_text: JobRequest => TextAnswer;
        /// The bytes of a file as text, with the photos of an archive; what is no UTF-8 text is named.
        file_text: FileRequest => FileAnswer;
        /// A job from the text of its document.
        open_job: TextRequest => OpenedJob;
        /// Reads what was typed into a field.
        read_entry: EntryRequest => EntryAnswer;
        /// Whether a phone lies still, and the slope it reads.
        hold: HoldRequest => HoldAnswer;
        /// A slope from one hold or a reversal pair, and the phone's zero error.
        tilt: TiltRequest => TiltAnswer;
        /// Slope and fall from one reading of a phone lying flat.
        flat_slope: FlatSlopeRequest => FlatSlopeAnswer;
        /// The lean of the standing tube, and what to move.
        plumb: PlumbRequest => PlumbAnswer;
        /// What plumbing live needs of a job, asked once.
        plumb_geometry: JobRequest => PlumbGeometry;
        /// How the tube stands now, and what to move: reading by reading.
        plumb_live: PlumbLiveRequest => PlumbLiveAnswer;
        /// A bearing from several sights with the phone's compass.
        bearing: BearingRequest => BearingAnswer;
        /// A height from angles and a tape, or from a level line.
        height: HeightRequest => HeightAnswer;
        /// The job as its readable document.
        job_text: JobRequest => TextAnswer;
        /// The job and its photos as one archive.
        pack_job: PackRequest => PackAnswer;
        /// What stands in the pictures by which a job is handed to another device's camera.
        job_codes: CodesRequest => CodesAnswer;
        /// A text as a QR code.
        code_picture: CodePictureRequest => CodePicture;
        /// What the codes that were read come to.
        read_codes: ReadCodesRequest => ReadCodesAnswer;
        /// What the survey log lacks of the job as it stands.
        log_readings: LogReadingsRequest => LogReadingsAnswer;
        /// The survey log in words.
        log_text: LogTextRequest => LogText;
        /// The survey log as comma-separated values.
        log_csv: JobRequest => TextAnswer;
        /// The published tables of tubes.
        tube_sizes: Nothing => TubeSizesAnswer;
        /// A line walked over the ground, in section and as spot heights.
        walk_line: WalkRequest => WalkAnswer;
        /// The plan's points with their uncertainty, for another program.
        points_file: PointsFileRequest => TextAnswer;
        /// Whom to call or ask before anything is driven in, and by when.
        calls: DatedRequest => CallsAnswer;
        /// The same for a calendar (RFC 5545).
        calls_calendar: DatedRequest => TextAnswer;
        /// From peg to peg: in which order, by which tapes, and what check tapes tell.
        peg_out: JobRequest => PegOutAnswer;
        /// Step cards of the day: what to do next, who stands where, what must hold before and why.
        cards: CardsRequest => CardsAnswer;
        /// How tight a guy is, from taps, a watch, a phone on it, a microphone or a pull aside.
        ring: RingRequest => RingAnswer;
        /// How tight all guys were found, against the plan and each other; how long twenty swings take.
        tensions: JobRequest => TensionsAnswer;
        /// The season's diary: what to look at and why, what is to be mended, what changed since last time.
        season: DatedRequest => SeasonAnswer;
        /// The day of the next round for a calendar (RFC 5545).
        season_calendar: DatedRequest => TextAnswer;
        /// What is packed when the mast has come down, piece by piece, and what is easily forgotten.
        packing: JobRequest => PackingAnswer;
        /// The same place again: tapes that show a moved mark, the compass, what has changed since.
        same_place: SamePlaceRequest => SamePlaceAnswer;
        /// The lights' current: strands numbered, labels against the circuit, the lead on the map.
        lights: JobRequest => LightsAnswer;
        /// What is cut, turned and drilled before: tubes that slide, stages and pins, the lift.
        workshop: JobRequest => WorkshopAnswer;
        /// What to buy for a job and how to cut it from the lengths that are sold.
        shopping: ShoppingRequest => ShoppingAnswer;
        /// What to buy as comma-separated values.
        shopping_csv: ShoppingRequest => TextAnswer;
        /// Holes round the topper, the ring on the ground, strands as they are sold.
        circles: JobRequest => CirclesAnswer;
        /// The order in which the mast goes up, and which of its steps may be done sooner or later.
        raise_order: JobRequest => RaiseOrderAnswer;
        /// Where the job's standpoints are on the map, and which way one looks from each.
        standpoints: JobRequest => StandpointsAnswer;
        /// What stands in a GeoJSON document of another program.
        look_into_geojson: GeojsonRequest => GeojsonAnswer;
        /// The job with chosen shapes of a GeoJSON document in it.
        import_geojson: ImportRequest => OpenedJob;
        /// The history of a job after the job was changed.
        note_history: NoteHistoryRequest => HistoryAnswer;
        /// How two states of one job stand to each other.
        compare_jobs: CompareRequest => CompareAnswer;
        /// Two states of one job brought together.
        merge_jobs: MergeRequest => MergeAnswer;
        /// What two devices wrote without knowing of each other.
        open_conflicts: ConflictsRequest => ConflictsAnswer;
        /// The job once somebody said which of two writings holds.
        settle_conflict: SettleRequest => MergeAnswer;
        /// The job once somebody took back what they had said of a conflict.
        reopen_conflict: ReopenRequest => MergeAnswer;
        /// What becomes of a job that somebody deleted.
        job_fate: FateRequest => FateAnswer;
        /// Up to three masts that reach a height with tubes that can be bought.
        rigs: RigsRequest => RigsAnswer;
        /// What one gust does to every part of the mast, and how it bends.
        wind_table: WindTableRequest => WindTableAnswer;
    }
    in_hand {
        /// Keeps a job in hand, with its yard surveyed.
        hold_job: HoldJobRequest => Nothing;
        /// What a map shows of the job in hand with its mast in another place.
        place: PlaceRequest => PlaceAnswer;
    }
    in_view {
        /// What is seen from one of the job's standpoints, kept so that the eyes may turn.
        stand: StandRequest => StandAnswer;
        /// The picture from there, looking another way.
        look: LookRequest => PictureAnswer;
    }
    watched {
        /// The whole yard drawn by chance, many times over.
        spread: SpreadRequest => SpreadAnswer;
        /// How much of each number's ± comes from which reading, and what to read again.
        shares: JobRequest => SharesAnswer;
        /// Every place where the mast can stand, and the best of them.
        siting: SitingRequest => SitingAnswer;
        /// The QR codes in a camera's picture.
        find_codes: FindCodesRequest => FoundCodes;
        /// Every bearing along which the mast can be walked up, and the best of them.
        raise_ways: JobRequest => RaiseWaysAnswer;
        /// The largest gust from every direction, raised and lowered, and when to act.
        wind_capacity: WindCapacityRequest => WindCapacityAnswer;
        /// What to change first for a larger gust limit.
        wind_changes: WindCapacityRequest => WindChangesAnswer;
    }
    on_paper {
        /// The sheets to print, a picture a page: staking map, what goes under each leg, templates at full size.
        sheets: SheetsRequest => SheetsAnswer;
    }
}

/// Is told how far an operation is, and says whether it goes on.
pub type Watcher<'a> = dyn FnMut(&Progress<Value>) -> bool + 'a;

/// What an operation itself tells: its answer so far in its own type.
pub type Watch<'a, A> = dyn FnMut(Progress<A>) -> bool + 'a;

/// A longer request is refused unread: it holds a job and perhaps a file, which may be of this size each.
const MOST_REQUEST_BYTES: usize = 3 * MOST_FILE_BYTES;

fn request_of<Q: DeserializeOwned>(request: &str) -> Result<Q, FieldErrors> {
    if request.len() > MOST_REQUEST_BYTES {
        let given = format!("a request of {} MB", request.len() >> 20);
        return Err(FieldError::new("", given, format!("at most {} MB", MOST_REQUEST_BYTES >> 20)).into());
    }
    serde_json::from_str::<Q>(request).map_err(|error| not_understood(&error.to_string()))
}

fn answer<Q: DeserializeOwned, A: Serialize>(
    request: &str,
    run: impl FnOnce(&Q) -> Result<A, FieldErrors>,
) -> String {
    let read = request_of::<Q>(request);
    match read.and_then(|request| run(&request)) {
        Ok(answer) => granted(&answer),
        Err(errors) => refused(errors),
    }
}

/// What a request is answered by `run`, for an answer that is no JSON.
///
/// # Errors
/// The JSON answer that names what is wrong, as [`call`] gives it.
pub fn asked<Q: DeserializeOwned, A>(
    request: &str,
    run: impl FnOnce(&Q) -> Result<A, FieldErrors>,
) -> Result<A, String> {
    request_of::<Q>(request).and_then(|request| run(&request)).map_err(refused)
}

fn answer_watched<Q: DeserializeOwned, A: Serialize>(
    request: &str,
    run: fn(&Q, &mut Watch<'_, A>) -> Result<A, FieldErrors>,
    watcher: &mut Watcher<'_>,
) -> String {
    let mut watch = |Progress { done, of, partial }: Progress<A>| {
        let partial = partial.and_then(|answer| serde_json::to_value(answer).ok());
        watcher(&Progress { done, of, partial })
    };
    let read = request_of::<Q>(request);
    match read.and_then(|request| run(&request, &mut watch)) {
        Ok(answer) => granted(&answer),
        Err(errors) => refused(errors),
    }
}

#[cfg(feature = "typegen")]
fn typescript_line<Q: ts_rs::TS, A: ts_rs::TS>(config: &ts_rs::Config, name: &str, doc: &str) -> String {
    let doc = doc.trim();
    format!("  /** {doc} */\n  {name}: {{ request: {}; answer: {} }};\n", Q::name(config), A::name(config))
}

#[derive(Serialize)]
struct Granted<'a, A> {
    ok: &'a A,
}

#[derive(Serialize)]
struct Refused {
    error: FieldErrors,
}

const USUAL_ANSWER_BYTES: usize = 24 << 10;

fn granted<A: Serialize>(answer: &A) -> String {
    // Room for an answer that a finger waits for: a text that grows is copied each time.
    let mut text = Vec::with_capacity(USUAL_ANSWER_BYTES);
    let written =
        serde_json::to_writer(&mut text, &Granted { ok: answer }).map_err(|error| error.to_string());
    let text = written.and_then(|()| String::from_utf8(text).map_err(|error| error.to_string()));
    text.unwrap_or_else(|error| refused(not_understood(&format!("an answer that can't be written: {error}"))))
}

fn refused(error: FieldErrors) -> String {
    // Strings only: this can't fail to be written, and the literal keeps the answer valid JSON if it ever does.
    serde_json::to_string(&Refused { error }).unwrap_or_else(|_| r#"{"error":{"errors":[]}}"#.to_owned())
}

fn not_understood(what: &str) -> FieldErrors {
    FieldError::new("", what, "a request of this operation").into()
}

fn unknown(operation: &str) -> FieldErrors {
    let names: Vec<&str> = OPERATIONS.iter().map(|(name, _)| *name).collect();
    FieldError::new("", operation, names.join(", ")).into()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn request(draws: u32) -> String {
        let demo: Value = serde_json::from_str(&call("demo", "{}")).unwrap();
        serde_json::json!({ "job": demo["ok"], "draws": draws, "seed": 7 }).to_string()
    }

    #[test]
    fn a_watched_operation_tells_how_far_it_is() {
        let mut told = Vec::new();
        let answer = call_watched("spread", &request(1000), &mut |progress| {
            told.push((progress.done, progress.of));
            true
        });
        assert!(answer.starts_with("{\"ok\""), "{answer}");
        assert_eq!(told.last(), Some(&(1000, 1000)));
        assert!(told.len() > 1 && told.is_sorted());
        // Watching changes nothing in the answer.
        assert_eq!(answer, call("spread", &request(1000)));
    }

    #[test]
    fn a_stopped_operation_answers_with_what_it_has() {
        let answer = call_watched("spread", &request(10_000), &mut |progress| progress.done < 500);
        let answer: Value = serde_json::from_str(&answer).unwrap();
        assert_eq!(answer["ok"]["simulation"]["stopped"], true);
        assert_eq!(answer["ok"]["simulation"]["draws"], 500);
    }

    #[test]
    fn only_watched_operations_are_watched() {
        assert!(call_watched("demo", "{}", &mut |_| true).starts_with("{\"error\""));
        assert!(call("no_such_operation", "{}").contains("spread"));
        assert!(call("spread", &request(5)).contains("/draws"));
        assert!(call("sheets", "{}").starts_with("{\"error\""));
    }
}
