//! Heights: every item level with what it is joined to, as far as its column allows.

use super::frame::{Frame, STEP};
use super::state::State;

/// Which neighbours an item looks to.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Look {
    Left,
    Right,
    Both,
}

/// Stacks every column about one level.
pub(super) fn stack(frame: &Frame, state: &mut State) {
    for column in state.columns.clone() {
        let mut at = 0;
        for (i, item) in column.iter().enumerate() {
            if i > 0 {
                at += frame.apart(column[i - 1], *item);
            }
            state.level[*item] = at;
        }
        let half = at / 2 / STEP * STEP;
        for item in &column {
            state.level[*item] -= half;
        }
    }
}

/// A few looks to both sides: enough to compare orders by.
pub(super) fn roughly(frame: &Frame, state: &mut State) {
    sweep(frame, state, Look::Left);
    sweep(frame, state, Look::Right);
    sweep(frame, state, Look::Both);
}

/// The best heights that repeated looks find.
pub(super) fn finely(frame: &Frame, state: &mut State) {
    let mut best = (state.cost(frame), state.level.clone());
    for round in 0..6 {
        for look in [Look::Left, Look::Both, Look::Right, Look::Both, Look::Both] {
            let turned = match (look, round % 2) {
                (Look::Left, 1) => Look::Right,
                (Look::Right, 1) => Look::Left,
                (other, _) => other,
            };
            sweep(frame, state, turned);
            let cost = state.cost(frame);
            if cost < best.0 {
                best = (cost, state.level.clone());
            }
        }
    }
    state.level = best.1;
}

fn sweep(frame: &Frame, state: &mut State, look: Look) {
    let count = state.columns.len();
    for i in 0..count {
        let column = if look == Look::Right {
            count - 1 - i
        } else {
            i
        };
        settle(frame, state, column, look);
    }
}

/// Neighbours that press against one another, and the levels they wish for.
struct Group {
    wishes: Vec<(i64, i64)>,
    count: usize,
    level: i64,
}

/// Least weighted distance from the wished levels with the order kept (pool adjacent
/// violators with medians).
pub(super) fn settle(frame: &Frame, state: &mut State, column: usize, look: Look) {
    let items = &state.columns[column];
    let mut groups: Vec<Group> = Vec::with_capacity(items.len());
    let mut base = 0;
    for (i, item) in items.iter().enumerate() {
        if i > 0 {
            base += frame.apart(items[i - 1], *item);
        }
        let mut wishes = wishes(frame, state, *item, look);
        if wishes.is_empty() {
            wishes.push((state.level[*item], 1));
        }
        for wish in &mut wishes {
            wish.0 -= base;
        }
        let level = median(&mut wishes);
        groups.push(Group {
            wishes,
            count: 1,
            level,
        });
        while groups.len() > 1 && groups[groups.len() - 2].level > groups[groups.len() - 1].level {
            let last = groups.pop();
            if let (Some(into), Some(last)) = (groups.last_mut(), last) {
                into.wishes.extend(last.wishes);
                into.count += last.count;
                into.level = median(&mut into.wishes);
            }
        }
    }
    let mut base = 0;
    let mut i = 0;
    for group in groups {
        for _ in 0..group.count {
            let item = state.columns[column][i];
            if i > 0 {
                base += frame.apart(state.columns[column][i - 1], item);
            }
            state.level[item] = group.level + base;
            i += 1;
        }
    }
}

fn wishes(frame: &Frame, state: &State, item: usize, look: Look) -> Vec<(i64, i64)> {
    let [left, right] = &frame.links[item];
    let (left, right): (&[_], &[_]) = match look {
        Look::Left => (left, &[]),
        Look::Right => (&[], right),
        Look::Both => (left, right),
    };
    let links = left.iter().chain(right);
    links
        .map(|link| {
            let own = state.below[item][link.own];
            (state.at(link.other) - own, link.weight)
        })
        .collect()
}

/// The lower weighted median.
fn median(wishes: &mut [(i64, i64)]) -> i64 {
    wishes.sort_unstable();
    let total: i64 = wishes.iter().map(|w| w.1).sum();
    let mut sum = 0;
    for (level, weight) in wishes.iter() {
        sum += weight;
        if 2 * sum >= total {
            return *level;
        }
    }
    0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_weighs() {
        assert_eq!(median(&mut [(5, 1), (1, 1), (9, 1)]), 5);
        assert_eq!(median(&mut [(5, 1), (1, 1), (9, 3)]), 9);
        assert_eq!(median(&mut [(4, 1), (2, 1)]), 2);
    }
}
