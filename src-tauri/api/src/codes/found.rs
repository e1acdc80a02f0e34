//! QR codes looked for in a camera's picture, for devices whose browser does not do that.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use mastwright_engine::quantity::{FieldError, FieldErrors};
use serde::{Deserialize, Serialize};

use crate::operations::Watch;

/// More than any camera's picture that is asked for.
const MOST_PIXELS: usize = 4 << 20;

/// A request to look for codes in a picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct FindCodesRequest {
    pub width: usize,
    pub height: usize,
    /// A byte a pixel, dark to light, row by row from the top.
    pub grey_base64: String,
}

/// The texts of the codes that could be read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct FoundCodes {
    pub texts: Vec<String>,
}

/// The QR codes in a picture. One that can't be read is no error: the next picture shows it again.
///
/// Watched, though there is nothing to tell meanwhile, because it then runs beside the engine that has the job in hand.
///
/// # Errors
/// A picture that is not as large as it says.
pub fn find_codes(
    request: &FindCodesRequest,
    _watch: &mut Watch<'_, FoundCodes>,
) -> Result<FoundCodes, FieldErrors> {
    let FindCodesRequest { width, height, .. } = *request;
    let pixels = width.checked_mul(height).filter(|&pixels| (1..=MOST_PIXELS).contains(&pixels));
    let pixels = pixels.ok_or_else(|| {
        FieldError::new(
            "/width",
            format!("{width} \u{d7} {height} pixels"),
            "a picture of 1 to 4 million pixels",
        )
    })?;
    let grey =
        STANDARD.decode(&request.grey_base64).ok().filter(|grey| grey.len() == pixels).ok_or_else(|| {
            FieldError::new("/grey_base64", "another number of pixels", "a byte for each, in base64")
        })?;
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| {
        grey.get(y * width + x).copied().unwrap_or(255)
    });
    let texts = picture.detect_grids().iter().filter_map(|grid| Some(grid.decode().ok()?.1)).collect();
    Ok(FoundCodes { texts })
}
