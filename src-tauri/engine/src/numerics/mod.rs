//! Numerical methods that know nothing of masts: elementary functions, roots, least squares.

pub mod block_tridiagonal;
pub mod certified;
pub mod chi_square;
pub mod highest_of_normals;
pub mod least_squares;
pub mod lower_root;
pub mod ordering;
pub mod outline;
pub mod product;
pub mod random;
pub mod real;
pub mod roots;
pub mod skyline;
pub mod vector;
