//! What is answered to whom. Without a token: the app's own files and the page to pair on. All else wants one.

use std::sync::{Arc, Mutex};
use std::time::Instant;

use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, FromRequestParts, Path, Request, State};
use axum::http::header::{CONTENT_LENGTH, CONTENT_TYPE, COOKIE, HOST, ORIGIN, SET_COOKIE};
use axum::http::request::Parts;
use axum::http::uri::Authority;
use axum::http::{HeaderMap, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{AppendHeaders, IntoResponse, Response};
use axum::routing::{delete, get, post};
use axum::{Json, Router, middleware};
use chrono::Utc;
use mastwright_api::archive::MOST_PHOTO_BYTES;
use mastwright_api::merge::{HeldJob, JobFate, MergeAnswer};
use serde::{Deserialize, Serialize};

use crate::devices::{Device, Devices, Withdrawn};
use crate::fates::{self, Fates};
use crate::invitation::{self, Invitation};
use crate::jobs::{self, Jobs, LARGEST_JOB};
use crate::keep::Refused;
use crate::listen::{TO_ASK, TO_CARRY};
use crate::live::{Live, Reading, Said};
use crate::photos::Photos;
use crate::{files, headers, locked};

/// No request has more to say, but one that brings a job or a photo.
const LARGEST_BODY: usize = 16 * 1024;

/// The name says to browsers: by https only, for this very host, for all its paths (RFC 6265bis, 4.1.3.2).
pub const COOKIE_NAME: &str = "__Host-mastwright";
const A_YEAR_S: u32 = 31_536_000;

pub struct Served {
    /// `https://address:port` as other devices reach it.
    pub origin: String,
    pub devices: Mutex<Devices>,
    pub invitation: Mutex<Invitation>,
    pub live: Live,
    pub jobs: Jobs,
    pub fates: Fates,
    pub photos: Photos,
}

impl Served {
    /// Shows whoever looks at the terminal the code as it stands.
    ///
    /// # Errors
    /// In words.
    pub fn invite_on_the_terminal(&self) -> Result<(), String> {
        let code = locked(&self.invitation).code(Instant::now())?.to_owned();
        let address = invitation::address(&self.origin, &code);
        println!("To pair a device scan this, or open {address}");
        print!("{}", invitation::for_terminal(&address)?);
        println!("The code {} is good for one device and ten minutes.", invitation::spelt(&code));
        Ok(())
    }
}

type Shared = Arc<Served>;

pub fn router(served: Shared) -> Router {
    Router::new()
        .route("/pair", get(files::file).post(pair))
        .route("/devices", get(list))
        .route("/devices/{id}", delete(withdraw))
        .route("/invitation", get(invite))
        .route("/live", get(hear).post(say))
        .route("/jobs", get(list_jobs))
        .route("/jobs/{id}", get(read_job).post(take_job).layer(DefaultBodyLimit::max(LARGEST_JOB)))
        .route("/deleted", get(list_fates))
        .route("/deleted/{id}", post(take_fate))
        .route("/photos", get(list_photos))
        .route(
            "/photos/{name}",
            get(read_photo).put(take_photo).layer(DefaultBodyLimit::max(MOST_PHOTO_BYTES)),
        )
        .fallback(get(files::file))
        .layer(DefaultBodyLimit::max(LARGEST_BODY))
        .layer(middleware::from_fn(within_bounds))
        .layer(middleware::from_fn(headers::on_every_answer))
        .with_state(served)
}

/// Refuses what announces too much before any of it is read, and gives up on who does not come to an end. An answer that
/// goes on, like the live readings, has begun by then.
async fn within_bounds(request: Request, next: Next) -> Response {
    let path = request.uri().path();
    let (most, within) = if path.starts_with("/jobs/") {
        (LARGEST_JOB, TO_CARRY)
    } else if path.starts_with("/photos/") {
        (MOST_PHOTO_BYTES, TO_CARRY)
    } else {
        (LARGEST_BODY, TO_ASK)
    };
    let announced =
        request.headers().get(CONTENT_LENGTH).and_then(|length| length.to_str().ok()?.parse().ok());
    if announced.is_some_and(|bytes: u64| bytes > most as u64) {
        let why = format!("A request holds no more than {most} bytes here.");
        return Wrong(StatusCode::PAYLOAD_TOO_LARGE, why).into_response();
    }
    let answer = tokio::time::timeout(within, next.run(request)).await;
    answer.unwrap_or_else(|_| {
        Wrong(StatusCode::REQUEST_TIMEOUT, "The request did not come to an end.".to_owned()).into_response()
    })
}

/// An answer that something is not done, with the reason in words.
struct Wrong(StatusCode, String);

impl IntoResponse for Wrong {
    fn into_response(self) -> Response {
        (self.0, Json(serde_json::json!({ "wrong": self.1 }))).into_response()
    }
}

impl From<String> for Wrong {
    fn from(why: String) -> Self {
        Self(StatusCode::INTERNAL_SERVER_ERROR, why)
    }
}

impl From<Refused> for Wrong {
    fn from(refused: Refused) -> Self {
        match refused {
            Refused::Unfit(why) => Self(StatusCode::UNPROCESSABLE_ENTITY, why),
            Refused::NotKept(why) => Self(StatusCode::INSUFFICIENT_STORAGE, why),
        }
    }
}

/// The device whose token came with the request.
struct Paired(Device);

impl FromRequestParts<Shared> for Paired {
    type Rejection = Wrong;

    async fn from_request_parts(parts: &mut Parts, served: &Shared) -> Result<Self, Wrong> {
        own_page(parts)?;
        let found = token(&parts.headers).and_then(|token| locked(&served.devices).by_token(token).cloned());
        found.map(Self).ok_or_else(|| {
            Wrong(StatusCode::UNAUTHORIZED, "This device is not paired, or no longer.".to_owned())
        })
    }
}

fn token(headers: &HeaderMap) -> Option<&str> {
    let cookies = headers.get_all(COOKIE).into_iter().filter_map(|value| value.to_str().ok());
    cookies
        .flat_map(|line| line.split("; "))
        .filter_map(|pair| pair.split_once('='))
        .find_map(|(name, value)| (name == COOKIE_NAME).then_some(value))
}

/// Changes are asked for by pages of this host alone: browsers send the origin with them (Fetch, "append a request Origin
/// header"). What is no browser sends none, and has no cookie that it was not given.
fn own_page(asked: &Parts) -> Result<(), Wrong> {
    let origin = asked.headers.get(ORIGIN).map(|origin| origin.to_str().unwrap_or_default());
    match origin {
        Some(origin) if asked.method != Method::GET && origin != format!("https://{}", host(asked)) => {
            Err(Wrong(StatusCode::FORBIDDEN, "Another site asked for this.".to_owned()))
        }
        _ => Ok(()),
    }
}

/// HTTP/2 has it in the request's target (RFC 9113, 8.3.1), HTTP/1.1 in a header.
fn host(asked: &Parts) -> &str {
    let target = asked.uri.authority().map(Authority::as_str);
    let header = || asked.headers.get(HOST).and_then(|host| host.to_str().ok());
    target.or_else(header).unwrap_or_default()
}

/// A request that a page of this host made, or no browser.
struct OwnPage;

impl FromRequestParts<Shared> for OwnPage {
    type Rejection = Wrong;

    async fn from_request_parts(parts: &mut Parts, _: &Shared) -> Result<Self, Wrong> {
        own_page(parts).map(|()| Self)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PairRequest {
    code: String,
    #[serde(default)]
    name: String,
}

async fn pair(
    State(served): State<Shared>,
    _: OwnPage,
    Json(asked): Json<PairRequest>,
) -> Result<Response, Wrong> {
    let taken = locked(&served.invitation).take(&asked.code, Instant::now())?;
    if taken.renewed {
        served.invite_on_the_terminal()?;
        served.live.say(Said::Devices);
    }
    if !taken.right {
        let why = "That is not the code, or it was used or has run out. Look again: there may be a new one.";
        return Err(Wrong(StatusCode::FORBIDDEN, why.to_owned()));
    }
    let (device, token) = locked(&served.devices)
        .pair(&asked.name, Utc::now())
        .map_err(|why| Wrong(StatusCode::CONFLICT, why))?;
    println!("Paired: {}", device.name);
    served.live.say(Said::Devices);
    let cookie =
        format!("{COOKIE_NAME}={token}; Path=/; Secure; HttpOnly; SameSite=Strict; Max-Age={A_YEAR_S}");
    Ok((AppendHeaders([(SET_COOKIE, cookie)]), Json(Told::of(&device))).into_response())
}

/// What devices are told of each other.
#[derive(Serialize)]
struct Told {
    id: u32,
    name: String,
    paired_at: chrono::DateTime<Utc>,
}

impl Told {
    fn of(device: &Device) -> Self {
        Self { id: device.id, name: device.name.clone(), paired_at: device.paired_at }
    }
}

#[derive(Serialize)]
struct Listed {
    this: u32,
    devices: Vec<Told>,
    withdrawn: Vec<Withdrawn>,
}

async fn list(State(served): State<Shared>, Paired(this): Paired) -> Json<Listed> {
    let devices = locked(&served.devices);
    let withdrawn = devices.withdrawn().cloned().collect();
    Json(Listed { this: this.id, devices: devices.list().iter().map(Told::of).collect(), withdrawn })
}

async fn withdraw(
    State(served): State<Shared>,
    Paired(_): Paired,
    Path(id): Path<u32>,
) -> Result<StatusCode, Wrong> {
    let found = locked(&served.devices).withdraw(id, Utc::now())?;
    served.live.say(Said::Withdrawn { id });
    served.live.say(Said::Devices);
    if found {
        Ok(StatusCode::NO_CONTENT)
    } else {
        Err(Wrong(StatusCode::NOT_FOUND, "There is no such device.".to_owned()))
    }
}

#[derive(Serialize)]
struct Invited {
    address: String,
    code: String,
    picture: String,
    good_for_s: u64,
}

async fn invite(State(served): State<Shared>, Paired(_): Paired) -> Result<Json<Invited>, Wrong> {
    let now = Instant::now();
    let (code, good_for_s) = {
        let mut invitation = locked(&served.invitation);
        (invitation.code(now)?.to_owned(), invitation.left(now).as_secs())
    };
    let address = invitation::address(&served.origin, &code);
    let picture = invitation::as_svg(&address)?;
    Ok(Json(Invited { address, code: invitation::spelt(&code), picture, good_for_s }))
}

async fn say(
    State(served): State<Shared>,
    Paired(from): Paired,
    Json(reading): Json<Reading>,
) -> Result<StatusCode, Wrong> {
    if !reading.is_one() {
        return Err(Wrong(StatusCode::UNPROCESSABLE_ENTITY, "That is no reading.".to_owned()));
    }
    served.live.say(Said::Reading { from_id: from.id, from: from.name, reading });
    Ok(StatusCode::NO_CONTENT)
}

async fn hear(State(served): State<Shared>, Paired(this): Paired) -> Response {
    served.live.heard_by(this.id).into_response()
}

async fn list_jobs(
    State(served): State<Shared>,
    Paired(_): Paired,
) -> Result<Json<Vec<jobs::Listed>>, Wrong> {
    Ok(Json(off_thread(move || served.jobs.list()).await??))
}

async fn read_job(
    State(served): State<Shared>,
    Paired(_): Paired,
    Path(id): Path<String>,
) -> Result<Json<HeldJob>, Wrong> {
    let found = off_thread(move || served.jobs.read(&id)).await??;
    found.map(Json).ok_or_else(|| Wrong(StatusCode::NOT_FOUND, "There is no such job.".to_owned()))
}

/// The token is asked for before anything of the body is read.
async fn take_job(
    State(served): State<Shared>,
    Paired(by): Paired,
    Path(id): Path<String>,
    Json(sent): Json<HeldJob>,
) -> Result<Json<MergeAnswer>, Wrong> {
    let all = served.clone();
    let taken = off_thread(move || all.jobs.take(&id, sent)).await??;
    if taken.is_new {
        served.live.say(Said::Changed { by_id: by.id, by: by.name });
    }
    Ok(Json(taken.merged))
}

async fn list_fates(State(served): State<Shared>, Paired(_): Paired) -> Result<Json<fates::All>, Wrong> {
    Ok(Json(off_thread(move || served.fates.all()).await??))
}

async fn take_fate(
    State(served): State<Shared>,
    Paired(by): Paired,
    Path(id): Path<String>,
    Json(sent): Json<JobFate>,
) -> Result<Json<JobFate>, Wrong> {
    let all = served.clone();
    let (fate, is_new) = off_thread(move || all.fates.take(&id, sent)).await??;
    if is_new {
        served.live.say(Said::Changed { by_id: by.id, by: by.name });
    }
    Ok(Json(fate))
}

async fn list_photos(State(served): State<Shared>, Paired(_): Paired) -> Result<Json<Vec<String>>, Wrong> {
    Ok(Json(off_thread(move || served.photos.names()).await??))
}

async fn read_photo(
    State(served): State<Shared>,
    Paired(_): Paired,
    Path(name): Path<String>,
) -> Result<Response, Wrong> {
    let found = off_thread(move || served.photos.read(&name)).await??;
    let bytes = found.ok_or_else(|| Wrong(StatusCode::NOT_FOUND, "That photo is not here.".to_owned()))?;
    Ok(([(CONTENT_TYPE, "image/jpeg")], bytes).into_response())
}

async fn take_photo(
    State(served): State<Shared>,
    Paired(by): Paired,
    Path(name): Path<String>,
    bytes: Bytes,
) -> Result<StatusCode, Wrong> {
    let all = served.clone();
    let put = move || all.photos.put(&name, &bytes, || all.jobs.named_photos());
    if off_thread(put).await?? {
        served.live.say(Said::Changed { by_id: by.id, by: by.name });
    }
    Ok(StatusCode::NO_CONTENT)
}

/// What reads, merges and writes takes its time, and nobody else waits for it.
async fn off_thread<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, Wrong> {
    tokio::task::spawn_blocking(work).await.map_err(|_| Wrong::from("The work was broken off.".to_owned()))
}
