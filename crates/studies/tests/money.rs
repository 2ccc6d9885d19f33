//! What a box costs: one sum, by several routes.

mod common;

use boxwright_studies::carpentry::SheetPlan;
use boxwright_studies::check::{Edit, Severity};
use boxwright_studies::money::{Kind, Line, Shopping, Unit};
use boxwright_studies::{Options, Report, Texts, apply, run_with_swaps, survey};
use common::{BASE, promise};
use proptest::prelude::*;

const EXAMPLES: [&str; 3] = ["bathing-beach", "salvage-party", "workshop-mono"];

const OPTIONS: Options<'static> = Options {
    builds: 0,
    spread: 1.0,
    progress: &|_| {},
};

fn surveyed(design: &str, shelf: Option<&str>) -> Report {
    survey(Texts { design, shelf }, OPTIONS).unwrap_or_else(|errors| panic!("{errors:#?}"))
}

/// Text of an example and of the shelf beside it.
fn example(name: &str) -> (String, Option<String>) {
    let folder = format!("{}/../../examples/{name}", env!("CARGO_MANIFEST_DIR"));
    let design =
        std::fs::read_to_string(format!("{folder}/design.toml")).expect("a shipped example");
    (
        design,
        std::fs::read_to_string(format!("{folder}/shelf.toml")).ok(),
    )
}

fn examples() -> Vec<Report> {
    let each = EXAMPLES.map(example);
    let each = each.iter();
    each.map(|(design, shelf)| surveyed(design, shelf.as_deref()))
        .collect()
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9 * (1.0 + a.abs())
}

#[test]
fn promise_and_till_are_one_sum() {
    for report in examples() {
        let by_hand = report.money.lines.iter().fold(0.0, |sum, line| {
            sum + line.to_buy * line.price.unwrap_or(0.0)
        });
        assert!(close(report.money.till(), by_hand));
        assert!(
            close(promise(&report, "cost").value, by_hand),
            "{}",
            report.name
        );
    }
}

#[test]
fn totals_do_not_depend_on_the_order_of_the_lines() {
    for report in examples() {
        let mut turned = report.money.clone();
        turned.lines.reverse();
        assert!(close(report.money.till(), turned.till()));
        assert!(close(report.money.worth(), turned.worth()));
        assert!(close(report.money.in_drawer(), turned.in_drawer()));
    }
}

#[test]
fn every_line_is_there_or_bought_and_stands_once() {
    for report in examples() {
        let lines = &report.money.lines;
        for (index, line) in lines.iter().enumerate() {
            let there = line.on_hand + line.to_buy;
            assert!(there >= line.needed - 1e-9, "{line:#?}");
            if line.unit == Unit::Piece {
                assert!(close(there, line.needed), "{line:#?}");
                assert!(close(line.to_buy, line.to_buy.round()), "{line:#?}");
            }
            assert!(
                line.uses <= line.needed + offcuts(&report.money, line) + 1e-9,
                "{line:#?}"
            );
            let twin = |other: &Line| other.kind == line.kind && other.label == line.label;
            assert!(
                !lines[..index].iter().any(twin),
                "{} stands twice",
                line.label
            );
        }
        assert!(lines.is_sorted_by_key(|line| line.kind));
    }
}

/// Sheets' worth of offcuts that a line of sheets may use beside whole ones.
fn offcuts(money: &Shopping, line: &Line) -> f64 {
    let mut own = money.sheets.iter().filter(|bill| bill.label == line.label);
    own.next().map_or(0.0, |bill| bill.offcuts as f64)
}

/// The areas of the layout, by its own numbers and by the cut list.
#[test]
fn what_becomes_of_a_sheet_is_all_of_it() {
    for report in examples() {
        for (bill, plan) in report.money.sheets.iter().zip(&report.carpentry.sheets) {
            assert!(
                close(bill.cut, bill.pieces + bill.kept + bill.waste()),
                "{bill:?}"
            );
            assert!((bill.waste() / bill.cut - plan.waste).abs() < 1e-9);
            let blanks = plan.blanks.iter();
            let area: f64 = blanks.clone().map(|blank| blank.length * blank.width).sum();
            // Pieces are laid out to a tenth of a millimetre.
            let rims: f64 = blanks.map(|blank| blank.length + blank.width).sum();
            let off = (bill.pieces - area).abs();
            assert!(bill.left_over > 0 || off <= 1e-4 * rims, "{off} {rims}");
            let line = line(&report, &bill.label);
            assert_eq!(line.to_buy, bought(plan) as f64);
        }
    }
}

fn bought(plan: &SheetPlan) -> usize {
    plan.layout.bought
}

fn line<'a>(report: &'a Report, label: &str) -> &'a Line {
    let mut lines = report.money.lines.iter();
    let found = lines.find(|line| line.label == label);
    found.unwrap_or_else(|| panic!("no line {label}"))
}

#[test]
fn wire_is_what_the_harness_is_cut_from() {
    for report in examples() {
        let wires = report
            .money
            .lines
            .iter()
            .filter(|line| line.kind == Kind::Wire);
        let listed: f64 = wires.map(|line| line.needed).sum();
        let cut: f64 = report
            .electrics
            .harness
            .iter()
            .map(|wire| wire.length)
            .sum();
        assert!(cut > 0.5 && close(listed, cut), "{listed} {cut}");
    }
}

#[test]
fn every_layer_of_the_finish_is_paid_for() {
    let finish = "leak = \"usual\"\n[[finish]]\npart = \"FINISH\"\n[[finish]]\npart = \"FINISH\"\n";
    let shelf = design_finish();
    let text = BASE.replace("leak = \"usual\"\n", &finish.replace("FINISH", &shelf));
    let report = surveyed(&text, None);
    let volume: f64 = report.finish.layers.iter().map(|layer| layer.volume).sum();
    let line = line(&report, &shelf);
    // Two layers out of the same cans.
    let can = volume / line.uses;
    assert!(close(line.needed, (volume / can).ceil()), "{line:?}");
    assert_eq!(line.kind, Kind::Finish);
}

/// Any finish of the built-in shelf.
fn design_finish() -> String {
    let shelf = design::built_in_shelf();
    shelf.finishes[0].common.name.text.clone()
}

#[test]
fn parts_without_a_price_are_named_and_in_no_sum() {
    let shelf = "format = 1\n[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\nprice = \"$70\"\n";
    let (with, without) = (surveyed(BASE, None), surveyed(BASE, Some(shelf)));
    assert_eq!(with.money.unpriced().count(), 0);
    let unpriced: Vec<&str> = without
        .money
        .unpriced()
        .map(|line| line.label.as_str())
        .collect();
    assert_eq!(unpriced, ["iron phosphate 12.8 V 6 Ah"]);
    let battery = line(&with, unpriced[0]).till().unwrap();
    assert!(close(with.money.till() - battery, without.money.till()));
}

/// What joins the wires, sums the channels and damps the outputs has to be bought too.
#[test]
fn small_goods_between_the_wires_stand_on_the_list() {
    let (design, shelf) = example("workshop-mono");
    let report = surveyed(&design, shelf.as_deref());
    let amount = |label: &str| {
        let mut all = report.money.extras.iter();
        all.find(|extra| extra.label == label && extra.part)
            .map(|extra| extra.amount)
    };
    let list = &report.money.extras;
    assert_eq!(amount("resistor 1 kΩ"), Some(2.0), "{list:#?}");
    assert_eq!(amount("resistor 8.2 Ω"), Some(1.0), "{list:#?}");
    assert_eq!(amount("film capacitor 680 nF"), Some(1.0), "{list:#?}");
    let strips = list
        .iter()
        .filter(|extra| extra.label.starts_with("terminal strip"));
    assert_eq!(strips.map(|extra| extra.amount).sum::<f64>(), 2.0);
    let steps = report.order.steps.iter();
    let mut said = steps.flat_map(|step| &step.words);
    assert!(said.any(|words| words.contains("8.2 Ω and 680 nF in series")));
    let named = report.money.without_price().collect::<Vec<_>>();
    assert!(named.contains(&"resistor 8.2 Ω") && !named.contains(&"wood glue"));
    let found = report
        .findings
        .iter()
        .find(|one| one.id == "parts-named")
        .expect("the example names parts");
    assert!(found.cause.contains("resistor 1 kΩ"), "{}", found.cause);
}

/// A swap told beside the list is what the design says once it is made.
#[test]
fn a_swap_is_what_the_changed_design_says() {
    let texts = Texts {
        design: BASE,
        shelf: None,
    };
    let report = run_with_swaps(texts, OPTIONS).unwrap();
    assert!(report.money.swaps.len() >= 6);
    let battery =
        |swap: &&boxwright_studies::money::Swap| swap.line == "iron phosphate 12.8 V 6 Ah";
    let swaps: Vec<_> = report.money.swaps.iter().filter(battery).take(2).collect();
    assert_eq!(swaps.len(), 2);
    for swap in swaps {
        let changed = swap.outcome.as_ref().unwrap();
        let edit = Edit {
            key: "battery.part".into(),
            value: Some(swap.part.clone()),
        };
        let after = surveyed(&apply(BASE, &[edit]).unwrap(), None);
        for (id, by) in &changed.promises {
            let told = promise(&after, id).value - promise(&report, id).value;
            // The swap is studied on the coarse grid.
            let within = match *id {
                "light" => 1e-9,
                "cost" => 0.5,
                "low" => 0.5,
                _ => 0.02 * promise(&report, id).value,
            };
            assert!(
                (told - by).abs() <= within,
                "{} {id}: {told} {by}",
                swap.words
            );
        }
        assert_eq!(
            changed.till,
            line(&after, &swap.part).till(),
            "{}",
            swap.words
        );
        let stops = |report: &Report| {
            let found = report.findings.iter();
            found
                .filter(|finding| finding.severity == Severity::Stop)
                .count()
        };
        assert_eq!(
            changed.can_be_built(),
            stops(&after) <= stops(&report),
            "{}",
            swap.words
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, ..ProptestConfig::default() })]

    /// More in the drawer never makes the till say more, whatever lies there.
    #[test]
    fn more_on_hand_never_costs_more(
        drivers in 0_u32..4,
        battery in 0_u32..3,
        sheets in 0_u32..3,
        more in 0_usize..3,
    ) {
        let till = |counts: [u32; 3]| {
            let [drivers, battery, sheets] = counts;
            let shelf = format!(
                "format = 1\n[[driver]]\nname = \"full-range 4 in, 4 ohm\"\non_hand = {drivers}\n\
                 [[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\non_hand = {battery}\n\
                 [[sheet]]\nname = \"birch plywood 12 mm\"\non_hand = {sheets}\n"
            );
            surveyed(BASE, Some(&shelf)).money.till()
        };
        let some = [drivers, battery, sheets];
        let mut others = some;
        others[more] += 1;
        prop_assert!(till(others) <= till(some) + 1e-9);
    }
}
