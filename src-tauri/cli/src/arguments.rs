//! What the command line takes.

use std::net::IpAddr;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use mastwright_api::messages::{usual_draws, usual_plans};
use mastwright_engine::season::LookCause;
use mastwright_engine::tube::TubeTable;

/// Plan where a tall temporary mast, its base and its guys go in a yard that is not level.
///
/// A job is a JSON document (see `mastwright schema` and docs/job.schema.json). A plan is no licence to
/// build: keep away from power lines, have buried services marked before driving anything, and follow local
/// codes and licensed advice.
#[derive(Debug, Parser)]
#[command(
    name = "mastwright",
    version,
    after_help = "Exit codes: 0 done, and nothing says stop; 1 done, and the plan has a finding that says stop; 2 the \
                  document or the command line can't be used; 3 a file can't be read or written; 4 done, and \
                  nobody can say yet: a check was not made, or an entry is missing. Codes 1 and 4 are those of plan, \
                  map, check, wind, spread, shares and points; of siting 1 says that it fits nowhere, of raise-ways that the way is not clear, of \
                  peg-out that the tapes do not agree, of cards that a part of the day must not begin, of tension that a guy is surely not as tight as planned, of lights that they must not be switched on like this, of season that something is to be mended or has moved. 5 is that of merge: done, \
                  and two entries are at odds. The other commands do not look at the plan.\n\nTry it: \
                  mastwright plan --demo"
)]
pub struct Arguments {
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Print the plan: foot and shims, guys, pegs, clearances, findings.
    Plan {
        #[command(flatten)]
        job: JobSource,
        /// Print the whole plan as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Write the sheets to print: the staking map with its table, what goes under each leg, templates at full size.
    Map {
        #[command(flatten)]
        job: JobSource,
        /// Where to write them: `NAME.pdf` takes them all, any other name the first as SVG and `NAME-2.svg` and so on the
        /// further ones. `-` or nothing prints the first one, the map, as SVG.
        #[arg(long, short)]
        out: Option<PathBuf>,
        #[command(flatten)]
        options: SheetOptions,
    },
    /// Draw the sheets of the workshop: what to buy, the cut list, drawings at full size to lay on the work.
    Bench {
        #[command(flatten)]
        job: JobSource,
        /// Where to write them: a PDF with all pages, or SVG, a file a page. Where nothing is said the first page is printed as
        /// SVG.
        #[arg(long, short)]
        out: Option<PathBuf>,
        #[command(flatten)]
        options: SheetOptions,
    },
    /// List what to buy, aisle by aisle, and the work in the shop in its order.
    Shop {
        #[command(flatten)]
        job: JobSource,
        /// Write the list as comma-separated values into this file; `-` prints them.
        #[arg(long)]
        csv: Option<PathBuf>,
        /// The day on which the work in the shop begins, such as 2026-12-04: the steps then have days.
        #[arg(long)]
        begin: Option<chrono::NaiveDate>,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Say how to cut every piece from the lengths that are sold, for the least.
    Cut {
        #[command(flatten)]
        job: JobSource,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Say how to drill the topper's circle, bend and join the ring, and whether strands as sold fit.
    Circles {
        #[command(flatten)]
        job: JobSource,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print what the lights take by their labels, what the circuit and the lead bear, how long the lead is and where somebody may
    /// trip over it, and every strand by its number.
    Lights {
        #[command(flatten)]
        job: JobSource,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Say everything that is wrong with a document and with its plan.
    Check {
        #[command(flatten)]
        job: JobSource,
    },
    /// Say what wind the mast can take: the gust limit from every direction, what a gust does to each part, when
    /// to lower it and lay it down, what to change first.
    Wind {
        #[command(flatten)]
        job: JobSource,
        /// The gust for the table of parts, such as `35 mph` or `15 m/s`; the job's own where nothing is said.
        #[arg(long)]
        gust: Option<String>,
        /// Bearing that this gust comes from, in degrees; the worst where nothing is said.
        #[arg(long)]
        from: Option<f64>,
        /// The table for the lowered mast.
        #[arg(long)]
        lowered: bool,
        /// Where to write the rose as an SVG picture.
        #[arg(long)]
        rose: Option<PathBuf>,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Draw the whole yard by chance, many times over: how far feet, guys and clearances may come out
    /// otherwise.
    Spread {
        #[command(flatten)]
        job: JobSource,
        /// How many yards to draw.
        #[arg(long, default_value_t = usual_draws())]
        draws: u32,
        /// The same seed gives the same draws.
        #[arg(long, default_value_t = 1)]
        seed: u32,
        /// Print the numbers as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Say how much of each number's ± comes from which reading, and which one more reading would help most.
    Shares {
        #[command(flatten)]
        job: JobSource,
        /// Print the numbers as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Look for every place where the mast can stand, and say which are the best.
    Siting {
        #[command(flatten)]
        job: JobSource,
        /// From one place to the next, such as `1 ft` or `0.25 m`.
        #[arg(long)]
        step: Option<String>,
        /// Turns of the guys that are tried at each place.
        #[arg(long)]
        guy_turns: Option<u32>,
        /// Turns of the base that are tried at each place; one points the front leg downhill.
        #[arg(long)]
        base_turns: Option<u32>,
        /// Only places from which the falling mast reaches no building, no way and no neighbour.
        #[arg(long)]
        clear_of_fall: bool,
        /// How many of the best places to tell of.
        #[arg(long)]
        best: Option<u32>,
        /// How much a mark of a place counts, such as `wind=3` or `walking=0`; once for each of clearance, low_foot,
        /// guy_angles, fall, ties, wind, view, walking. Only their ratio matters.
        #[arg(long, value_name = "MARK=NUMBER")]
        weigh: Vec<String>,
        /// Stop after so many whole plans.
        #[arg(long, default_value_t = usual_plans())]
        plans: u32,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Look all round for the bearings along which the mast can be walked up and laid down, and say which is the best.
    RaiseWays {
        #[command(flatten)]
        job: JobSource,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Offer up to three masts that reach a height with tubes that can be bought: what they weigh, what wind they take.
    Rigs {
        #[command(flatten)]
        job: JobSource,
        /// How high the lights begin above the mast's foot, such as `18 ft` or `5.5 m`.
        #[arg(long)]
        lights_at: String,
        /// The longest piece of tube that can be bought or carried; 10 ft or 3 m where nothing is said.
        #[arg(long)]
        longest_piece: Option<String>,
        /// How many strands.
        #[arg(long)]
        strands: Option<u16>,
        /// Lit length of one strand.
        #[arg(long)]
        strand_length: Option<String>,
        /// By which tables the shop sells; every one where nothing is said.
        #[arg(long = "table", value_parser = tube_table)]
        tables: Vec<TubeTable>,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print the way from peg to peg: in which order, by which tapes, how far off each may be, and what the check tapes that
    /// were read tell.
    PegOut {
        #[command(flatten)]
        job: JobSource,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print the step cards of the day: what to do next, by which number, who stands where, what must hold before and why.
    Cards {
        #[command(flatten)]
        job: JobSource,
        /// Only the cards of this part of the day.
        #[arg(long, value_enum)]
        phase: Option<DayPhase>,
        /// It stands: the cards by which it comes down.
        #[arg(long, conflicts_with = "out")]
        down: bool,
        /// Look all round first whether the mast can lie clear along any bearing: a second or two.
        #[arg(long, conflicts_with = "out")]
        all_round: bool,
        /// Write them as sheets to print, each with its picture: `NAME.pdf` takes them all, any other name is SVG, a file a page.
        #[arg(long, short)]
        out: Option<PathBuf>,
        #[command(flatten)]
        options: SheetOptions,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print what is made in the workshop: which tube slides in which, where the holes go, how the tubes are cranked up.
    Workshop {
        #[command(flatten)]
        job: JobSource,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print how tight the guys were found, what to take in or let out, and how long twenty swings of each take by a watch; or
    /// work out one guy's tension from swings that were timed.
    Tension {
        #[command(flatten)]
        job: JobSource,
        /// The guy that was timed, such as `upper-1`.
        #[arg(long, requires = "swings", requires = "seconds")]
        guy: Option<String>,
        /// How many of its swings were counted.
        #[arg(long, requires = "guy")]
        swings: Option<u16>,
        /// How long they took, in seconds.
        #[arg(long, requires = "guy")]
        seconds: Option<f64>,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Say what is seen from a standpoint, and how much of the lit cone shows from there.
    View {
        #[command(flatten)]
        job: JobSource,
        /// Where one stands: the id of one of the job's standpoints or of a mark, or metres to the east and the north of the
        /// first mark, such as `3.5,-12`.
        #[arg(long, allow_hyphen_values = true)]
        from: String,
        /// True bearing to look along, in degrees; towards the mast where nothing is said.
        #[arg(long, allow_hyphen_values = true)]
        toward: Option<f64>,
        /// Degrees above the horizontal; such that the mast is in the picture where nothing is said.
        #[arg(long, allow_hyphen_values = true)]
        pitch: Option<f64>,
        /// How wide the picture is, in degrees.
        #[arg(long)]
        field: Option<f64>,
        /// Of the eyes above the floor or the ground, such as `1.7 m` or `5' 6"`.
        #[arg(long)]
        eye_height: Option<String>,
        /// Of the floor above the ground: of an upper window's room.
        #[arg(long)]
        floor: Option<String>,
        /// By night.
        #[arg(long)]
        night: bool,
        /// Where to write the picture as SVG; `-` prints it in place of the words.
        #[arg(long, short)]
        out: Option<PathBuf>,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print the survey log: every reading with its time, also those struck out.
    Log {
        #[command(flatten)]
        job: JobSource,
        /// Print it as comma-separated values.
        #[arg(long)]
        csv: bool,
    },
    /// Print whom to call or ask before anything is driven into the ground, and by when.
    Calls {
        #[command(flatten)]
        job: JobSource,
        /// Write the calls that are still to be made for a calendar (iCalendar, RFC 5545) into this file; `-` prints them.
        #[arg(long)]
        calendar: Option<PathBuf>,
        /// The moment of asking, such as 2026-11-27T10:00:00+01:00; now where it is left out.
        #[arg(long)]
        now: Option<chrono::DateTime<chrono::FixedOffset>>,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print the season's diary: what is to be mended, what nobody has looked at, what changed since last time, when the next round is
    /// due; or what to look at after wind, rain, frost or heat, and why.
    Season {
        #[command(flatten)]
        job: JobSource,
        /// Print what to look at for this.
        #[arg(long, value_enum)]
        after: Option<RoundFor>,
        /// Write the day of the next round for a calendar (iCalendar, RFC 5545) into this file; `-` prints it.
        #[arg(long, conflicts_with = "after")]
        calendar: Option<PathBuf>,
        /// The moment of asking, such as 2026-11-27T10:00:00+01:00; now where it is left out.
        #[arg(long)]
        now: Option<chrono::DateTime<chrono::FixedOffset>>,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print what is packed when the mast has come down: every piece with its length and weight, and what is easily forgotten.
    Pack {
        #[command(flatten)]
        job: JobSource,
        /// Print everything as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print what to look at before it stands in the same place again: three tapes that show a moved mark, the compass's north, what has
    /// changed since, and the notes of last time.
    Again {
        #[command(flatten)]
        job: JobSource,
        /// The job's file from the day on which the mast came down.
        #[arg(long)]
        before: Option<PathBuf>,
        /// The day, such as 2027-11-20T10:00:00-05:00; now where it is left out.
        #[arg(long)]
        now: Option<chrono::DateTime<chrono::FixedOffset>>,
        /// Print the tapes and the compass's north as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Write the plan's points, with their uncertainty, for another program.
    Points {
        #[command(flatten)]
        job: JobSource,
        #[arg(long, value_enum, default_value_t = PointsFile::Csv)]
        format: PointsFile,
        /// GeoJSON: the mark whose latitude and longitude the yard's place is; the first one where none is named.
        #[arg(long)]
        mark: Option<String>,
        /// Where to write them; `-` or nothing prints them.
        #[arg(long, short)]
        out: Option<PathBuf>,
    },
    /// Print the job with the outlines of a GeoJSON document in it, as ground to stay off or as the boundary.
    Import {
        #[command(flatten)]
        job: JobSource,
        /// The GeoJSON document (RFC 7946: WGS 84 degrees).
        #[arg(long)]
        geojson: PathBuf,
        /// The mark whose latitude and longitude the yard's place is; the first one where none is named.
        #[arg(long)]
        mark: Option<String>,
        /// The name of the outline that is the boundary.
        #[arg(long)]
        boundary: Option<String>,
    },
    /// Bring two states of one job together, and print the job that has both.
    ///
    /// Where each was handed over by a Mastwright it knows by itself who wrote what; `--base` names the document that both began
    /// from where it does not. What was written differently on both sides, by nobody who knew of the other, is told on standard
    /// error and kept in the printed job's history, to be asked about when it is opened; then the exit code is 5.
    Merge {
        /// The job's file as the one has it.
        first: PathBuf,
        /// The job's file as the other has it.
        second: PathBuf,
        /// The job's file that both began from.
        #[arg(long)]
        base: Option<PathBuf>,
        /// Where to write the merged job; `-` or nothing prints it.
        #[arg(long, short)]
        out: Option<PathBuf>,
    },
    /// Serve the app over https to the phones in the local network, which give their sensors to https alone.
    ///
    /// Anybody in the network can load the app; devices see each other's readings only after they were paired by the code
    /// that is printed, or shown on a paired device. Stop it with Ctrl-C.
    Serve {
        /// The address to listen on; by default all of this machine's. `127.0.0.1` serves this machine alone.
        #[arg(long, default_value = "0.0.0.0")]
        bind: IpAddr,
        #[arg(long, default_value_t = 4611)]
        port: u16,
        /// Where the certificate and the list of paired devices are kept; by default the user's own data folder.
        #[arg(long)]
        folder: Option<PathBuf>,
    },
    /// Print the demo job, Lantern Green, to start from.
    Demo,
    /// Print the schema of the job document.
    Schema,
}

/// How sheets are made.
#[derive(Debug, Args)]
pub struct SheetOptions {
    #[arg(long, value_enum, default_value_t = PaperSize::A4)]
    pub paper: PaperSize,
    /// Who makes them, for the title block and the PDF's properties.
    #[arg(long)]
    pub author: Option<String>,
    /// When they are made, such as `2026-11-26T14:20:00+01:00`; nothing is said of it where it is left out, and the
    /// same job then gives the same bytes.
    #[arg(long)]
    pub made_at: Option<String>,
}

/// Which job to read.
#[derive(Debug, Args)]
#[group(required = true, multiple = false)]
pub struct JobSource {
    /// The job's file; `-` reads it from standard input.
    pub job: Option<PathBuf>,
    /// Use the demo job, Lantern Green.
    #[arg(long)]
    pub demo: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PaperSize {
    A4,
    A3,
    Letter,
    Tabloid,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum DayPhase {
    Base,
    Raise,
    Crank,
    Lights,
    /// Running it down; with --down.
    Lower,
    /// Laying it down; with --down.
    LayDown,
}

/// What somebody goes round for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum RoundFor {
    Wind,
    Rain,
    Frost,
    Heat,
    /// The usual day.
    Routine,
    /// It was just stood up.
    StoodUp,
}

impl RoundFor {
    pub fn cause(self) -> LookCause {
        match self {
            Self::Wind => LookCause::Wind,
            Self::Rain => LookCause::Rain,
            Self::Frost => LookCause::Frost,
            Self::Heat => LookCause::Heat,
            Self::Routine => LookCause::Routine,
            Self::StoodUp => LookCause::StoodUp,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PointsFile {
    /// In the site frame and the job's units, as its head row says.
    Csv,
    /// In WGS 84 degrees (RFC 7946).
    Geojson,
}

/// A table by the name that a job calls it, such as `rmc` or `en10255_medium`.
fn tube_table(name: &str) -> Result<TubeTable, String> {
    let named = |table: &TubeTable| serde_json::to_value(table).is_ok_and(|value| value == name);
    TubeTable::ALL.into_iter().find(named).ok_or_else(|| {
        let names: Vec<String> = TubeTable::ALL
            .iter()
            .filter_map(|table| Some(serde_json::to_value(table).ok()?.as_str()?.to_owned()))
            .collect();
        format!("one of {}", names.join(", "))
    })
}
