//! The Beaufort scale: its names, and what a mean wind of each does on land, in short.

use crate::wind::beaufort::Beaufort;

pub(crate) fn name(force: Beaufort) -> &'static str {
    match force {
        Beaufort::Calm => "Calm",
        Beaufort::LightAir => "Light air",
        Beaufort::LightBreeze => "Light breeze",
        Beaufort::GentleBreeze => "Gentle breeze",
        Beaufort::ModerateBreeze => "Moderate breeze",
        Beaufort::FreshBreeze => "Fresh breeze",
        Beaufort::StrongBreeze => "Strong breeze",
        Beaufort::NearGale => "Near gale",
        Beaufort::Gale => "Gale",
        Beaufort::StrongGale => "Strong gale",
        Beaufort::Storm => "Storm",
        Beaufort::ViolentStorm => "Violent storm",
        Beaufort::Hurricane => "Hurricane",
    }
}

/// In own words.
pub(crate) fn on_land(force: Beaufort) -> &'static str {
    match force {
        Beaufort::Calm => "Smoke goes straight up.",
        Beaufort::LightAir => "Smoke leans; flags hang.",
        Beaufort::LightBreeze => "Felt on the face; leaves rustle.",
        Beaufort::GentleBreeze => "Leaves never still; a light flag flies.",
        Beaufort::ModerateBreeze => "Dust and paper lift; twigs move.",
        Beaufort::FreshBreeze => "Small leafy trees sway.",
        Beaufort::StrongBreeze => "Big branches move; an umbrella is hard to hold.",
        Beaufort::NearGale => "Whole trees move; walking into it is a push.",
        Beaufort::Gale => "Twigs break; walking is hard work.",
        Beaufort::StrongGale => "Roof tiles and chimney pots come off.",
        Beaufort::Storm => "Trees are uprooted; buildings are damaged.",
        Beaufort::ViolentStorm => "Damage everywhere.",
        Beaufort::Hurricane => "Devastation.",
    }
}
