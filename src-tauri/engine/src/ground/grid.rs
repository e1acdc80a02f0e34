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
