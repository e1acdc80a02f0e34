//! Outlines in convex pieces.

use crate::numerics::outline::sides;

/// Twice the area of a corner's triangle, above zero where the way turns left.
fn turn(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

fn is_convex(outline: &[[f64; 2]]) -> bool {
    let n = outline.len();
    (0..n).all(|i| turn(outline[i], outline[(i + 1) % n], outline[(i + 2) % n]) >= 0.0)
}

/// A simple anticlockwise outline as convex ones: itself, or triangles cut off at its ears. Each with whether the side from
/// each corner to the next is one of the outline's own.
///
/// # References
/// G. H. Meisters, Polygons have ears, American Mathematical Monthly 82 (1975) (from memory).
pub(super) fn convex_pieces(outline: &[[f64; 2]]) -> Vec<(Vec<[f64; 2]>, Vec<bool>)> {
    if is_convex(outline) {
        return vec![(outline.to_vec(), vec![true; outline.len()])];
    }
    let mut left: Vec<usize> = (0..outline.len()).collect();
    let mut pieces = Vec::new();
    while left.len() > 2 {
        let n = left.len();
        let corner = |i: usize| [left[(i + n - 1) % n], left[i], left[(i + 1) % n]];
        // Of a simple outline two ears are left at least; where rounding hides them all the last corner goes.
        let ear = (0..n).find(|&i| is_ear(outline, &left, corner(i))).unwrap_or(n - 1);
        let [a, b, c] = corner(ear);
        if turn(outline[a], outline[b], outline[c]) > 0.0 {
            let own = |from: usize, to: usize| (from + 1) % outline.len() == to;
            pieces.push(([a, b, c].map(|i| outline[i]).to_vec(), vec![own(a, b), own(b, c), own(c, a)]));
        }
        left.remove(ear);
    }
    pieces
}

fn is_ear(outline: &[[f64; 2]], left: &[usize], [a, b, c]: [usize; 3]) -> bool {
    let ear = [a, b, c].map(|i| outline[i]);
    turn(ear[0], ear[1], ear[2]) > 0.0
        && left.iter().filter(|i| ![a, b, c].contains(i)).all(|&i| {
            let p = outline[i];
            !sides(&ear).all(|(from, to)| turn(from, to, p) >= 0.0)
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::outline::signed_area;

    #[test]
    fn an_angled_house_is_cut_into_triangles_that_make_it_up() {
        let house = [[0.0, 0.0], [6.0, 0.0], [6.0, 2.0], [2.0, 2.0], [2.0, 5.0], [0.0, 5.0]];
        let pieces = convex_pieces(&house);
        assert_eq!(pieces.len(), 4);
        let area: f64 = pieces.iter().map(|(piece, _)| signed_area(piece)).sum();
        assert!((area - (6.0 * 2.0 + 2.0 * 3.0)).abs() < 1e-12);
        let own = pieces.iter().flat_map(|(_, own)| own).filter(|own| **own).count();
        assert_eq!(own, 6, "every side of the outline once");
        let square = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
        assert_eq!(convex_pieces(&square), [(square.to_vec(), vec![true; 4])]);
    }
}
