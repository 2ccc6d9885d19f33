//! What the heat study means, in words.

use super::model::{Temperatures, Warmth};
use crate::words::number;

/// One thing that gets warm: in words, its temperature and what it may reach.
type Held = (&'static str, f64, f64);

impl Warmth {
    /// Whether a vent or a sink is needed, in a sentence: held to everything that
    /// may play but the full sine, for however long.
    #[must_use]
    pub fn verdict(&self) -> String {
        let said = |value: f64| number(value, "°C");
        let held = self.held();
        let hot: Vec<String> = held
            .iter()
            .filter(|(_, celsius, limit)| celsius > limit)
            .map(|(name, celsius, limit)| {
                format!(
                    "{name} reaches {} where {} is allowed",
                    said(*celsius),
                    said(*limit)
                )
            })
            .collect();
        if !hot.is_empty() {
            return format!(
                "Too warm: {}. The findings say what helps.",
                hot.join(", and ")
            );
        }
        let kept: Vec<String> = held
            .iter()
            .map(|(name, celsius, limit)| {
                format!("{name} at {} (up to {})", said(*celsius), said(*limit))
            })
            .collect();
        format!(
            "No vent and no heat sink needed: whatever music plays for however long, {}.",
            kept.join(", ")
        )
    }

    /// The warmest of each with any music at rest.
    fn held(&self) -> Vec<Held> {
        let most = |pick: fn(&Temperatures) -> f64| {
            let music = self.cases.iter().filter(|case| case.id != "sine");
            music
                .map(|case| pick(&case.steady.nominal))
                .fold(f64::NEG_INFINITY, f64::max)
        };
        let limits = &self.limits;
        let mut held = vec![
            ("the chip", most(|t| t.chip), limits.board),
            ("the battery", most(|t| t.battery), limits.battery),
        ];
        if let Some(limit) = limits.module {
            held.push(("the warmest module", most(|t| t.module), limit));
        }
        held
    }

    /// Where the box stands, in words: "in the shade".
    #[must_use]
    pub fn place(&self) -> String {
        if !self.sun {
            return "in the shade".to_owned();
        }
        format!(
            "with the sun where it heats the box most, {} of it taken up ({})",
            number(100.0 * self.taken_up, "%"),
            self.taken_up_as
        )
    }
}
