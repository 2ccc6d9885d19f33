//! Steps to check off in the workshop, and where to stop and test.

use super::promises::several;
use super::sight::Sight;
use drawings::pack::{duration, expected};
use maud::{Markup, html};
use studies::order::{Hold, Order, Step, Taken};

const DAY: f64 = 24.0 * 3600.0;

/// All steps, day by day.
pub(super) fn steps(sight: &Sight<'_>) -> Markup {
    let order = &sight.studied.report.order;
    let done = order
        .steps
        .iter()
        .filter(|step| sight.state.done.contains(&step.id))
        .count();
    html! {
        section #steps aria-labelledby="steps-title" {
            h2 #steps-title { "Build order " small { "· " (done) " of " (several(order.steps.len(), "step")) " done" } }
            progress aria-label="Steps done" max=(order.steps.len().max(1)) value=(done) {}
            ol.steps {
                @for (index, step) in order.steps.iter().enumerate() {
                    @if index == 0 || day(step) != day(&order.steps[index - 1]) {
                        li.day { h3 { "Day " (day(step) + 1) } }
                    }
                    (one(sight, order, index, step))
                }
            }
        }
    }
}

/// The way to a phone, which cannot reach the bench.
pub(super) fn taken_along() -> Markup {
    html! {
        details #taken-along {
            summary { "Take it along on a phone" }
            p { "One file with the steps and their sheets: send it to your phone and open it in the \
                browser there. It needs no network, shows checked what is checked here now, and \
                remembers on the phone what you check off there." }
            p.tools { a #build-file href="/build.html" download { "build order for the phone" } }
        }
    }
}

fn day(step: &Step) -> u64 {
    (step.begins / DAY) as u64
}

fn one(sight: &Sight<'_>, order: &Order, index: usize, step: &Step) -> Markup {
    let id = format!("step-{}", step.id);
    let done = sight.state.done.contains(&step.id);
    let hold = step.hold.and_then(|hold| order.holds.get(hold));
    html! {
        li.step.hold[hold.is_some()].done[done] value=(index + 1) {
            label for=(id) {
                input type="checkbox" id=(id) data-step=(step.id) checked[done];
                span { strong { (index + 1) ". " (step.title) }
                    small { " · " (step.work.words()) ", " (duration(step.hands.usual)) }
                    @if hold.is_some() { small.stop { " · stop and test" } } }
            }
            details id={ (id) "-more" } open[hold.is_some() && !done] {
                summary { "how" }
                ul { @for said in &step.words { li { (said) } } }
                @if !step.tools.is_empty() { p.quiet { "With: " (step.tools.join(", ")) "." } }
                @for hidden in &step.hides { p.warn { "No longer reached afterwards: " (hidden) "." } }
                @if let Some(hold) = hold { (test(hold)) }
                @if let Some(what) = step.wait_for { p.quiet { "Then wait " (duration(step.wait)) ": " (what) "." } }
            }
        }
    }
}

fn test(hold: &Hold) -> Markup {
    html! {
        div.test {
            h4 { (hold.title) }
            @if let Some(care) = &hold.caution { p.warn { (care) } }
            @if let Taken::Not(missing) = &hold.taken {
                p.warn { "Cannot be tested with your tools: it takes " (missing) "." }
            }
            ul { @for how in &hold.how { li { (how) } } }
            @if !hold.readings.is_empty() {
                table.ledger {
                    @for reading in &hold.readings {
                        tr { th scope="row" { (reading.label) } td { (expected(&reading.expect)) } }
                    }
                }
            }
            @for (sign, meaning) in &hold.otherwise { p.quiet { (sign) "? " (meaning) } }
        }
    }
}
