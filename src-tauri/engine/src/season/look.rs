//! What there is to look at of this plan, and why.

use serde::{Deserialize, Serialize};

use crate::job::{Job, RoundCause, SoilFeel};
use crate::plan::{Plan, Support};
use crate::source::SourceKey;

/// One thing that is looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum SeasonThing {
    /// An anchor in the ground, by the first guy that is made fast to it.
    Anchor {
        guy: String,
        name: String,
    },
    /// What a guy is made fast to in place of an anchor.
    Fixing {
        guy: String,
        name: String,
        thing: String,
    },
    Stake {
        id: String,
    },
    /// What stands under the tip of a leg.
    Foot {
        leg: String,
    },
    /// The guys of a level: rope, knots, turnbuckles.
    Guys {
        level: String,
        name: String,
    },
    /// What carries a level's guys on the mast.
    Collar {
        level: String,
        name: String,
    },
    /// The pins that a tube hangs in, counted from the lowest tube, which is 0.
    Pin {
        tube: u32,
        name: String,
    },
    Tubes,
    Topper,
    Ring,
    Strands,
    /// The lead from the outlet to the mast.
    Lead,
}

impl SeasonThing {
    /// What the diary names it by.
    pub fn key(&self) -> String {
        match self {
            Self::Anchor { guy, .. } | Self::Fixing { guy, .. } => format!("anchor:{guy}"),
            Self::Stake { id } => format!("stake:{id}"),
            Self::Foot { leg } => format!("foot:{leg}"),
            Self::Guys { level, .. } => format!("guys:{level}"),
            Self::Collar { level, .. } => format!("collar:{level}"),
            Self::Pin { tube, .. } => format!("pin:{tube}"),
            Self::Tubes => "tubes".to_owned(),
            Self::Topper => "topper".to_owned(),
            Self::Ring => "ring".to_owned(),
            Self::Strands => "strands".to_owned(),
            Self::Lead => "lead".to_owned(),
        }
    }
}

/// What somebody goes round for, apart from how strong it was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LookCause {
    StoodUp,
    Wind,
    Rain,
    Frost,
    Heat,
    Routine,
    TakenDown,
}

impl LookCause {
    pub const ALL: [Self; 7] =
        [Self::Wind, Self::Rain, Self::Frost, Self::Heat, Self::Routine, Self::StoodUp, Self::TakenDown];

    pub fn of(cause: RoundCause) -> Self {
        match cause {
            RoundCause::StoodUp => Self::StoodUp,
            RoundCause::Wind { .. } => Self::Wind,
            RoundCause::Rain => Self::Rain,
            RoundCause::Frost => Self::Frost,
            RoundCause::Heat => Self::Heat,
            RoundCause::Routine => Self::Routine,
            RoundCause::TakenDown => Self::TakenDown,
        }
    }
}

/// Why a thing is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LookWhy {
    AnchorDrawn,
    FixingMoved,
    StakeWorkedLoose,
    FootShifted,
    KnotsAndChafe,
    CollarSlipped,
    PinWorkedOut,
    TubeBent,
    TopperTurned,
    RingShifted,
    StrandsRubbed,
    LeadPulled,
    ClayWentSoft,
    WashedOut,
    WetRope,
    WaterInPlugs,
    FrostLifted,
    IceHangs,
    FrozenIn,
    WaterFroze,
    StiffPlastic,
    ClayShrank,
    RopeCrept,
    RingBowed,
    LeadWarm,
    FirstLook,
    Week,
}

impl LookWhy {
    /// Who says so.
    pub fn source(self) -> SourceKey {
        match self {
            // What carries the mast is looked over after wind, ice and other extremes. TIA-222-G/-H, section 14.
            Self::AnchorDrawn
            | Self::FixingMoved
            | Self::KnotsAndChafe
            | Self::CollarSlipped
            | Self::PinWorkedOut
            | Self::TubeBent
            | Self::IceHangs => SourceKey::Tia222Inspection,
            // Saturated soil holds about half (`wet-ground`).
            Self::ClayWentSoft => SourceKey::WetGround,
            // Wet rope loses strength (`wet-rope`).
            Self::WetRope => SourceKey::WetRope,
            _ => SourceKey::CommonPractice,
        }
    }
}

/// A thing to look at, and why.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LookItem {
    pub key: String,
    pub thing: SeasonThing,
    pub why: LookWhy,
    pub source: SourceKey,
}

/// What to look at for one cause, from the ground up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LookList {
    pub cause: LookCause,
    pub items: Vec<LookItem>,
}

/// Everything of this plan that can be looked at, from the ground up.
pub fn things(job: &Job, plan: &Plan) -> Vec<SeasonThing> {
    let mut all = anchors(plan);
    all.extend(plan.base.stakes.iter().map(|stake| SeasonThing::Stake { id: stake.id.clone() }));
    let stands = plan.base.legs.iter().filter(|leg| leg.support != Support::OnGround);
    all.extend(stands.map(|leg| SeasonThing::Foot { leg: leg.id.clone() }));
    let levels = || job.rig.guy_levels.iter().map(|level| (level.id.clone(), level.name.clone()));
    all.extend(levels().map(|(level, name)| SeasonThing::Guys { level, name }));
    all.extend(levels().map(|(level, name)| SeasonThing::Collar { level, name }));
    let upper = (0u32..).zip(&plan.mast.stages).skip(1);
    all.extend(upper.map(|(tube, stage)| SeasonThing::Pin { tube, name: stage.name.clone() }));
    all.push(SeasonThing::Tubes);
    all.extend(job.rig.topper.as_ref().map(|_| SeasonThing::Topper));
    if job.rig.strands.is_some() {
        all.extend([SeasonThing::Ring, SeasonThing::Strands, SeasonThing::Lead]);
    }
    all
}

/// Each anchor once: guys that share one are looked at there together.
fn anchors(plan: &Plan) -> Vec<SeasonThing> {
    let mut taken: Vec<&str> = Vec::new();
    let mut found = Vec::new();
    for guy in &plan.guys {
        if guy.shared_with.iter().any(|other| taken.contains(&other.as_str())) {
            continue;
        }
        taken.push(&guy.id);
        let (id, name) = (guy.id.clone(), guy.name.clone());
        found.push(match &guy.made_fast {
            Some(made) => SeasonThing::Fixing { guy: id, name, thing: made.name.clone() },
            None => SeasonThing::Anchor { guy: id, name },
        });
    }
    found
}

/// What to look at for every cause.
pub fn lists(job: &Job, plan: &Plan) -> Vec<LookList> {
    let all = things(job, plan);
    let of = |cause: LookCause| LookList { cause, items: list(cause, job.yard.soil, &all) };
    LookCause::ALL.into_iter().map(of).collect()
}

fn list(cause: LookCause, soil: SoilFeel, all: &[SeasonThing]) -> Vec<LookItem> {
    let item = |thing: &SeasonThing| {
        let why = why(cause, thing, soil)?;
        Some(LookItem { key: thing.key(), thing: thing.clone(), why, source: why.source() })
    };
    all.iter().filter_map(item).collect()
}

/// Why a thing is looked at after something happened; none where that does it no harm.
pub fn why(cause: LookCause, thing: &SeasonThing, soil: SoilFeel) -> Option<LookWhy> {
    match cause {
        LookCause::StoodUp => Some(LookWhy::FirstLook),
        LookCause::Wind => Some(after_wind(thing)),
        LookCause::Rain => after_rain(thing, soil),
        LookCause::Frost => after_frost(thing),
        LookCause::Heat => after_heat(thing, soil),
        LookCause::Routine => Some(LookWhy::Week),
        LookCause::TakenDown => None,
    }
}

fn after_wind(thing: &SeasonThing) -> LookWhy {
    match thing {
        SeasonThing::Anchor { .. } => LookWhy::AnchorDrawn,
        SeasonThing::Fixing { .. } => LookWhy::FixingMoved,
        SeasonThing::Stake { .. } => LookWhy::StakeWorkedLoose,
        SeasonThing::Foot { .. } => LookWhy::FootShifted,
        SeasonThing::Guys { .. } => LookWhy::KnotsAndChafe,
        SeasonThing::Collar { .. } => LookWhy::CollarSlipped,
        SeasonThing::Pin { .. } => LookWhy::PinWorkedOut,
        SeasonThing::Tubes => LookWhy::TubeBent,
        SeasonThing::Topper => LookWhy::TopperTurned,
        SeasonThing::Ring => LookWhy::RingShifted,
        SeasonThing::Strands => LookWhy::StrandsRubbed,
        SeasonThing::Lead => LookWhy::LeadPulled,
    }
}

/// Soil that nobody has felt may be clay.
fn may_be_clay(soil: SoilFeel) -> bool {
    matches!(soil, SoilFeel::Unknown | SoilFeel::Clay { .. } | SoilFeel::Loam | SoilFeel::SoftOrFill)
}

fn after_rain(thing: &SeasonThing, soil: SoilFeel) -> Option<LookWhy> {
    match thing {
        SeasonThing::Anchor { .. } | SeasonThing::Stake { .. } | SeasonThing::Foot { .. } => match soil {
            SoilFeel::Rock => None,
            soil if may_be_clay(soil) => Some(LookWhy::ClayWentSoft),
            _ => Some(LookWhy::WashedOut),
        },
        SeasonThing::Guys { .. } => Some(LookWhy::WetRope),
        SeasonThing::Strands | SeasonThing::Lead => Some(LookWhy::WaterInPlugs),
        _ => None,
    }
}

fn after_frost(thing: &SeasonThing) -> Option<LookWhy> {
    match thing {
        SeasonThing::Anchor { .. } | SeasonThing::Stake { .. } | SeasonThing::Foot { .. } => {
            Some(LookWhy::FrostLifted)
        }
        SeasonThing::Guys { .. } => Some(LookWhy::IceHangs),
        SeasonThing::Pin { .. } => Some(LookWhy::FrozenIn),
        SeasonThing::Tubes => Some(LookWhy::WaterFroze),
        SeasonThing::Strands | SeasonThing::Lead => Some(LookWhy::StiffPlastic),
        _ => None,
    }
}

fn after_heat(thing: &SeasonThing, soil: SoilFeel) -> Option<LookWhy> {
    match thing {
        SeasonThing::Anchor { .. } | SeasonThing::Stake { .. } if may_be_clay(soil) => {
            Some(LookWhy::ClayShrank)
        }
        SeasonThing::Guys { .. } => Some(LookWhy::RopeCrept),
        SeasonThing::Ring => Some(LookWhy::RingBowed),
        SeasonThing::Lead => Some(LookWhy::LeadWarm),
        _ => None,
    }
}
