//! What a section of rows is about: its key. From it come its words (`words::title`).

/// The key of a section's heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SectionTitle {
    Missing,
    Ground,
    North,
    Mast,
    BaseLeg { leg: String },
    WholeBase,
    Guy { name: String },
    Ring,
    Clearances,
    Peg { name: String },
    AsBuilt { name: String },
    LegAsBuilt { leg: String },
    SpreadOfFeet,
    SpreadOfGuys,
    SharesOfAnchors,
    SpreadOfClearances,
    WhenToAct,
    GuysRunDown,
    GroundUpwind,
    GustByDirection { lowered: bool },
    ProofPull,
    ByEye,
    NotReckoned,
    WindCautions,
    PartsUsed,
    ChangeFirst,
}
