//! Reads a length, an angle, a force or a voltage as a person writes it: `6' 1 1/4"`, `1.85 m`, `N45E`, `1:8`.
//!
//! The field's unit suffix says what is read. A bare number is in the user's main unit for that field:
//!
//! | suffix | metric | imperial |
//! |---|---|---|
//! | `_m` | metres | feet |
//! | `_mm` | millimetres | inches |
//! | `_n` | newtons | pounds-force |
//! | `_kg` | kilograms | pounds |
//! | `_g_per_m` | grams a metre | pounds per hundred feet |
//! | `_m_per_s` | metres a second | miles an hour |
//! | `_nm` | newton metres | foot-pounds |
//! | `_mpa` | megapascals | thousand pounds per square inch |
//! | `_c` | degrees Celsius | degrees Fahrenheit |
//! | `_mm_per_m` | millimetres a metre | inches in a hundred feet |
//! | `_deg`, `_kv`, `_percent` | as named | as named |

use super::convert::{
    FOOT_M, FOOT_POUND_FORCE_NM, INCH_M, INCH_PER_100_FEET_MM_PER_M, KILOMETRE_PER_HOUR_M_PER_S,
    KNOT_M_PER_S, KSI_MPA, MILE_PER_HOUR_M_PER_S, POUND_FORCE_N, POUND_KG, POUND_PER_100_FEET_G_PER_M,
    STANDARD_GRAVITY, YARD_M,
};
use crate::numerics::real::atan_deg;
use crate::quantity::{FieldError, UnitSystem, Units, split_unit};

/// Reads what the user typed into a field, in the unit of the field's name.
///
/// # Units
/// `field` is a field's name or JSON pointer; the answer is in the unit of its suffix (`_m`, `_mm`, `_deg`, …).
///
/// # Errors
/// Text that is not such a quantity: what was given, with examples of what is understood.
///
/// # Examples
/// ```
/// use mastwright_engine::quantity::{UnitSystem, Units};
/// use mastwright_engine::quantity::entry::read_quantity;
/// let units = Units { system: UnitSystem::Imperial, inch_fraction: 16 };
/// let reach_m = read_quantity("/rig/base/front_reach_m", "4' 7 7/8\"", units).unwrap();
/// assert!((reach_m - 1.419_225).abs() < 1e-12);
/// ```
pub fn read_quantity(field: &str, text: &str, units: Units) -> Result<f64, FieldError> {
    let name = field.rsplit('/').next().unwrap_or(field);
    let (stem, suffix) = split_unit(name);
    let kind = Kind::of(stem, suffix);
    if could_be_thousands(text, units) {
        let allowed = "no comma, which could part thousands or be a decimal point: 1250 or 1.25";
        return Err(FieldError::new(field, given(text), allowed));
    }
    tidy(text, units)
        .and_then(|tidied| kind.read(&tidied, units))
        .filter(|value| value.is_finite())
        .ok_or_else(|| FieldError::new(field, given(text), kind.examples(units)))
}

fn given(text: &str) -> String {
    let text = text.trim();
    if text.is_empty() {
        return "nothing".to_owned();
    }
    let short: String = text.chars().take(40).collect();
    if short.len() < text.len() { format!("“{short}…”") } else { format!("“{short}”") }
}

/// What a field holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Length {
        in_mm: bool,
    },
    Bearing,
    /// An angle to the horizontal, which may be given as a grade.
    Slope,
    /// Latitude or declination and the like, which may name its side.
    Sided,
    Angle,
    Force,
    Voltage,
    Volts,
    Current,
    Power,
    Mass,
    Percent,
    MassPerLength,
    MillimetresPerMetre,
    Speed,
    Torque,
    Stress,
    Temperature,
    Number,
}

impl Kind {
    fn of(stem: &str, suffix: &str) -> Self {
        match suffix {
            "_m" => Kind::Length { in_mm: false },
            "_mm" => Kind::Length { in_mm: true },
            "_deg" if stem.contains("sigma") => Kind::Angle,
            "_deg" if stem.contains("bearing") => Kind::Bearing,
            "_deg" if stem.contains("slope") || stem.contains("angle") => Kind::Slope,
            "_deg" if ["latitude", "longitude", "declination"].contains(&stem) => Kind::Sided,
            "_deg" => Kind::Angle,
            "_n" => Kind::Force,
            "_kv" => Kind::Voltage,
            "_volts" => Kind::Volts,
            "_amps" => Kind::Current,
            "_watts" => Kind::Power,
            "_kg" => Kind::Mass,
            "_percent" => Kind::Percent,
            "_g_per_m" => Kind::MassPerLength,
            "_mm_per_m" => Kind::MillimetresPerMetre,
            "_m_per_s" => Kind::Speed,
            "_nm" => Kind::Torque,
            "_mpa" => Kind::Stress,
            "_c" => Kind::Temperature,
            _ => Kind::Number,
        }
    }

    fn read(self, text: &str, units: Units) -> Option<f64> {
        match self {
            Kind::Length { in_mm } => read_length(text, in_mm, units),
            Kind::Bearing => read_bearing(text),
            Kind::Slope => read_slope(text),
            Kind::Sided => read_sided(text),
            Kind::Angle => signed(text, degrees),
            Kind::Temperature => read_temperature(text, units),
            _ => signed(text, |cursor| {
                let value = cursor.number()?;
                Some(value * self.factor(&cursor.rest(), units)?)
            }),
        }
    }

    /// What one of the written unit is in the field's unit.
    fn factor(self, unit: &str, units: Units) -> Option<f64> {
        let imperial = units.system == UnitSystem::Imperial;
        match (self, unit) {
            (Kind::Force, "") => Some(if imperial { POUND_FORCE_N } else { 1.0 }),
            (Kind::Force, "n" | "newton" | "newtons") => Some(1.0),
            (Kind::Force, "kn") => Some(1000.0),
            (Kind::Force, "dan") => Some(10.0),
            (Kind::Force, "lbf" | "lb" | "lbs" | "pounds") => Some(POUND_FORCE_N),
            (Kind::Force, "kgf" | "kp") => Some(STANDARD_GRAVITY),
            (Kind::Voltage, "" | "kv") => Some(1.0),
            (Kind::Voltage, "v" | "volt" | "volts") => Some(0.001),
            (Kind::Volts, "" | "v" | "volt" | "volts") => Some(1.0),
            (Kind::Volts, "mv") => Some(0.001),
            (Kind::Volts, "kv") => Some(1000.0),
            (Kind::Current, "" | "a" | "amp" | "amps" | "ampere" | "amperes") => Some(1.0),
            (Kind::Current, "ma") => Some(0.001),
            (Kind::Power, "" | "w" | "watt" | "watts" | "va") => Some(1.0),
            (Kind::Power, "kw") => Some(1000.0),
            (Kind::Mass, "") => Some(if imperial { POUND_KG } else { 1.0 }),
            (Kind::Mass, "kg") => Some(1.0),
            (Kind::Mass, "g") => Some(0.001),
            (Kind::Mass, "lb" | "lbs" | "pounds") => Some(POUND_KG),
            (Kind::Percent, "" | "%") => Some(1.0),
            (Kind::MassPerLength, "") => Some(if imperial { POUND_PER_100_FEET_G_PER_M } else { 1.0 }),
            (Kind::MassPerLength, "g/m" | "kg/km") => Some(1.0),
            (Kind::MassPerLength, "kg/m") => Some(1000.0),
            (Kind::MassPerLength, "kg/100m") => Some(10.0),
            (Kind::MassPerLength, "lb/100ft" | "lbs/100ft") => Some(POUND_PER_100_FEET_G_PER_M),
            (Kind::MassPerLength, "lb/ft" | "lbs/ft") => Some(100.0 * POUND_PER_100_FEET_G_PER_M),
            (Kind::MillimetresPerMetre, "") => Some(if imperial { INCH_PER_100_FEET_MM_PER_M } else { 1.0 }),
            (Kind::MillimetresPerMetre, "mm/m") => Some(1.0),
            (Kind::MillimetresPerMetre, "in/100ft") => Some(INCH_PER_100_FEET_MM_PER_M),
            (Kind::Speed, "") => Some(if imperial { MILE_PER_HOUR_M_PER_S } else { 1.0 }),
            (Kind::Speed, "m/s" | "mps") => Some(1.0),
            (Kind::Speed, "mph" | "mi/h") => Some(MILE_PER_HOUR_M_PER_S),
            (Kind::Speed, "km/h" | "kmh" | "kph") => Some(KILOMETRE_PER_HOUR_M_PER_S),
            (Kind::Speed, "kn" | "kt" | "kts" | "knots") => Some(KNOT_M_PER_S),
            (Kind::Torque, "") => Some(if imperial { FOOT_POUND_FORCE_NM } else { 1.0 }),
            (Kind::Torque, "nm" | "n·m") => Some(1.0),
            (Kind::Torque, "ft-lb" | "ftlb" | "ft·lb" | "ft-lbf" | "lb-ft" | "lbft" | "lbf-ft") => {
                Some(FOOT_POUND_FORCE_NM)
            }
            (Kind::Stress, "") => Some(if imperial { KSI_MPA } else { 1.0 }),
            (Kind::Stress, "mpa" | "n/mm2" | "n/mm²") => Some(1.0),
            (Kind::Stress, "ksi") => Some(KSI_MPA),
            (Kind::Stress, "psi") => Some(KSI_MPA / 1000.0),
            (Kind::Number, "") => Some(1.0),
            _ => None,
        }
    }

    fn examples(self, units: Units) -> &'static str {
        let imperial = units.system == UnitSystem::Imperial;
        match self {
            Kind::Length { in_mm: false } if imperial => "a length such as 6' 1 1/4\", 73 in or 6.5 (feet)",
            Kind::Length { in_mm: false } => "a length such as 1.85 (metres), 185 cm or 1850 mm",
            Kind::Length { in_mm: true } if imperial => "a length such as 1 1/2 (inches), 1.5 in or 0.113\"",
            Kind::Length { in_mm: true } => "a length such as 38 (millimetres) or 3.8 cm",
            Kind::Bearing => "a bearing from 0 to 360° such as 045, 225.5, 12°30', N45E, S 45 W or NE",
            Kind::Slope => {
                "an angle such as 7, 7.5° or 12°30', or a grade such as 12 %, 1:8 or 1 in 8 (rise to run)"
            }
            Kind::Sided => "an angle such as 3.5, −3.5°, 3°30' E or 3.5 W",
            Kind::Angle => "an angle such as 30, −7.5° or 12°30'",
            Kind::Force if imperial => "a force such as 25 (pounds-force) or 25 lbf",
            Kind::Force => "a force such as 110 (newtons), 1.1 kN or 11 kgf",
            Kind::Voltage => "a voltage such as 11 (kilovolts), 11 kV or 400 V",
            Kind::Volts => "a voltage such as 120 (volts), 230 V or 24 V",
            Kind::Current => "a current such as 0.35 (amperes), 0.35 A or 350 mA",
            Kind::Power => "a power such as 40 (watts), 40 W or 4.8 W",
            Kind::Mass if imperial => "a mass such as 25 (pounds) or 25 lb",
            Kind::Mass => "a mass such as 11 (kilograms), 11 kg or 500 g",
            Kind::Percent => "a percentage such as 2.5 or 2.5 %",
            Kind::MassPerLength if imperial => {
                "a mass per length such as 1.7 (pounds per 100 feet) or 1.7 lb/100 ft"
            }
            Kind::MassPerLength => "a mass per length such as 25 (grams a metre), 25 g/m or 2.5 kg/100 m",
            Kind::MillimetresPerMetre if imperial => "inches in 100 feet, such as 1 or 1.5 in/100 ft",
            Kind::MillimetresPerMetre => "millimetres in each metre, such as 1 or 1.5 mm/m",
            Kind::Speed if imperial => "a speed such as 35 (miles an hour), 35 mph or 30 kn",
            Kind::Speed => "a speed such as 15 (metres a second), 15 m/s, 55 km/h or 30 kn",
            Kind::Torque if imperial => "a turning moment such as 60 (foot-pounds) or 60 ft-lb",
            Kind::Torque => "a turning moment such as 80 (newton metres) or 80 Nm",
            Kind::Stress if imperial => "a stress such as 30 (ksi) or 30000 psi",
            Kind::Stress => "a stress such as 205 (megapascals) or 205 N/mm²",
            Kind::Temperature if imperial => "a temperature such as 32 (Fahrenheit) or 32 °F",
            Kind::Temperature => "a temperature such as 0 (Celsius) or −5 °C",
            Kind::Number => "a number such as 3 or 2.5",
        }
    }
}

/// The text with one spelling for each sign, in lower case; none where a comma could mean two things.
fn tidy(text: &str, units: Units) -> Option<String> {
    let mut tidied = String::with_capacity(text.len());
    let mut before = ' ';
    for sign in text.trim().chars() {
        // `½5` is nothing that anybody means, and would read 1/25.
        if vulgar_fraction(before).is_some() && matches!(sign, '0'..='9' | '.' | ',' | '/' | '⁄' | '∕') {
            return None;
        }
        before = sign;
        match sign {
            '′' | '’' | '‘' | '´' | '`' => tidied.push('\''),
            '″' | '”' | '“' | '„' => tidied.push('"'),
            '−' | '–' | '‐' | '‑' => tidied.push('-'),
            'º' | '˚' => tidied.push('°'),
            '⁄' | '∕' => tidied.push('/'),
            '∶' => tidied.push(':'),
            other if other.is_whitespace() => tidied.push(' '),
            other => match vulgar_fraction(other) {
                Some(fraction) => tidied.push_str(fraction),
                None => tidied.extend(other.to_lowercase()),
            },
        }
    }
    let tidied = tidied.replace("''", "\"");
    decimal_point(&tidied, units)
}

/// Unicode's vulgar fractions, with a space before so that `4½` reads `4 1/2`.
fn vulgar_fraction(sign: char) -> Option<&'static str> {
    Some(match sign {
        '½' => " 1/2",
        '¼' => " 1/4",
        '¾' => " 3/4",
        '⅛' => " 1/8",
        '⅜' => " 3/8",
        '⅝' => " 5/8",
        '⅞' => " 7/8",
        '⅓' => " 1/3",
        '⅔' => " 2/3",
        _ => return None,
    })
}

/// A decimal comma becomes a point. `1,250` is one and a quarter in metric use and twelve hundred and fifty in
/// imperial use, so the latter refuses it rather than guess.
fn decimal_point(text: &str, units: Units) -> Option<String> {
    let mut pieces = text.split(',');
    let (whole, decimals) = (pieces.next().unwrap_or(""), pieces.next());
    let Some(decimals) = decimals else { return Some(text.to_owned()) };
    let digits = decimals.bytes().take_while(u8::is_ascii_digit).count();
    let between_digits = whole.ends_with(|c: char| c.is_ascii_digit()) && digits > 0;
    let could_be_thousands = digits == 3 && units.system == UnitSystem::Imperial;
    let only_mark = pieces.next().is_none() && !text.contains('.');
    (between_digits && only_mark && !could_be_thousands).then(|| format!("{whole}.{decimals}"))
}

/// Whether a comma stands where imperial use would part thousands.
fn could_be_thousands(text: &str, units: Units) -> bool {
    let digits = |piece: &str| piece.bytes().take_while(u8::is_ascii_digit).count();
    let parts =
        |(whole, rest): (&str, &str)| whole.ends_with(|c: char| c.is_ascii_digit()) && digits(rest) == 3;
    units.system == UnitSystem::Imperial && text.split_once(',').is_some_and(parts)
}

/// Walks along tidied text.
struct Cursor<'a> {
    left: &'a str,
}

impl<'a> Cursor<'a> {
    fn skip_spaces(&mut self) {
        self.left = self.left.trim_start();
    }

    /// Takes this sign if it comes next.
    fn sign(&mut self, sign: char) -> bool {
        self.skip_spaces();
        match self.left.strip_prefix(sign) {
            Some(left) => {
                self.left = left;
                true
            }
            None => false,
        }
    }

    fn at_end(&mut self) -> bool {
        self.skip_spaces();
        self.left.is_empty()
    }

    /// A run of letters, possibly none.
    fn letters(&mut self) -> &'a str {
        self.skip_spaces();
        let end = self.left.find(|c: char| !c.is_alphabetic()).unwrap_or(self.left.len());
        let (letters, left) = self.left.split_at(end);
        self.left = left;
        letters
    }

    /// All that is left, without its spaces.
    fn rest(&mut self) -> String {
        let rest = self.left.replace(' ', "");
        self.left = "";
        rest
    }

    /// Digits with at most one point among them.
    fn decimal(&mut self) -> Option<f64> {
        self.skip_spaces();
        let end = self.left.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(self.left.len());
        let (digits, left) = self.left.split_at(end);
        let value = digits.parse().ok()?;
        self.left = left;
        Some(value)
    }

    /// A number, perhaps with a fraction: `6`, `6.5`, `1/2`, `6 1/2`, `6-1/2`.
    fn number(&mut self) -> Option<f64> {
        let first = self.decimal()?;
        if let Some(under) = self.over() {
            return under.filter(|under| *under != 0.0).map(|under| first / under);
        }
        let mut ahead = Cursor { left: self.left };
        let dashed = ahead.sign('-');
        let part = ahead.decimal().and_then(|over| Some((over, ahead.over()?)));
        match part {
            // Only a proper fraction belongs to the number before it.
            Some((over, Some(under))) if over < under && first.fract() == 0.0 => {
                self.left = ahead.left;
                Some(first + over / under)
            }
            Some(_) => None,
            None if dashed => Some(first),
            None => Some(first),
        }
    }

    /// What a fraction is over, where a stroke and digits come next: `Some(None)` for a stroke without digits.
    fn over(&mut self) -> Option<Option<f64>> {
        self.sign('/').then(|| self.decimal())
    }
}

/// Reads text with an optional sign; all of it must be understood.
fn signed(text: &str, read: impl Fn(&mut Cursor) -> Option<f64>) -> Option<f64> {
    let mut cursor = Cursor { left: text };
    let negative = cursor.sign('-');
    if !negative {
        cursor.sign('+');
    }
    let value = read(&mut cursor)?;
    cursor.at_end().then_some(if negative { -value } else { value })
}

/// A temperature in degrees Celsius: (F − 32)/1.8. Source: NIST SP 811 (2008), B.8.
fn read_temperature(text: &str, units: Units) -> Option<f64> {
    let without_sign = |unit: &str| text.strip_suffix(unit).map(|rest| rest.trim_end().trim_end_matches('°'));
    let plain = |text: &str| signed(text, |cursor| cursor.number());
    let fahrenheit = |text: &str| Some((plain(text)? - 32.0) / 1.8);
    match (without_sign("f"), without_sign("c")) {
        (Some(rest), _) => fahrenheit(rest),
        (None, Some(rest)) => plain(rest),
        (None, None) if units.system == UnitSystem::Imperial => fahrenheit(text.trim_end_matches('°')),
        (None, None) => plain(text.trim_end_matches('°')),
    }
}

/// Units of length, largest first: the parts of a mixed length come in this order.
const LENGTH_UNITS: [(&[&str], f64); 6] = [
    (&["yd", "yard", "yards"], YARD_M),
    (&["ft", "foot", "feet", "'"], FOOT_M),
    (&["in", "inch", "inches", "ins", "\""], INCH_M),
    (&["m", "metre", "metres", "meter", "meters"], 1.0),
    (&["cm"], 0.01),
    (&["mm"], 0.001),
];
const FEET: usize = 1;
const INCHES: usize = 2;
const METRES: usize = 3;
const MILLIMETRES: usize = 5;

fn read_length(text: &str, in_mm: bool, units: Units) -> Option<f64> {
    let bare = match (units.system, in_mm) {
        (UnitSystem::Metric, false) => METRES,
        (UnitSystem::Metric, true) => MILLIMETRES,
        (UnitSystem::Imperial, false) => FEET,
        (UnitSystem::Imperial, true) => INCHES,
    };
    let metres = signed(text, |cursor| length_parts(cursor, bare))?;
    // Millimetres by division, not by a second multiplication: 38 mm must come back as 38, not 38.000000000000004.
    Some(if in_mm { (metres * 1e12).round() / 1e9 } else { metres }).filter(|value| value.is_finite())
}

fn length_parts(cursor: &mut Cursor, bare: usize) -> Option<f64> {
    let mut total_m = 0.0;
    let mut last: Option<usize> = None;
    loop {
        let value = cursor.number()?;
        let unit = match length_unit(cursor)? {
            Some(unit) => unit,
            // `8' 4`: what follows named feet is inches; `8 4` could be anything.
            None if last == Some(FEET) => INCHES,
            None if last.is_none() && cursor.at_end() => bare,
            None => return None,
        };
        // Feet with inches, metres with centimetres, never metres with inches.
        if last.is_some_and(|last| unit <= last || (last < METRES) != (unit < METRES)) {
            return None;
        }
        total_m += value * LENGTH_UNITS.get(unit)?.1;
        last = Some(unit);
        // The dash of `8'-4"`.
        let dashed = cursor.sign('-');
        if cursor.at_end() {
            return (!dashed).then_some(total_m);
        }
    }
}

/// The index of the unit that comes next: `Some(None)` for none, `None` for an unknown one.
fn length_unit(cursor: &mut Cursor) -> Option<Option<usize>> {
    let found = |written: &str| LENGTH_UNITS.iter().position(|(spellings, _)| spellings.contains(&written));
    for quote in ['\'', '"'] {
        if cursor.sign(quote) {
            return Some(found(quote.encode_utf8(&mut [0; 4])));
        }
    }
    let written = cursor.letters();
    if written.is_empty() {
        return Some(None);
    }
    let unit = found(written)?;
    cursor.sign('.'); // `ft.`, `in.`
    Some(Some(unit))
}

/// Degrees, with minutes and seconds where given: `12`, `12.5°`, `12°30'`, `12° 30' 15"`.
fn degrees(cursor: &mut Cursor) -> Option<f64> {
    let mut value = cursor.number()?;
    if !cursor.sign('°') {
        match cursor.left.trim_start().strip_prefix("deg") {
            Some(left) => cursor.left = left.strip_prefix("rees").unwrap_or(left),
            None => return Some(value),
        }
    }
    for (sign, parts_a_degree) in [('\'', 60.0), ('"', 3600.0)] {
        let mut ahead = Cursor { left: cursor.left };
        let Some(part) = ahead.number() else { break };
        if !ahead.sign(sign) {
            break;
        }
        if part >= 60.0 {
            return None;
        }
        value += part / parts_a_degree;
        cursor.left = ahead.left;
    }
    Some(value)
}

fn read_bearing(text: &str) -> Option<f64> {
    if let Some(point) = COMPASS_POINTS.iter().position(|point| *point == text.replace([' ', '-'], "")) {
        return Some(point as f64 * 22.5);
    }
    let mut cursor = Cursor { left: text };
    let south = match text.chars().next()? {
        'n' => false,
        's' => true,
        _ => {
            let value = degrees(&mut cursor)?;
            return (cursor.at_end() && value <= 360.0).then_some(value);
        }
    };
    cursor.left = text.get(1..)?;
    read_quadrant(&mut cursor, south)
}

/// The sixteen points of the compass, 22.5° apart.
const COMPASS_POINTS: [&str; 16] =
    ["n", "nne", "ne", "ene", "e", "ese", "se", "sse", "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"];

/// A surveyor's bearing, as `S 45 W`: so many degrees from south towards west.
fn read_quadrant(cursor: &mut Cursor, south: bool) -> Option<f64> {
    let value = degrees(cursor).filter(|value| *value <= 90.0)?;
    let west = match cursor.letters() {
        "e" => false,
        "w" => true,
        _ => return None,
    };
    let bearing = match (south, west) {
        (false, false) => value,
        (true, false) => 180.0 - value,
        (true, true) => 180.0 + value,
        (false, true) => (360.0 - value) % 360.0,
    };
    cursor.at_end().then_some(bearing)
}

/// An angle to the horizontal, or a grade: grade = rise / run = tan of the angle.
fn read_slope(text: &str) -> Option<f64> {
    signed(text, |cursor| {
        let mut ahead = Cursor { left: cursor.left };
        let value = ahead.number()?;
        let grade = if ahead.sign('%') {
            value / 100.0
        } else if ahead.sign(':') || ahead.letters() == "in" {
            let run = ahead.number().filter(|run| *run > 0.0)?;
            value / run
        } else {
            return degrees(cursor);
        };
        cursor.left = ahead.left;
        Some(atan_deg(grade))
    })
}

/// An angle that may name its side: north and east positive, south and west negative.
fn read_sided(text: &str) -> Option<f64> {
    let (number, negative) = match text.char_indices().next_back()? {
        (at, 'n' | 'e') => (text.get(..at)?, false),
        (at, 's' | 'w') => (text.get(..at)?, true),
        _ => return signed(text, degrees),
    };
    let mut cursor = Cursor { left: number };
    let value = degrees(&mut cursor)?;
    cursor.at_end().then_some(if negative { -value } else { value })
}

#[cfg(test)]
mod tests {
    use super::*;

    const METRIC: Units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
    const IMPERIAL: Units = Units { system: UnitSystem::Imperial, inch_fraction: 16 };

    fn check(field: &str, text: &str, units: Units, expected: f64) {
        let read = read_quantity(field, text, units);
        assert!(
            read.as_ref().is_ok_and(|v| (v - expected).abs() < 1e-9),
            "{field} {text}: {read:?}, not {expected}"
        );
    }

    fn refused(field: &str, text: &str) {
        for units in [METRIC, IMPERIAL] {
            let read = read_quantity(field, text, units);
            assert!(read.is_err(), "{field} {text}: {read:?}");
        }
    }

    #[test]
    fn lengths_as_people_write_them() {
        for text in [
            "6' 1 1/4\"",
            "6 ft 1 1/4 in",
            "6′ 1¼″",
            "6’1 1/4”",
            "6'-1 1/4\"",
            "6' 1.25''",
            "73.25in",
            "6ft. 1-1/4 in.",
            "6' 1 1/4",
        ] {
            check("reach_m", text, METRIC, 73.25 * 0.0254);
        }
        for text in ["1.85 m", "185 cm", "1850mm", "1,85 m", "1 m 85 cm", "1850 MM"] {
            check("reach_m", text, IMPERIAL, 1.85);
        }
        check("reach_m", "73\"", METRIC, 73.0 * 0.0254);
        check("reach_m", "6", METRIC, 6.0);
        check("reach_m", "6 1/2", IMPERIAL, 6.5 * 0.3048);
        check("reach_m", "−1.5", METRIC, -1.5);
        check("wall_mm", "38", METRIC, 38.0);
        check("wall_mm", "1 1/2", IMPERIAL, 38.1);
        check("wall_mm", "⅞\"", METRIC, 22.225);
        check("wall_mm", "2,77", METRIC, 2.77);
        check("reach_m", "1,850", METRIC, 1.85);
    }

    #[test]
    fn lengths_that_could_mean_two_things_are_refused() {
        for text in [
            "",
            "x",
            "2 m 54",
            "4 in 8 ft",
            "2 m 3 in",
            "1/0",
            "3/",
            "5 furlongs",
            "1e3",
            "--2",
            "8' 4 3/2\"",
            "1.2.3",
            "1,2,3",
            "1,200.5",
            "8'-",
            "NaN",
            "inf",
            "6 7",
        ] {
            refused("reach_m", text);
        }
        let comma = read_quantity("reach_m", "1,250", IMPERIAL).unwrap_err();
        assert!(comma.allowed.contains("no comma"), "{}", comma.allowed);
        for odd in ["½5", "4½5\"", "½.5", "½,5", "½/2", "½½"] {
            assert!(read_quantity("reach_m", odd, IMPERIAL).is_err(), "{odd}");
            assert!(read_quantity("reach_m", odd, METRIC).is_err(), "{odd}");
        }
    }

    #[test]
    fn wind_and_anchor_quantities() {
        check("asked_gust_m_per_s", "35", IMPERIAL, 35.0 * 0.447_04);
        for text in ["15", "15 m/s", "54 km/h"] {
            check("asked_gust_m_per_s", text, METRIC, 15.0);
        }
        check("asked_gust_m_per_s", "36 kn", IMPERIAL, 18.52);
        check("torque_nm", "80 Nm", IMPERIAL, 80.0);
        check("torque_nm", "60 ft-lb", METRIC, 60.0 * 4.448_221_615_260_5 * 0.3048);
        check("yield_mpa", "205", METRIC, 205.0);
        for (text, celsius) in [("23", -5.0), ("23 °F", -5.0), ("−5 °C", -5.0), ("-4 F", -20.0)] {
            check("temperature_c", text, IMPERIAL, celsius);
        }
        check("temperature_c", "−5°", METRIC, -5.0);
        refused("temperature_c", "5 K");
        refused("asked_gust_m_per_s", "15 N");
    }

    #[test]
    fn bearings() {
        let check = |text: &str, expected: f64| check("/yard/slopes/0/bearing_deg", text, METRIC, expected);
        check("045", 45.0);
        check("45°", 45.0);
        check("225.5", 225.5);
        check("12°30'", 12.5);
        check("12° 30′ 36″", 12.51);
        check("N45E", 45.0);
        check("S 45 W", 225.0);
        check("s 45° e", 135.0);
        check("N 12°30' W", 347.5);
        check("N0W", 0.0);
        check("SSW", 202.5);
        check("360", 360.0);
        for text in ["-5", "361", "N100E", "N45", "45 E", "N45E5", "12°60'", "north-ish", "NN", "12 30"] {
            refused("bearing_deg", text);
        }
    }

    #[test]
    fn slopes_and_sides() {
        check("slope_deg", "7", METRIC, 7.0);
        check("slope_deg", "-7.5°", METRIC, -7.5);
        check("slope_deg", "100 %", METRIC, 45.0);
        // tan 7.125 016 3° = 0.125: a fall of one in eight.
        check("slope_deg", "1:8", METRIC, 7.125_016_348_901_798);
        check("slope_deg", "-1 in 8", METRIC, -7.125_016_348_901_798);
        check("angle_deg", "12,5 %", METRIC, 7.125_016_348_901_798);
        check("declination_deg", "3°30' W", METRIC, -3.5);
        check("latitude_deg", "47.5 N", METRIC, 47.5);
        check("guy_turn_deg", "-30 degrees", METRIC, -30.0);
        for text in ["1:0", "1 in", "7 %%", "steep", "1:8:9"] {
            refused("slope_deg", text);
        }
        refused("guy_turn_deg", "12%");
    }

    #[test]
    fn forces_and_the_rest() {
        check("tension_n", "25", METRIC, 25.0);
        check("tension_n", "25", IMPERIAL, 25.0 * 4.448_221_615_260_5);
        check("tension_n", "1.1 kN", IMPERIAL, 1100.0);
        check("tension_n", "10 kgf", METRIC, 98.0665);
        check("voltage_kv", "400 V", METRIC, 0.4);
        check("voltage_kv", "11", METRIC, 11.0);
        check("stretch_percent", "2.5 %", METRIC, 2.5);
        check("mass_g_per_m", "2.5 kg / 100 m", METRIC, 25.0);
        check("mass_g_per_m", "1 lb/100 ft", METRIC, 14.881_639_435_695_537);
        check("tape_sigma_mm_per_m", "1 mm/m", METRIC, 1.0);
        check("tape_sigma_mm_per_m", "1.2", IMPERIAL, 1.0);
        check("tape_sigma_mm_per_m", "1.2 in/100 ft", METRIC, 1.0);
        check("mass_kg", "2 lb", METRIC, 0.907_184_74);
        check("count", "4", METRIC, 4.0);
        refused("tension_n", "10 kg");
        check("supply_volts", "120 V", IMPERIAL, 120.0);
        check("load_amps", "350 mA", METRIC, 0.35);
        check("load_watts", "1.2 kW", METRIC, 1200.0);
        refused("load_amps", "5 W");
        refused("voltage_kv", "high");
        refused("count", "four");
    }

    #[test]
    fn a_refusal_says_what_was_given_and_what_is_understood() {
        let error = read_quantity("/rig/tubes/0/length_m", " about nine feet ", IMPERIAL)
            .expect_err("it is no length");
        assert_eq!(error.path, "/rig/tubes/0/length_m");
        assert_eq!(error.given, "“about nine feet”");
        assert!(error.allowed.contains("6' 1 1/4\""));
    }
}
