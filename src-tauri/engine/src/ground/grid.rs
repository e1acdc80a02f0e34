//! A uniform grid of buckets over triangles, for finding the one under a point or those along a line.

/// Which triangles touch each cell, as one flat list with a start per cell.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    low: [f64; 2],
    cell_m: f64,
    columns: usize,
    rows: usize,
    start: Vec<u32>,
    items: Vec<u32>,
}

/// Lowest and highest corner.
pub(super) type Box2 = [[f64; 2]; 2];

/// More entries than this for each triangle and the cells are made larger: long slivers touch many cells.
const ENTRIES_PER_TRIANGLE: usize = 12;

impl Grid {
    /// The grid for triangles with these boxes, about two triangles a cell.
    pub fn new(boxes: &[Box2]) -> Self {
        let [low, high] = bounds(boxes);
        let (width, height) = (high[0] - low[0], high[1] - low[1]);
        let wanted = (boxes.len() as f64 / 2.0).max(1.0);
        let longest = width.max(height).max(1e-6);
        // Square cells; a long thin yard is cut along its length only.
        let mut cell_m = (width * height / wanted).sqrt().max(longest / (2.0 * wanted));
        loop {
            let columns = (width / cell_m).floor() as usize + 1;
            let rows = (height / cell_m).floor() as usize + 1;
            let grid = Self { low, cell_m, columns, rows, start: Vec::new(), items: Vec::new() };
            let entries: usize = boxes.iter().map(|bounds| grid.cell_count(bounds)).sum();
            if entries <= ENTRIES_PER_TRIANGLE * boxes.len() + 16 || grid.columns * grid.rows == 1 {
                return grid.filled(boxes);
            }
            cell_m *= 2.0;
        }
    }

    fn filled(mut self, boxes: &[Box2]) -> Self {
        let mut start = vec![0_u32; self.columns * self.rows + 1];
        for bounds in boxes {
            self.each_cell(bounds, |cell| start[cell + 1] += 1);
        }
        for cell in 1..start.len() {
            start[cell] += start[cell - 1];
        }
        let mut next = start.clone();
        let mut items = vec![0_u32; start.last().copied().unwrap_or(0) as usize];
        for (triangle, bounds) in boxes.iter().enumerate() {
            self.each_cell(bounds, |cell| {
                items[next[cell] as usize] = triangle as u32;
                next[cell] += 1;
            });
        }
        (self.start, self.items) = (start, items);
        self
    }

    /// Triangles whose box touches the cell of a point; empty outside the grid.
    pub fn at(&self, point: [f64; 2]) -> &[u32] {
        let (x, y) = ((point[0] - self.low[0]) / self.cell_m, (point[1] - self.low[1]) / self.cell_m);
        let inside = x >= 0.0 && y >= 0.0 && x < self.columns as f64 && y < self.rows as f64;
        if inside { self.cell(y as usize * self.columns + x as usize) } else { &[] }
    }

    /// Triangles whose box touches a cell that the line from `a` to `b` passes, each once, in order.
    pub fn along(&self, a: [f64; 2], b: [f64; 2]) -> Vec<u32> {
        let (a, b) = if a[0] <= b[0] { (a, b) } else { (b, a) };
        let mut found = Vec::new();
        let slack = 1e-6 * self.cell_m;
        for column in self.column(a[0] - slack)..=self.column(b[0] + slack) {
            let west = self.low[0] + column as f64 * self.cell_m - slack;
            let east = west + self.cell_m + 2.0 * slack;
            let (y0, y1) = (height_at(a, b, west), height_at(a, b, east));
            let (y0, y1) = if b[0] - a[0] > slack { (y0, y1) } else { (a[1], b[1]) };
            for row in self.row(y0.min(y1) - slack)..=self.row(y0.max(y1) + slack) {
                found.extend_from_slice(self.cell(row * self.columns + column));
            }
        }
        found.sort_unstable();
        found.dedup();
        found
    }

    fn cell(&self, cell: usize) -> &[u32] {
        match (self.start.get(cell), self.start.get(cell + 1)) {
            (Some(&from), Some(&to)) => self.items.get(from as usize..to as usize).unwrap_or(&[]),
            _ => &[],
        }
    }

    fn column(&self, x: f64) -> usize {
        (((x - self.low[0]) / self.cell_m).max(0.0) as usize).min(self.columns - 1)
    }

    fn row(&self, y: f64) -> usize {
        (((y - self.low[1]) / self.cell_m).max(0.0) as usize).min(self.rows - 1)
    }

    fn cell_count(&self, [low, high]: &Box2) -> usize {
        (self.column(high[0]) - self.column(low[0]) + 1) * (self.row(high[1]) - self.row(low[1]) + 1)
    }

    fn each_cell(&self, [low, high]: &Box2, mut visit: impl FnMut(usize)) {
        for row in self.row(low[1])..=self.row(high[1]) {
            for column in self.column(low[0])..=self.column(high[0]) {
                visit(row * self.columns + column);
            }
        }
    }
}

/// y of the line from `a` to `b` at `x`, kept within the line's ends.
fn height_at(a: [f64; 2], b: [f64; 2], x: f64) -> f64 {
    let share = ((x - a[0]) / (b[0] - a[0])).clamp(0.0, 1.0);
    a[1] + share * (b[1] - a[1])
}

fn bounds(boxes: &[Box2]) -> Box2 {
    let nothing = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    let all = boxes.iter().fold(nothing, |[low, high], [l, h]| {
        [[low[0].min(l[0]), low[1].min(l[1])], [high[0].max(h[0]), high[1].max(h[1])]]
    });
    if boxes.is_empty() { [[0.0; 2]; 2] } else { all }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whether a segment passes a rectangle: clipped by its four sides one after the other (Liang & Barsky's way, written
    /// from the geometry).
    fn passes(a: [f64; 2], b: [f64; 2], [low, high]: Box2) -> bool {
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for k in 0..2 {
            let way = b[k] - a[k];
            let (mut near, mut far) = ((low[k] - a[k]) / way, (high[k] - a[k]) / way);
            if way == 0.0 {
                if a[k] < low[k] || a[k] > high[k] {
                    return false;
                }
                continue;
            }
            if near > far {
                std::mem::swap(&mut near, &mut far);
            }
            (enters, leaves) = (enters.max(near), leaves.min(far));
        }
        enters <= leaves
    }

    /// Sixty small boxes strewn about by a rule; along forty lines between them the grid gives just those that touch a cell
    /// which the line passes, and above forty points those that touch the point's cell.
    #[test]
    fn along_a_line_are_those_of_the_cells_it_passes() {
        let strewn = |i: u32, k: f64| (f64::from(i) * k).fract();
        let boxes: Vec<Box2> = (0..60)
            .map(|i| {
                let low = [20.0 * strewn(i, 0.618_034), 9.0 * strewn(i, 0.414_214)];
                [low, [low[0] + 0.3 + strewn(i, 0.732_051), low[1] + 0.3 + strewn(i, 0.236_068)]]
            })
            .collect();
        let grid = Grid::new(&boxes);
        assert!(grid.columns > 4 && grid.rows > 2);
        let cell = |column: usize, row: usize| -> Box2 {
            let low = [grid.low[0] + column as f64 * grid.cell_m, grid.low[1] + row as f64 * grid.cell_m];
            [low, low.map(|at| at + grid.cell_m)]
        };
        let touching = |cells: &dyn Fn(Box2) -> bool| -> Vec<u32> {
            let touches = |b: &Box2, c: Box2| (0..2).all(|k| b[0][k] <= c[1][k] && c[0][k] <= b[1][k]);
            let all: Vec<Box2> = (0..grid.columns)
                .flat_map(|column| (0..grid.rows).map(move |row| (column, row)))
                .map(|(column, row)| cell(column, row))
                .filter(|c| cells(*c))
                .collect();
            let found = (0..60).filter(|&i| all.iter().any(|c| touches(&boxes[i as usize], *c)));
            found.collect()
        };
        let within = |i: u32, k: f64| [0.2 + 19.6 * strewn(i, k), 0.2 + 8.6 * strewn(i, 1.7 * k)];
        for i in 0..40 {
            let (a, b) = (within(i + 3, 0.317_837), within(i + 7, 0.556_393));
            assert_eq!(grid.along(a, b), touching(&|c| passes(a, b, c)), "{a:?} to {b:?}");
            assert_eq!(grid.along(b, a), grid.along(a, b));
            // Straight up, along one column, too.
            let above = [a[0], b[1]];
            assert_eq!(grid.along(a, above), touching(&|c| passes(a, above, c)), "{a:?} up");
            let mut here = grid.at(a).to_vec();
            here.sort_unstable();
            assert_eq!(here, touching(&|c| passes(a, a, c)));
        }
    }

    /// A line on the bound of two rows, or two columns, passes both.
    #[test]
    fn a_line_on_a_bound_passes_both_sides() {
        // Eight boxes in cells of 1 m, each well within its own: area 4 by 2 over half of eight is 2 m², so cells of √2 m;
        // the bounds lie where the grid says.
        let middles = (0..4).flat_map(|x| (0..2).map(move |y| [0.5 + f64::from(x), 0.5 + f64::from(y)]));
        let boxes: Vec<Box2> = middles.map(|at| [at.map(|m: f64| m - 0.5), at.map(|m| m + 0.5)]).collect();
        let mut grid = Grid::new(&boxes);
        (grid.cell_m, grid.columns, grid.rows) = (1.0, 4, 2);
        let apart: Vec<Box2> =
            boxes.iter().map(|[low, high]| [low.map(|at| at + 0.1), high.map(|at| at - 0.1)]).collect();
        let grid = grid.filled(&apart);
        assert_eq!(grid.along([0.2, 1.0], [2.8, 1.0]), [0, 1, 2, 3, 4, 5]);
        assert_eq!(grid.along([2.0, 0.2], [2.0, 1.8]), [2, 3, 4, 5]);
        assert_eq!(grid.along([0.2, 0.5], [2.8, 0.5]), [0, 2, 4]);
    }
}
