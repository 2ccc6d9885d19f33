//! Small circuits against every order there is.

use crate::systems::{Dice, Maker};
use boxwright_wiring::diagram::{Circuit, Rules, lay_out};

/// Blocks that give on the left, blocks that take on the right, and lines between them.
struct Two {
    circuit: Circuit,
    lines: Vec<[usize; 2]>,
    sides: [usize; 2],
}

fn two(seed: u64, sides: [usize; 2], lines: usize) -> Two {
    let mut dice = Dice::new(seed);
    // Every block has a line, the others fall where they will.
    let longest = sides[0].max(sides[1]);
    let mut ends: Vec<[usize; 2]> = (0..longest).map(|i| [i % sides[0], i % sides[1]]).collect();
    ends.extend((longest..lines).map(|_| [dice.roll(sides[0]), dice.roll(sides[1])]));
    let count = |side: usize, block: usize| ends.iter().filter(|l| l[side] == block).count();
    let mut maker = Maker::default();
    let given: Vec<usize> = (0..sides[0]).map(|b| maker.block(0, count(0, b))).collect();
    let taken: Vec<usize> = (0..sides[1]).map(|b| maker.block(count(1, b), 0)).collect();
    let mut used = [vec![0; sides[0]], vec![0; sides[1]]];
    for [a, b] in &ends {
        maker.net(true, &[(given[*a], used[0][*a]), (taken[*b], used[1][*b])]);
        used[0][*a] += 1;
        used[1][*b] += 1;
    }
    Two {
        circuit: maker.circuit,
        lines: ends,
        sides,
    }
}

fn orders(count: usize) -> Vec<Vec<usize>> {
    if count == 0 {
        return vec![Vec::new()];
    }
    let shorter = orders(count - 1).into_iter();
    shorter
        .flat_map(|order| {
            (0..count).map(move |at| {
                let mut longer = order.clone();
                longer.insert(at, count - 1);
                longer
            })
        })
        .collect()
}

/// The fewest crossings of all orders of the blocks: two lines cross when their ends
/// change sides; lines that share a block need not, since its ports may change places.
fn fewest(two: &Two) -> usize {
    let right = orders(two.sides[1]);
    let all = orders(two.sides[0]);
    let pairs = all.iter().flat_map(|l| right.iter().map(move |r| (l, r)));
    pairs
        .map(|(l, r)| {
            let place = |order: &Vec<usize>, block| order.iter().position(|b| *b == block);
            let ends: Vec<_> = (two.lines.iter())
                .map(|[a, b]| (place(l, *a), place(r, *b)))
                .collect();
            let mut crossed = 0;
            for (i, p) in ends.iter().enumerate() {
                let turned = |q: &&(Option<usize>, Option<usize>)| {
                    (p.0 < q.0 && p.1 > q.1) || (p.0 > q.0 && p.1 < q.1)
                };
                crossed += ends[..i].iter().filter(turned).count();
            }
            crossed
        })
        .min()
        .unwrap_or(0)
}

#[test]
fn small_circuits_are_drawn_with_the_fewest_crossings() {
    let (mut all, mut more, mut exact) = (0, 0, 0);
    for seed in 0..60 {
        let sides = [2 + seed as usize % 4, 2 + seed as usize / 4 % 4];
        let two = two(seed, sides, 4 + seed as usize % 6);
        let drawn = lay_out(&two.circuit, &Rules::default());
        let least = fewest(&two);
        let over = drawn.crossings.checked_sub(least);
        let over = over.expect("no order has fewer crossings than the fewest");
        more += over;
        exact += usize::from(over == 0);
        all += least;
    }
    assert_eq!(
        exact, 60,
        "{more} crossings more than the {all} that need be"
    );
    assert!(all > 20, "the circuits are too easy: {all} crossings");
}
