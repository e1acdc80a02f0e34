//! What a section is called.

use crate::report::SectionTitle;

pub(crate) fn title(title: &SectionTitle) -> String {
    let words = match title {
        SectionTitle::Missing => "No gust can be told yet. Missing, the soonest first",
        SectionTitle::Ground => "Ground",
        SectionTitle::North => "North",
        SectionTitle::Mast => "Mast and its tubes",
        SectionTitle::BaseLeg { leg } => return format!("Base: {leg} leg"),
        SectionTitle::WholeBase => "Base as a whole",
        SectionTitle::Guy { name } => name,
        SectionTitle::Ring => "Ring and strands",
        SectionTitle::Clearances => "Clearances, tightest first",
        SectionTitle::Peg { name } => return format!("Peg out: {name}"),
        SectionTitle::AsBuilt { name } => return format!("What really stands: {name}"),
        SectionTitle::LegAsBuilt { leg } => return format!("What really stands: {leg} leg"),
        SectionTitle::SpreadOfFeet => "Feet and shims",
        SectionTitle::SpreadOfGuys => "Guy ropes",
        SectionTitle::SharesOfAnchors => "Anchors",
        SectionTitle::SpreadOfClearances => "Distances to keep",
        SectionTitle::WhenToAct => "When to act",
        SectionTitle::GuysRunDown => "The guys when the mast is run down",
        SectionTitle::GroundUpwind => "What lies upwind",
        SectionTitle::GustByDirection { lowered: false } => "Gust limit by direction, mast raised",
        SectionTitle::GustByDirection { lowered: true } => "Gust limit by direction, mast lowered",
        SectionTitle::ProofPull => {
            "Show that the anchors hold, for the gust that you ask for: the proof pull"
        }
        SectionTitle::ByEye => "Look at by eye: no rule covers them",
        SectionTitle::NotReckoned => "What the limit does not look at",
        SectionTitle::WindCautions => "Before you rely on it",
        SectionTitle::PartsUsed => "How far each part is used",
        SectionTitle::ChangeFirst => "What to change first",
    };
    words.to_owned()
}
