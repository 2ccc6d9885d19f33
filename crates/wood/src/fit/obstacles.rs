//! What a part that is moved must not touch.

use super::convex::Convex;
use super::grove::Grove;

/// Wood and parts that stand in the way.
#[derive(Clone, Debug, Default)]
pub(crate) struct Obstacles<'a> {
    pub(crate) woods: Vec<&'a Grove>,
    pub(crate) parts: Vec<&'a Convex>,
}

impl Obstacles<'_> {
    /// Those whose blocks are nearer to that of a solid than a limit, which each that is asked
    /// may lower; the last limit. Nothing is nearer than 0.
    pub(crate) fn nearer(
        &self,
        to: &Convex,
        mut limit: f64,
        mut ask: impl FnMut(&Convex, f64) -> f64,
    ) -> f64 {
        for part in &self.parts {
            if to.block_distance(part) < limit {
                limit = ask(part, limit);
            }
        }
        for wood in &self.woods {
            limit = wood.nearer(to, limit, &mut ask);
        }
        limit
    }

    /// Whether something is so of an obstacle whose block is nearer to that of a solid than a
    /// limit.
    pub(crate) fn any(&self, to: &Convex, limit: f64, is: impl Fn(&Convex) -> bool) -> bool {
        let ask = |obstacle: &Convex, limit| {
            if is(obstacle) {
                f64::NEG_INFINITY
            } else {
                limit
            }
        };
        self.nearer(to, limit, ask) < 0.0
    }
}
