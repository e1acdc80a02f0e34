//! The signs' path data as steps of a pen. The screens take the data as they stand; paper takes these.

use crate::numerics::real::hypot;

use super::marks::{Step, ellipse_steps};

/// Reads path data of the kinds that `signs.rs` writes: M, L, H, V, C, Z with absolute coordinates, and A for a whole
/// circle in two halves. Source: W3C SVG 2, 9.3 (path data). What it does not know ends the path.
pub(crate) fn steps(data: &str) -> Vec<Step> {
    let spaced = data.replace(',', " ");
    let mut words = spaced.split_whitespace().flat_map(pieces).peekable();
    let (mut steps, mut at) = (Vec::new(), [0.0; 2]);
    let mut command = ' ';
    while let Some(piece) = words.peek() {
        if let Piece::Command(letter) = *piece {
            command = letter;
            words.next();
        }
        let mut number = || match words.next() {
            Some(Piece::Number(value)) => Some(value),
            _ => None,
        };
        let step = match command {
            'M' => pair(&mut number).map(Step::Move),
            'L' => pair(&mut number).map(Step::Line),
            'H' => number().map(|x| Step::Line([x, at[1]])),
            'V' => number().map(|y| Step::Line([at[0], y])),
            'C' => curve(&mut number),
            'A' => {
                let Some(half) = half_circle(at, &mut number) else { return steps };
                steps.extend(half);
                steps.last().copied()
            }
            'Z' => Some(Step::Close),
            _ => None,
        };
        let Some(step) = step else { return steps };
        if command != 'A' {
            steps.push(step);
        }
        if let Step::Move(to) | Step::Line(to) | Step::Curve(_, _, to) = step {
            at = to;
        }
    }
    steps
}

enum Piece {
    Command(char),
    Number(f64),
}

/// A letter may stand right before its first number.
fn pieces(word: &str) -> impl Iterator<Item = Piece> {
    let letter = word.chars().next().filter(char::is_ascii_alphabetic);
    let number = word.trim_start_matches(|c: char| c.is_ascii_alphabetic()).parse().ok().map(Piece::Number);
    letter.map(Piece::Command).into_iter().chain(number)
}

fn pair(number: &mut impl FnMut() -> Option<f64>) -> Option<[f64; 2]> {
    Some([number()?, number()?])
}

fn curve(number: &mut impl FnMut() -> Option<f64>) -> Option<Step> {
    Some(Step::Curve(pair(number)?, pair(number)?, pair(number)?))
}

/// Two quarters, clockwise on paper, from a point to the one opposite.
fn half_circle(from: [f64; 2], number: &mut impl FnMut() -> Option<f64>) -> Option<Vec<Step>> {
    let [rx, _ry, _turn, _large, _sweep] = [number()?, number()?, number()?, number()?, number()?];
    let to = pair(number)?;
    let centre = [(from[0] + to[0]) / 2.0, (from[1] + to[1]) / 2.0];
    if (hypot(from[0] - centre[0], from[1] - centre[1]) - rx).abs() > 1e-6 {
        return None;
    }
    let toward = crate::quantity::bearing::of_vector(from[0] - centre[0], centre[1] - from[1]) - 90.0;
    Some(ellipse_steps(centre, [rx, rx], toward).into_iter().skip(1).take(2).collect())
}

#[cfg(test)]
mod tests {
    use super::super::scene::Role;
    use super::super::signs;
    use super::*;

    /// Every number of the data is met again, so that no sign loses a part on paper.
    #[test]
    fn every_sign_is_read_to_its_end() {
        for &role in Role::ALL {
            for (data, _) in signs::path(role) {
                let letters = data.chars().filter(char::is_ascii_alphabetic).count();
                let halves = data.matches('A').count();
                // L once said may be followed by one pair only in these data: a step for each letter, two for an arc.
                assert_eq!(steps(data).len(), letters + halves, "{role:?}: {data}");
            }
        }
    }

    #[test]
    fn a_ring_comes_back_to_where_it_began() {
        let steps = steps("M0.55,0 A0.55,0.55 0 1 1 -0.55,0 A0.55,0.55 0 1 1 0.55,0 Z");
        let Some(Step::Curve(_, _, [x, y])) = steps.get(4) else { panic!("{steps:?}") };
        assert!((x - 0.55).abs() < 1e-9 && y.abs() < 1e-9);
        let Step::Curve(_, _, [x, y]) = steps[1] else { panic!() };
        // Sweep 1 goes clockwise on paper: down first.
        assert!(x.abs() < 1e-9 && (y - 0.55).abs() < 1e-9, "{x} {y}");
    }
}
