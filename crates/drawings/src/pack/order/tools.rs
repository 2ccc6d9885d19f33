//! Tools, and the steps that want them.

use crate::layout::{Block, Heading, Paragraph};
use studies::order::Order;

/// Steps named of one tool at most.
const NAMED: usize = 4;

/// Everything to lay out before the first cut, in the order in which it is first wanted.
pub(super) fn blocks(order: &Order) -> Vec<Box<dyn Block>> {
    let tools: Vec<String> = order
        .tools
        .iter()
        .map(|(tool, steps)| format!("{tool} ({})", numbers(steps)))
        .collect();
    vec![
        Box::new(Heading::new("Tools", "with the steps that want them")),
        Box::new(Paragraph::new(&tools.join(" · "))),
    ]
}

fn numbers(steps: &[usize]) -> String {
    let first = steps.iter().take(NAMED).map(|step| (step + 1).to_string());
    let mut said: Vec<String> = first.collect();
    if steps.len() > NAMED {
        said.push("…".to_owned());
    }
    said.join(", ")
}
