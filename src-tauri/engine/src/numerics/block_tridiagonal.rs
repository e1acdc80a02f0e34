//! Symmetric block-tridiagonal systems, such as a chain of nodes gives: factorised as L·D·Lᵀ along the chain in
//! time and store proportional to its length.
//!
//! Without pivoting, so that nothing is moved: meant for matrices that are positive definite or nearly so. The
//! signs of D are the signs of the eigenvalues all the same (Sylvester's law of inertia; golub-vanloan, §4.2, §8.1).

/// The number of unknowns of a block that gets loops of fixed length: a node with three movements and three
/// turns.
const USUAL: usize = 6;

/// Values of a symmetric block-tridiagonal matrix, or, once factorised, of its factors.
#[derive(Debug, Clone)]
pub struct BlockTridiagonal {
    sizes: Vec<usize>,
    /// Where a block's unknowns begin among all.
    first: Vec<usize>,
    diagonal_at: Vec<usize>,
    below_at: Vec<usize>,
    /// Diagonal blocks, row by row; only the lower triangles count.
    diagonal: Vec<f64>,
    /// Blocks below the diagonal: rows of block i + 1, columns of block i.
    below: Vec<f64>,
    /// One row block before division by D.
    scratch: Vec<f64>,
}

/// What the signs of D say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inertia {
    /// Number of negative eigenvalues.
    pub negative: usize,
    /// Least ratio of a pivot to the diagonal entry it came from: near nothing where the matrix is nearly
    /// singular.
    pub least_ratio: f64,
}

impl BlockTridiagonal {
    /// A matrix of zeros with blocks of the given sizes.
    pub fn new(sizes: &[usize]) -> Self {
        let (mut first, mut diagonal_at, mut below_at) = (vec![0], vec![0], vec![0]);
        let (mut unknowns, mut diagonal, mut below) = (0, 0, 0);
        for (i, &n) in sizes.iter().enumerate() {
            unknowns += n;
            diagonal += n * n;
            below += n * sizes.get(i + 1).copied().unwrap_or(0);
            first.push(unknowns);
            diagonal_at.push(diagonal);
            below_at.push(below);
        }
        let most = sizes.iter().copied().max().unwrap_or(0);
        Self {
            sizes: sizes.to_vec(),
            first,
            diagonal_at,
            below_at,
            diagonal: vec![0.0; diagonal],
            below: vec![0.0; below],
            scratch: vec![0.0; most * most],
        }
    }

    pub fn unknowns(&self) -> usize {
        self.first[self.sizes.len()]
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
        self.below.fill(0.0);
    }

    /// The diagonal block, row by row.
    pub fn diagonal_mut(&mut self, block: usize) -> &mut [f64] {
        &mut self.diagonal[self.diagonal_at[block]..self.diagonal_at[block + 1]]
    }

    /// The block that couples `block` (columns) with the next one (rows), row by row.
    pub fn below_mut(&mut self, block: usize) -> &mut [f64] {
        &mut self.below[self.below_at[block]..self.below_at[block + 1]]
    }

    /// `self` = a + factor·b, for matrices of the same blocks.
    pub fn set_sum(&mut self, a: &Self, b: &Self, factor: f64) {
        fn sum(to: &mut [f64], a: &[f64], b: &[f64], factor: f64) {
            for ((to, a), b) in to.iter_mut().zip(a).zip(b) {
                *to = a + factor * b;
            }
        }
        sum(&mut self.diagonal, &a.diagonal, &b.diagonal, factor);
        sum(&mut self.below, &a.below, &b.below, factor);
    }

    /// Every diagonal entry times 1 + `share`.
    pub fn stiffen(&mut self, share: f64) {
        for block in 0..self.sizes.len() {
            let n = self.sizes[block];
            for entry in self.diagonal_mut(block).iter_mut().step_by(n + 1) {
                *entry += share * entry.abs();
            }
        }
    }

    /// `product` = matrix × `x`; before factorising only.
    pub fn multiply(&self, x: &[f64], product: &mut [f64]) {
        product.fill(0.0);
        for (block, &n) in self.sizes.iter().enumerate() {
            let at = self.first[block];
            let rows = &self.diagonal[self.diagonal_at[block]..];
            for r in 0..n {
                for c in 0..n {
                    let entry = if c <= r { rows[r * n + c] } else { rows[c * n + r] };
                    product[at + r] += entry * x[at + c];
                }
            }
            let below = &self.below[self.below_at[block]..self.below_at[block + 1]];
            for (r, row) in below.chunks_exact(n).enumerate() {
                for (c, entry) in row.iter().enumerate() {
                    product[at + n + r] += entry * x[at + c];
                    product[at + c] += entry * x[at + n + r];
                }
            }
        }
    }

    /// Replaces the matrix by its factors. A pivot of exactly nothing is taken as the smallest of its block's
    /// scale, positive.
    pub fn factorise(&mut self) -> Inertia {
        let mut inertia = Inertia { negative: 0, least_ratio: f64::INFINITY };
        for block in 0..self.sizes.len() {
            let n = self.sizes[block];
            let m = self.sizes.get(block + 1).copied().unwrap_or(0);
            let (here, next) = self.diagonal[self.diagonal_at[block]..].split_at_mut(n * n);
            let below = &mut self.below[self.below_at[block]..self.below_at[block + 1]];
            // The same steps, with loops of known length where the block is a usual one.
            if n == USUAL && m == USUAL {
                let next = &mut next[..USUAL * USUAL];
                let scratch = &mut self.scratch[..USUAL * USUAL];
                eliminate(here, below, next, scratch, USUAL, USUAL, &mut inertia);
            } else {
                eliminate(here, below, &mut next[..m * m], &mut self.scratch[..m * n], n, m, &mut inertia);
            }
        }
        inertia
    }

    /// Solves with the factors, in place.
    pub fn solve(&self, x: &mut [f64]) {
        let blocks = self.sizes.len();
        for block in 0..blocks {
            let n = self.sizes[block];
            let l = &self.diagonal[self.diagonal_at[block]..self.diagonal_at[block + 1]];
            let below = &self.below[self.below_at[block]..self.below_at[block + 1]];
            let (head, rest) = x[self.first[block]..].split_at_mut(n);
            if n == USUAL {
                forward(l, below, &mut head[..USUAL], rest, USUAL);
            } else {
                forward(l, below, head, rest, n);
            }
        }
        for block in (0..blocks).rev() {
            let n = self.sizes[block];
            let l = &self.diagonal[self.diagonal_at[block]..self.diagonal_at[block + 1]];
            let below = &self.below[self.below_at[block]..self.below_at[block + 1]];
            let (head, rest) = x[self.first[block]..].split_at_mut(n);
            if n == USUAL {
                backward(l, below, &mut head[..USUAL], rest, USUAL);
            } else {
                backward(l, below, head, rest, n);
            }
        }
    }
}

/// Factorises one diagonal block, turns the block below into that of L and takes its share off the next
/// diagonal block.
#[inline(always)]
fn eliminate(
    here: &mut [f64],
    below: &mut [f64],
    next: &mut [f64],
    scratch: &mut [f64],
    n: usize,
    m: usize,
    inertia: &mut Inertia,
) {
    let here = &mut here[..n * n];
    let (below, scratch, next) = (&mut below[..m * n], &mut scratch[..m * n], &mut next[..m * m]);
    // Right-looking: each column, once known, is taken off the columns to its right.
    for j in 0..n {
        let pivot = here[j * n + j];
        let mut d = pivot;
        if d == 0.0 {
            d = f64::MIN_POSITIVE.sqrt();
        }
        inertia.negative += usize::from(d < 0.0);
        here[j * n + j] = d;
        let inverse = 1.0 / d;
        for r in j + 1..n {
            let w = here[r * n + j];
            let l = w * inverse;
            for c in j + 1..=r {
                here[r * n + c] -= l * here[c * n + j];
            }
        }
        for r in j + 1..n {
            here[r * n + j] *= inverse;
        }
        for r in 0..m {
            let w = below[r * n + j];
            for c in j + 1..n {
                below[r * n + c] -= w * here[c * n + j];
            }
            scratch[r * n + j] = w;
            below[r * n + j] = w * inverse;
        }
    }
    for r in 0..m {
        for c in 0..=r {
            let mut sum = 0.0;
            for j in 0..n {
                sum += scratch[r * n + j] * below[c * n + j];
            }
            let before = next[r * m + c];
            next[r * m + c] = before - sum;
            if r == c {
                // How much of the diagonal is left: the loss of digits on the way.
                inertia.least_ratio = inertia.least_ratio.min((before - sum) / before.abs());
            }
        }
    }
}

#[inline(always)]
fn forward(l: &[f64], below: &[f64], head: &mut [f64], rest: &mut [f64], n: usize) {
    let (l, head) = (&l[..n * n], &mut head[..n]);
    for r in 1..n {
        let mut sum = head[r];
        for c in 0..r {
            sum -= l[r * n + c] * head[c];
        }
        head[r] = sum;
    }
    for (row, x) in below.chunks_exact(n).zip(rest) {
        let mut sum = *x;
        for c in 0..n {
            sum -= row[c] * head[c];
        }
        *x = sum;
    }
}

#[inline(always)]
fn backward(l: &[f64], below: &[f64], head: &mut [f64], rest: &[f64], n: usize) {
    let (l, head) = (&l[..n * n], &mut head[..n]);
    for c in 0..n {
        head[c] /= l[c * n + c];
    }
    for (row, x) in below.chunks_exact(n).zip(rest) {
        for c in 0..n {
            head[c] -= row[c] * x;
        }
    }
    for r in (1..n).rev() {
        for c in 0..r {
            head[c] -= l[r * n + c] * head[r];
        }
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
                    blocks.diagonal_mut(block)[r * size + c] = entry;
                    full[(at + r, at + c)] = entry;
                    full[(at + c, at + r)] = entry;
                }
            }
            for r in 0..sizes.get(block + 1).copied().unwrap_or(0) {
                for c in 0..size {
                    let entry = value(at + size + r, at + c);
                    blocks.below_mut(block)[r * size + c] = entry;
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
            let (mut blocks, full) = example(&[6, 6, 8, 10, 6, 6, 3], lift);
            let right = DVector::from_fn(full.nrows(), |i, _| (i % 5) as f64 - 1.7);
            let mut product = vec![0.0; full.nrows()];
            blocks.multiply(right.as_slice(), &mut product);
            assert!((DVector::from_vec(product) - &full * &right).amax() < 1e-12);
            let inertia = blocks.factorise();
            let mut x = right.as_slice().to_vec();
            blocks.solve(&mut x);
            let residual = &full * DVector::from_vec(x) - &right;
            assert!(residual.amax() < 1e-9, "{}", residual.amax());
            let negative = full.symmetric_eigen().eigenvalues.iter().filter(|&&v| v < 0.0).count();
            assert_eq!(inertia.negative, negative, "lift {lift}");
        }
    }
}
