//! Which rig: from how high the lights shall begin and what the shop sells, up to three masts that can be built, each with
//! what it weighs and what wind it takes as far as that is known. Taken over by one tap, changed freely afterwards.
//!
//! What the job already says stays as it is: rope, anchors, timbers, soil, the gust asked for. Only what follows from the
//! height is proposed: tubes with their lengths and overlaps, where the guys are made fast, how far out their anchors are, the ring.

mod cost;
mod guys;
mod tubes;

use serde::{Deserialize, Serialize};

use crate::job::{Job, Rig, Strands};
use crate::plan;
use crate::quantity::{FieldError, FieldErrors, Units, format};
use crate::tube::TubeTable;
use crate::verdict::MissingEntry;
use crate::wind_capacity;
use crate::workshop::shopping::ListedSize;

pub use guys::MOST_SLENDER;
use tubes::TubeSet;

/// What is wished and what can be bought.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct RigWishes {
    /// Of the circle from which the strands hang, above the mast's foot: 2 to 12 m.
    pub light_height_m: f64,
    /// The longest piece of tube that the shop sells or that can be carried: 1 to 6.5 m.
    pub longest_piece_m: f64,
    /// None: as many as the job has.
    #[serde(default)]
    pub strand_count: Option<u16>,
    /// Lit length of one strand as bought; none where nobody has measured it, then the ring stays as the job has it.
    #[serde(default)]
    pub strand_length_m: Option<f64>,
    /// By which the shop sells; none: every table.
    #[serde(default)]
    pub tables: Vec<TubeTable>,
}

/// Masts that can be built, none of them the best in everything.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RigChoice {
    /// At most three, the lightest first.
    pub offers: Vec<RigOffer>,
    /// How many sets of tubes reach the height and slide in each other.
    pub sets_found: u32,
    /// Why there is none.
    pub none_because: Option<NoRig>,
}

/// Why no mast is offered.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum NoRig {
    /// Tubes of that length that slide in each other reach no higher.
    TooHigh { highest_m: f64 },
    /// The strands are shorter than they hang high.
    StrandTooShort { strand_length_m: f64 },
}

/// What an offer is before the others in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RigMerit {
    /// The least mass of tubes.
    Lightest,
    /// The largest second moment of area of its thinnest tube.
    Stiffest,
    /// The shortest pieces to carry and to stow.
    ShortestPieces,
}

/// One mast that can be built.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RigOffer {
    pub merits: Vec<RigMerit>,
    /// The whole rig, to be taken over.
    pub rig: Rig,
    pub raised_m: f64,
    pub lowered_m: f64,
    /// Of all tubes.
    pub mass_kg: f64,
    pub longest_piece_m: f64,
    pub heaviest_piece_kg: f64,
    /// Who lift the tubes run into each other off the ground, each no more than [`LOAD_CONSTANT_KG`].
    pub people: u32,
    /// Largest slenderness between what holds it sideways, and the most that is allowed.
    pub slenderness: f64,
    /// Of the ring, where the strands' length is known.
    pub ring_radius_m: Option<f64>,
    /// What the stock lengths for its tubes cost by the prices that are entered; none while one of them is missing.
    pub tubes_cost: Option<f64>,
    /// Of these nobody has entered a length that is long enough, with its price.
    pub no_price: Vec<ListedSize>,
    /// The least gust, raised, at which a part is fully used; none while something is missing.
    pub gust_m_per_s: Option<f64>,
    /// What has to be entered before there is one.
    pub missing: Vec<MissingEntry>,
    /// Why the whole could not be laid out in this yard; nothing where it could.
    pub not_laid_out: bool,
}

/// What one person lifts at best. Source: NIOSH 94-110, load constant 23 kg (51 lb); from memory.
pub const LOAD_CONSTANT_KG: f64 = 23.0;

/// Looks for masts and says what wind the chosen ones take.
///
/// Lengths are in whole steps (5 cm, 2 in); every mast offered slides together by its tables' sizes and tolerances with
/// nothing to be said against its play ([`crate::tube::telescope`]), and is no more slender than AISC 360 E2 recommends.
///
/// # Errors
/// Where a wish lies outside its range, by its field.
pub fn rigs(job: &Job, wishes: &RigWishes) -> Result<RigChoice, FieldErrors> {
    checked(wishes, job.units)?;
    if let Some(strand_length_m) = wishes.strand_length_m
        && strand_length_m <= wishes.light_height_m
    {
        return Ok(none(NoRig::StrandTooShort { strand_length_m }));
    }
    let sets = tubes::sets(wishes, job.units.system);
    let slender_enough = |set: &TubeSet| guys::slenderness(set, wishes.light_height_m) <= MOST_SLENDER;
    let found: Vec<TubeSet> = sets.into_iter().filter(slender_enough).collect();
    if found.is_empty() {
        let highest_m = tubes::highest_m(wishes, job.units.system);
        return Ok(none(NoRig::TooHigh { highest_m }));
    }
    let offers = chosen(&found).into_iter().map(|(set, merits)| offer(job, wishes, set, merits)).collect();
    Ok(RigChoice { offers, sets_found: found.len() as u32, none_because: None })
}

fn none(because: NoRig) -> RigChoice {
    RigChoice { offers: Vec::new(), sets_found: 0, none_because: Some(because) }
}

/// Ranges of the wishes: in metres, given in errors by their fields.
const RANGES: [(&str, f64, f64); 3] =
    [("light_height_m", 2.0, 12.0), ("longest_piece_m", 1.0, 6.5), ("strand_length_m", 1.0, 60.0)];

fn checked(wishes: &RigWishes, units: Units) -> Result<(), FieldErrors> {
    let given = [Some(wishes.light_height_m), Some(wishes.longest_piece_m), wishes.strand_length_m];
    let wrong = |((field, least_m, most_m), value): (&(&str, f64, f64), Option<f64>)| {
        let value_m = value.filter(|value| !(*least_m..=*most_m).contains(value))?;
        let allowed = format!("{} to {}", format::length(*least_m, units), format::length(*most_m, units));
        Some(FieldError::new(format!("/wishes/{field}"), format::length(value_m, units), allowed))
    };
    let mut errors: Vec<FieldError> = RANGES.iter().zip(given).filter_map(wrong).collect();
    if let Some(count) = wishes.strand_count.filter(|count| !(1..=200).contains(count)) {
        errors.push(FieldError::new("/wishes/strand_count", count.to_string(), "1 to 200"));
    }
    if errors.is_empty() { Ok(()) } else { Err(errors.into()) }
}

/// The less, the better.
type Cost = fn(&TubeSet) -> f64;

/// The best set of each merit, each set once with all its merits, the lightest first. Of equals the first found.
fn chosen(found: &[TubeSet]) -> Vec<(&TubeSet, Vec<RigMerit>)> {
    let mut chosen: Vec<(usize, Vec<RigMerit>)> = Vec::new();
    let merits: [(RigMerit, Cost); 3] = [
        (RigMerit::Lightest, |set| set.mass_kg()),
        (RigMerit::Stiffest, |set| -set.thinnest_mm4()),
        // Of several with pieces as short the lightest: a gram counts less than a step of length.
        (RigMerit::ShortestPieces, |set| set.piece_m + 1e-6 * set.mass_kg()),
    ];
    for (merit, cost) in merits {
        let least = (0..found.len()).min_by(|&a, &b| cost(&found[a]).total_cmp(&cost(&found[b])));
        let Some(least) = least else { continue };
        match chosen.iter_mut().find(|(index, _)| *index == least) {
            Some((_, known)) => known.push(merit),
            None => chosen.push((least, vec![merit])),
        }
    }
    chosen.sort_by(|a, b| found[a.0].mass_kg().total_cmp(&found[b.0].mass_kg()));
    chosen.into_iter().map(|(index, merits)| (&found[index], merits)).collect()
}

fn offer(job: &Job, wishes: &RigWishes, set: &TubeSet, merits: Vec<RigMerit>) -> RigOffer {
    let strands = strands(job, wishes);
    let ring_radius_m = wishes.strand_length_m.and(strands.as_ref()).map(|strands| strands.ring_radius_m);
    let rig = Rig {
        tubes: set.tubes(job.workshop.lift.pin_mm, job.units.system),
        guy_levels: guys::levels(&job.rig, set, wishes.light_height_m, job.units.system),
        strands,
        ..job.rig.clone()
    };
    let built = Job { rig: rig.clone(), as_built: None, ..job.clone() };
    let laid_out = plan::survey(&built.yard, built.units)
        .and_then(|surveyed| plan::lay_out(&surveyed, &built.rig, &built.placement));
    let wind = laid_out.ok().map(|layout| wind_capacity::withstand(&built, &layout, &mut |_, _, _| true));
    let cost = cost::of_tubes(job, &rig);
    RigOffer {
        merits,
        tubes_cost: cost.sum,
        no_price: cost.open,
        raised_m: set.raised_m(),
        lowered_m: set.piece_m,
        mass_kg: set.mass_kg(),
        longest_piece_m: set.piece_m,
        heaviest_piece_kg: set.heaviest_kg(),
        people: (set.mass_kg() / LOAD_CONSTANT_KG).ceil().max(1.0) as u32,
        slenderness: guys::slenderness(set, wishes.light_height_m),
        ring_radius_m,
        gust_m_per_s: wind
            .as_ref()
            .and_then(|wind| wind.raised.least.as_ref())
            .map(|least| least.gust_m_per_s),
        not_laid_out: wind.is_none(),
        missing: wind.map(|wind| wind.missing).unwrap_or_default(),
        rig,
    }
}

/// The strands from the height wished; where their length is known, with the ring that they reach on level ground: they are
/// the long sides of right-angled triangles.
fn strands(job: &Job, wishes: &RigWishes) -> Option<Strands> {
    let mut strands = job.rig.strands.clone().or_else(|| {
        // Nothing is made up of strands that nobody has said anything of.
        let (count, length_m) = (wishes.strand_count?, wishes.strand_length_m?);
        Some(Strands {
            count,
            top_height_m: wishes.light_height_m,
            ring_radius_m: length_m,
            top_radius_m: None,
            sweep_deg: 360.0,
            facing_turn_deg: 0.0,
            cord: crate::job::Cord::default(),
        })
    })?;
    strands.top_height_m = wishes.light_height_m;
    strands.count = wishes.strand_count.unwrap_or(strands.count);
    if let Some(length_m) = wishes.strand_length_m {
        let height_m = wishes.light_height_m;
        let out_m = (length_m * length_m - height_m * height_m).max(0.0).sqrt();
        strands.ring_radius_m = (strands.top_radius_m.unwrap_or(0.0) + out_m).max(0.1);
    }
    Some(strands)
}
