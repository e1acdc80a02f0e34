//! The certificate of this machine: made when it is first needed, kept, and made anew only when it runs out or the machine
//! has another address.
//!
//! Nobody vouches for it, so a browser asks once whether to go on. That question is about this certificate: a new one at
//! every start would make people used to waving it through.

use std::net::IpAddr;
use std::path::Path;

use chrono::{DateTime, Datelike, Duration, Utc};
use rcgen::{CertificateParams, DistinguishedName, DnType, KeyPair, date_time_ymd};
use serde::{Deserialize, Serialize};

use crate::keep;

/// iPhones refuse certificates that are valid for longer than 825 days (Apple, "Requirements for trusted certificates in iOS
/// 13 and macOS 10.15"; from memory): a year is well within.
const VALID_DAYS: i64 = 365;
/// One that runs out within this time is replaced at the start, not in the middle of a weekend.
const SPARE_DAYS: i64 = 14;

/// A certificate and its key, in PEM (RFC 7468).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Certificate {
    pub certificate_pem: String,
    pub key_pem: String,
    names: Vec<String>,
    until: DateTime<Utc>,
}

/// The kept certificate if it still serves, otherwise a new one, which is kept.
///
/// # Errors
/// Where it can't be made or kept.
pub fn kept_or_new(folder: &Path, addresses: &[IpAddr], now: DateTime<Utc>) -> Result<Certificate, String> {
    let path = folder.join("certificate.json");
    let names = names(addresses);
    let kept: Option<Certificate> =
        keep::read(&path)?.as_deref().and_then(|text| serde_json::from_str(text).ok());
    if let Some(kept) = kept.filter(|kept| kept.serves(&names, now)) {
        return Ok(kept);
    }
    let made = made(names, now).map_err(|error| format!("The certificate can't be made: {error}"))?;
    let text = serde_json::to_string_pretty(&made).map_err(|error| error.to_string())?;
    keep::write(&path, &text)?;
    Ok(made)
}

impl Certificate {
    fn serves(&self, names: &[String], now: DateTime<Utc>) -> bool {
        self.until - now > Duration::days(SPARE_DAYS) && names.iter().all(|name| self.names.contains(name))
    }
}

fn names(addresses: &[IpAddr]) -> Vec<String> {
    let own = ["localhost".to_owned(), "127.0.0.1".to_owned()];
    let mut names: Vec<String> = own.into_iter().chain(addresses.iter().map(IpAddr::to_string)).collect();
    names.sort_unstable();
    names.dedup();
    names
}

fn made(names: Vec<String>, now: DateTime<Utc>) -> Result<Certificate, rcgen::Error> {
    let (since, until) = (now - Duration::days(1), now + Duration::days(VALID_DAYS));
    let mut params = CertificateParams::new(names.clone())?;
    let mut who = DistinguishedName::new();
    who.push(DnType::CommonName, "Mastwright on this machine");
    params.distinguished_name = who;
    params.not_before = date_time_ymd(since.year(), month(since), day(since));
    params.not_after = date_time_ymd(until.year(), month(until), day(until));
    let key = KeyPair::generate()?;
    let certificate = params.self_signed(&key)?;
    Ok(Certificate { certificate_pem: certificate.pem(), key_pem: key.serialize_pem(), names, until })
}

// Both are below 32.
fn month(at: DateTime<Utc>) -> u8 {
    at.month() as u8
}

fn day(at: DateTime<Utc>) -> u8 {
    at.day() as u8
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::devices::tests::folder;

    fn at(day: i64) -> DateTime<Utc> {
        DateTime::UNIX_EPOCH + Duration::days(20_000 + day)
    }

    #[test]
    fn it_is_kept_until_it_runs_out_or_the_machine_moves() {
        let folder = folder("certificate");
        let home: IpAddr = [192, 168, 7, 20].into();
        let first = kept_or_new(&folder, &[home], at(0)).unwrap();
        assert_eq!(kept_or_new(&folder, &[home], at(300)).unwrap(), first);
        assert_eq!(kept_or_new(&folder, &[], at(300)).unwrap(), first, "without a network it serves, too");
        let moved = kept_or_new(&folder, &[[10, 0, 0, 9].into()], at(300)).unwrap();
        assert_ne!(moved, first);
        assert_ne!(
            kept_or_new(&folder, &[[10, 0, 0, 9].into()], at(652)).unwrap(),
            moved,
            "13 days are left"
        );
    }

    #[cfg(unix)]
    #[test]
    fn nobody_else_on_the_machine_reads_its_key() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = folder("private");
        kept_or_new(&folder, &[], at(0)).unwrap();
        let mode = std::fs::metadata(folder.join("certificate.json")).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
}
