//! Cholesky factors of a symmetric matrix that is kept by its skyline: of each row the part from its first
//! non-zero to the diagonal. Nothing outside the skyline fills in, so it needs no symbolic phase.
//!
//! # References
//! George & Liu, Computer Solution of Large Sparse Positive Definite Systems (1981), ch. 4 (envelope method);
//! Takahashi, Fagan & Chin, Formation of a sparse bus impedance matrix (PICA 1973), and Erisman & Tinney, Comm. ACM
//! 18 (1975) 177 (entries of the inverse within the factor's pattern). From memory; held against dense inverses below.

use super::least_squares::DMatrix;

/// The lower half of a symmetric matrix, row by row from each row's first column.
#[derive(Debug, Clone, PartialEq)]
pub struct Skyline {
    first: Vec<usize>,
    /// Where each row begins in `cells`, and their end.
    starts: Vec<usize>,
    cells: Vec<f64>,
}

impl Skyline {
    /// A matrix of zeros with the given first column of each row (at most the row itself).
    pub fn zeros(first: Vec<usize>) -> Self {
        let mut starts = vec![0];
        for (row, &column) in first.iter().enumerate() {
            starts.push(starts[row] + row + 1 - column.min(row));
        }
        let first = first.into_iter().enumerate().map(|(row, column)| column.min(row)).collect();
        Self { first, cells: vec![0.0; starts[starts.len() - 1]], starts }
    }

    pub fn size(&self) -> usize {
        self.first.len()
    }

    /// Cells kept.
    pub fn filled(&self) -> usize {
        self.cells.len()
    }

    fn row(&self, row: usize) -> &[f64] {
        &self.cells[self.starts[row]..self.starts[row + 1]]
    }

    /// An entry of the lower or upper half; 0 outside the skyline.
    pub fn get(&self, row: usize, column: usize) -> f64 {
        let (row, column) = (row.max(column), row.min(column));
        if column < self.first[row] { 0.0 } else { self.row(row)[column - self.first[row]] }
    }

    /// Adds to an entry within the skyline; the two halves are one.
    pub fn add(&mut self, row: usize, column: usize, value: f64) {
        let (row, column) = (row.max(column), row.min(column));
        debug_assert!(column >= self.first[row]);
        self.cells[self.starts[row] + column - self.first[row]] += value;
    }

    /// The factor L with L·Lᵀ = this matrix.
    ///
    /// # Errors
    /// The rows whose pivot fell to `least` or below: the matrix is singular there, or not positive definite.
    pub fn cholesky(mut self, least: f64) -> Result<Cholesky, Vec<usize>> {
        let mut bad = Vec::new();
        for i in 0..self.size() {
            let (done, rest) = self.cells.split_at_mut(self.starts[i]);
            let row = &mut rest[..i + 1 - self.first[i]];
            for j in self.first[i]..i {
                let from = self.first[i].max(self.first[j]);
                let theirs = &done[self.starts[j]..self.starts[j + 1]];
                let ours = &row[from - self.first[i]..j - self.first[i]];
                let sum = dot(ours, &theirs[from - self.first[j]..j - self.first[j]]);
                let pivot = theirs[j - self.first[j]];
                row[j - self.first[i]] = (row[j - self.first[i]] - sum) / pivot;
            }
            let diagonal = i - self.first[i];
            let pivot = row[diagonal] - dot(&row[..diagonal], &row[..diagonal]);
            let sound = pivot > least; // NaN is not
            if !sound {
                bad.push(i);
            }
            row[diagonal] = if sound { pivot.sqrt() } else { 1.0 };
        }
        if bad.is_empty() { Ok(Cholesky { l: self }) } else { Err(bad) }
    }
}

/// Four partial sums let the processor work on four products at once; the order is fixed, so results are too.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    let mut sums = [0.0; 4];
    let (mut quads_a, mut quads_b) = (a.chunks_exact(4), b.chunks_exact(4));
    for (x, y) in quads_a.by_ref().zip(quads_b.by_ref()) {
        for k in 0..4 {
            sums[k] += x[k] * y[k];
        }
    }
    let rest = quads_a.remainder().iter().zip(quads_b.remainder()).map(|(x, y)| x * y).sum::<f64>();
    (sums[0] + sums[1]) + (sums[2] + sums[3]) + rest
}

/// y −= factor·x
fn take_away(y: &mut [f64], factor: f64, x: &[f64]) {
    for (y, x) in y.iter_mut().zip(x) {
        *y -= factor * x;
    }
}

/// A Cholesky factor.
#[derive(Debug, Clone, PartialEq)]
pub struct Cholesky {
    l: Skyline,
}

impl Cholesky {
    /// Solves for one right-hand side in place.
    pub fn solve(&self, right: &mut [f64]) {
        for i in 0..self.l.size() {
            let (row, first) = (self.l.row(i), self.l.first[i]);
            let below = i - first;
            right[i] = (right[i] - dot(&row[..below], &right[first..i])) / row[below];
        }
        for i in (0..self.l.size()).rev() {
            let (row, first) = (self.l.row(i), self.l.first[i]);
            let below = i - first;
            right[i] /= row[below];
            let (earlier, this) = right.split_at_mut(i);
            take_away(&mut earlier[first..], this[0], &row[..below]);
        }
    }

    /// The whole inverse.
    ///
    /// # Accuracy
    /// As good as the matrix's condition allows; n²·(mean length of a row) multiplications.
    pub fn inverse(&self) -> DMatrix<f64> {
        let n = self.l.size();
        // The lower half only, row by row: both sweeps keep to it.
        let mut rows: Vec<Vec<f64>> = Vec::with_capacity(n);
        for i in 0..n {
            let (l, first) = (self.l.row(i), self.l.first[i]);
            let mut row = vec![0.0; i + 1];
            row[i] = 1.0;
            for k in first..i {
                take_away(&mut row[..=k], l[k - first], &rows[k]);
            }
            let pivot = l[i - first];
            row.iter_mut().for_each(|cell| *cell /= pivot);
            rows.push(row);
        }
        for i in (0..n).rev() {
            let (l, first) = (self.l.row(i), self.l.first[i]);
            let pivot = l[i - first];
            let (earlier, this) = rows.split_at_mut(i);
            let row = &mut this[0];
            row.iter_mut().for_each(|cell| *cell /= pivot);
            for k in first..i {
                take_away(&mut earlier[k], l[k - first], &row[..=k]);
            }
        }
        DMatrix::from_fn(n, n, |i, j| rows[i.max(j)][i.min(j)])
    }

    /// The inverse's entries within the skyline, and no others: Z = D⁻¹·L⁻¹ + (I − Lᵀ)·Z, from the last row up
    /// (Takahashi 1973). Each entry needs only entries of the skyline, because every row's skyline that reaches a
    /// column reaches all later columns too.
    pub fn selected_inverse(&self) -> Skyline {
        let n = self.l.size();
        let mut below: Vec<Vec<usize>> = vec![Vec::new(); n];
        for row in 0..n {
            for rows in &mut below[self.l.first[row]..row] {
                rows.push(row);
            }
        }
        let mut z = Skyline::zeros(self.l.first.clone());
        for j in (0..n).rev() {
            let pivot = self.l.get(j, j);
            let column: Vec<f64> = below[j].iter().map(|&k| self.l.get(k, j) / pivot).collect();
            let sum = |i: usize, z: &Skyline| -> f64 {
                below[j].iter().zip(&column).map(|(&k, l)| l * z.get(k, i)).sum()
            };
            let found: Vec<f64> = below[j].iter().map(|&i| -sum(i, &z)).collect();
            for (&i, value) in below[j].iter().zip(&found) {
                z.add(i, j, *value);
            }
            let diagonal = 1.0 / (pivot * pivot) - found.iter().zip(&column).map(|(z, l)| z * l).sum::<f64>();
            z.add(j, j, diagonal);
        }
        z
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A positive definite matrix with a ragged skyline.
    fn sample(n: usize) -> (Skyline, DMatrix<f64>) {
        let first: Vec<usize> = (0..n).map(|i| i - (i * 7 % 5).min(i)).collect();
        let mut skyline = Skyline::zeros(first.clone());
        for (i, &from) in first.iter().enumerate() {
            for j in from..i {
                skyline.add(i, j, ((i * 31 + j * 17) % 11) as f64 / 11.0 - 0.5);
            }
            skyline.add(i, i, 6.0 + (i % 3) as f64);
        }
        let dense = DMatrix::from_fn(n, n, |i, j| skyline.get(i, j));
        (skyline, dense)
    }

    #[test]
    fn agrees_with_the_dense_inverse() {
        let (skyline, dense) = sample(23);
        let expected = dense.clone().try_inverse().unwrap();
        let factor = skyline.clone().cholesky(1e-12).unwrap();
        assert!((factor.inverse() - &expected).amax() < 1e-14);
        let selected = factor.selected_inverse();
        for i in 0..23 {
            for j in skyline.first[i]..=i {
                assert!((selected.get(i, j) - expected[(i, j)]).abs() < 1e-14, "{i} {j}");
            }
        }
        let mut right: Vec<f64> = (0..23).map(|i| f64::from(i) - 3.0).collect();
        let solved = &expected * DMatrix::from_column_slice(23, 1, &right);
        factor.solve(&mut right);
        assert!(right.iter().zip(solved.iter()).all(|(a, b)| (a - b).abs() < 1e-13));
    }

    #[test]
    fn rows_that_say_nothing_new_are_named() {
        let mut flat = Skyline::zeros(vec![0, 0, 0]);
        for (i, j, value) in [(0, 0, 1.0), (1, 1, 1.0), (1, 0, 1.0), (2, 2, 2.0)] {
            flat.add(i, j, value);
        }
        assert_eq!(flat.cholesky(1e-12).unwrap_err(), vec![1]);
    }
}
