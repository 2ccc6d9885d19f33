//! Which build is meant: the nominal one, or one drawn within the tolerances.

/// One point of the space of builds.
#[derive(Clone, Debug, PartialEq)]
pub enum Draw {
    /// Every value at its nominal.
    Nominal,
    /// One number in 0..1 for each cause.
    Point(Vec<f64>),
}

/// Fixed seed: same file, same answer.
const SEED: u32 = 0x0b0c_5eed;

/// The `index`-th build of a design with so many causes, by a scrambled Sobol
/// sequence (`burley-2020`) with a fixed seed.
#[must_use]
pub fn draw(index: u32, dimensions: usize) -> Draw {
    Draw::Point(
        (0..dimensions)
            .map(|dimension| {
                let (set, dimension) = (dimension / DIMENSIONS, dimension % DIMENSIONS);
                let seed = SEED.wrapping_add(u32::try_from(set).unwrap_or(u32::MAX));
                let dimension = u32::try_from(dimension).unwrap_or(0);
                f64::from(sobol_burley::sample(index, dimension, seed))
            })
            .collect(),
    )
}

/// Dimensions of one Sobol set; more causes than that take a second, independently scrambled set.
const DIMENSIONS: usize = sobol_burley::NUM_DIMENSIONS as usize;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_index_gives_the_same_build() {
        assert_eq!(draw(17, 40), draw(17, 40));
        assert_ne!(draw(17, 40), draw(18, 40));
    }

    #[test]
    fn fills_every_tenth_of_every_dimension_evenly() {
        for dimension in [0, 1, 7, 39, 300] {
            let mut tenths = [0_u32; 10];
            for index in 0..1000 {
                let Draw::Point(point) = draw(index, dimension + 1) else {
                    panic!("a drawn build is a point");
                };
                tenths[(point[dimension] * 10.0) as usize] += 1;
            }
            assert!(
                tenths.iter().all(|&n| (90..=110).contains(&n)),
                "{dimension}: {tenths:?}"
            );
        }
    }
}
