//! Names over (or under) points along a line, in lanes, each joined to its
//! point by a straight upright line that crosses no other name.

/// A name to be placed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Flag {
    /// Where its point is along the line, mm.
    pub(crate) x: f64,
    /// How wide its name is, mm.
    pub(crate) width: f64,
}

/// Where a name came to stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Placed {
    /// Lane, 0 nearest.
    pub(crate) lane: usize,
    /// Where the name starts, mm.
    pub(crate) start: f64,
}

/// Least clear space between two names in one lane, mm.
const GAP: f64 = 1.4;
/// Least clear space between a name and a line that passes it, mm.
const PASS: f64 = 0.4;
/// From a line to the name that stands beside it, mm.
const BESIDE: f64 = 0.8;

impl Placed {
    /// Whether the name stands beside its line, so that the line may run up
    /// along it, rather than over the line's end.
    pub(crate) fn beside(&self, flag: &Flag) -> bool {
        flag.x < self.start - PASS || flag.x > self.start + flag.width + PASS
    }
}

/// Places every name within `from` to `to` in as few lanes as can be found;
/// `None` when there is no way (names wider than the room).
pub(crate) fn place(flags: &[Flag], from: f64, to: f64) -> Option<Vec<Placed>> {
    (1..=flags.len().max(1)).find_map(|lanes| {
        let mut placed = Vec::new();
        let mut tries = 200_000_u32;
        search(flags, from, to, lanes, &mut placed, &mut tries).then_some(placed)
    })
}

fn search(
    flags: &[Flag],
    from: f64,
    to: f64,
    lanes: usize,
    placed: &mut Vec<Placed>,
    tries: &mut u32,
) -> bool {
    let Some(flag) = flags.get(placed.len()) else {
        return true;
    };
    for lane in 0..lanes {
        for start in starts(flag, from, to) {
            *tries = tries.saturating_sub(1);
            let new = Placed { lane, start };
            let clear = placed
                .iter()
                .zip(flags)
                .all(|(old, other)| clear(flag, &new, other, old));
            if clear {
                placed.push(new);
                if *tries > 0 && search(flags, from, to, lanes, placed, tries) {
                    return true;
                }
                placed.pop();
            }
        }
    }
    false
}

/// Centred on the point, then to the right, then to the left of it.
fn starts(flag: &Flag, from: f64, to: f64) -> impl Iterator<Item = f64> {
    let last = to - flag.width;
    let wanted = [
        flag.x - flag.width / 2.0,
        flag.x + BESIDE,
        flag.x - flag.width - BESIDE,
    ];
    wanted
        .into_iter()
        .filter(move |_| last >= from)
        .map(move |s| s.clamp(from, last))
}

fn clear(a: &Flag, pa: &Placed, b: &Flag, pb: &Placed) -> bool {
    let over =
        |flag: &Flag, at: &Placed, x: f64| x > at.start - PASS && x < at.start + flag.width + PASS;
    if pa.lane == pb.lane {
        pa.start + a.width + GAP <= pb.start || pb.start + b.width + GAP <= pa.start
    } else if pa.lane > pb.lane {
        !over(b, pb, a.x)
    } else {
        !over(a, pa, b.x)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn one_lane_is_enough_for_names_far_apart() {
        let flags = [
            Flag {
                x: 10.0,
                width: 8.0,
            },
            Flag {
                x: 40.0,
                width: 8.0,
            },
        ];
        let placed = place(&flags, 0.0, 60.0).unwrap();
        assert!(placed.iter().all(|p| p.lane == 0));
        assert!((placed[0].start - 6.0).abs() < 1e-12, "centred");
    }

    #[test]
    fn lines_that_all_but_coincide_still_get_their_names() {
        for apart in [0.0, 0.1, 0.5, 1.0, 2.0] {
            let flags = [10.0, 10.0 + apart, 10.0 + 2.0 * apart].map(|x| Flag { x, width: 15.0 });
            assert!(place(&flags, 0.0, 100.0).is_some(), "{apart} mm apart");
        }
    }

    #[test]
    fn a_name_wider_than_the_room_has_no_place() {
        assert_eq!(place(&[Flag { x: 1.0, width: 9.0 }], 0.0, 5.0), None);
    }

    proptest! {
        #[test]
        fn names_keep_clear(xs in proptest::collection::vec((0.0_f64..100.0, 3.0_f64..30.0), 1..5)) {
            let flags: Vec<Flag> = xs.iter().map(|&(x, width)| Flag { x, width }).collect();
            if let Some(placed) = place(&flags, 0.0, 100.0) {
                for i in 0..flags.len() {
                    prop_assert!(placed[i].start >= 0.0);
                    prop_assert!(placed[i].start + flags[i].width <= 100.0 + 1e-9);
                    for j in 0..i {
                        prop_assert!(clear(&flags[i], &placed[i], &flags[j], &placed[j]));
                    }
                }
            }
        }
    }
}
