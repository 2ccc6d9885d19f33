//! The brief as a sentence whose words are the inputs.

use super::field::{Field, choices};
use super::sight::Sight;
use maud::{Markup, html};

/// The sentence.
pub(super) fn sentence(sight: &Sight<'_>) -> Markup {
    let word = |key: &str, label: &str, unsaid: &str| {
        let field = Field {
            room: "brief",
            key,
            value: sight.at(key),
            label,
            unsaid,
        };
        match choices(key) {
            [] => field.word(),
            words => field.choice(words),
        }
    };
    html! {
        section #brief aria-label="The brief" {
            p.sentence {
                "Plays " (word("brief.programme", "what is played", "music"))
                ", " (word("place.stands", "where it stands", "free"))
                ", for people " (word("brief.distance", "distance of the listeners", "?"))
                " away at " (word("brief.loudness", "loudness wanted", "any level"))
                ", down to " (word("brief.lowest", "lowest frequency wanted", "any tone"))
                ", for " (word("brief.runtime", "playing time wanted", "any time"))
                " between charges, in a box within "
                (word("brief.largest", "largest outside size, width x height x depth", "any size"))
                " and " (word("brief.weight", "greatest weight", "any weight"))
                ", for " (word("brief.cost", "greatest cost", "any price")) "."
            }
        }
    }
}
