//! What goes on: one device says what it reads, the others show it; and that a job or photo of the machine is another than
//! before. Nothing is kept; who was not listening missed it, and looks for itself.

use std::convert::Infallible;
use std::time::Duration;

use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream::{self, Stream};
use serde::{Deserialize, Serialize};
use tokio::sync::broadcast::{self, error::RecvError};

/// A phone tells a few readings a second; who is further behind than this many hears from the newest on.
const BEHIND: usize = 64;

/// What a device says it reads, in the words of its own screen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// What is read, such as the lean of the mast.
    pub what: String,
    /// The figure.
    pub shown: String,
    /// What goes with it: a side, how sure it is.
    pub says: String,
}

/// Longer texts are no reading.
const LONGEST_TEXT: usize = 200;

impl Reading {
    pub fn is_one(&self) -> bool {
        [&self.what, &self.shown, &self.says]
            .iter()
            .all(|text| text.chars().count() <= LONGEST_TEXT && !text.chars().any(char::is_control))
            && !self.shown.is_empty()
    }
}

#[derive(Debug, Clone)]
pub enum Said {
    Reading {
        from_id: u32,
        from: String,
        reading: Reading,
    },
    /// A job or a photo of the machine is another than before.
    Changed {
        by_id: u32,
        by: String,
    },
    /// Who is paired, or the code to pair another one, is another than before.
    Devices,
    Withdrawn {
        id: u32,
    },
}

#[derive(Debug)]
pub struct Live(broadcast::Sender<Said>);

impl Live {
    pub fn new() -> Self {
        Self(broadcast::Sender::new(BEHIND))
    }

    /// Nobody may be listening: then it is for nobody.
    pub fn say(&self, said: Said) {
        let _ = self.0.send(said);
    }

    /// What the others read, until the device is withdrawn.
    pub fn heard_by(&self, id: u32) -> Sse<impl Stream<Item = Result<Event, Infallible>> + use<>> {
        let events = stream::unfold(self.0.subscribe(), move |mut heard| async move {
            let event = next(&mut heard, id).await?;
            Some((Ok(event), heard))
        });
        Sse::new(events).keep_alive(KeepAlive::new().interval(Duration::from_secs(15)))
    }
}

async fn next(heard: &mut broadcast::Receiver<Said>, id: u32) -> Option<Event> {
    loop {
        match heard.recv().await {
            Ok(Said::Reading { from_id, from, reading }) if from_id != id => {
                let told = serde_json::json!({ "from": from, "reading": reading });
                return Some(Event::default().event("reading").data(told.to_string()));
            }
            Ok(Said::Changed { by_id, by }) if by_id != id => return Some(changed(&by)),
            Ok(Said::Devices) => return Some(Event::default().event("devices").data("{}")),
            Ok(Said::Withdrawn { id: gone }) if gone == id => return None,
            // Nobody knows what was missed.
            Err(RecvError::Lagged(_)) => return Some(changed("")),
            Ok(_) => {}
            Err(RecvError::Closed) => return None,
        }
    }
}

fn changed(by: &str) -> Event {
    Event::default().event("changed").data(serde_json::json!({ "by": by }).to_string())
}
