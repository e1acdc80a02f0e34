//! `mastwright`: the engine on the command line. A thin face over the operations of `mastwright_api`.

mod arguments;
mod buying;
mod calls;
mod cards;
mod exchange;
mod files;
mod lights;
mod merging;
mod outcome;
mod pegging;
mod progress;
mod raising;
mod rigs;
mod season;
mod sheets;
mod siting;
mod tension;
mod view;
mod workshop;

use std::io::{Read, Write};
use std::net::IpAddr;
use std::path::{Path, PathBuf};

use clap::Parser;
use mastwright_api::messages::{JobRequest, PlanAnswer, PlanRequest, SpreadRequest};
use mastwright_api::wind::{WindCapacityRequest, WindTableRequest, Withstood};
use mastwright_api::{archive, run};
use mastwright_engine::drawing::sheet::SheetSet;
use mastwright_engine::drawing::{self, SvgStyle};
use mastwright_engine::exchange::log_csv::log_csv;
use mastwright_engine::judge::judged;
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::quantity::entry;
use mastwright_engine::quantity::visible::{visible_json, visible_lines};
use mastwright_engine::wind_capacity::MastHeight;
use mastwright_engine::{demo, job, report};

use arguments::{Arguments, Command, JobSource};
use outcome::{Failure, Outcome};

fn main() -> std::process::ExitCode {
    let outcome = match Arguments::parse().command {
        Command::Plan { job, json } => plan(&job, json),
        Command::Map { job, out, options } => sheets::sheets(&job, out.as_deref(), &options, SheetSet::Yard),
        Command::Bench { job, out, options } => {
            sheets::sheets(&job, out.as_deref(), &options, SheetSet::Workshop)
        }
        Command::Shop { job, csv, begin, json } => buying::shop(&job, csv.as_deref(), begin, json),
        Command::Cut { job, json } => buying::cut(&job, json),
        Command::Lights { job, json } => lights::lights(&job, json),
        Command::Circles { job, json } => buying::circles(&job, json),
        Command::Check { job } => check(&job),
        Command::Shares { job, json } => shares(&job, json),
        Command::Spread { job, draws, seed, json } => spread(&job, draws, seed, json),
        Command::Siting { job, step, guy_turns, base_turns, clear_of_fall, best, weigh, plans, json } => {
            let wished = siting::Wished { step, guy_turns, base_turns, clear_of_fall, best, weigh };
            siting::siting(&job, &wished, plans, json)
        }
        Command::RaiseWays { job, json } => raising::raise_ways(&job, json),
        Command::Cards { job, out: Some(out), options, .. } => {
            sheets::sheets(&job, Some(&out), &options, SheetSet::Day)
        }
        Command::Cards { job, phase, down, all_round, json, .. } => {
            cards::cards(&job, phase, [down, all_round], json)
        }
        Command::Workshop { job, json } => workshop::workshop(&job, json),
        Command::Rigs { job, lights_at, longest_piece, strands, strand_length, tables, json } => {
            let asked = rigs::Asked { lights_at, longest_piece, strands, strand_length, tables };
            rigs::rigs(&job, &asked, json)
        }
        Command::PegOut { job, json } => pegging::peg_out(&job, json),
        Command::Tension { job, guy, swings, seconds, json } => {
            let timed = guy.zip(swings.zip(seconds));
            let timed = timed.map(|(guy, (swings, seconds))| tension::Timed { guy, swings, seconds });
            tension::tension(&job, timed, json)
        }
        Command::View { job, from, toward, pitch, field, eye_height, floor, night, out, json } => {
            let asked = view::Asked { from, toward, pitch, field, eye_height, floor, night };
            view::view(&job, &asked, out.as_deref(), json)
        }
        Command::Log { job, csv } => log(&job, csv),
        Command::Calls { job, calendar, now, json } => calls::calls(&job, calendar.as_deref(), now, json),
        Command::Season { job, after, calendar, now, json } => {
            season::season(&job, after, calendar.as_deref(), now, json)
        }
        Command::Pack { job, json } => season::pack(&job, json),
        Command::Again { job, before, now, json } => season::again(&job, before.as_deref(), now, json),
        Command::Points { job, format, mark, out } => exchange::points(&job, format, mark, out.as_deref()),
        Command::Import { job, geojson, mark, boundary } => exchange::import(&job, &geojson, mark, boundary),
        Command::Wind { job, gust, from, lowered, rose, json } => {
            let asked = Gust { gust: gust.as_deref(), from_deg: from, lowered, rose: rose.as_deref() };
            wind(&job, &asked, json)
        }
        Command::Merge { first, second, base, out } => {
            merging::merge(&first, &second, base.as_deref(), out.as_deref())
        }
        Command::Serve { bind, port, folder } => serve(bind, port, folder),
        Command::Demo => print_document(demo::LANTERN_GREEN),
        Command::Schema => print_document(job::JOB_SCHEMA),
    };
    outcome::finish(outcome)
}

fn plan(source: &JobSource, json: bool) -> Result<Outcome, Failure> {
    let PlanAnswer { plan, report, .. } = plan_of(source)?;
    if json {
        print_json(&plan)?
    } else {
        print(&report::text(&report.unwrap_or_default()))?
    };
    Ok(Outcome::of(plan.verdict.as_ref()))
}

/// Serves until it is stopped.
fn serve(bind: IpAddr, port: u16, folder: Option<PathBuf>) -> Result<Outcome, Failure> {
    let folder = folder.or_else(data_folder).ok_or_else(|| {
        Failure::File(
            "There is no folder of the user's to keep the certificate in: name one with --folder.".to_owned(),
        )
    })?;
    mastwright_serve::run(&mastwright_serve::Options { bind, port, folder }).map_err(Failure::File)?;
    Ok(Outcome::Done)
}

fn data_folder() -> Option<PathBuf> {
    Some(dirs::data_dir()?.join("mastwright").join("serve"))
}

/// How a command ends that did its work on a job.
fn outcome_of(job: &serde_json::Value) -> Result<Outcome, Failure> {
    Ok(Outcome::of(judged(&job::read_job_value(job)?)?.plan.verdict.as_ref()))
}

/// Writes a text to a file, or prints it.
fn write(text: &str, out: Option<&Path>) -> Result<Outcome, Failure> {
    match out {
        Some(path) if path != Path::new("-") => {
            files::write_file(path, text.as_bytes())?;
            Ok(Outcome::Done)
        }
        _ => print(text),
    }
}

fn check(source: &JobSource) -> Result<Outcome, Failure> {
    let answer = plan_of(source)?;
    let report = answer.report.unwrap_or_default();
    print(&report::check_text(&report))?;
    Ok(Outcome::of(answer.plan.verdict.as_ref()))
}

fn shares(source: &JobSource, json: bool) -> Result<Outcome, Failure> {
    let request = JobRequest { job: read(source)? };
    let mut line = progress::Line::new("looking at readings");
    let answer = run::shares(&request, &mut |told| line.tell(&told))?;
    drop(line);
    if json {
        print_json(&answer.shares)?
    } else {
        print(&report::shares_text(&answer.report))?
    };
    outcome_of(&request.job)
}

fn spread(source: &JobSource, draws: u32, seed: u32, json: bool) -> Result<Outcome, Failure> {
    let request = SpreadRequest { job: read(source)?, draws, seed };
    let mut line = progress::Line::new("drawing yards");
    let answer = run::spread(&request, &mut |told| line.tell(&told))?;
    drop(line);
    if json {
        print_json(&answer.simulation)?
    } else {
        print(&report::spread_text(&answer.report))?
    };
    outcome_of(&request.job)
}

/// What is asked of the wind.
struct Gust<'a> {
    gust: Option<&'a str>,
    from_deg: Option<f64>,
    lowered: bool,
    rose: Option<&'a Path>,
}

fn wind(source: &JobSource, asked: &Gust, json: bool) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let units = job::read_job_value(&job)?.units;
    let gust_m_per_s = asked
        .gust
        .map(|text| entry::read_quantity("gust_m_per_s", text, units))
        .transpose()
        .map_err(FieldErrors::from)?;
    let mut line = progress::Line::new("turning the wind");
    let limit = run::wind_capacity(&WindCapacityRequest { job: job.clone() }, &mut |told| line.tell(&told))?;
    drop(line);
    let outcome = outcome_of(&job)?.max(Outcome::of(Some(&limit.limit.verdict)));
    let height = if asked.lowered { MastHeight::Lowered } else { MastHeight::Raised };
    let table = run::wind_table(&WindTableRequest {
        job: job.clone(),
        height,
        gust_m_per_s,
        from_deg: asked.from_deg,
    });
    let table = match table {
        // What can't be made a structure of has no table: its limit's findings say why.
        Err(errors) if outcome == Outcome::Stop && errors.errors.iter().all(|error| error.path == "/rig") => {
            None
        }
        table => Some(table?),
    };
    let mut line = progress::Line::new("trying changes");
    let changes = match &table {
        Some(_) => Some(run::wind_changes(&WindCapacityRequest { job }, &mut |told| line.tell(&told))?),
        None => None,
    };
    drop(line);
    if let Some(path) = asked.rose {
        let svg = drawing::svg(&limit.rose, &SvgStyle::fitted(120.0, 120.0, 120.0 / 26.0));
        files::write_file(path, svg.as_bytes())?;
    }
    if json {
        let (table, changes) = (table.map(|answer| answer.table), changes.map(|answer| answer.changes));
        print_json(&Withstood { limit: limit.limit, table, changes })?;
        return Ok(outcome);
    }
    let reports = [Some(limit.report), table.map(|it| it.report), changes.map(|it| it.report)];
    let texts: Vec<String> = reports.iter().flatten().map(report::text).collect();
    print(&texts.join("\n"))?;
    Ok(outcome)
}

fn print_json(value: &impl serde::Serialize) -> Result<Outcome, Failure> {
    let text = serde_json::to_string_pretty(value).map_err(|error| Failure::Document(error.to_string()))?;
    print_document(&(text + "\n"))
}

fn log(source: &JobSource, csv: bool) -> Result<Outcome, Failure> {
    let job = job::read_job_value(&read(source)?)?;
    print(&if csv { log_csv(&job) } else { report::log_plain(&job) })
}

fn plan_of(source: &JobSource) -> Result<PlanAnswer, Failure> {
    let request = PlanRequest { job: read(source)?, map: None, profile: false, report: true };
    Ok(run::plan(&request)?)
}

/// The document as JSON; what it says is checked by the operation that uses it.
fn read(source: &JobSource) -> Result<serde_json::Value, Failure> {
    match &source.job {
        None => Ok(job::read_document(demo::LANTERN_GREEN)?),
        Some(path) => Ok(job::read_document(&file_text(path)?)?),
    }
}

/// The document of a file, for what is asked of two of them.
fn read_path(path: &Path) -> Result<serde_json::Value, Failure> {
    Ok(job::read_document(&file_text(path)?)?)
}

/// The text of a file, or of standard input for `-`. No more is read than a file may have.
fn file_text(path: &Path) -> Result<String, Failure> {
    let failure = |error: std::io::Error| Failure::file(path, &error);
    let (input, size): (Box<dyn Read>, u64) = if path == Path::new("-") {
        (Box::new(std::io::stdin()), 0)
    } else {
        let file = std::fs::File::open(path).map_err(failure)?;
        let size = file.metadata().map_err(failure)?.len();
        (Box::new(file), size)
    };
    let mut bytes = Vec::new();
    input.take(job::MOST_FILE_BYTES as u64 + 1).read_to_end(&mut bytes).map_err(failure)?;
    let whole_bytes = usize::try_from(size).unwrap_or(usize::MAX).max(bytes.len());
    // Of a job that comes with its photos the job is what is planned.
    Ok(archive::opened(&bytes, whole_bytes)?.text)
}

/// Prints to standard output; a reader that went away (`| head`) is no error.
fn print(text: &str) -> Result<Outcome, Failure> {
    print_bytes(visible_lines(text).as_bytes())
}

/// Prints JSON: what could steer a terminal is written as an escape, so that it stays the same document.
fn print_document(text: &str) -> Result<Outcome, Failure> {
    print_bytes(visible_json(text).as_bytes())
}

fn print_bytes(bytes: &[u8]) -> Result<Outcome, Failure> {
    match std::io::stdout().write_all(bytes) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => {
            Err(Failure::file(Path::new("-"), &error))
        }
        _ => Ok(Outcome::Done),
    }
}
