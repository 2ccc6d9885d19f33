//! What is played: the spectrum and the crest factor of programme material.

use core::f64::consts::{FRAC_2_PI, LN_10, PI};

use crate::math::{db_power, ln, pow, power_from_db};

/// Third-octave bands from 20 Hz to 20 kHz.
pub const BANDS: usize = 31;

/// Mean |current| over rms current of a sine.
pub const SINE_MEAN_TO_RMS: f64 = 2.0 * core::f64::consts::SQRT_2 / PI;

/// Long-term spectrum and crest factor of one kind of programme.
#[derive(Clone, Debug, PartialEq)]
pub struct ProgrammeSpectrum {
    /// What it is, in words.
    pub name: &'static str,
    /// Peak over long-term rms in dB.
    pub crest_db: f64,
    /// Share of the power in each third-octave band, at the exact midbands of
    /// [`midband`]; the sum is 1.
    pub bands: [f64; BANDS],
    /// Where spectrum and crest factor come from.
    pub source: &'static str,
}

/// Exact midband frequency in Hz of band `index`: 1000·10^((index − 17)/10),
/// 20 Hz to 20 kHz by label.
#[must_use]
pub fn midband(index: usize) -> f64 {
    1000.0 * pow(10.0, (index as f64 - 17.0) / 10.0)
}

/// Mean |current| over rms current of noise with a normal distribution, √(2/π):
/// close for music and speech that do not clip.
#[must_use]
pub fn noise_mean_to_rms() -> f64 {
    FRAC_2_PI.sqrt()
}

/// Long-term mean power over the power of a sine with the same peak:
/// 10^((3.0103 − crest)/10).
#[must_use]
pub fn power_below_sine(crest_db: f64) -> f64 {
    2.0 / power_from_db(crest_db)
}

impl ProgrammeSpectrum {
    /// Music as recorded: flat in third octaves between 100 Hz and 1 kHz,
    /// falling towards both ends.
    #[must_use]
    pub fn music() -> Self {
        Self::from_levels(
            "music as recorded",
            12.0,
            &MUSIC_DB,
            "spectrum: programme-simulating noise of iec-60268-1, from memory, rounded to 0.5 dB; \
             crest factor: common practice for popular music, no source",
        )
    }

    /// Speech, mean of women's and men's voices over many languages.
    #[must_use]
    pub fn speech() -> Self {
        Self::from_levels(
            "speech",
            15.0,
            &SPEECH_DB,
            "spectrum: byrne-1994, from memory (63 Hz to 16 kHz); \
             crest factor: speech peaks of ansi-s3.5, from memory",
        )
    }

    /// Popular music squeezed by a limiter.
    #[must_use]
    pub fn squashed_music() -> Self {
        Self::from_levels(
            "music squashed by a limiter",
            9.0,
            &SQUASHED_DB,
            "spectrum: smooth law after pestana-2013, from memory (fullest near 70 Hz, \
             2 dB an octave down to 4 kHz, faster above); \
             crest factor: planning value, common practice, no source",
        )
    }

    /// A spectrum from relative third-octave levels in dB.
    fn from_levels(
        name: &'static str,
        crest_db: f64,
        levels: &[f64; BANDS],
        source: &'static str,
    ) -> Self {
        let powers = levels.map(power_from_db);
        let sum: f64 = powers.iter().sum();
        Self {
            name,
            crest_db,
            bands: powers.map(|power| power / sum),
            source,
        }
    }

    /// Share of the power per unit of ln f at a frequency in Hz; zero outside
    /// the outermost bands.
    fn power_density(&self, frequency: f64) -> f64 {
        let position = db_power(frequency / 1000.0) + 17.0;
        let last = BANDS - 1;
        if !(-0.5..=last as f64 + 0.5).contains(&position) {
            return 0.0;
        }
        let within = position.clamp(0.0, last as f64);
        let index = (within as usize).min(last - 1);
        let part = within - index as f64;
        let share = self.bands[index] * (1.0 - part) + self.bands[index + 1] * part;
        share * 10.0 / LN_10
    }

    /// Share of the power that falls to each point of an ascending frequency
    /// grid (Hz): trapezoid rule in ln f, made to sum to 1.
    ///
    /// All zero only when no point lies between 18 Hz and 22 kHz.
    #[must_use]
    pub fn weights(&self, frequencies: &[f64]) -> Vec<f64> {
        let last = frequencies.len().saturating_sub(1);
        let mut weights: Vec<f64> = frequencies
            .iter()
            .enumerate()
            .map(|(i, &frequency)| {
                let span = frequencies[(i + 1).min(last)] / frequencies[i.saturating_sub(1)];
                let width = if last == 0 { 1.0 } else { ln(span) };
                self.power_density(frequency) * width
            })
            .collect();
        let sum: f64 = weights.iter().sum();
        if sum > 0.0 {
            weights.iter_mut().for_each(|weight| *weight /= sum);
        }
        weights
    }
}

/// Relative third-octave levels of music in dB, 20 Hz to 20 kHz.
const MUSIC_DB: [f64; BANDS] = [
    -13.5, -10.0, -7.5, -5.0, -3.5, -2.0, -1.0, -0.5, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0,
    0.0, -0.5, -0.5, -1.0, -1.5, -2.5, -3.5, -5.0, -7.0, -9.0, -11.5, -13.5, -16.0, -18.0,
];

/// Third-octave levels of speech in dB re 20 µPa at an overall level of 70 dB.
/// Bands that the source leaves out hold nothing.
const SPEECH_DB: [f64; BANDS] = {
    const NOTHING: f64 = f64::NEG_INFINITY;
    [
        NOTHING, NOTHING, NOTHING, NOTHING, NOTHING, 38.6, 43.5, 54.4, 57.7, 56.8, 60.2, 60.3,
        59.0, 62.1, 62.1, 60.5, 56.8, 53.7, 53.0, 52.0, 48.7, 48.1, 46.8, 45.6, 44.5, 44.3, 43.7,
        43.4, 41.3, 40.7, NOTHING,
    ]
};

/// Relative third-octave levels of squashed popular music in dB, 20 Hz to 20 kHz.
const SQUASHED_DB: [f64; BANDS] = [
    -12.0, -8.0, -4.5, -2.0, -0.5, 0.0, 0.0, -0.5, -1.0, -1.7, -2.3, -3.0, -3.7, -4.3, -5.0, -5.7,
    -6.3, -7.0, -7.7, -8.3, -9.0, -9.7, -10.3, -11.0, -12.5, -14.0, -15.5, -17.5, -19.5, -22.5,
    -26.0,
];

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn all() -> [ProgrammeSpectrum; 3] {
        [
            ProgrammeSpectrum::music(),
            ProgrammeSpectrum::speech(),
            ProgrammeSpectrum::squashed_music(),
        ]
    }

    #[test]
    fn shares_sum_to_one() {
        for spectrum in all() {
            assert!(
                (spectrum.bands.iter().sum::<f64>() - 1.0).abs() < 1e-12,
                "{}",
                spectrum.name
            );
        }
    }

    /// The remembered speech table still adds up to the overall level the
    /// source states for it (70 dB), so no row slipped.
    #[test]
    fn speech_adds_up_to_its_stated_level() {
        let sum: f64 = SPEECH_DB.iter().map(|&level| power_from_db(level)).sum();
        assert!((db_power(sum) - 70.0).abs() < 0.1, "{}", db_power(sum));
    }

    /// An eighth of full sine power at 12 dB (common practice), exact at 3.01 dB.
    #[test]
    fn crest_factor_and_mean_power() {
        assert!((power_below_sine(db_power(2.0)) - 1.0).abs() < 1e-12);
        assert!((power_below_sine(12.0) - 0.126_191).abs() < 1e-5);
        assert!((power_below_sine(9.0) - 0.251_785).abs() < 1e-5);
    }

    #[test]
    fn density_integrates_to_the_whole() {
        for spectrum in all() {
            let steps = 20_000;
            let (low, high) = (ln(15.0), ln(25_000.0));
            let width = (high - low) / f64::from(steps);
            let at = |i: i32| crate::math::exp(low + (f64::from(i) + 0.5) * width);
            let sum: f64 = (0..steps)
                .map(|i| spectrum.power_density(at(i)) * width)
                .sum();
            assert!((sum - 1.0).abs() < 0.01, "{}: {sum}", spectrum.name);
        }
    }

    proptest! {
        #[test]
        fn weights_sum_to_one(points in 1_usize..500, low in 20.0_f64..60.0, high in 2000.0_f64..20_000.0) {
            let step = ln(high / low) / points as f64;
            let grid: Vec<f64> =
                (0..points).map(|i| low * crate::math::exp(i as f64 * step)).collect();
            for spectrum in all().into_iter().filter(|s| s.power_density(grid[0]) > 0.0) {
                let weights = spectrum.weights(&grid);
                prop_assert!((weights.iter().sum::<f64>() - 1.0).abs() < 1e-12);
                prop_assert!(weights.iter().all(|&weight| weight >= 0.0));
            }
        }
    }
}
