//! Symmetric block-tridiagonal systems, such as a chain of nodes gives: factorised as L·D·Lᵀ along the chain in
//! time and store proportional to its length.
//!
//! Without pivoting, so that nothing is moved: meant for matrices that are positive definite or nearly so. The
//! signs of D are the signs of the eigenvalues all the same (Sylvester's law of inertia; golub-vanloan, §4.2, §8.1).

use super::real;

/// Values of a symmetric block-tridiagonal matrix, or, once factorised, of its factors.
#[derive(Debug, Clone)]
pub struct BlockTridiagonal {
    sizes: Vec<usize>,
    /// Where a block's unknowns begin among all.
    first: Vec<usize>,
    diagonal_at: Vec<usize>,
    beside_at: Vec<usize>,
    /// Diagonal blocks, row by row; only the upper triangles count. Factorised: D⁻¹ on the diagonal, Lᵀ above.
    diagonal: Vec<f64>,
    /// Blocks beside the diagonal: rows of block i, columns of block i + 1. Factorised: of Lᵀ.
    beside: Vec<f64>,
}

impl BlockTridiagonal {
    /// A matrix of zeros with blocks of the given sizes.
    pub fn new(sizes: &[usize]) -> Self {
        let (mut first, mut diagonal_at, mut beside_at) = (vec![0], vec![0], vec![0]);
        let (mut unknowns, mut diagonal, mut beside) = (0, 0, 0);
        for (i, &n) in sizes.iter().enumerate() {
            unknowns += n;
            diagonal += n * n;
            beside += n * sizes.get(i + 1).copied().unwrap_or(0);
            first.push(unknowns);
            diagonal_at.push(diagonal);
            beside_at.push(beside);
        }
        Self {
            sizes: sizes.to_vec(),
            first,
            diagonal_at,
            beside_at,
            diagonal: vec![0.0; diagonal],
            beside: vec![0.0; beside],
        }
    }

    pub fn unknowns(&self) -> usize {
        self.first[self.sizes.len()]
    }

    /// How many entries are kept: a measure of what factorising and solving cost.
    pub fn entries(&self) -> usize {
        self.diagonal.len() + self.beside.len()
    }

    /// Where a block's unknowns begin among all.
    pub fn first(&self, block: usize) -> usize {
        self.first[block]
    }

    pub fn size(&self, block: usize) -> usize {
        self.sizes[block]
    }

    pub fn clear(&mut self) {
        self.diagonal.fill(0.0);
        self.beside.fill(0.0);
    }

    /// The diagonal block, row by row.
    pub fn diagonal_mut(&mut self, block: usize) -> &mut [f64] {
        &mut self.diagonal[self.diagonal_at[block]..self.diagonal_at[block + 1]]
    }

    /// The block that couples `block` (rows) with the next one (columns), row by row.
    pub fn beside_mut(&mut self, block: usize) -> &mut [f64] {
        &mut self.beside[self.beside_at[block]..self.beside_at[block + 1]]
    }

    /// `self` = a + factor·b, for matrices of the same blocks.
    pub fn set_sum(&mut self, a: &Self, b: &Self, factor: f64) {
        fn sum(to: &mut [f64], a: &[f64], b: &[f64], factor: f64) {
            for ((to, a), b) in to.iter_mut().zip(a).zip(b) {
                *to = a + factor * b;
            }
        }
        sum(&mut self.diagonal, &a.diagonal, &b.diagonal, factor);
        sum(&mut self.beside, &a.beside, &b.beside, factor);
    }

    /// Adds a share of the mean of two unknowns' diagonal entries to both of them; of one's own where they are the same.
    pub fn stiffen(&mut self, a: usize, b: usize, share: f64) {
        let [a, b] = [a, b].map(|unknown| self.diagonal_entry(unknown));
        let more = share * (0.5 * (self.diagonal[a] + self.diagonal[b])).abs();
        self.diagonal[a] += more;
        if b != a {
            self.diagonal[b] += more;
        }
    }

    /// Where an unknown's diagonal entry lies.
    fn diagonal_entry(&self, unknown: usize) -> usize {
        let block = self.first.partition_point(|&first| first <= unknown) - 1;
        self.diagonal_at[block] + (unknown - self.first[block]) * (self.sizes[block] + 1)
    }

    /// Replaces the matrix by its factors and gives the number of negative eigenvalues. A pivot of exactly nothing
    /// is taken as a tiny positive one.
    pub fn factorise(&mut self) -> usize {
        let mut negative = 0;
        for block in 0..self.sizes.len() {
            let n = self.sizes[block];
            let m = self.sizes.get(block + 1).copied().unwrap_or(0);
            let (here, next) = self.diagonal[self.diagonal_at[block]..].split_at_mut(n * n);
            let beside = &mut self.beside[self.beside_at[block]..self.beside_at[block + 1]];
            // The same steps every time, with loops of known length for the usual blocks: a node alone (6), and
            // where one tube bears on another (8 and 10), tubes run down into one another (7 and 8), and two nodes beside
            // each other (12).
            negative += match (n, m) {
                (6, 6) => eliminate(here, beside, next, 6, 6),
                (6, 8) => eliminate(here, beside, next, 6, 8),
                (7, 7) => eliminate(here, beside, next, 7, 7),
                (8, 8) => eliminate(here, beside, next, 8, 8),
                (8, 10) => eliminate(here, beside, next, 8, 10),
                (10, 6) => eliminate(here, beside, next, 10, 6),
                (12, 12) => eliminate(here, beside, next, 12, 12),
                (18, 18) => eliminate(here, beside, next, 18, 18),
                _ => eliminate(here, beside, next, n, m),
            };
        }
        negative
    }

    /// Of what was factorised: the logarithm of its determinant's size.
    pub fn log_determinant(&self) -> f64 {
        let blocks = (0..self.sizes.len()).map(|block| {
            let (n, here, _) = self.factor(block);
            // One logarithm for four pivots: their product is far from what a number can hold.
            let inverse = |j: usize| here[j * (n + 1)].abs();
            let fours = (0..n).step_by(4).map(|j| real::ln((j..n.min(j + 4)).map(inverse).product()));
            fours.sum::<f64>()
        });
        -blocks.sum::<f64>()
    }

    /// Solves with the factors, in place.
    pub fn solve(&self, x: &mut [f64]) {
        for block in 0..self.sizes.len() {
            let (n, here, beside) = self.factor(block);
            let (head, rest) = x[self.first[block]..].split_at_mut(n);
            let m = beside.len() / n;
            match (n, m) {
                (6, 6) => forward_usual(here, beside, head, rest),
                (12, 12) => forward(here, beside, head, rest, 12, 12),
                _ => forward(here, beside, head, rest, n, m),
            }
        }
        for block in (0..self.sizes.len()).rev() {
            let (n, here, beside) = self.factor(block);
            let (head, rest) = x[self.first[block]..].split_at_mut(n);
            let m = beside.len() / n;
            match (n, m) {
                (6, 6) => backward_usual(here, beside, head, rest),
                (12, 12) => backward(here, beside, head, rest, 12, 12),
                _ => backward(here, beside, head, rest, n, m),
            }
        }
    }

    fn factor(&self, block: usize) -> (usize, &[f64], &[f64]) {
        let here = &self.diagonal[self.diagonal_at[block]..self.diagonal_at[block + 1]];
        (self.sizes[block], here, &self.beside[self.beside_at[block]..self.beside_at[block + 1]])
    }
}

/// Gauss's elimination of one block's rows from those below them, within the block and in the next one's diagonal.
#[inline(always)]
fn eliminate(here: &mut [f64], beside: &mut [f64], next: &mut [f64], n: usize, m: usize) -> usize {
    let (here, beside, next) = (&mut here[..n * n], &mut beside[..n * m], &mut next[..m * m]);
    let mut negative = 0;
    for j in 0..n {
        let (above, below) = here.split_at_mut((j + 1) * n);
        let row = &mut above[j * n..];
        let (beside_above, beside_below) = beside.split_at_mut((j + 1) * m);
        let beside_row = &mut beside_above[j * m..];
        let d = if row[j] == 0.0 { f64::MIN_POSITIVE.sqrt() } else { row[j] };
        negative += usize::from(d < 0.0);
        let inverse = 1.0 / d;
        let pivot_row = &row[..n];
        for r in j + 1..n {
            let l = pivot_row[r] * inverse;
            let lower = &mut below[(r - j - 1) * n..(r - j) * n];
            subtract_row(&mut lower[r..], &pivot_row[r..], l);
            let lower = &mut beside_below[(r - j - 1) * m..(r - j) * m];
            subtract_row(lower, &beside_row[..m], l);
        }
        // Whole rows of the next block, though its upper triangle would do: two entries go at a time.
        for r in 0..m {
            let l = beside_row[r] * inverse;
            subtract_row(&mut next[r * m..(r + 1) * m], &beside_row[..m], l);
        }
        row[j] = inverse;
        row[j + 1..].iter_mut().chain(beside_row).for_each(|entry| *entry *= inverse);
    }
    negative
}

/// Takes `factor` times a row from another.
#[inline(always)]
fn subtract_row(from: &mut [f64], row: &[f64], factor: f64) {
    for (to, entry) in from.iter_mut().zip(row) {
        *to -= factor * entry;
    }
}

/// [`forward`] with two blocks of six held in registers.
fn forward_usual(here: &[f64], beside: &[f64], head: &mut [f64], rest: &mut [f64]) {
    let (mut h, mut r) = ([0.0; 6], [0.0; 6]);
    h.copy_from_slice(&head[..6]);
    r.copy_from_slice(&rest[..6]);
    forward(here, beside, &mut h, &mut r, 6, 6);
    head[..6].copy_from_slice(&h);
    rest[..6].copy_from_slice(&r);
}

fn backward_usual(here: &[f64], beside: &[f64], head: &mut [f64], rest: &[f64]) {
    let (mut h, mut r) = ([0.0; 6], [0.0; 6]);
    h.copy_from_slice(&head[..6]);
    r.copy_from_slice(&rest[..6]);
    backward(here, beside, &mut h, &r, 6, 6);
    head[..6].copy_from_slice(&h);
}

#[inline(always)]
fn forward(here: &[f64], beside: &[f64], head: &mut [f64], rest: &mut [f64], n: usize, m: usize) {
    let (here, beside, head, rest) = (&here[..n * n], &beside[..n * m], &mut head[..n], &mut rest[..m]);
    for j in 0..n {
        let x = head[j];
        for c in j + 1..n {
            head[c] -= here[j * n + c] * x;
        }
        for c in 0..m {
            rest[c] -= beside[j * m + c] * x;
        }
    }
}

#[inline(always)]
fn backward(here: &[f64], beside: &[f64], head: &mut [f64], rest: &[f64], n: usize, m: usize) {
    let (here, beside, head, rest) = (&here[..n * n], &beside[..n * m], &mut head[..n], &rest[..m]);
    for j in (0..n).rev() {
        let mut x = head[j] * here[j * n + j];
        for c in 0..m {
            x -= beside[j * m + c] * rest[c];
        }
        for c in j + 1..n {
            x -= here[j * n + c] * head[c];
        }
        head[j] = x;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::{DMatrix, DVector};

    /// A filled matrix, the same as a full one, with `lift` on its diagonal.
    fn example(sizes: &[usize], lift: f64) -> (BlockTridiagonal, DMatrix<f64>) {
        let mut blocks = BlockTridiagonal::new(sizes);
        let n = blocks.unknowns();
        let mut full = DMatrix::zeros(n, n);
        let value = |r: usize, c: usize| (((r * 7 + c * 13) % 11) as f64 - 5.0) / 10.0;
        for block in 0..sizes.len() {
            let (size, at) = (sizes[block], blocks.first(block));
            for r in 0..size {
                for c in 0..=r {
                    let entry = value(at + r, at + c) + if r == c { lift } else { 0.0 };
                    blocks.diagonal_mut(block)[c * size + r] = entry;
                    full[(at + r, at + c)] = entry;
                    full[(at + c, at + r)] = entry;
                }
            }
            let next = sizes.get(block + 1).copied().unwrap_or(0);
            for r in 0..next {
                for c in 0..size {
                    let entry = value(at + size + r, at + c);
                    blocks.beside_mut(block)[c * next + r] = entry;
                    full[(at + size + r, at + c)] = entry;
                    full[(at + c, at + size + r)] = entry;
                }
            }
        }
        (blocks, full)
    }

    /// Against nalgebra's full solver and eigenvalues.
    #[test]
    fn agrees_with_the_full_matrix() {
        for lift in [5.0, 1.0, 0.3] {
            let (mut blocks, full) = example(&[6, 6, 8, 10, 6, 12, 7, 7, 8, 8, 3], lift);
            let right = DVector::from_fn(full.nrows(), |i, _| (i % 5) as f64 - 1.7);
            let found = blocks.factorise();
            let logarithm = real::ln(full.determinant().abs());
            assert!((blocks.log_determinant() - logarithm).abs() < 1e-9 * logarithm.abs(), "lift {lift}");
            let mut x = right.as_slice().to_vec();
            blocks.solve(&mut x);
            let residual = &full * DVector::from_vec(x) - &right;
            assert!(residual.amax() < 1e-9, "{}", residual.amax());
            let negative = full.symmetric_eigen().eigenvalues.iter().filter(|&&v| v < 0.0).count();
            assert_eq!(found, negative, "lift {lift}");
        }
    }
}
