//! How what is seen from a standpoint is painted: a picture of its own, with its own sky and ground, the same in every skin.
//! Colours of our own. Fills are pale, so that the work stands out before all of them.

use super::paint::{Colour, LineType, Paint, Pen, fixed, line, plain};
use super::scene::Role;

const fn of_picture(everywhere: &'static str) -> Colour {
    fixed("", everywhere)
}

/// An area without a line of its own: what lies beside it joins it without a gap.
const fn area(everywhere: &'static str) -> Paint {
    plain(of_picture(everywhere), Pen::Fine, of_picture(everywhere))
}

const DARK: Colour = of_picture("#1d2b36");
const DIM: Colour = of_picture("#4a555e");
const MOONLIT: Colour = of_picture("#8f9bb0");

/// The paint of a role of these pictures.
pub(super) fn of(role: Role) -> Paint {
    use LineType::*;
    use Pen::*;
    match role {
        Role::SeenSky => area("#dfeaf3"),
        Role::SeenFar => area("#dcdfd0"),
        Role::SeenGround => area("#cdd7b5"),
        Role::SeenNet => line(of_picture("#9aa57f"), Fine, Continuous),
        Role::SeenWall => area("#f0e5d2"),
        Role::SeenWallShaded => area("#d3c6ae"),
        Role::SeenRoof => area("#cdb699"),
        Role::SeenLeaves => area("#aac59b"),
        Role::SeenTrunk => area("#c3a687"),
        Role::SeenHedge => area("#a5bf91"),
        Role::SeenFence => area("#dccbac"),
        Role::SeenStone => area("#c6c6bf"),
        Role::SeenPath => line(of_picture("#6b6455"), Thin, Continuous),
        Role::SeenEdge => line(DIM, Thin, Continuous),
        Role::SeenUnknown => line(DARK, Middle, ShortDashed),
        Role::SeenBoundary => line(DARK, Middle, LongDashDoubleDot),
        Role::SeenWire => line(of_picture("#7a2a86"), Wide, LongDashDot),
        Role::SeenBase => line(of_picture("#5b3a12"), Wide, Continuous),
        Role::SeenRing => line(of_picture("#6e4e00"), Middle, ShortDashed),
        Role::SeenGuy => line(of_picture("#0f4268"), Wide, Continuous),
        Role::SeenStrand => line(of_picture("#6e4e00"), Thin, Continuous),
        Role::SeenMast => line(DARK, Bold, Continuous),
        Role::SeenHidden => line(DIM, Middle, Dotted),
        Role::SeenHorizon => line(DIM, Fine, Dashed),
        Role::SeenScale => line(DARK, Thin, Continuous),
        Role::NightSky => area("#0b1120"),
        Role::NightGround => area("#131b17"),
        Role::NightNet => line(of_picture("#2a352d"), Fine, Continuous),
        Role::NightSolid => area("#1a212c"),
        Role::NightEdge => line(of_picture("#6f7b8c"), Thin, Continuous),
        Role::NightLine => line(MOONLIT, Thin, LongDashDot),
        Role::NightUnknown => line(MOONLIT, Middle, ShortDashed),
        Role::NightWork => line(of_picture("#7d8a9c"), Middle, Continuous),
        Role::NightLit => line(of_picture("#ffd766"), Wide, Continuous),
        Role::NightScale => line(of_picture("#c7d0dc"), Thin, Continuous),
        Role::NightLabel => line(of_picture("#eef2f7"), Fine, Continuous),
        // The labels by day, and what is no role of these pictures.
        _ => line(DARK, Fine, Continuous),
    }
}

#[cfg(test)]
mod tests {
    use super::super::key::tests::contrast;
    use super::*;

    fn paper(role: Role) -> &'static str {
        of(role).ink.paper()
    }

    /// WCAG 2.2, 1.4.11: 3:1 of what is to be told apart, on whatever it is drawn before.
    #[test]
    fn the_work_stands_out_before_all_that_it_is_seen_before() {
        use Role::*;
        let behind = [
            SeenSky,
            SeenFar,
            SeenGround,
            SeenWall,
            SeenWallShaded,
            SeenRoof,
            SeenLeaves,
            SeenTrunk,
            SeenHedge,
            SeenFence,
            SeenStone,
        ];
        let shown = [
            SeenMast,
            SeenGuy,
            SeenStrand,
            SeenRing,
            SeenBase,
            SeenWire,
            SeenUnknown,
            SeenBoundary,
            SeenEdge,
            SeenHidden,
            SeenScale,
        ];
        let by_night = [NightWork, NightLit, NightEdge, NightLine, NightUnknown, NightScale];
        let day = shown.into_iter().flat_map(|role| behind.map(|ground| (role, ground)));
        let night = by_night
            .into_iter()
            .flat_map(|role| [NightSky, NightGround, NightSolid].map(|ground| (role, ground)));
        for (role, ground) in day.chain(night) {
            let ratio = contrast(paper(role), paper(ground));
            assert!(ratio >= 3.0, "{role:?} on {ground:?}: {ratio:.2}");
        }
        // Words: 4.5:1 (1.4.3); by night the strands outshine all else.
        for ground in [SeenSky, SeenGround, SeenFar, SeenLeaves] {
            assert!(contrast(paper(SeenLabel), paper(ground)) >= 4.5, "{ground:?}");
        }
        assert!(contrast(paper(NightLabel), paper(NightSky)) >= 4.5);
        assert!(
            contrast(paper(NightLit), paper(NightSky)) > 1.5 * contrast(paper(NightWork), paper(NightSky))
        );
    }
}
