//! What is compared with what where the work comes near to something.

use serde::{Deserialize, Serialize};

use crate::finding::yard::{OverBoundary, PegKind, Thing};

/// A kind of part of the work with what it is measured to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "from", rename_all = "snake_case")]
pub enum Approach {
    Chain {
        kind: ChainKind,
        to: Thing,
    },
    ChainToWire {
        kind: ChainKind,
        voltage_known: bool,
    },
    /// The mast's foot, were it to fall.
    FallToWire {
        voltage_known: bool,
    },
    Peg {
        kind: PegKind,
        to: Thing,
    },
    PegToService {
        kind: PegKind,
    },
    Timber {
        to: Thing,
    },
    /// The mast's foot against what has no height of its own.
    MastFoot {
        to: Thing,
    },
    StrandEnd,
    RingToService,
    /// The height of a rope or strand over a path.
    Headroom {
        kind: ChainKind,
    },
    Boundary {
        of: OverBoundary,
    },
}

impl Approach {
    /// Whether it is a guy's anchor that comes near, and not its rope.
    pub fn is_of_anchor(self) -> bool {
        match self {
            Self::Peg { kind, .. } | Self::PegToService { kind } => kind == PegKind::Anchor,
            Self::Boundary { of } => of == OverBoundary::Peg(PegKind::Anchor),
            _ => false,
        }
    }
}

/// A kind of chain of points of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ChainKind {
    Rope,
    Mast,
    Strand,
    /// The cone of strands between two neighbours.
    Cone,
}
