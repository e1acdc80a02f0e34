//! Who was paired with this machine. A device shows a token of its own, 256 bits drawn by the system; kept is only what
//! SHA-256 (FIPS 180-4) makes of it, so the kept list opens nothing.

use std::path::{Path, PathBuf};

use chrono::{DateTime, Utc};
use ring::digest::{SHA256, digest};
use ring::rand::{SecureRandom as _, SystemRandom};
use serde::{Deserialize, Serialize};

use crate::keep;

/// More would be a mistake or an attack.
const MOST_DEVICES: usize = 32;
const LONGEST_NAME: usize = 40;

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Device {
    pub id: u32,
    pub name: String,
    pub paired_at: DateTime<Utc>,
    token_sha256: String,
}

/// One whose token opens nothing any more.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Withdrawn {
    pub id: u32,
    pub name: String,
    pub withdrawn_at: DateTime<Utc>,
}

/// So many of them are told of, the last ones.
const MOST_WITHDRAWN: usize = 32;

/// The lists, and where they are kept.
#[derive(Debug)]
pub struct Devices {
    path: PathBuf,
    kept: Kept,
}

#[derive(Debug, Clone, Default, Serialize, Deserialize)]
struct Kept {
    last_id: u32,
    devices: Vec<Device>,
    #[serde(default)]
    withdrawn: Vec<Withdrawn>,
}

impl Devices {
    /// # Errors
    /// Where the kept list can't be read: it is not passed over in silence, for withdrawn devices stand in it as well as
    /// paired ones.
    pub fn kept_in(folder: &Path) -> Result<Self, String> {
        let path = folder.join("devices.json");
        let kept: Kept = match keep::read(&path)? {
            Some(text) => serde_json::from_str(&text).map_err(|error| {
                format!("{}: {error}. Move it away to pair every device anew.", path.display())
            })?,
            None => Kept::default(),
        };
        Ok(Self { path, kept })
    }

    pub fn list(&self) -> &[Device] {
        &self.kept.devices
    }

    /// The last one first.
    pub fn withdrawn(&self) -> impl Iterator<Item = &Withdrawn> {
        self.kept.withdrawn.iter().rev()
    }

    /// Whose token it is.
    pub fn by_token(&self, token: &str) -> Option<&Device> {
        let hash = sha256(token);
        self.list().iter().find(|device| device.token_sha256 == hash)
    }

    /// Takes a device in; gives back its token, which is told once.
    ///
    /// # Errors
    /// Where there are too many, or the list can't be kept: then it is not taken in.
    pub fn pair(&mut self, name: &str, now: DateTime<Utc>) -> Result<(Device, String), String> {
        if self.list().len() >= MOST_DEVICES {
            return Err(format!("{MOST_DEVICES} devices are paired already; withdraw one first."));
        }
        let token = drawn(32)?;
        let device = Device {
            id: self.kept.last_id + 1,
            name: readable(name),
            paired_at: now,
            token_sha256: sha256(&token),
        };
        let mut kept = self.kept.clone();
        kept.last_id = device.id;
        kept.devices.push(device.clone());
        self.replace(kept)?;
        Ok((device, token))
    }

    /// From now on its token opens nothing. False where there is no such device.
    ///
    /// # Errors
    /// Where the list can't be kept.
    pub fn withdraw(&mut self, id: u32, now: DateTime<Utc>) -> Result<bool, String> {
        let mut kept = self.kept.clone();
        let Some(at) = kept.devices.iter().position(|device| device.id == id) else { return Ok(false) };
        let Device { name, .. } = kept.devices.remove(at);
        kept.withdrawn.push(Withdrawn { id, name, withdrawn_at: now });
        let too_many = kept.withdrawn.len().saturating_sub(MOST_WITHDRAWN);
        kept.withdrawn.drain(..too_many);
        self.replace(kept)?;
        Ok(true)
    }

    /// Kept first, valid second.
    fn replace(&mut self, kept: Kept) -> Result<(), String> {
        let text = serde_json::to_string_pretty(&kept).map_err(|error| error.to_string())?;
        keep::write(&self.path, &text)?;
        self.kept = kept;
        Ok(())
    }
}

/// So many bytes drawn by the system, in hexadecimal digits.
///
/// # Errors
/// Where the system has none to give.
pub fn drawn(bytes: usize) -> Result<String, String> {
    let mut drawn = vec![0; bytes];
    SystemRandom::new().fill(&mut drawn).map_err(|_| "The system gives no random numbers.".to_owned())?;
    Ok(hexadecimal(&drawn))
}

pub fn sha256(text: &str) -> String {
    hexadecimal(digest(&SHA256, text.as_bytes()).as_ref())
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A name that neither a terminal nor a page takes for anything else.
fn readable(name: &str) -> String {
    let plain: String = name.chars().filter(|letter| !letter.is_control()).take(LONGEST_NAME).collect();
    let plain = plain.trim();
    if plain.is_empty() { "A device without a name".to_owned() } else { plain.to_owned() }
}

#[cfg(test)]
pub mod tests {
    use super::*;

    /// An empty folder of its own for a test.
    pub fn folder(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("mastwright-serve-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        folder
    }

    #[test]
    fn a_token_opens_until_it_is_withdrawn_also_after_a_restart() {
        let folder = folder("devices");
        let mut devices = Devices::kept_in(&folder).unwrap();
        let (phone, token) = devices.pair("Ada’s phone", Utc::now()).unwrap();
        let (_, other) = devices.pair("The laptop\u{1b}[2J", Utc::now()).unwrap();
        assert_eq!(devices.by_token(&token), Some(&phone));
        assert_eq!(devices.by_token(&other).unwrap().name, "The laptop[2J");
        assert_eq!(devices.by_token(""), None);
        assert!(!std::fs::read_to_string(folder.join("devices.json")).unwrap().contains(&token));

        let mut again = Devices::kept_in(&folder).unwrap();
        assert_eq!(again.by_token(&token), Some(&phone));
        assert_eq!(again.withdraw(phone.id, Utc::now()), Ok(true));
        assert_eq!(again.withdraw(phone.id, Utc::now()), Ok(false));
        let told: Vec<String> =
            Devices::kept_in(&folder).unwrap().withdrawn().map(|one| one.name.clone()).collect();
        assert_eq!(told, ["Ada’s phone"]);
        assert_eq!(again.by_token(&token), None);
        assert_eq!(Devices::kept_in(&folder).unwrap().by_token(&token), None);
        // An id is never given twice: a withdrawn device can't be taken for a new one.
        assert_eq!(again.pair("x", Utc::now()).unwrap().0.id, 3);
    }

    /// FIPS 180-2 appendix B.1: SHA-256 of "abc".
    #[test]
    fn the_hash_is_the_published_one() {
        assert_eq!(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    #[test]
    fn a_list_that_cannot_be_read_opens_to_nobody() {
        let folder = folder("broken");
        keep::write(&folder.join("devices.json"), "{").unwrap();
        assert!(Devices::kept_in(&folder).unwrap_err().contains("devices.json"));
    }

    #[test]
    fn there_is_an_end_to_devices() {
        let mut devices = Devices::kept_in(&folder("many")).unwrap();
        for _ in 0..MOST_DEVICES {
            devices.pair("x", Utc::now()).unwrap();
        }
        assert!(devices.pair("x", Utc::now()).unwrap_err().contains("withdraw one first"));
    }
}
