//! An order of unknowns that keeps a sparse symmetric matrix near its diagonal.

use std::collections::VecDeque;

/// Reverse Cuthill–McKee order of a graph given by each node's neighbours: `order[k]` is the node at place k.
///
/// Each connected part is numbered outwards, ring by ring, from a node at its rim, and the whole order is then
/// turned round: the width stays, but a node with many neighbours comes after them and fills in less.
///
/// # References
/// Cuthill & McKee, Reducing the bandwidth of sparse symmetric matrices, Proc. 24th ACM Conf. (1969); George & Liu,
/// Computer Solution of Large Sparse Positive Definite Systems (1981), 4.3 (reversal, rim node). From memory.
pub fn reverse_cuthill_mckee(neighbours: &[Vec<usize>]) -> Vec<usize> {
    let degree = |node: usize| neighbours.get(node).map_or(0, Vec::len);
    let mut seen = vec![false; neighbours.len()];
    let mut order = Vec::with_capacity(neighbours.len());
    let mut by_degree: Vec<usize> = (0..neighbours.len()).collect();
    by_degree.sort_by_key(|&node| (degree(node), node));
    for &start in &by_degree {
        if seen[start] {
            continue;
        }
        let part = walk(neighbours, rim_node(neighbours, start), &mut seen);
        order.extend(part.into_iter().flatten());
    }
    order.reverse();
    order
}

/// A node from which the graph is about as many rings deep as it can be.
fn rim_node(neighbours: &[Vec<usize>], start: usize) -> usize {
    let (mut best, mut depth) = (start, 0);
    // Each round goes to the far side; it deepens two or three times in practice.
    for _ in 0..8 {
        let rings = walk(neighbours, best, &mut vec![false; neighbours.len()]);
        if rings.len() <= depth {
            break;
        }
        depth = rings.len();
        let last = rings.last().into_iter().flatten().copied();
        best = last.min_by_key(|&node| (neighbours[node].len(), node)).unwrap_or(best);
    }
    best
}

/// The rings of nodes round a start, those of few neighbours first.
fn walk(neighbours: &[Vec<usize>], start: usize, seen: &mut [bool]) -> Vec<Vec<usize>> {
    let mut rings: Vec<Vec<usize>> = Vec::new();
    let mut queue = VecDeque::from([(start, 0)]);
    seen[start] = true;
    while let Some((node, ring)) = queue.pop_front() {
        if rings.len() <= ring {
            rings.push(Vec::new());
        }
        rings[ring].push(node);
        let mut next: Vec<usize> = neighbours[node].iter().copied().filter(|&n| !seen[n]).collect();
        next.sort_by_key(|&n| (neighbours[n].len(), n));
        next.dedup();
        for n in next {
            seen[n] = true;
            queue.push_back((n, ring + 1));
        }
    }
    rings
}

#[cfg(test)]
mod tests {
    use super::*;

    fn width(neighbours: &[Vec<usize>], order: &[usize]) -> usize {
        let mut place = vec![0; order.len()];
        order.iter().enumerate().for_each(|(k, &node)| place[node] = k);
        let of = |(node, near): (usize, &Vec<usize>)| {
            near.iter().map(|&n| place[n].abs_diff(place[node])).max().unwrap_or(0)
        };
        neighbours.iter().enumerate().map(of).max().unwrap_or(0)
    }

    #[test]
    fn a_shuffled_chain_becomes_a_chain() {
        // 0–3–1–4–2
        let neighbours = vec![vec![3], vec![3, 4], vec![4], vec![0, 1], vec![1, 2]];
        let order = reverse_cuthill_mckee(&neighbours);
        assert_eq!(width(&neighbours, &order), 1);
    }

    #[test]
    fn every_node_comes_once_whatever_the_graph() {
        let neighbours = vec![vec![], vec![2], vec![1], vec![4, 5], vec![3, 5], vec![3, 4], vec![]];
        let mut order = reverse_cuthill_mckee(&neighbours);
        order.sort_unstable();
        assert_eq!(order, (0..7).collect::<Vec<_>>());
    }

    #[test]
    fn the_hub_of_a_star_comes_near_the_end() {
        let mut neighbours = vec![vec![0]; 9];
        neighbours[0] = (1..9).collect();
        let order = reverse_cuthill_mckee(&neighbours);
        assert!(order.iter().position(|&node| node == 0).unwrap() >= 7);
    }
}
