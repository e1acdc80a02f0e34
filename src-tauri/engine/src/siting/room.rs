//! How much room there is about each possible cell.

/// For each cell that is open how many cells it is from the nearest that is not, by king's moves; 0 for one that is not.
///
/// # References
/// Two sweeps with the chessboard metric are exact: Rosenfeld & Pfaltz, Pattern Recognition 1 (1968) 33–61 (from memory).
pub(super) fn room_cells(open: &[bool], columns: usize) -> Vec<u32> {
    let columns = columns.max(1);
    let rows = open.len() / columns;
    let mut room: Vec<u32> = open.iter().map(|open| if *open { u32::MAX } else { 0 }).collect();
    let at = |room: &[u32], row: isize, column: isize| {
        let inside = row >= 0 && column >= 0 && row < rows as isize && column < columns as isize;
        // Beyond the yard nothing is open.
        if inside { room[row as usize * columns + column as usize] } else { 0 }
    };
    for backwards in [false, true] {
        let sign = if backwards { -1 } else { 1 };
        for step in 0..rows * columns {
            let cell = if backwards { rows * columns - 1 - step } else { step };
            let (row, column) = ((cell / columns) as isize, (cell % columns) as isize);
            let before = [(-1, -1), (-1, 0), (-1, 1), (0, -1)];
            let least = before.map(|(dr, dc)| at(&room, row + sign * dr, column + sign * dc));
            let by_those = least.into_iter().min().unwrap_or(0).saturating_add(1);
            room[cell] = room[cell].min(by_those);
        }
    }
    room
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::random::Random;

    /// Against every closed cell asked one by one.
    #[test]
    fn each_cell_knows_the_nearest_closed_one() {
        let mut random = Random::seeded(3);
        let (columns, rows) = (17_i32, 11_i32);
        let open: Vec<bool> = (0..columns * rows).map(|_| random.even() < 0.93).collect();
        let found = room_cells(&open, columns as usize);
        let closed = |column: i32, row: i32| {
            let inside = (0..columns).contains(&column) && (0..rows).contains(&row);
            !inside || !open[(row * columns + column) as usize]
        };
        for row in 0..rows {
            for column in 0..columns {
                let by_hand = (0..=rows)
                    .find(|&reach| {
                        (-reach..=reach).any(|dr| (-reach..=reach).any(|dc| closed(column + dc, row + dr)))
                    })
                    .unwrap();
                assert_eq!(found[(row * columns + column) as usize], by_hand as u32, "{column} {row}");
            }
        }
        assert!(found.iter().any(|room| *room >= 2));
    }
}
