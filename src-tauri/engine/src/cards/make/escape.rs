//! To which side everybody gets out of the way.

use super::Making;
use crate::cards::card::{Card, CardEscape, CardKind, CardPhase, StandPlace};
use crate::quantity::bearing::wrap_360;

/// Common practice: square to the line along which the mast lies and falls while it turns, each to the own side; straight away from one that stands.
pub(super) fn add(making: &Making, card: &mut Card) {
    let stands_by_hand = matches!(
        card.kind,
        CardKind::StandBareTube | CardKind::MeasureFoot | CardKind::LayBareTube | CardKind::PlumbMast
    );
    let escape = |place: &StandPlace| match (card.phase, place) {
        (_, StandPlace::OutsideTheFall { .. }) => None,
        _ if stands_by_hand => Some(CardEscape::FromTheMast),
        (CardPhase::Raise | CardPhase::LayDown, place) => turning(making, place),
        (CardPhase::Crank | CardPhase::Lower, _) => Some(CardEscape::FromTheMast),
        (CardPhase::Base | CardPhase::Lights, _) => None,
    };
    for stand in &mut card.stands {
        stand.escape = escape(&stand.place);
    }
}

fn turning(making: &Making, place: &StandPlace) -> Option<CardEscape> {
    let way = making.way.as_ref()?;
    let [left_deg, right_deg] = [-90.0, 90.0].map(|turn| wrap_360(way.lies_toward_deg + turn));
    Some(match place {
        StandPlace::AtAnchor { guy } => {
            let on_right = way.guys.iter().find(|it| it.name == *guy)?.on_right;
            CardEscape::Toward { bearing_deg: if on_right { right_deg } else { left_deg } }
        }
        _ => CardEscape::OwnSide { left_deg, right_deg },
    })
}
