//! Tracks of a channel: which net turns where.

use super::state::Span;

/// Passes over all nets at most.
const PASSES: usize = 8;

/// Tracks of the nets of a channel.
pub(super) struct Tracks {
    /// Track of every net from the left, `None` for one that runs level.
    pub(super) of: Vec<Option<usize>>,
    /// How often lines of the channel cross.
    pub(super) crossings: i64,
    /// How often they had to if no two ends were level.
    pub(super) needed: i64,
}

/// The tracks with the fewest crossings that a search by insertion finds; or, where no
/// order keeps all nets apart, one of those that stand in one another's way.
pub(super) fn tracks(spans: &[Span]) -> Result<Tracks, usize> {
    let turning: Vec<usize> = (0..spans.len()).filter(|i| !spans[*i].is_level()).collect();
    let mut order = sorted(spans, &turning)?;
    for _ in 0..PASSES {
        if !improve(spans, &mut order) {
            break;
        }
    }
    let mut of: Vec<Option<usize>> = vec![None; spans.len()];
    for (place, own) in order.iter().enumerate() {
        let near = |other: &usize| {
            let (a, b) = (&spans[*own], &spans[*other]);
            a.low <= b.high + 1 && b.low <= a.high + 1
        };
        let before = order[..place].iter().filter(|other| near(other));
        let track = before.filter_map(|o| of[*o]).map(|t| t + 1).max();
        of[*own] = Some(track.unwrap_or(0));
    }
    let mut tracks = Tracks {
        of,
        crossings: 0,
        needed: 0,
    };
    for (a, own) in spans.iter().enumerate() {
        for (b, other) in spans.iter().enumerate().take(a) {
            let left = match (tracks.of[a], tracks.of[b]) {
                (Some(x), Some(y)) if x > y => other.crossed(own),
                _ => own.crossed(other),
            };
            tracks.crossings += left;
            tracks.needed += own.crossed(other).min(other.crossed(own));
        }
    }
    Ok(tracks)
}

/// An order in which no net has to lie left of one before it.
fn sorted(spans: &[Span], turning: &[usize]) -> Result<Vec<usize>, usize> {
    let mut left = turning.to_vec();
    let mut out = Vec::with_capacity(left.len());
    while !left.is_empty() {
        let free = left.iter().position(|own| {
            let mut others = left.iter().filter(|o| *o != own);
            others.all(|o| spans[*own].before(&spans[*o]).is_some())
        });
        match free {
            Some(at) => out.push(left.remove(at)),
            None => return Err(stuck(spans, &left)),
        }
    }
    Ok(out)
}

/// A net on a cycle: walks from one to another that has to lie to its left, until one
/// comes again.
fn stuck(spans: &[Span], left: &[usize]) -> usize {
    let mut seen = Vec::new();
    let mut at = left[0];
    while !seen.contains(&at) {
        seen.push(at);
        let mut others = left.iter().filter(|o| **o != at);
        match others.find(|o| spans[at].before(&spans[**o]).is_none()) {
            Some(next) => at = *next,
            None => break,
        }
    }
    at
}

/// Puts nets to better places; whether any moved.
fn improve(spans: &[Span], order: &mut Vec<usize>) -> bool {
    let mut moved = false;
    for from in 0..order.len() {
        let own = order[from];
        let mut others = order.clone();
        others.remove(from);
        // Crossings with all others when it stands before the one in each place.
        let sums: Vec<Option<i64>> = (0..=others.len())
            .map(|place| {
                let pairs = others.iter().enumerate().map(|(i, other)| match i < place {
                    true => spans[*other].before(&spans[own]),
                    false => spans[own].before(&spans[*other]),
                });
                pairs.sum()
            })
            .collect();
        let now = sums[from].unwrap_or(i64::MAX);
        let best = (0..sums.len()).filter_map(|p| Some((sums[p]?, p))).min();
        if let Some((least, place)) = best
            && least < now
        {
            others.insert(place, own);
            *order = others;
            moved = true;
        }
    }
    moved
}
