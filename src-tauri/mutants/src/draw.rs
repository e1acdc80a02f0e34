//! Which mutants are tried: each draws a lot by the seed and by what it is, and the lowest lots are taken. A mutant keeps
//! its lot while other lines of the engine change, so that a draw can be tried again after a mend.

use std::collections::BTreeMap;

use crate::list::Mutant;

/// A mutant with a name that other lines don't change.
#[derive(Debug, Clone)]
pub struct Named {
    pub mutant: Mutant,
    pub key: String,
}

/// Names for mutants: file, change, the line's words, and which of several alike it is.
pub fn named(mutants: Vec<Mutant>, line_of: impl Fn(&Mutant) -> String) -> Vec<Named> {
    let mut alike: BTreeMap<String, usize> = BTreeMap::new();
    mutants
        .into_iter()
        .map(|mutant| {
            let line = line_of(&mutant);
            let plain = format!("{}\n{}\n{line}", mutant.file, mutant.change());
            let count = alike.entry(plain.clone()).or_default();
            *count += 1;
            let key = if *count == 1 {
                plain
            } else {
                format!("{}\n{} #{count}\n{line}", mutant.file, mutant.change())
            };
            Named { mutant, key }
        })
        .collect()
}

/// The first `count` of them by their lots.
pub fn draw(all: &[Named], count: usize, seed: u64) -> Vec<&Named> {
    let mut drawn: Vec<&Named> = all.iter().collect();
    drawn.sort_by_key(|named| (lot(seed, &named.key), named.key.clone()));
    drawn.truncate(count);
    drawn
}

/// FNV-1a with MurmurHash3's last mixing: published constants of two hashes in the public domain (from memory; that the
/// lots are even is tested).
fn lot(seed: u64, key: &str) -> u64 {
    let bytes = seed.to_le_bytes().into_iter().chain(key.bytes());
    let hash = bytes.fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    let mixed = (hash ^ (hash >> 33)).wrapping_mul(0xff51_afd7_ed55_8ccd);
    let mixed = (mixed ^ (mixed >> 33)).wrapping_mul(0xc4ce_b9fe_1a85_ec53);
    mixed ^ (mixed >> 33)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lots_are_even() {
        // 20,000 lots in 16 boxes: 1250 each, five standard deviations of 34 on both sides.
        let mut boxes = [0u32; 16];
        for seed in 0..10 {
            for mutant in 0..2000 {
                boxes[(lot(seed, &format!("a.rs\nreplace - with + in f{mutant}\nx")) >> 60) as usize] += 1;
            }
        }
        assert!(boxes.iter().all(|n| (1080..=1420).contains(n)), "{boxes:?}");
    }

    #[test]
    fn a_lot_depends_on_the_seed() {
        let agree = (0..1000)
            .filter(|i| (lot(1, &i.to_string()) < u64::MAX / 2) == (lot(2, &i.to_string()) < u64::MAX / 2));
        // 500 of 1000 by chance; five standard deviations of 16.
        assert!((420..=580).contains(&agree.count()));
    }
}
